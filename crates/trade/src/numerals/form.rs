//! How regular a numeral is, and numerals written out.

use super::value::subtracted;

/// How regular a numeral is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Form {
    /// As it would be written now: MDCXCIX.
    Regular,
    /// With fours, nines and their like added up, wholly or here and there: MDCXXXXVIIII, MDXCVIIII. Printers used both, the older
    /// ones this rather (an essay on Roman numerals in imprints).
    Additive,
    /// With bold subtractions that printers used all the same: MDIIC, MDXXC, MVD (A. R. Spofford, *A Book for All Readers*; a
    /// Spanish valuer's list).
    Bold,
    /// In an order that no habit explains.
    Irregular,
}

/// The ordinary signs, with the pairs of ordinary subtraction between.
const REGULAR: [(u32, &str); 13] = [
    (1000, "M"),
    (900, "CM"),
    (500, "D"),
    (400, "CD"),
    (100, "C"),
    (90, "XC"),
    (50, "L"),
    (40, "XL"),
    (10, "X"),
    (9, "IX"),
    (5, "V"),
    (4, "IV"),
    (1, "I"),
];

/// The largest number that is written out: beyond it signs are needed that hand-press sheets have in books of numbers only.
const MOST_WRITTEN: u32 = 9999;

fn spelt(number: u32, signs: &[(u32, &'static str)]) -> Option<String> {
    (1..=MOST_WRITTEN).contains(&number).then(|| {
        let mut left = number;
        let mut out = String::new();
        for &(value, sign) in signs {
            while left >= value {
                out.push_str(sign);
                left -= value;
            }
        }
        out
    })
}

/// A number as it would be written now, from 1 to 9999; `None` outside.
pub fn spell(number: u32) -> Option<String> {
    spelt(number, &REGULAR)
}

/// A number by additions alone: 1649 as MDCXXXXVIIII.
pub fn spell_additive(number: u32) -> Option<String> {
    let plain: Vec<_> = REGULAR.into_iter().filter(|(_, sign)| sign.len() == 1).collect();
    spelt(number, &plain)
}

/// A number with reversed C's for M and D: 1649 as CIↃ IↃ C XLIX.
pub fn spell_apostrophus(number: u32) -> Option<String> {
    spell(number).map(|s| {
        let s = s.replace("CM", "C CIↃ").replace("CD", "C IↃ");
        s.replace('M', "CIↃ ").replace('D', "IↃ ").trim_end().to_owned()
    })
}

/// A sign's plain letter.
pub(super) fn letters(value: u32) -> &'static str {
    match value {
        1 => "I",
        5 => "V",
        10 => "X",
        50 => "L",
        100 => "C",
        500 => "D",
        1000 => "M",
        5000 => "ↁↃ",
        10_000 => "ↂ",
        50_000 => "ↇ",
        100_000 => "ↈ",
        _ => "?",
    }
}

/// How regular signs of these values are.
pub(super) fn form(signs: &[u32]) -> Form {
    let value = subtracted(signs);
    let printed: String = signs.iter().map(|&v| letters(v)).collect();
    let Some(regular) = u32::try_from(value).ok().and_then(spell) else { return Form::Irregular };
    if printed == regular {
        return Form::Regular;
    }
    if places(signs).is_some_and(|p| p == Form::Additive) {
        return Form::Additive;
    }
    if bold(signs) { Form::Bold } else { Form::Irregular }
}

/// Whether each place of thousands, hundreds, tens and units is written in a regular or an additive way, falling from place to
/// place. Up to five of a sign are ordinary (MCCCCCXXIX is printed for 1529 in *Descriptive Cataloging of Rare Materials*).
fn places(signs: &[u32]) -> Option<Form> {
    let mut rest = signs;
    for (one, five, ten) in [(1000, 5000, 10_000), (100, 500, 1000), (10, 50, 100), (1, 5, 10)] {
        let taken = match rest {
            [a, b, ..] if *a == one && (*b == five || *b == ten) => 2,
            _ => {
                let fives = usize::from(rest.first() == Some(&five));
                fives + rest[fives..].iter().take_while(|&&v| v == one).take(5).count()
            }
        };
        rest = &rest[taken..];
    }
    rest.is_empty().then_some(Form::Additive)
}

/// V, L and D, of which no number needs two.
fn is_five(value: u32) -> bool {
    matches!(value, 5 | 50 | 500)
}

/// Whether it falls but for runs of up to three equal signs that are taken from a larger one, nothing after such a pair being as
/// large as what it began with. V, L and D are not taken from their doubles: nothing is gained by it.
fn bold(signs: &[u32]) -> bool {
    let mut at = 0;
    let mut most = u32::MAX;
    while let Some(&value) = signs.get(at) {
        let run = signs[at..].iter().take_while(|&&v| v == value).count();
        match signs.get(at + run) {
            Some(&larger) if larger > value => {
                let amount = value.saturating_mul(run as u32);
                if run > 3
                    || larger.saturating_sub(amount) > most
                    || larger == 2 * value
                    || signs[..at].contains(&larger) && is_five(larger)
                {
                    return false;
                }
                at += run + 1;
                most = value - 1;
            }
            _ => {
                if value > most {
                    return false;
                }
                most = value;
                at += run;
                if run > 5 || (is_five(value) && run > 1) {
                    return false;
                }
            }
        }
    }
    true
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerals::read;

    #[test]
    fn how_regular_numerals_are() {
        let of = |text: &str| read(text).unwrap().form;
        for text in ["MDCCI", "MDCXCIX", "mdlxxxviij", "CI) I) C XXVI"] {
            assert_eq!(of(text), Form::Regular, "{text}");
        }
        for text in ["MCCCCLXXXII", "MDCXXXXVIIII", "MDXCVIIII", "MCCCCCXXIX", "MDCLXXXXII"] {
            assert_eq!(of(text), Form::Additive, "{text}");
        }
        for text in ["MDIIC", "MDXXC", "MVD", "MDXLIIX", "MDCVC", "MDIC", "MjjjD"] {
            assert_eq!(of(text), Form::Bold, "{text}");
        }
        for text in ["MDDCI", "DMLII", "MDCCIM", "MCDCI", "MDCDI"] {
            assert_eq!(of(text), Form::Irregular, "{text}");
        }
    }

    #[test]
    fn written_out() {
        assert_eq!(spell(1701).as_deref(), Some("MDCCI"));
        assert_eq!(spell_additive(1649).as_deref(), Some("MDCXXXXVIIII"));
        assert_eq!(spell_apostrophus(1649).as_deref(), Some("CIↃ IↃ CXLIX"));
        assert_eq!([spell(0), spell(10_000)], [None, None]);
    }
}

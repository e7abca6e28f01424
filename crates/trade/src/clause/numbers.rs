//! Numbers in figures, in Roman letters, and in English and Latin words.

use super::element::Written;
use super::number_words::{Kind, english, latin};
use super::parts::{Parsed, Tokens, nothing};
use winnow::prelude::*;
use winnow::token::any;

/// A number and how it is written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Number {
    pub(super) value: u32,
    pub(super) written: Written,
}

/// A number in any way, below ten thousand.
pub(super) fn number(input: &mut Tokens<'_>) -> Parsed<Number> {
    winnow::combinator::alt((figures, in_words, roman)).parse_next(input)
}

/// A number below a hundred in any way: of a day or of a year of a reign.
pub(super) fn small(input: &mut Tokens<'_>) -> Parsed<Number> {
    number.verify(|n: &Number| (1..100).contains(&n.value)).parse_next(input)
}

/// 19, 19th, 2d, 1o.
pub(super) fn figures(input: &mut Tokens<'_>) -> Parsed<Number> {
    let token = any.parse_next(input)?;
    let digits = token.word.bytes().take_while(u8::is_ascii_digit).count();
    let (figures, end) = token.word.split_at(digits);
    let is_end = matches!(
        end,
        "" | "st"
            | "nd"
            | "rd"
            | "th"
            | "d"
            | "o"
            | "a"
            | "e"
            | "er"
            | "mo"
            | "to"
            | "do"
            | "tio"
            | "no"
            | "eme"
            | "re"
    );
    match figures.parse() {
        Ok(value) if is_end && digits <= 4 => {
            Ok(Number { value, written: Written::Figures(figures.to_owned()) })
        }
        _ => nothing(),
    }
}

/// One word that is a Roman numeral.
fn roman(input: &mut Tokens<'_>) -> Parsed<Number> {
    let token = any.parse_next(input)?;
    if let Some(value) = token.roman {
        return Ok(Number { value, written: Written::Roman(token.raw.clone()) });
    }
    // XIXth and its like.
    let stem = ["th", "st", "nd", "rd"].iter().find_map(|end| token.word.strip_suffix(end));
    match stem.and_then(|s| crate::numerals::read(s).ok()) {
        Some(numeral) if stem.is_some_and(|s| s.chars().all(crate::numerals::is_numeral_letter)) => {
            Ok(Number {
                value: numeral.strict(),
                written: Written::Roman(stem.unwrap_or_default().to_uppercase()),
            })
        }
        _ => nothing(),
    }
}

/// A number in words: as many words as go together. "Five and twenty", "one thousand six hundred and forty eight", "sixteen
/// hundred and one", "millesimo quingentesimo quadragesimo quinto", "tertio decimo".
fn in_words(input: &mut Tokens<'_>) -> Parsed<Number> {
    let (mut total, mut below) = (0_u32, 0_u32);
    let (mut any_word, mut ended) = (false, false);
    // How large what follows may be: hundreds come after thousands, not before.
    let mut room = 10_000_u32;
    while !ended {
        let mut ahead = input.clone();
        let Some(first) = next(&mut ahead) else { break };
        let joined = matches!(first, "and" | "et" | "ac");
        let word = if joined {
            if !any_word {
                break;
            }
            match next(&mut ahead) {
                Some(word) => word,
                None => break,
            }
        } else {
            first
        };
        let Some(found) = english(word).or_else(|| latin(word)) else { break };
        match found.kind {
            Kind::Value(value) if value >= 100 => {
                if below > 0 || room <= value {
                    break;
                }
                (total, room) = (total + value, 100);
            }
            Kind::Value(value) => {
                if !fits(below, value) || room < 10 {
                    break;
                }
                below += value;
            }
            Kind::Hundred => {
                if room < 1000 || (below == 0 && total > 0 && room <= 100) {
                    break;
                }
                (total, below, room) = (total + below.max(1) * 100, 0, 100);
            }
            Kind::Thousand => {
                if room < 10_000 || below > 9 {
                    break;
                }
                (total, below, room) = ((total + below.max(1)) * 1000, 0, 1000);
            }
        }
        ended = found.ends;
        any_word = true;
        *input = ahead;
    }
    if any_word && total + below < 10_000 {
        Ok(Number { value: total + below, written: Written::Words })
    } else {
        nothing()
    }
}

fn next<'a>(input: &mut Tokens<'a>) -> Option<&'a str> {
    let token: Parsed<_> = any.parse_next(input);
    token.ok().map(|t: &'a super::tokens::Token| t.word.as_str())
}

/// Whether a value below a hundred goes to what is there below a hundred: no decimal place is taken twice.
pub(super) fn fits(below: u32, value: u32) -> bool {
    let (tens, units) = (below / 10, below % 10);
    let (more_tens, more_units) = (value / 10, value % 10);
    // Threescore and ten.
    if matches!(below, 60 | 80) && more_tens == 1 {
        return true;
    }
    (tens == 0 || more_tens == 0) && (units == 0 || more_units == 0)
}

#[cfg(test)]
mod tests {
    use super::super::tokens::tokens;
    use super::*;

    fn told(text: &str) -> Option<(u32, usize)> {
        let all = tokens(text).unwrap();
        let mut input = Tokens::new(&all);
        let found = number(&mut input).ok()?;
        Some((found.value, input.len()))
    }

    #[test]
    fn numbers_in_words() {
        let cases = [
            ("five and twentieth", 25),
            ("nineteenth", 19),
            ("twenty-fifth", 25),
            ("one thousand six hundred and forty eight", 1648),
            ("one thousand, seven hundred and one", 1701),
            ("sixteen hundred and forty-eight", 1648),
            ("a", 0),
            ("vicesima prima", 21),
            ("millesimo quadringentesimo septuagesimosexto", 1476),
            ("millesimo quingentesimo quadragesimo quinto", 1545),
            ("millesimo quingentesimo decimoquarto", 1514),
            ("tertio decimo", 13),
            ("decimo octavo", 18),
            ("undevicesimo", 19),
            ("threescore and ten", 70),
            ("xix", 19),
            ("XIXth", 19),
            ("3d", 3),
            ("1648", 1648),
        ];
        for (text, value) in cases {
            let wanted = (value > 0).then_some((value, 0));
            assert_eq!(told(text), wanted, "{text}");
        }
        // What does not go together is left: a second ordinal, a second number of the same place.
        assert_eq!(told("second and third"), Some((2, 2)));
        assert_eq!(told("fourth year"), Some((4, 1)));
        assert_eq!(told("nonas"), None);
        assert_eq!(told("and five"), None);
    }
}

//! The alphabets of signatures.

/// The 23 letters: I and J are one, U and V are one, W is none. (DCRMR, *Descriptive Cataloging of Rare Materials, RDA
/// edition*, 6.215.31.35: seen.)
const LATIN: &str = "ABCDEFGHIKLMNOPQRSTVXYZ";

/// The 24 letters of Greek signatures. (DCRMR 6.215.31.8: seen.)
const GREEK: &str = "ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩ";

/// The 22 letters of Hebrew signatures. (DCRMR 6.215.31.83: seen.)
const HEBREW: &str = "אבגדהוזחטיכלמנסעפצקרשת";

/// Their names, for type without Hebrew letters. (DCRMR 6.215.31.65 has \[aleph\] and \[shin\]; the spelling of the rest: from
/// memory.)
const HEBREW_NAMES: [&str; 22] = [
    "aleph", "bet", "gimel", "dalet", "he", "vav", "zayin", "het", "tet", "yod", "kaf", "lamed", "mem",
    "nun", "samekh", "ayin", "pe", "tsadi", "qof", "resh", "shin", "tav",
];

/// An alphabet that runs of signatures follow.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Alphabet {
    /// Latin capitals.
    LatinCapitals,
    /// Latin small letters.
    LatinSmall,
    /// Greek capitals.
    GreekCapitals,
    /// Greek small letters.
    GreekSmall,
    /// Hebrew letters.
    Hebrew,
    /// Hebrew letters told by name.
    HebrewNames,
}

impl Alphabet {
    /// How many letters it has.
    pub(super) fn letters(self) -> u32 {
        match self {
            Self::LatinCapitals | Self::LatinSmall => 23,
            Self::GreekCapitals | Self::GreekSmall => 24,
            Self::Hebrew | Self::HebrewNames => 22,
        }
    }

    /// What it is called.
    pub(super) fn name(self) -> &'static str {
        match self {
            Self::LatinCapitals => "Latin capitals",
            Self::LatinSmall => "Latin small letters",
            Self::GreekCapitals => "Greek capitals",
            Self::GreekSmall => "Greek small letters",
            Self::Hebrew | Self::HebrewNames => "Hebrew letters",
        }
    }

    /// The letter at a place from 0, as it is written.
    pub(super) fn letter(self, place: u32) -> Option<String> {
        let at = |letters: &str| letters.chars().nth(place as usize);
        match self {
            Self::LatinCapitals => at(LATIN).map(String::from),
            Self::LatinSmall => at(LATIN).map(|c| c.to_lowercase().collect()),
            Self::GreekCapitals => at(GREEK).map(String::from),
            Self::GreekSmall => at(GREEK).map(|c| c.to_lowercase().collect()),
            Self::Hebrew => at(HEBREW).map(String::from),
            Self::HebrewNames => HEBREW_NAMES.get(place as usize).map(|name| format!("[{name}]")),
        }
    }
}

/// The alphabet of a letter and its place there from 0; none for W, and for letters of alphabets whose order is not
/// fixed for signatures.
pub(super) fn of_letter(letter: char) -> Option<(Alphabet, u32)> {
    let small = letter.is_lowercase();
    let capital = letter.to_uppercase().next().unwrap_or(letter);
    let merged = match capital {
        'J' => 'I',
        'U' => 'V',
        other => other,
    };
    let place = |letters: &str, c: char| letters.chars().position(|l| l == c).map(|p| p as u32);
    if let Some(p) = place(LATIN, merged) {
        return Some((if small { Alphabet::LatinSmall } else { Alphabet::LatinCapitals }, p));
    }
    if let Some(p) = place(GREEK, capital).filter(|_| letter != 'ς') {
        return Some((if small { Alphabet::GreekSmall } else { Alphabet::GreekCapitals }, p));
    }
    place(HEBREW, letter).map(|p| (Alphabet::Hebrew, p))
}

/// The same of the name of a Hebrew letter, without brackets.
pub(super) fn of_name(name: &str) -> Option<(Alphabet, u32)> {
    HEBREW_NAMES.iter().position(|n| *n == name).map(|p| (Alphabet::HebrewNames, p as u32))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_alphabets_have_as_many_letters_as_published() {
        for (alphabet, n) in
            [(Alphabet::LatinCapitals, 23), (Alphabet::GreekSmall, 24), (Alphabet::Hebrew, 22)]
        {
            assert_eq!(alphabet.letters(), n);
            let all: Vec<_> = (0..n).map(|i| alphabet.letter(i).unwrap()).collect();
            assert_eq!(alphabet.letter(n), None);
            for (i, letter) in all.iter().enumerate() {
                assert_eq!(of_letter(letter.chars().next().unwrap()), Some((alphabet, i as u32)));
            }
        }
    }

    #[test]
    fn i_and_j_are_one_and_w_is_none() {
        assert_eq!(of_letter('J'), of_letter('I'));
        assert_eq!(of_letter('u'), of_letter('v'));
        assert_eq!(of_letter('W'), None);
        assert_eq!(of_letter('Ж'), None);
        assert_eq!(of_name("shin"), Some((Alphabet::HebrewNames, 20)));
    }
}

//! Single words of numbers, in English and Latin, as they were spelled. Common practice, no source.

use super::numbers::fits;

/// What a word adds to a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Word {
    pub(super) kind: Kind,
    /// Whether it ends an English number: fifth, twentieth.
    pub(super) ends: bool,
}

/// How it adds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// A number up to 999, which takes the decimal places that it has.
    Value(u32),
    /// So many hundreds: hundred.
    Hundred,
    /// So many thousands: thousand, mille.
    Thousand,
}

/// A word of an English number, as it was spelled.
pub(super) fn english(word: &str) -> Option<Word> {
    let value = |value, ends| Some(Word { kind: Kind::Value(value), ends });
    match word {
        "one" => value(1, false),
        "two" => value(2, false),
        "three" => value(3, false),
        "four" | "foure" => value(4, false),
        "five" | "fiue" => value(5, false),
        "six" | "sixe" => value(6, false),
        "seven" | "seauen" | "seaven" | "seuen" => value(7, false),
        "eight" | "eighte" => value(8, false),
        "nine" | "nyne" => value(9, false),
        "ten" | "tenne" => value(10, false),
        "eleven" | "eleuen" => value(11, false),
        "twelve" | "twelue" => value(12, false),
        "thirteen" | "thirteene" => value(13, false),
        "fourteen" | "fourteene" => value(14, false),
        "fifteen" | "fifteene" => value(15, false),
        "sixteen" | "sixteene" => value(16, false),
        "seventeen" | "seventeene" => value(17, false),
        "eighteen" | "eighteene" => value(18, false),
        "nineteen" | "nineteene" => value(19, false),
        "twenty" | "twentie" => value(20, false),
        "thirty" | "thirtie" => value(30, false),
        "forty" | "fortie" | "fourty" => value(40, false),
        "fifty" | "fiftie" => value(50, false),
        "sixty" | "sixtie" | "threescore" => value(60, false),
        "seventy" | "seventie" => value(70, false),
        "eighty" | "eightie" | "fourscore" | "foure-score" => value(80, false),
        "ninety" | "ninetie" => value(90, false),
        "first" | "firste" | "furst" => value(1, true),
        "second" | "seconde" => value(2, true),
        "third" | "thirde" | "thyrd" => value(3, true),
        "fourth" | "fourthe" | "fowerth" => value(4, true),
        "fifth" | "fift" | "fifthe" | "fyfth" => value(5, true),
        "sixth" | "sixt" => value(6, true),
        "seventh" | "seauenth" | "seuenth" => value(7, true),
        "eighth" | "eight'h" | "eyghth" => value(8, true),
        "ninth" | "nineth" | "nynth" => value(9, true),
        "tenth" => value(10, true),
        "eleventh" | "eleuenth" => value(11, true),
        "twelfth" | "twelfe" | "twelft" => value(12, true),
        "thirteenth" => value(13, true),
        "fourteenth" => value(14, true),
        "fifteenth" => value(15, true),
        "sixteenth" => value(16, true),
        "seventeenth" => value(17, true),
        "eighteenth" => value(18, true),
        "nineteenth" => value(19, true),
        "twentieth" | "twentyeth" | "twentith" => value(20, true),
        "thirtieth" => value(30, true),
        "fortieth" => value(40, true),
        "fiftieth" => value(50, true),
        "sixtieth" => value(60, true),
        "hundred" | "hundreth" | "hundredth" => Some(Word { kind: Kind::Hundred, ends: false }),
        "thousand" | "thousande" => Some(Word { kind: Kind::Thousand, ends: false }),
        _ => None,
    }
}

/// Latin ordinals by their stems; the longest first, since decim- begins with what undecim- ends with.
const STEMS: [(&str, u32); 40] = [
    ("quadringentesim", 400),
    ("quingentesim", 500),
    ("septingentesim", 700),
    ("octingentesim", 800),
    ("nongentesim", 900),
    ("sexcentesim", 600),
    ("sescentesim", 600),
    ("trecentesim", 300),
    ("ducentesim", 200),
    ("centesim", 100),
    ("quadragesim", 40),
    ("quinquagesim", 50),
    ("septuagesim", 70),
    ("sexagesim", 60),
    ("octogesim", 80),
    ("octuagesim", 80),
    ("nonagesim", 90),
    ("duodevicesim", 18),
    ("undevicesim", 19),
    ("duodetricesim", 28),
    ("undetricesim", 29),
    ("tricesim", 30),
    ("trigesim", 30),
    ("vicesim", 20),
    ("vigesim", 20),
    ("uicesim", 20),
    ("uigesim", 20),
    ("duodecim", 12),
    ("undecim", 11),
    ("decim", 10),
    ("prim", 1),
    ("secund", 2),
    ("terti", 3),
    ("quart", 4),
    ("quint", 5),
    ("sext", 6),
    ("septim", 7),
    ("octav", 8),
    ("non", 9),
    ("unetvicesim", 21),
];

/// Endings of an ordinal; nothing more than the stem's own vowel may follow.
const ENDINGS: [&str; 9] = ["ae", "um", "us", "am", "o", "a", "i", "e", ""];

/// A Latin ordinal, or several written as one word: decimoquarto, septuagesimosexto.
pub(super) fn latin(word: &str) -> Option<Word> {
    if matches!(word, "millesimo" | "millesima" | "millesimi" | "mille" | "milesimo") {
        return Some(Word { kind: Kind::Thousand, ends: false });
    }
    let mut rest = word;
    let mut value = 0;
    let mut bare = false;
    while !rest.is_empty() {
        let (stem, number) = STEMS.iter().find(|(stem, _)| rest.starts_with(stem))?;
        if value > 0 && !(number < &100 && value < 100 && fits(value, *number)) {
            return None;
        }
        value += number;
        rest = &rest[stem.len()..];
        let ending = ENDINGS.iter().find(|e| rest.starts_with(**e))?;
        bare = ending.is_empty();
        rest = &rest[ending.len()..];
    }
    (value > 0 && !bare).then_some(Word { kind: Kind::Value(value), ends: false })
}

//! Reading a numeral: what it strictly says, and how else it can be read.

use super::form::{Form, form};
use super::symbols::{Part, parts};
use super::value::{Worth, by_multiplication};
use thiserror::Error;

/// A stretch of the text, in characters from its beginning: from `start` to before `end`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// The first character.
    pub start: usize,
    /// The character after the last.
    pub end: usize,
}

/// Why a text is no numeral.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum NumeralError {
    /// There is nothing in it. Give a numeral.
    #[error("there is no numeral here; give one as it is printed, as MDCCI or M. DC. LXXIX.")]
    Empty,
    /// It is longer than any year. Give the numeral alone.
    #[error(
        "this is {characters} characters long, and no more than {most} are read; give the numeral, or the sentence, alone"
    )]
    TooLong {
        /// How long it is.
        characters: usize,
        /// How long it may be.
        most: usize,
    },
    /// A character that is no sign of a numeral. Take it out, or read the sheet again.
    #[error(
        "{found:?} at character {} is no part of a numeral; expected I V X L C D M, small or capital, a reversed C (typed as a closing bracket), figures, points or spaces",
        at + 1
    )]
    NoSign {
        /// The character.
        found: char,
        /// Its place, from 0.
        at: usize,
    },
    /// A reversed C that closes nothing: it follows an I, with as many C's before the I as reversed C's after it, or none.
    #[error(
        "the reversed C at character {} closes nothing; expected it after an I, as in CI) for 1000 or I) for 500",
        at + 1
    )]
    StrayReversedC {
        /// Its place, from 0.
        at: usize,
    },
    /// Roman signs after arabic figures.
    #[error(
        "the figures come before the letters; expected letters first and figures at the end, as in MCCCC.7.2"
    )]
    FiguresFirst,
}

/// A way of counting.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum System {
    /// Smaller before larger is taken away: the ordinary rule, and where nothing smaller stands before a larger, plain addition.
    Subtraction,
    /// All signs are added, whatever their order: VIX for sixteen is on record.
    Addition,
    /// A small number before C or XX counts hundreds or twenties: iiij C, iiij xx.
    Multiplication,
}

impl System {
    /// What the way is called.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Subtraction => "by the ordinary rule, a smaller letter before a larger being taken away",
            Self::Addition => "if every letter is added",
            Self::Multiplication => "if a small number before C or XX counts hundreds or twenties",
        }
    }
}

/// One reading of a numeral.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reading {
    /// The number; never above four millions.
    pub value: u32,
    /// How it was counted.
    pub system: System,
}

/// A numeral that was read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Numeral {
    /// As it was given.
    pub text: String,
    /// Its letters and figures without points and spaces, an apostrophus as M or D.
    pub plain: String,
    /// Every reading, the strict one first, without readings that come to the same.
    pub readings: Vec<Reading>,
    /// How regular it is.
    pub form: Form,
}

impl Numeral {
    /// What it strictly says: by multiplication where small letters, apart, count hundreds or twenties, else by subtraction.
    pub fn strict(&self) -> u32 {
        self.readings.first().map_or(0, |r| r.value)
    }

    /// The sum of all its signs.
    pub fn by_addition(&self) -> Option<u32> {
        let worth = Worth::of(&parts(&self.text).ok()?)?;
        Some(worth.by_addition())
    }

    /// What the ordinary rule makes of it.
    pub fn by_rule(&self) -> Option<u32> {
        let worth = Worth::of(&parts(&self.text).ok()?)?;
        Some(worth.by_subtraction())
    }
}

/// Reads a numeral as it is printed.
///
/// Points, commas and spaces carry no value (*Descriptive Cataloging of Rare Materials*, 0.4). The signs are read by runs: equal
/// signs together; a run before a larger sign is subtracted from that sign (MDIIC 1598). Cost grows with its length, which is
/// at most [`super::MOST_CHARACTERS`].
///
/// # Errors
/// Where it is none, with the place and what was expected.
///
/// ```
/// use trade::numerals::read;
/// assert_eq!(read("MDDCI").unwrap().strict(), 2101);
/// assert_eq!(read("M. DC. LXXIX.").unwrap().strict(), 1679);
/// assert_eq!(read("CI).I).CC.XX.viij").unwrap().strict(), 1728);
/// assert_eq!(read("MDGCI").unwrap_err().to_string().split(';').next(), Some("'G' at character 3 is no part of a numeral"));
/// ```
pub fn read(text: &str) -> Result<Numeral, NumeralError> {
    let parts = parts(text)?;
    let worth = Worth::of(&parts).ok_or(NumeralError::FiguresFirst)?;
    let mut readings = Vec::new();
    if let Some(value) = by_multiplication(&parts) {
        readings.push(Reading { value, system: System::Multiplication });
    }
    let both = [(worth.by_subtraction(), System::Subtraction), (worth.by_addition(), System::Addition)];
    for (value, system) in both {
        if readings.iter().all(|r| r.value != value) {
            readings.push(Reading { value, system });
        }
    }
    let plain = parts.iter().map(|p| sort(p.part)).collect();
    let form = form(&worth.signs);
    Ok(Numeral { text: text.trim().to_owned(), plain, readings, form })
}

/// A part as one plain letter or figures.
fn sort(part: Part) -> String {
    match part {
        Part::Sign(sign) => super::form::letters(sign.value).to_owned(),
        Part::Figures { value, count } => format!("{value:0width$}", width = count as usize),
        Part::Gap | Part::Raised => String::new(),
    }
}

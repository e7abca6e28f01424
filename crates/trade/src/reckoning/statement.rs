//! One date that stands on the sheet, or that is known of it.

use crate::clause::{ClauseError, Element, Placed, Written, parse};
use crate::numerals::{NumeralError, Span, is_numeral_letter, read};
use thiserror::Error;

/// What a date has to do with the day on which the sheet was printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// The date of the imprint: the sheet was printed within it.
    Imprint,
    /// A date in the text, as "Given the 19th of February": taken as that of printing too.
    Text,
    /// A licence or privilege: printed on its first day or later.
    Licence,
    /// Something that the text speaks of as past: printed on its first day or later.
    Event,
    /// Printed on its first day or later, for another reason.
    NotBefore,
    /// Printed on its last day or earlier: a reader's note, a reply to it.
    NotAfter,
}

impl Role {
    /// All.
    pub const ALL: [Self; 6] =
        [Self::Imprint, Self::Text, Self::Licence, Self::Event, Self::NotBefore, Self::NotAfter];

    /// As it is typed and told.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Imprint => "imprint",
            Self::Text => "text",
            Self::Licence => "licence",
            Self::Event => "event",
            Self::NotBefore => "not before",
            Self::NotAfter => "not after",
        }
    }

    /// Whether the sheet was printed on one of its days, and not only before or after.
    pub const fn is_of_printing(self) -> bool {
        matches!(self, Self::Imprint | Self::Text)
    }
}

/// One part of one statement.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// The place of the statement among all.
    pub statement: usize,
    /// What it says, with its words.
    pub placed: Placed,
}

/// A date of the sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Statement {
    /// What it has to do with printing.
    pub role: Role,
    /// As it stands on the sheet.
    pub text: String,
    /// What it is made of; at least one.
    pub elements: Vec<Placed>,
    /// Words in it that were not read.
    pub unread: Vec<(String, Span)>,
}

/// Why a date of a sheet cannot be read.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum StatementError {
    /// A numeral that cannot be one.
    #[error(transparent)]
    Numeral(NumeralError),
    /// A clause that cannot be read.
    #[error(transparent)]
    Clause(ClauseError),
}

/// Reads a date of a sheet: a year in Roman letters, spoiled or not, or a dating clause.
///
/// # Errors
/// Where it is neither, as [`read`] and [`parse`] say.
pub fn statement(role: Role, text: &str) -> Result<Statement, StatementError> {
    let trimmed = text.trim();
    if is_bare_numeral(trimmed) {
        let numeral = read(trimmed).map_err(StatementError::Numeral)?;
        let element = Element::Year {
            year: i32::try_from(numeral.strict()).unwrap_or(i32::MAX),
            written: Written::Roman(trimmed.to_owned()),
        };
        let span = Span { start: 0, end: trimmed.chars().count() };
        let placed = Placed { element, span, words: trimmed.to_owned() };
        return Ok(Statement { role, text: trimmed.to_owned(), elements: vec![placed], unread: Vec::new() });
    }
    let clause = match parse(text) {
        Ok(clause) => clause,
        // A spoiled numeral is told as one, with the letter that spoils it.
        Err(error) => match read(trimmed) {
            Err(spoiled) if is_spoiled_numeral(trimmed) => return Err(StatementError::Numeral(spoiled)),
            _ => return Err(StatementError::Clause(error)),
        },
    };
    Ok(Statement { role, text: clause.text, elements: clause.elements, unread: clause.unread })
}

/// Whether a text is a numeral and nothing else: numeral letters with points and spaces, at least three, a thousand among them or
/// none that is a month or Kalends.
fn is_bare_numeral(text: &str) -> bool {
    let is_sign = |c: char| {
        is_numeral_letter(c)
            || c.is_whitespace()
            || c.is_ascii_digit()
            || matches!(c, 'Ↄ' | 'ↄ' | ')' | '(' | '.' | ',' | 'ↀ' | 'ↁ' | 'ↂ' | '∞' | 'Z' | '^')
    };
    let letters = text.chars().filter(|c| is_numeral_letter(*c)).count();
    let begins = text.chars().next().is_some_and(|c| !c.is_ascii_digit());
    letters >= 1
        && begins
        && text.chars().all(is_sign)
        && read(text).is_ok_and(|n| n.readings.iter().any(|r| r.value >= 400))
}

/// Whether a text is one word of capitals, most of which are numerals.
fn is_spoiled_numeral(text: &str) -> bool {
    let letters: Vec<char> = text.chars().filter(|c| c.is_alphabetic()).collect();
    let numerals = letters.iter().filter(|c| is_numeral_letter(**c)).count();
    !text.contains(char::is_whitespace)
        && letters.iter().all(|c| c.is_uppercase())
        && 2 * numerals > letters.len()
}

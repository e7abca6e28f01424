//! Signatures, and leaves named by them.

use super::alphabet::{self, Alphabet};
use std::fmt;

/// Which series of signatures, where one letter stands in several.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Series {
    /// The series that needs no mark.
    Main,
    /// A second or later series of the same letters: ²A.
    Nth(u8),
    /// A duplicate before the main series: superscript pi.
    Pi,
    /// A duplicate within or after the main series: superscript chi.
    Chi,
}

/// What the signature shows.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Symbol {
    /// Unsigned leaves before the first signature.
    Pi,
    /// Unsigned leaves later.
    Chi,
    /// A letter as it is written.
    Letter(char),
    /// A number.
    Number(u16),
    /// A sign, or a word in brackets that stands for one: `*`, `[dagger]`.
    Sign(String),
}

/// A signature: of one gathering.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Signature {
    /// Which series.
    pub series: Series,
    /// How often the symbol is repeated: 2 for Aa or AA, written 2A.
    pub multiple: u16,
    /// The symbol.
    pub symbol: Symbol,
    /// Whether it is not printed but inferred: `[A]`.
    pub is_inferred: bool,
}

/// Where a signature stands in the order of signatures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Place {
    /// In an alphabet, counted through all its repetitions from 0.
    InAlphabet(Alphabet, u32),
    /// Among numbers.
    Number(u32),
    /// Nowhere: signs, W, and letters of other alphabets.
    Alone,
}

impl Signature {
    /// A signature by its symbol alone.
    pub(super) fn plain(symbol: Symbol) -> Self {
        Self { series: Series::Main, multiple: 1, symbol, is_inferred: false }
    }

    /// Whether leaves of it are unsigned by definition: pi and chi.
    pub fn is_unsigned(&self) -> bool {
        matches!(self.symbol, Symbol::Pi | Symbol::Chi)
    }

    /// Where it stands.
    pub(super) fn place(&self) -> Place {
        let found = match &self.symbol {
            Symbol::Letter(c) => alphabet::of_letter(*c),
            Symbol::Sign(s) => alphabet::of_name(s.trim_matches(['[', ']'])),
            Symbol::Number(n) => return Place::Number(u32::from(*n)),
            Symbol::Pi | Symbol::Chi => None,
        };
        found.map_or(Place::Alone, |(a, p)| {
            Place::InAlphabet(a, (u32::from(self.multiple) - 1) * a.letters() + p)
        })
    }

    /// The signature at a place of the same series and alphabet.
    pub(super) fn at(&self, place: Place) -> Option<Self> {
        let (multiple, symbol) = match place {
            Place::InAlphabet(a, p) => {
                let letter = a.letter(p % a.letters())?;
                let symbol = match letter.chars().next() {
                    Some(c) if letter.chars().count() == 1 => Symbol::Letter(c),
                    _ => Symbol::Sign(letter),
                };
                (u16::try_from(p / a.letters() + 1).ok()?, symbol)
            }
            Place::Number(n) => (1, Symbol::Number(u16::try_from(n).ok()?)),
            Place::Alone => return None,
        };
        Some(Self { series: self.series, multiple, symbol, is_inferred: self.is_inferred })
    }

    /// Whether both mean one gathering: I and J are one letter, and brackets do not matter.
    pub fn is_same(&self, other: &Self) -> bool {
        self.series == other.series
            && match (self.place(), other.place()) {
                (Place::Alone, Place::Alone) => {
                    self.multiple == other.multiple && self.symbol == other.symbol
                }
                // J beside I, U beside V: told apart where both are written as gatherings of one book.
                (a, b) => a == b,
            }
    }

    /// As it is published: `²A`, `2B`, `[C]`, `π`; or, plainly, as it can be typed: `^2A`, `pi`.
    pub(super) fn write(&self, plainly: bool, out: &mut impl fmt::Write) -> fmt::Result {
        match self.series {
            Series::Main => {}
            Series::Nth(n) => {
                super::write::raised(u32::from(n), plainly, out)?;
                // Raised figures do not run into plain ones; those after ^ would.
                if plainly && (self.multiple > 1 || matches!(self.symbol, Symbol::Number(_))) {
                    out.write_char('.')?;
                }
            }
            Series::Pi => out.write_str(if plainly { "pi" } else { "π" })?,
            Series::Chi => out.write_str(if plainly { "chi" } else { "χ" })?,
        }
        if self.is_inferred {
            out.write_char('[')?;
        }
        let signs = matches!(&self.symbol, Symbol::Sign(s) if s.chars().count() == 1);
        if self.multiple > 1 && !(signs && self.multiple <= 3) {
            write!(out, "{}", self.multiple)?;
        }
        match &self.symbol {
            Symbol::Pi => out.write_str(if plainly { "pi" } else { "π" })?,
            Symbol::Chi => out.write_str(if plainly { "chi" } else { "χ" })?,
            Symbol::Letter(c) => out.write_char(*c)?,
            Symbol::Number(n) => write!(out, "{n}")?,
            Symbol::Sign(s) => {
                let times = if signs && self.multiple <= 3 { self.multiple } else { 1 };
                (0..times).try_for_each(|_| out.write_str(s))?;
            }
        }
        if self.is_inferred { out.write_char(']') } else { Ok(()) }
    }
}

impl fmt::Display for Signature {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write(false, f)
    }
}

/// A leaf by its name: B3.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct LeafName {
    /// Its gathering.
    pub signature: Signature,
    /// Its number in it, from 1.
    pub number: u16,
}

impl LeafName {
    /// As it is published, or plainly. The number of a leaf of a numbered gathering is lowered, so that 23₆ is not 236.
    pub(super) fn write(&self, plainly: bool, out: &mut impl fmt::Write) -> fmt::Result {
        self.signature.write(plainly, out)?;
        self.write_number(plainly, out)
    }

    /// Its number alone.
    pub(super) fn write_number(&self, plainly: bool, out: &mut impl fmt::Write) -> fmt::Result {
        match (&self.signature.symbol, plainly) {
            (Symbol::Number(_), true) => write!(out, "_{}", self.number),
            (Symbol::Number(_), false) => super::write::lowered(u32::from(self.number), out),
            _ => write!(out, "{}", self.number),
        }
    }
}

impl fmt::Display for LeafName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write(false, f)
    }
}

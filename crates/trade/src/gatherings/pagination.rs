//! How pages or leaves are numbered: "\[8\] 1-205 \[3\]".

use super::roman::{self, Case};
use std::fmt;

/// A statement of pagination or foliation.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pagination {
    /// Its sequences, in order.
    pub sequences: Vec<Sequence>,
    /// Whether it counts leaves instead of pages.
    pub is_foliation: bool,
}

/// A sequence of numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sequence {
    /// So many without numbers: `[8]`.
    Unnumbered(u32),
    /// Without printed numbers, but with numbers that follow: [63-64].
    Inferred(Numbers),
    /// Numbered: 1-205, or 205 alone, which is counted from 1.
    Numbered {
        /// The numbers.
        numbers: Numbers,
        /// Whether the first was said; a last number alone counts back to 1.
        says_first: bool,
        /// The number that the last should be: "564 [that is, 56]".
        that_is: Option<u32>,
    },
}

/// Numbers from a first to a last.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Numbers {
    /// The first, at least 1.
    pub first: u32,
    /// The last, not before the first.
    pub last: u32,
    /// Roman numerals, small or capital; arabic figures otherwise.
    pub roman: Option<Case>,
}

impl Numbers {
    /// A number in these numerals.
    fn shown(self, n: u32) -> String {
        self.roman.map_or_else(|| n.to_string(), |case| roman::written(n, case))
    }
}

impl Sequence {
    /// How many pages or leaves.
    pub fn count(&self) -> u32 {
        match self {
            Self::Unnumbered(n) => *n,
            Self::Inferred(n) => n.last + 1 - n.first,
            Self::Numbered { numbers, that_is, .. } => {
                (that_is.unwrap_or(numbers.last) + 1).saturating_sub(numbers.first)
            }
        }
    }

    /// What the n-th of the sequence, from 0, carries: its number, in brackets where it is not printed.
    fn label(&self, n: u32) -> String {
        match self {
            Self::Unnumbered(_) => "unnumbered".to_owned(),
            Self::Inferred(numbers) => format!("[{}]", numbers.shown(numbers.first + n)),
            Self::Numbered { numbers, that_is, .. } => {
                let last = that_is.is_some() && n + 1 == self.count();
                let number = numbers.shown(numbers.first + n);
                if last { format!("{} [that is, {number}]", numbers.shown(numbers.last)) } else { number }
            }
        }
    }
}

impl Pagination {
    /// How many pages, or leaves where it counts leaves.
    pub fn count(&self) -> u32 {
        self.sequences.iter().map(Sequence::count).fold(0, u32::saturating_add)
    }

    /// What each page, or leaf, carries, in order.
    pub fn labels(&self) -> impl Iterator<Item = String> {
        self.sequences.iter().flat_map(|s| (0..s.count()).map(move |n| s.label(n)))
    }
}

impl fmt::Display for Pagination {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(if self.is_foliation { "ff. " } else { "pp. " })?;
        for (i, s) in self.sequences.iter().enumerate() {
            if i > 0 {
                f.write_str(" ")?;
            }
            match s {
                Sequence::Unnumbered(n) => write!(f, "[{n}]")?,
                Sequence::Inferred(n) => write!(f, "[{}-{}]", n.shown(n.first), n.shown(n.last))?,
                Sequence::Numbered { numbers: n, says_first, that_is } => {
                    if *says_first {
                        write!(f, "{}-", n.shown(n.first))?;
                    }
                    f.write_str(&n.shown(n.last))?;
                    if let Some(right) = that_is {
                        write!(f, " [that is, {}]", n.shown(*right))?;
                    }
                }
            }
        }
        Ok(())
    }
}

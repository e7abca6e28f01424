//! How many items are known in one copy, in two, in three, and so on.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Serialize;

/// The most copies of one item that are taken: more is a slip of the pen.
pub const MOST_COPIES: u32 = 1_000_000;
/// The most items that are taken.
pub const MOST_ITEMS: u64 = 1_000_000_000;

/// Items by how many copies of each are known. Holds at least one item with a copy.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Counts {
    by_copies: BTreeMap<u32, u64>,
    known_lost: u64,
}

/// So many items are known in so many copies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
pub struct CountOf {
    /// Copies of each of them.
    pub copies: u32,
    /// Items.
    pub items: u64,
}

/// Why counts are not taken.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum CountsError {
    /// A number could not be read.
    #[error(
        "character {at}: \"{found}\" is no whole number; write how many items have 1 copy, 2 copies, 3 and so on, as in 30,12,5,2,1"
    )]
    NoNumber {
        /// Where it stands, in characters from 1.
        at: usize,
        /// What stands there.
        found: String,
    },
    /// No item has a copy.
    #[error(
        "no item has a copy that survives, so nothing can be told from the copies; give at least one item with a copy"
    )]
    Nothing,
    /// More items than are taken.
    #[error("{found} items are more than the {MOST_ITEMS} that are taken; look at the numbers again")]
    TooManyItems {
        /// Items.
        found: u64,
    },
    /// More copies of one item than are taken.
    #[error(
        "{found} copies of one item are more than the {MOST_COPIES} that are taken; look at the numbers again"
    )]
    TooManyCopies {
        /// Copies.
        found: u32,
    },
}

impl Counts {
    /// Items by their copies; items of no copy are known to be lost, from references.
    ///
    /// # Errors
    /// No item with a copy, or more of them than are taken.
    pub fn new(of: impl IntoIterator<Item = CountOf>) -> Result<Self, CountsError> {
        let mut by_copies = BTreeMap::new();
        let (mut known_lost, mut all) = (0_u64, 0_u64);
        for CountOf { copies, items } in of {
            all = all.saturating_add(items);
            if all > MOST_ITEMS {
                return Err(CountsError::TooManyItems { found: all });
            }
            if copies > MOST_COPIES {
                return Err(CountsError::TooManyCopies { found: copies });
            }
            if copies == 0 {
                known_lost += items;
            } else if items > 0 {
                *by_copies.entry(copies).or_insert(0) += items;
            }
        }
        if by_copies.is_empty() {
            return Err(CountsError::Nothing);
        }
        Ok(Self { by_copies, known_lost })
    }

    /// Reads a list such as `30,12,5,2,1`: items in one copy, in two, and so on.
    ///
    /// # Errors
    /// What is no number, with its place; and as [`Counts::new`].
    pub fn parse(text: &str) -> Result<Self, CountsError> {
        let mut at = 1;
        let mut list = Vec::new();
        for (i, part) in text.split([',', ';']).enumerate() {
            let found = part.trim();
            let items = found
                .parse::<u64>()
                .map_err(|_| CountsError::NoNumber { at, found: found.chars().take(24).collect() })?;
            let copies = u32::try_from(i + 1).unwrap_or(u32::MAX);
            list.push(CountOf { copies, items });
            at += part.chars().count() + 1;
        }
        Self::new(list)
    }

    /// Items known in exactly so many copies: f₁, f₂, …
    pub fn of(&self, copies: u32) -> u64 {
        if copies == 0 { 0 } else { self.by_copies.get(&copies).copied().unwrap_or(0) }
    }

    /// Items with a copy: S.
    pub fn items(&self) -> u64 {
        self.by_copies.values().sum()
    }

    /// Copies of all items together: n.
    pub fn copies(&self) -> u64 {
        self.each().map(|c| u64::from(c.copies) * c.items).sum()
    }

    /// Items without a copy that are known from elsewhere: an entry in a register, a bill, an advertisement.
    pub fn known_lost(&self) -> u64 {
        self.known_lost
    }

    /// The most copies of one item.
    pub fn most_copies(&self) -> u32 {
        self.by_copies.keys().next_back().copied().unwrap_or(0)
    }

    /// The counts that are not 0, from the fewest copies to the most.
    pub fn each(&self) -> impl Iterator<Item = CountOf> + '_ {
        self.by_copies.iter().map(|(&copies, &items)| CountOf { copies, items })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_is_counted() {
        let counts = Counts::parse("30, 12,5,2,1").unwrap();
        assert_eq!((counts.items(), counts.copies(), counts.most_copies()), (50, 82, 5));
        assert_eq!((counts.of(2), counts.of(9), counts.of(0)), (12, 0, 0));
    }

    #[test]
    fn what_is_wrong_is_told_with_its_place() {
        let told = |text: &str| Counts::parse(text).unwrap_err().to_string();
        assert!(told("30,x2,5").starts_with("character 4: \"x2\" is no whole number"));
        assert!(told("").starts_with("character 1: \"\""));
        assert!(told("0,0").contains("no item has a copy"));
        assert!(told("99999999999").contains("are more than"));
    }
}

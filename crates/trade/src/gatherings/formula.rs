//! A formula as it was read: what stands in it, in its order.

use super::pagination::Pagination;
use super::signature::{LeafName, Signature};
use super::signing::Signing;

/// A collation formula with the statements that follow it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Formula {
    /// What its title says of the signatures, as it was written: "in Hebrew numerals".
    pub title: Option<String>,
    /// The format, if it is named.
    pub format: Option<NamedFormat>,
    /// The gatherings, in order.
    pub items: Vec<Item>,
    /// What is said of them.
    pub statements: Statements,
}

/// A format as it is named before a formula: 8°, "8° in 4s".
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NamedFormat {
    /// Its number: 8.
    pub number: u16,
    /// "in 4s": how many leaves most gatherings have, where that is said.
    pub gathered_in: Option<u16>,
}

/// One item of the formula.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Item {
    /// A gathering, or a run of them.
    Run(Run),
    /// A single leaf outside any gathering: π1.
    Leaf {
        /// The leaf.
        name: LeafName,
        /// The leaf that it really is, printed there and moved here: π1[=B2].
        identical_to: Option<LeafName>,
    },
    /// A single sheet, unsigned.
    SingleSheet,
}

/// A gathering or a run of gatherings of one make.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Run {
    /// The first signature.
    pub first: Signature,
    /// The last, of a run.
    pub last: Option<Signature>,
    /// How many leaves each has, before any alteration.
    pub leaves: u16,
    /// How many every second one has, where they alternate: ⁸/⁴.
    pub alternately: Option<u16>,
    /// Whether the whole item stands in brackets: [1-6⁸], an unsigned book.
    pub is_enclosed: bool,
    /// How many gatherings there are, where it is said: [=41].
    pub stated: Option<u32>,
    /// What was altered.
    pub changes: Vec<Change>,
    /// Leaves said to be blank.
    pub blank: Vec<LeafName>,
    /// What else stands beside it in parentheses, as it was written.
    pub remarks: Vec<String>,
}

/// An alteration of a gathering.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Change {
    /// Cut away and not replaced: (−D3).
    Missing(Vec<LeafName>),
    /// Cut away, each replaced by a leaf of its own: (±E2).
    Replaced(Vec<LeafName>),
    /// Two conjugate leaves replaced by two conjugate leaves: (±D2.7).
    PairReplaced(LeafName, LeafName),
    /// The whole gathering taken out and replaced by another of as many leaves: (±A).
    GatheringReplaced(Signature),
    /// Cut away, and something else put there: (−A1 +χ²).
    Substituted {
        /// What was cut away.
        leaves: Vec<LeafName>,
        /// What was put there.
        by: Vec<Added>,
    },
    /// Put in after a leaf: (A1+χ²).
    Inserted {
        /// The leaf before.
        after: LeafName,
        /// What was put in.
        what: Vec<Added>,
    },
}

/// What was put in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Added {
    /// A single leaf by its name: χ1.
    Leaf(LeafName),
    /// A gathering, which may be altered in its turn: χ², or a quire within a quire.
    Gathering {
        /// Its signature.
        signature: Signature,
        /// Its leaves.
        leaves: u16,
        /// What was altered in it.
        changes: Vec<Change>,
    },
    /// So many single leaves without a name: +1.
    Unnamed(u16),
    /// A single leaf with what is printed on it as its signature: +'*B2'.
    Printed(String),
}

/// What is said of the gatherings.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Statements {
    /// How many leaves there are said to be.
    pub leaves: Option<u32>,
    /// Which leaves are signed.
    pub signing: Option<Signing>,
    /// How pages or leaves are numbered.
    pub pagination: Option<Pagination>,
    /// Leaves said to be blank.
    pub blank: Vec<LeafName>,
    /// A second set of signatures on the same leaves.
    pub also_signed: Vec<Item>,
    /// What else is said, as it was written and not understood.
    pub remarks: Vec<String>,
}

/// How many leaves are put in.
pub(super) fn added_leaves(added: &[Added]) -> i64 {
    added
        .iter()
        .map(|a| match a {
            Added::Leaf(_) | Added::Printed(_) => 1,
            Added::Unnamed(n) => i64::from(*n),
            Added::Gathering { leaves, changes, .. } => i64::from(*leaves) + changed_leaves(changes),
        })
        .sum()
}

/// How many leaves more, or fewer, there are by alterations.
pub(super) fn changed_leaves(changes: &[Change]) -> i64 {
    changes
        .iter()
        .map(|c| match c {
            Change::Missing(leaves) => -(leaves.len() as i64),
            Change::Replaced(_) | Change::PairReplaced(..) | Change::GatheringReplaced(_) => 0,
            Change::Substituted { leaves, by } => added_leaves(by) - leaves.len() as i64,
            Change::Inserted { what, .. } => added_leaves(what),
        })
        .sum()
}

//! What was altered in one gathering, asked leaf by leaf.

use super::formula::{Added, Change};
use super::signature::Signature;

/// The signature of the gathering that an alteration belongs to.
pub(super) fn of(change: &Change) -> Option<&Signature> {
    let leaf = match change {
        Change::Missing(l) | Change::Replaced(l) | Change::Substituted { leaves: l, .. } => l.first(),
        Change::PairReplaced(a, _) => Some(a),
        Change::Inserted { after, .. } => Some(after),
        Change::GatheringReplaced(signature) => return Some(signature),
    };
    leaf.map(|l| &l.signature)
}

/// What was altered in one gathering.
pub(super) struct Altered<'a> {
    changes: &'a [&'a Change],
}

impl<'a> Altered<'a> {
    /// Of the alterations of one gathering.
    pub(super) fn of(changes: &'a [&'a Change]) -> Self {
        Self { changes }
    }

    /// Whether the gathering as a whole was put in the place of another.
    pub(super) fn is_new_whole(&self) -> bool {
        self.changes.iter().any(|c| matches!(c, Change::GatheringReplaced(_)))
    }

    /// Whether a leaf was not cut away for good.
    pub(super) fn is_there(&self, number: u16) -> bool {
        !self.changes.iter().any(|c| match c {
            Change::Missing(l) | Change::Substituted { leaves: l, .. } => {
                l.iter().any(|n| n.number == number)
            }
            _ => false,
        })
    }

    /// Whether a single leaf was put in the place of this.
    pub(super) fn is_replaced(&self, number: u16) -> bool {
        self.changes.iter().any(|c| matches!(c, Change::Replaced(l) if l.iter().any(|n| n.number == number)))
    }

    /// Whether it is one of two conjugate leaves that replace two.
    pub(super) fn in_pair(&self, number: u16) -> bool {
        self.changes
            .iter()
            .any(|c| matches!(c, Change::PairReplaced(a, b) if [a.number, b.number].contains(&number)))
    }

    /// What stands where leaves were cut away, at the first of them.
    pub(super) fn put_for(&self, number: u16) -> Option<&'a [Added]> {
        self.changes.iter().find_map(|c| match c {
            Change::Substituted { leaves, by } if leaves.first()?.number == number => Some(by.as_slice()),
            _ => None,
        })
    }

    /// What was put in after it.
    pub(super) fn put_after(&self, number: u16) -> impl Iterator<Item = &'a [Added]> {
        self.changes.iter().filter_map(move |c| match c {
            Change::Inserted { after, what } if after.number == number => Some(what.as_slice()),
            _ => None,
        })
    }
}

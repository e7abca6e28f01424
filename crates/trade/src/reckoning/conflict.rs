//! Which parts contradict each other.

use crate::clause::DaySet;

/// Parts that cannot all be true, though any fewer of them can.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Conflict {
    /// The places of the parts among all parts, in order: one (a day that never was), two or three.
    pub parts: Vec<usize>,
}

/// Sets of days of all parts, once under each reckoning.
pub(super) type Worlds = Vec<Vec<DaySet>>;

/// Whether parts can be true together under some reckoning.
fn hold(worlds: &Worlds, parts: &[usize]) -> bool {
    worlds.iter().any(|sets| {
        let mut all = DaySet::all();
        for &part in parts {
            all.keep(&sets[part]);
        }
        !all.is_empty()
    })
}

/// All smallest conflicts of one, two or three of the parts that are looked at.
pub(super) fn conflicts(worlds: &Worlds, looked_at: &[usize]) -> Vec<Conflict> {
    let mut found: Vec<Conflict> = Vec::new();
    let is_new = |found: &[Conflict], parts: &[usize]| {
        !found.iter().any(|c| c.parts.iter().all(|p| parts.contains(p)))
    };
    for size in 1..=3_usize.min(looked_at.len()) {
        for parts in choices(looked_at, size) {
            if is_new(&found, &parts) && !hold(worlds, &parts) {
                found.push(Conflict { parts });
            }
        }
    }
    found
}

/// Every choice of so many of these, in order.
pub(super) fn choices(of: &[usize], size: usize) -> Vec<Vec<usize>> {
    if size == 0 {
        return vec![Vec::new()];
    }
    let mut all = Vec::new();
    for (i, &first) in of.iter().enumerate() {
        for mut rest in choices(&of[i + 1..], size - 1) {
            rest.insert(0, first);
            all.push(rest);
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn choices_are_all_there() {
        assert_eq!(choices(&[0, 1, 2], 2), [[0, 1], [0, 2], [1, 2]]);
        assert_eq!(choices(&[0, 1, 2, 3], 3).len(), 4);
        assert_eq!(choices(&[0], 2), Vec::<Vec<usize>>::new());
    }
}

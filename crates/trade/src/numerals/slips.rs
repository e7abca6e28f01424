//! The slips of a compositor: what one wrong movement of the hand makes of a numeral.

use std::fmt;

/// One slip. Places are counted from 0 among the sorts as they were set, without points and spaces; an apostrophus counts as the
/// M or D that it stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Slip {
    /// Another sort was set than was meant.
    WrongSort {
        /// Its place.
        at: usize,
        /// What was set.
        set: char,
        /// What was meant.
        meant: char,
    },
    /// The same, and the two lie next to each other in the case, so that the wrong one may have strayed into the box.
    FoulCase {
        /// Its place.
        at: usize,
        /// What was set.
        set: char,
        /// What was meant.
        meant: char,
    },
    /// A sort was left out.
    Dropped {
        /// The place where it should stand.
        at: usize,
        /// What was left out.
        sort: char,
    },
    /// A sort was set a second time, at once or after one other.
    Doubled {
        /// The place of the second.
        at: usize,
        /// What was doubled.
        sort: char,
    },
    /// A sort was set that belongs nowhere here.
    Added {
        /// Its place.
        at: usize,
        /// What was added.
        sort: char,
    },
    /// Two sorts changed places.
    Transposed {
        /// The place of the first.
        at: usize,
        /// The two as they were set.
        set: [char; 2],
    },
    /// A sort stands upside down, or was not turned where it should have been.
    Turned {
        /// Its place.
        at: usize,
        /// What it looks like.
        set: char,
        /// What was meant.
        meant: char,
    },
}

impl Slip {
    /// How often such a slip is made among all slips, before anything is known of the sheet. No counts are published that could be
    /// used here: these are the house's proposal, which puts the sort from the next box first.
    pub(super) fn share(self) -> f64 {
        match self {
            Self::FoulCase { .. } => 0.30,
            Self::Doubled { .. } | Self::Dropped { .. } => 0.20,
            Self::WrongSort { .. } | Self::Transposed { .. } => 0.10,
            Self::Turned { .. } | Self::Added { .. } => 0.05,
        }
    }

    /// The name of the kind, as it is said and as it stands in records.
    pub const fn kind(self) -> &'static str {
        match self {
            Self::WrongSort { .. } => "wrong sort",
            Self::FoulCase { .. } => "foul case",
            Self::Dropped { .. } => "dropped",
            Self::Doubled { .. } => "doubled",
            Self::Added { .. } => "added",
            Self::Transposed { .. } => "transposed",
            Self::Turned { .. } => "turned",
        }
    }
}

/// First, second and so on.
pub(crate) fn ordinal(n: usize) -> String {
    let end = match (n % 10, n % 100) {
        (_, 11..=13) => "th",
        (1, _) => "st",
        (2, _) => "nd",
        (3, _) => "rd",
        _ => "th",
    };
    format!("{n}{end}")
}

impl fmt::Display for Slip {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::WrongSort { at, set, meant } => {
                write!(f, "wrong sort: {set} set for {meant} at the {} place", ordinal(at + 1))
            }
            Self::FoulCase { at, set, meant } => write!(
                f,
                "foul case: {set} set for {meant} at the {} place; the two lie next to each other in the case",
                ordinal(at + 1)
            ),
            Self::Dropped { at, sort } => {
                write!(f, "dropped: {sort} left out at the {} place", ordinal(at + 1))
            }
            Self::Doubled { at, sort } => {
                write!(f, "doubled: {sort} set once too often, at the {} place", ordinal(at + 1))
            }
            Self::Added { at, sort } => {
                write!(f, "added: {sort} at the {} place belongs nowhere", ordinal(at + 1))
            }
            Self::Transposed { at, set: [a, b] } => write!(
                f,
                "transposed: {a} and {b} changed places, at the {} and {} place",
                ordinal(at + 1),
                ordinal(at + 2)
            ),
            Self::Turned { at, set, meant: 'D' | 'M' } => write!(
                f,
                "turned: the {set} at the {} place should have been turned, to make with its I the sign for D or M",
                ordinal(at + 1)
            ),
            Self::Turned { at, set, meant } => {
                write!(f, "turned: {meant} set upside down reads {set}, at the {} place", ordinal(at + 1))
            }
        }
    }
}

/// The capitals as they lay in the upper case, seven in a row, without J and U, which came last. From memory of J. Moxon,
/// *Mechanick Exercises* (1683), and the English lay after him.
const CASE: [&str; 4] = ["ABCDEFG", "HIKLMNO", "PQRSTVW", "XYZ..UJ"];

/// Whether two sorts lay in boxes that touch along an edge. Figures lie in a row in their order (from memory).
fn are_neighbours(a: char, b: char) -> bool {
    if let (Some(a), Some(b)) = (a.to_digit(10), b.to_digit(10)) {
        return a.abs_diff(b) == 1;
    }
    let place = |sort: char| {
        CASE.iter().enumerate().find_map(|(row, boxes)| boxes.find(sort).map(|column| (row, column)))
    };
    match (place(a), place(b)) {
        (Some((r, c)), Some((s, d))) => r.abs_diff(s) + c.abs_diff(d) == 1,
        _ => false,
    }
}

/// Every list of sorts from which one slip makes `set`, with the slip. `stock` are the sorts that can have been meant. Lists that
/// come out twice are there once for each kind of slip.
pub(super) fn undone(set: &[char], stock: &[char]) -> Vec<(Vec<char>, Slip)> {
    let mut all: Vec<(Vec<char>, Slip)> = Vec::new();
    let mut put = |meant: Vec<char>, slip: Slip| {
        if meant != set && !all.iter().any(|(m, s)| *m == meant && s.kind() == slip.kind()) {
            all.push((meant, slip));
        }
    };
    for (at, &sort) in set.iter().enumerate() {
        let with = |new: &[char], taken: usize| {
            let mut list = set[..at].to_vec();
            list.extend_from_slice(new);
            list.extend_from_slice(&set[at + taken..]);
            list
        };
        for &meant in stock {
            let slip = if is_turned(sort, meant) {
                Slip::Turned { at, set: sort, meant }
            } else if are_neighbours(sort, meant) {
                Slip::FoulCase { at, set: sort, meant }
            } else {
                Slip::WrongSort { at, set: sort, meant }
            };
            put(with(&[meant], 1), slip);
        }
        let near = at.saturating_sub(2)..(at + 3).min(set.len());
        let again = near.into_iter().any(|i| i != at && set[i] == sort);
        put(with(&[], 1), if again { Slip::Doubled { at, sort } } else { Slip::Added { at, sort } });
        if let Some(&next) = set.get(at + 1)
            && next != sort
        {
            put(with(&[next, sort], 2), Slip::Transposed { at, set: [sort, next] });
            if (sort, next) == ('I', 'C') {
                put(with(&['D'], 2), Slip::Turned { at: at + 1, set: 'C', meant: 'D' });
            }
        }
        if set[at..].starts_with(&['C', 'I', 'C']) {
            put(with(&['M'], 3), Slip::Turned { at: at + 2, set: 'C', meant: 'M' });
        }
    }
    for at in 0..=set.len() {
        for &sort in stock {
            let mut list = set[..at].to_vec();
            list.push(sort);
            list.extend_from_slice(&set[at..]);
            put(list, Slip::Dropped { at, sort });
        }
    }
    all
}

/// Whether one is the other upside down: 6 and 9. No capital that is a numeral turns into another; C turns into the sign of the
/// apostrophus, which is looked at apart.
fn is_turned(set: char, meant: char) -> bool {
    matches!((set, meant), ('6', '9') | ('9', '6'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn boxes_that_touch() {
        assert!(are_neighbours('C', 'D') && are_neighbours('L', 'M') && are_neighbours('D', 'L'));
        assert!(!are_neighbours('C', 'M') && !are_neighbours('X', 'I'));
        assert!(are_neighbours('1', '2') && !are_neighbours('1', '7'));
    }

    #[test]
    fn one_slip_undone_reaches_what_was_meant() {
        let set: Vec<char> = "MDDCI".chars().collect();
        let all = undone(&set, &['I', 'V', 'X', 'L', 'C', 'D', 'M']);
        let to = |meant: &str| {
            let found = all.iter().find(|(m, _)| m.iter().collect::<String>() == meant);
            found.map(|(_, slip)| slip.kind())
        };
        assert_eq!(to("MDCCI"), Some("foul case"));
        assert_eq!(to("MDCI"), Some("doubled"));
        assert_eq!(to("MDDCI"), None);
        assert_eq!(ordinal(1) + &ordinal(12) + &ordinal(23), "1st12th23rd");
    }
}

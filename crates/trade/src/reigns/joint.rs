//! The double years of Philip and Mary.

use super::table::day;
use crate::calendar::DayRange;

/// One double year: Philip's number and Mary's. Hers changes on 6 July, his on 25 July, the day of their marriage, so the pair
/// changes twice a year.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct JointYear {
    /// Philip's year.
    pub king: u32,
    /// Mary's year.
    pub queen: u32,
    first: (i32, u32, u32),
    last: (i32, u32, u32),
}

impl JointYear {
    /// Its days.
    pub fn days(&self) -> DayRange {
        DayRange { first: day(self.first), last: day(self.last) }
    }
}

macro_rules! joint {
    ($king:literal & $queen:literal, $first:expr, $last:expr) => {
        JointYear { king: $king, queen: $queen, first: $first, last: $last }
    };
}

/// All of them: from memory of Cheney and Jones, *Handbook of Dates*, which was not seen; they follow from the two days.
pub const JOINT_YEARS: [JointYear; 9] = [
    joint!(1 & 2, (1554, 7, 25), (1555, 7, 5)),
    joint!(1 & 3, (1555, 7, 6), (1555, 7, 24)),
    joint!(2 & 3, (1555, 7, 25), (1556, 7, 5)),
    joint!(2 & 4, (1556, 7, 6), (1556, 7, 24)),
    joint!(3 & 4, (1556, 7, 25), (1557, 7, 5)),
    joint!(3 & 5, (1557, 7, 6), (1557, 7, 24)),
    joint!(4 & 5, (1557, 7, 25), (1558, 7, 5)),
    joint!(4 & 6, (1558, 7, 6), (1558, 7, 24)),
    joint!(5 & 6, (1558, 7, 25), (1558, 11, 17)),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn they_follow_each_other_without_gap() {
        for pair in JOINT_YEARS.windows(2) {
            assert_eq!(pair[0].days().last.plus(1), pair[1].days().first);
            let steps = (pair[1].king - pair[0].king) + (pair[1].queen - pair[0].queen);
            assert_eq!(steps, 1, "one number changes at a time");
        }
    }
}

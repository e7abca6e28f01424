//! The reigns from 1485 to 1837, of England and, where it differs, of Scotland.

use crate::calendar::{Calendar, Day, month_by_number};

/// Whose reign is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Realm {
    /// England and Wales and Ireland; from 1707 Great Britain.
    England,
    /// Scotland, where it is counted apart.
    Scotland,
}

/// A king or queen, or two that reigned together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sovereign {
    /// Henry VII.
    HenryVii,
    /// Henry VIII.
    HenryViii,
    /// Edward VI.
    EdwardVi,
    /// Jane, for days in 1553.
    Jane,
    /// Mary I alone.
    Mary,
    /// Philip and Mary.
    PhilipAndMary,
    /// Elizabeth I.
    Elizabeth,
    /// James I of England.
    James,
    /// Charles I.
    Charles,
    /// Charles II.
    CharlesIi,
    /// James II.
    JamesIi,
    /// William III and Mary II.
    WilliamAndMary,
    /// William III alone.
    William,
    /// Anne.
    Anne,
    /// George I.
    George,
    /// George II.
    GeorgeIi,
    /// George III.
    GeorgeIii,
    /// George IV.
    GeorgeIv,
    /// William IV.
    WilliamIv,
    /// Victoria, whose first year ends the table.
    Victoria,
    /// James III of Scotland.
    JamesIiiScots,
    /// James IV of Scotland.
    JamesIvScots,
    /// James V of Scotland.
    JamesVScots,
    /// Mary, Queen of Scots.
    MaryScots,
    /// James VI of Scotland, who was James I of England.
    JamesViScots,
}

/// A reign.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reign {
    /// Who reigned.
    pub sovereign: Sovereign,
    /// The name in full.
    pub name: &'static str,
    /// The abbreviation used in citing statutes, without the figure of the year.
    pub abbreviation: &'static str,
    /// Where it is counted so.
    pub realm: Realm,
    /// Year, month and day of its first day, Julian to 1752, years from 1 January.
    pub(super) starts: (i32, u32, u32),
    /// The same of its last day.
    pub(super) ends: (i32, u32, u32),
    /// The number of its last year.
    pub last_year: u32,
    /// What must be known, and where it was seen.
    pub note: &'static str,
}

impl Reign {
    /// Its first day.
    pub fn first_day(&self) -> Day {
        day(self.starts)
    }

    /// Its last day.
    pub fn last_day(&self) -> Day {
        day(self.ends)
    }

    /// The reign of a sovereign.
    pub fn of(sovereign: Sovereign) -> Option<&'static Self> {
        REIGNS.iter().find(|r| r.sovereign == sovereign)
    }
}

/// A day of the table. The table's days all exist, which a test looks at; one that did not would be taken for the first day.
pub(super) fn day((year, month, day): (i32, u32, u32)) -> Day {
    month_by_number(month)
        .and_then(|month| Calendar::british().day(year, month, day).ok())
        .unwrap_or(Day::FIRST)
}

macro_rules! reign {
    ($sovereign:ident, $name:literal, $abbreviation:literal, $realm:ident, $starts:expr, $ends:expr, $last:literal, $note:literal) => {
        Reign {
            sovereign: Sovereign::$sovereign,
            name: $name,
            abbreviation: $abbreviation,
            realm: Realm::$realm,
            starts: $starts,
            ends: $ends,
            last_year: $last,
            note: $note,
        }
    };
}

/// Every reign. Beginnings in England: *Select Essays in Anglo-American Legal History* I, table of British regnal years (seen),
/// but Philip and Mary and William alone; ends, and Scotland, from memory, after Cheney and Jones, *Handbook of Dates*, not seen.
pub const REIGNS: &[Reign] = &[
    reign!(HenryVii, "Henry VII", "Hen. 7", England, (1485, 8, 22), (1509, 4, 21), 24, ""),
    reign!(HenryViii, "Henry VIII", "Hen. 8", England, (1509, 4, 22), (1547, 1, 28), 38, ""),
    reign!(EdwardVi, "Edward VI", "Edw. 6", England, (1547, 1, 28), (1553, 7, 6), 7, ""),
    reign!(
        Jane,
        "Jane",
        "Jane",
        England,
        (1553, 7, 6),
        (1553, 7, 19),
        1,
        "proclaimed 10 July 1553; her acts were not counted afterwards"
    ),
    reign!(
        Mary,
        "Mary",
        "Mar.",
        England,
        (1553, 7, 6),
        (1554, 7, 24),
        2,
        "counted from 6 July 1553, her brother's death; others begin her first year on 19 July, her proclamation"
    ),
    reign!(
        PhilipAndMary,
        "Philip and Mary",
        "P. & M.",
        England,
        (1554, 7, 25),
        (1558, 11, 17),
        6,
        "two numbers, the king's and the queen's, which change on different days"
    ),
    reign!(Elizabeth, "Elizabeth", "Eliz.", England, (1558, 11, 17), (1603, 3, 24), 45, ""),
    reign!(James, "James I", "Jac. 1", England, (1603, 3, 24), (1625, 3, 27), 23, ""),
    reign!(Charles, "Charles I", "Car. 1", England, (1625, 3, 27), (1649, 1, 30), 24, ""),
    reign!(
        CharlesIi,
        "Charles II",
        "Car. 2",
        England,
        (1649, 1, 30),
        (1685, 2, 6),
        37,
        "counted from his father's death; he was restored on 29 May 1660, in what was called his twelfth year"
    ),
    reign!(
        JamesIi,
        "James II",
        "Jac. 2",
        England,
        (1685, 2, 6),
        (1688, 12, 11),
        4,
        "the throne was held vacant to 12 February 1688/9"
    ),
    reign!(WilliamAndMary, "William and Mary", "W. & M.", England, (1689, 2, 13), (1694, 12, 27), 6, ""),
    reign!(
        William,
        "William III",
        "Will. 3",
        England,
        (1694, 12, 28),
        (1702, 3, 8),
        14,
        "his years are numbered on from the joint reign, and change on 13 February"
    ),
    reign!(Anne, "Anne", "Ann.", England, (1702, 3, 8), (1714, 8, 1), 13, ""),
    reign!(George, "George I", "Geo. 1", England, (1714, 8, 1), (1727, 6, 11), 13, ""),
    reign!(
        GeorgeIi,
        "George II",
        "Geo. 2",
        England,
        (1727, 6, 11),
        (1760, 10, 25),
        34,
        "from his 27th year, after the change of style, some begin his years on 22 June, others go on with 11 June"
    ),
    reign!(GeorgeIii, "George III", "Geo. 3", England, (1760, 10, 25), (1820, 1, 29), 60, ""),
    reign!(GeorgeIv, "George IV", "Geo. 4", England, (1820, 1, 29), (1830, 6, 26), 11, ""),
    reign!(WilliamIv, "William IV", "Will. 4", England, (1830, 6, 26), (1837, 6, 20), 7, ""),
    reign!(Victoria, "Victoria", "Vict.", England, (1837, 6, 20), (1901, 1, 22), 64, ""),
    reign!(
        JamesIiiScots,
        "James III of Scotland",
        "Jac. 3 (Scotland)",
        Scotland,
        (1460, 8, 3),
        (1488, 6, 11),
        28,
        ""
    ),
    reign!(
        JamesIvScots,
        "James IV of Scotland",
        "Jac. 4 (Scotland)",
        Scotland,
        (1488, 6, 11),
        (1513, 9, 9),
        26,
        ""
    ),
    reign!(
        JamesVScots,
        "James V of Scotland",
        "Jac. 5 (Scotland)",
        Scotland,
        (1513, 9, 9),
        (1542, 12, 14),
        30,
        ""
    ),
    reign!(
        MaryScots,
        "Mary, Queen of Scots",
        "Mar. (Scotland)",
        Scotland,
        (1542, 12, 14),
        (1567, 7, 24),
        25,
        ""
    ),
    reign!(
        JamesViScots,
        "James VI of Scotland",
        "Jac. 6 (Scotland)",
        Scotland,
        (1567, 7, 24),
        (1625, 3, 27),
        58,
        "also James I of England from 24 March 1602/3"
    ),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_day_of_the_table_exists_and_england_has_no_gap_but_two() {
        let mut gaps = Vec::new();
        for (i, reign) in REIGNS.iter().enumerate() {
            assert!(
                reign.first_day() > Day::FIRST && reign.first_day() <= reign.last_day(),
                "{}",
                reign.name
            );
            if let Some(next) = REIGNS.get(i + 1).filter(|n| n.realm == reign.realm) {
                let gap = next.first_day().number() - reign.last_day().number();
                if !(0..=1).contains(&gap) {
                    gaps.push((reign.name, gap));
                }
            }
        }
        // Mary's first day is Jane's too; between James II and William and Mary the throne was vacant.
        assert_eq!(gaps, [("Jane", -13), ("James II", 64)]);
    }
}

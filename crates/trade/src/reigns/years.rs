//! Which days a year of a reign has, and which years a day falls in.

use super::joint::JOINT_YEARS;
use super::table::{REIGNS, Realm, Reign, Sovereign, day};
use crate::calendar::{Calendar, Day, DayRange};

/// How a reign is counted where scholars differ: the ordinary way, or the other that some follow.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Counting {
    /// As most tables count.
    Usual,
    /// Mary I from 19 July 1553; Charles II from his restoration, 29 May 1660; George II from his 27th year by 11 June.
    Other,
}

impl Counting {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Usual, Self::Other];
}

/// Whether, and why, a reign is counted in two ways.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Counts {
    /// The ordinary way.
    pub usual: &'static str,
    /// The other way.
    pub other: &'static str,
    /// Whether handbooks give both, so that the year of a reign which nobody names is read both ways. Charles II's other way is a
    /// historian's, and stands on no sheet.
    pub is_in_handbooks: bool,
}

impl Sovereign {
    /// The two ways of counting this reign; `None` where scholars agree.
    ///
    /// Mary: *Select Essays in Anglo-American Legal History* I gives 6 July; 19 July, and George II's 22 June, are from memory of
    /// Cheney and Jones. Charles II: the same essays, with the note on his twelfth year; the other way counts what he reigned.
    pub const fn counts(self) -> Option<Counts> {
        Some(match self {
            Self::Mary => Counts {
                usual: "Mary's years counted from 6 July 1553, her brother's death",
                other: "Mary's years counted from 19 July 1553, her proclamation",
                is_in_handbooks: true,
            },
            Self::CharlesIi => Counts {
                usual: "Charles II's years counted from his father's death, 30 January 1648/9, as statutes count them",
                other: "Charles II's years counted from his restoration, 29 May 1660",
                is_in_handbooks: false,
            },
            Self::GeorgeIi => Counts {
                usual: "George II's years from the 27th on beginning on 22 June, eleven days later, after the change of style",
                other: "George II's years beginning on 11 June throughout",
                is_in_handbooks: true,
            },
            _ => return None,
        })
    }
}

impl Sovereign {
    /// Whether the days of this year are others by the other way of counting.
    pub fn is_disputed(self, number: u32) -> bool {
        self.counts().is_some() && year(self, number, Counting::Usual) != year(self, number, Counting::Other)
    }
}

/// The first year of George II that some begin eleven days later.
const GEORGE_SHIFTED_FROM: u32 = 27;

/// The days of year `number` of a reign; `None` if it had no such year. Philip and Mary's are counted by Philip's number.
pub fn year(sovereign: Sovereign, number: u32, counting: Counting) -> Option<DayRange> {
    let reign = Reign::of(sovereign)?;
    if number == 0 || number > reign.last_year {
        return None;
    }
    let first = beginning(reign, number, counting)?;
    let eve_of_next = beginning(reign, number + 1, counting)?.plus(-1);
    DayRange::new(first.max(reign.first_day()), eve_of_next.min(reign.last_day()))
}

/// The anniversary with which year `number` begins.
fn beginning(reign: &Reign, number: u32, counting: Counting) -> Option<Day> {
    let (mut first_year, mut month, mut on) = reign.starts;
    match (reign.sovereign, counting) {
        (Sovereign::Mary, Counting::Other) if number == 1 => on = 19,
        (Sovereign::CharlesIi, Counting::Other) => (first_year, month, on) = (1660, 5, 29),
        (Sovereign::GeorgeIi, Counting::Usual) if number >= GEORGE_SHIFTED_FROM => on = 22,
        (Sovereign::William, _) => (first_year, month, on) = (1689, 2, 13),
        _ => {}
    }
    // George II's year 27 begins in 1753, so that the shift comes with the first anniversary of the New Style.
    let civil = first_year.checked_add(i32::try_from(number).ok()?)?.checked_sub(1)?;
    let month = crate::calendar::month_by_number(month)?;
    Calendar::british().day(civil, month, on).ok()
}

/// The days of the double year of Philip and Mary.
pub fn joint_year(king: u32, queen: u32) -> Option<DayRange> {
    JOINT_YEARS.iter().find(|y| (y.king, y.queen) == (king, queen)).map(super::joint::JointYear::days)
}

/// A reign in which a day lies, and the number of the year.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Held {
    /// The reign.
    pub reign: &'static Reign,
    /// The year.
    pub number: u32,
    /// The queen's number where two are counted.
    pub queen: Option<u32>,
}

/// The reigns in which a day lies, England's first. More than one on the days between Edward's death and Mary's proclamation, in
/// Scotland when it had its own king, and where one ends on the day on which the next begins.
pub fn reigns_on(wanted: Day, counting: Counting) -> Vec<Held> {
    let mut all = Vec::new();
    for reign in REIGNS {
        if !(reign.first_day()..=reign.last_day()).contains(&wanted) {
            continue;
        }
        if reign.sovereign == Sovereign::PhilipAndMary {
            let joint = JOINT_YEARS.iter().find(|y| y.days().contains(wanted));
            all.extend(joint.map(|y| Held { reign, number: y.king, queen: Some(y.queen) }));
            continue;
        }
        let found = (1..=reign.last_year)
            .find(|&n| year(reign.sovereign, n, counting).is_some_and(|days| days.contains(wanted)));
        all.extend(found.map(|number| Held { reign, number, queen: None }));
    }
    all.sort_by_key(|h| h.reign.realm);
    all
}

impl Realm {
    /// Whether England had no king on that day: from 31 January 1648/9 to 28 May 1660, and from 12 December 1688 to
    /// 12 February 1688/9.
    pub fn is_without_king(self, on: Day) -> bool {
        self == Self::England
            && ((day((1649, 1, 31))..=day((1660, 5, 28))).contains(&on)
                || (day((1688, 12, 12))..=day((1689, 2, 12))).contains(&on))
    }
}

//! What a dating clause is made of.

use crate::calendar::{Feast, Month, RepublicanDate, Term, Weekday};
use crate::numerals::Span;
use crate::reigns::Sovereign;

/// The day of a month from which Romans counted back.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Anchor {
    /// The first of the month.
    Kalends,
    /// The 5th; in March, May, July and October the 7th.
    Nones,
    /// The 13th; in those months the 15th.
    Ides,
}

/// A day counted from a feast.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Shift {
    /// The feast itself.
    On,
    /// The eve or vigil, the day before.
    Eve,
    /// The morrow, the day after.
    Morrow,
    /// The octave or utas: the eighth day, counting the feast.
    Octave,
    /// The quindene: the fifteenth day, counting the feast.
    Quindene,
}

impl Shift {
    /// In days.
    pub const fn days(self) -> i32 {
        match self {
            Self::On => 0,
            Self::Eve => -1,
            Self::Morrow => 1,
            Self::Octave => 7,
            Self::Quindene => 14,
        }
    }

    /// As it is said before the name of the feast.
    pub const fn name(self) -> &'static str {
        match self {
            Self::On => "",
            Self::Eve => "the eve of ",
            Self::Morrow => "the morrow of ",
            Self::Octave => "the octave of ",
            Self::Quindene => "the quindene of ",
        }
    }
}

/// On which side of a feast a weekday is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Side {
    /// The last before the feast.
    Before,
    /// The first after the feast.
    After,
}

/// How a number is written.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Written {
    /// In arabic figures, as they stand.
    Figures(String),
    /// In Roman letters, as they stand.
    Roman(String),
    /// In words.
    Words,
}

/// One part of a clause that limits the days which can be meant.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Element {
    /// A day of the week.
    Weekday(Weekday),
    /// A day of a month.
    Day {
        /// The day, from 1.
        day: u32,
        /// The month.
        month: Month,
    },
    /// One day by both calendars, written as a fraction: 10/20 June.
    BothStyles {
        /// Day and month in the Old Style.
        old: (u32, Month),
        /// Day and month in the New Style.
        new: (u32, Month),
        /// Where two years are written after it, the first of them: the Old Style is in that one, from 1 January or from Lady Day,
        /// and the New Style in the next.
        old_year: Option<i32>,
    },
    /// A month.
    Month(Month),
    /// The last day of a month: ultimo Martii.
    LastOf(Month),
    /// A day of the Roman calendar: so many before an anchor, counting both ends; 1 is the anchor itself, 2 pridie.
    Roman {
        /// The anchor.
        anchor: Anchor,
        /// The count.
        count: u32,
        /// The month that is named.
        month: Month,
    },
    /// A feast, or a day counted from it.
    Feast {
        /// The feast.
        feast: &'static Feast,
        /// How it is counted from it.
        shift: Shift,
    },
    /// A weekday next before or after a feast.
    Beside {
        /// The weekday.
        weekday: Weekday,
        /// On which side.
        side: Side,
        /// The feast.
        feast: &'static Feast,
    },
    /// A law term.
    Term(Term),
    /// A year of the Lord.
    Year {
        /// Its number.
        year: i32,
        /// How it is written.
        written: Written,
    },
    /// A double year: legal 1648, historical 1649.
    DoubleYear {
        /// The legal year, the first of the two.
        legal: i32,
    },
    /// The year of a reign; of any, where no one is named.
    Reign {
        /// Whose: one, or all of a name without a number, or nobody where none is named.
        sovereigns: Vec<Sovereign>,
        /// Which year.
        number: u32,
        /// The queen's number of a double year of Philip and Mary.
        queen: Option<u32>,
    },
    /// A year of freedom, as the Commonwealth of England counted.
    Freedom(u32),
    /// A day of the French Republic.
    Republican(RepublicanDate),
    /// A year of the French Republic.
    RepublicanYear(u32),
    /// Old Style or New Style said outright.
    Style {
        /// Whether New.
        is_new: bool,
    },
}

/// An element and where it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Placed {
    /// The element.
    pub element: Element,
    /// Its place in the clause, in characters.
    pub span: Span,
    /// Its words as they stand there.
    pub words: String,
}

//! A set of days, over all the days that clauses can be about.

use crate::calendar::{Calendar, Day, DayRange};
use julian::{Month, Weekday};

/// The first year that a clause can be about.
pub const FIRST_YEAR_READ: i32 = 1400;
/// The last.
pub const LAST_YEAR_READ: i32 = 1900;

/// Julian day number of 1 January 1400, Julian.
const FIRST: i32 = 2_232_408;
/// Days to 12 January 1901, Gregorian, which is 30 December 1900, Julian.
const DAYS: usize = 183_000;
const WORDS: usize = DAYS.div_ceil(64);

/// Some of the days from 1 January 1400 to the end of 1900: a bit for each, so that sets are cut and joined in microseconds.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct DaySet(Vec<u64>);

impl std::fmt::Debug for DaySet {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_list().entries(self.ranges().iter().take(8)).finish()
    }
}

impl DaySet {
    /// No day.
    pub fn none() -> Self {
        Self(vec![0; WORDS])
    }

    /// Every day.
    pub fn all() -> Self {
        let mut all = Self::none();
        all.add(DayRange { first: Day::FIRST, last: Day::LAST });
        all
    }

    /// One weekday.
    pub fn of_weekday(weekday: Weekday) -> Self {
        let mut set = Self::none();
        let first = (0..7).find(|&i| Weekday::for_jdn(FIRST + i) == weekday).unwrap_or(0);
        for i in (first as usize..DAYS).step_by(7) {
            set.0[i / 64] |= 1 << (i % 64);
        }
        set
    }

    /// The day's place; `None` outside.
    fn place(day: Day) -> Option<usize> {
        usize::try_from(day.number() - FIRST).ok().filter(|&i| i < DAYS)
    }

    /// Adds a day; one that lies outside is left out.
    pub fn put(&mut self, day: Day) {
        if let Some(i) = Self::place(day) {
            self.0[i / 64] |= 1 << (i % 64);
        }
    }

    /// Adds days, those that lie outside left out.
    pub fn add(&mut self, range: DayRange) {
        let first = (range.first.number() - FIRST).max(0) as usize;
        let Ok(last) = usize::try_from((range.last.number() - FIRST).min(DAYS as i32 - 1)) else { return };
        if first > last {
            return;
        }
        let (a, b) = (first / 64, last / 64);
        let (head, tail) = (!0_u64 << (first % 64), !0_u64 >> (63 - last % 64));
        if a == b {
            self.0[a] |= head & tail;
        } else {
            self.0[a] |= head;
            self.0[a + 1..b].fill(!0);
            self.0[b] |= tail;
        }
    }

    /// Whether a day is in it.
    pub fn contains(&self, day: Day) -> bool {
        Self::place(day).is_some_and(|i| self.0[i / 64] >> (i % 64) & 1 == 1)
    }

    /// Keeps what is in both.
    pub fn keep(&mut self, other: &Self) {
        for (a, b) in self.0.iter_mut().zip(&other.0) {
            *a &= b;
        }
    }

    /// Adds what is in the other.
    pub fn join(&mut self, other: &Self) {
        for (a, b) in self.0.iter_mut().zip(&other.0) {
            *a |= b;
        }
    }

    /// Whether a day is in both.
    pub fn meets(&self, other: &Self) -> bool {
        self.0.iter().zip(&other.0).any(|(a, b)| a & b != 0)
    }

    /// Whether there is no day in it.
    pub fn is_empty(&self) -> bool {
        self.0.iter().all(|&w| w == 0)
    }

    /// How many days.
    pub fn days(&self) -> usize {
        self.0.iter().map(|w| w.count_ones() as usize).sum()
    }

    /// The days as stretches without a gap, in order.
    pub fn ranges(&self) -> Vec<DayRange> {
        let mut all: Vec<DayRange> = Vec::new();
        for (w, &word) in self.0.iter().enumerate() {
            let mut left = word;
            while left != 0 {
                let start = left.trailing_zeros();
                let run = (!(left >> start)).trailing_zeros().min(64 - start);
                left &= if start + run >= 64 { 0 } else { !0 << (start + run) };
                let first = FIRST + (w * 64) as i32 + start as i32;
                let (Some(first), Some(last)) =
                    (Day::from_number(first), Day::from_number(first + run as i32 - 1))
                else {
                    continue;
                };
                match all.last_mut() {
                    Some(before) if before.last.plus(1) == first => before.last = last,
                    _ => all.push(DayRange { first, last }),
                }
            }
        }
        all
    }

    /// The first day.
    pub fn first(&self) -> Option<Day> {
        let (w, word) = self.0.iter().enumerate().find(|(_, word)| **word != 0)?;
        Day::from_number(FIRST + (w * 64) as i32 + word.trailing_zeros() as i32)
    }

    /// The last day.
    pub fn last(&self) -> Option<Day> {
        let (w, word) = self.0.iter().enumerate().rev().find(|(_, word)| **word != 0)?;
        Day::from_number(FIRST + (w * 64) as i32 + 63 - word.leading_zeros() as i32)
    }

    /// The same day of the month in every year.
    pub(crate) fn of_day(calendar: Calendar, month: Month, day: u32) -> Self {
        let mut set = Self::none();
        for year in FIRST_YEAR_READ..=LAST_YEAR_READ {
            if let Ok(day) = calendar.day(year, month, day) {
                set.put(day);
            }
        }
        set
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_day_and_stretches() {
        let calendar = Calendar::JULIAN;
        assert_eq!(calendar.day(1400, Month::January, 1).unwrap().number(), FIRST);
        assert!(calendar.day(1900, Month::December, 30).unwrap().number() < FIRST + DAYS as i32);
        let range = |a: i32, b: i32| {
            DayRange::new(Day::from_number(FIRST + a).unwrap(), Day::from_number(FIRST + b).unwrap()).unwrap()
        };
        for wanted in
            [range(0, 0), range(0, 63), range(5, 64), range(63, 64), range(100, 1000), range(64, 127)]
        {
            let mut set = DaySet::none();
            set.add(wanted);
            assert_eq!(set.ranges(), [wanted]);
            assert_eq!(set.days() as i32, wanted.days());
            assert_eq!((set.first(), set.last()), (Some(wanted.first), Some(wanted.last)));
        }
        let mut set = DaySet::none();
        set.add(range(3, 9));
        set.add(range(11, 80));
        assert_eq!(set.ranges(), [range(3, 9), range(11, 80)]);
        assert_eq!(DaySet::all().ranges().len(), 1);
        assert!(DaySet::none().first().is_none() && DaySet::none().is_empty());
    }

    #[test]
    fn weekdays_and_days_of_the_month() {
        let mut sunday = DaySet::of_weekday(Weekday::Sunday);
        sunday.keep(&DaySet::of_day(Calendar::JULIAN, Month::September, 2));
        assert!(sunday.contains(Calendar::JULIAN.day(1666, Month::September, 2).unwrap()));
        assert!(sunday.ranges().iter().all(|r| r.first.weekday() == Weekday::Sunday && r.days() == 1));
        assert_eq!(DaySet::of_day(Calendar::JULIAN, Month::February, 29).days(), 126);
    }
}

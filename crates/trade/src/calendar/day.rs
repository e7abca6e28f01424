//! A day of history, whatever it was called.

use julian::Weekday;

/// A day, by its Julian day number: whole days since 1 January 4713 BC of the Julian calendar, which is 0.
///
/// From 0 to [`Day::LAST`]; the number is never negative.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(pub(super) i32);

impl Day {
    /// 1 January 4713 BC, Julian.
    pub const FIRST: Self = Self(0);
    /// 31 December 2100, Julian.
    pub const LAST: Self = Self(2_488_448);

    /// The day of a Julian day number; `None` outside the days that are counted.
    pub const fn from_number(number: i32) -> Option<Self> {
        if number < Self::FIRST.0 || number > Self::LAST.0 { None } else { Some(Self(number)) }
    }

    /// Its Julian day number.
    pub const fn number(self) -> i32 {
        self.0
    }

    /// Its day of the week: the Julian day number modulo 7, Monday being 0.
    pub const fn weekday(self) -> Weekday {
        Weekday::for_jdn(self.0)
    }

    /// So many days later, or earlier if negative; held to the first and the last day that are counted.
    #[must_use]
    pub fn plus(self, days: i32) -> Self {
        Self(self.0.saturating_add(days).clamp(Self::FIRST.0, Self::LAST.0))
    }

    /// The day on or after this that is this weekday.
    #[must_use]
    pub fn on_or_after(self, weekday: Weekday) -> Self {
        let ahead = (weekday.number() as i32 - self.weekday().number() as i32).rem_euclid(7);
        self.plus(ahead)
    }
}

/// Days from the first to the last, both included.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct DayRange {
    /// The first day.
    pub first: Day,
    /// The last day, not before the first.
    pub last: Day,
}

impl DayRange {
    /// From `first` to `last`; `None` when `last` comes before `first`.
    pub fn new(first: Day, last: Day) -> Option<Self> {
        (first <= last).then_some(Self { first, last })
    }

    /// One day.
    pub const fn one(day: Day) -> Self {
        Self { first: day, last: day }
    }

    /// Whether the day is one of these.
    pub fn contains(&self, day: Day) -> bool {
        (self.first..=self.last).contains(&day)
    }

    /// How many days.
    pub const fn days(&self) -> i32 {
        self.last.0 - self.first.0 + 1
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_week_goes_round() {
        let monday = Day(0);
        assert_eq!(monday.weekday(), Weekday::Monday);
        assert_eq!(monday.on_or_after(Weekday::Monday), monday);
        assert_eq!(monday.on_or_after(Weekday::Sunday), Day(6));
        assert_eq!(Day::LAST.plus(5), Day::LAST);
        assert_eq!(Day::FIRST.plus(-5), Day::FIRST);
    }
}

//! The working day, and the clock beside it: men work by day, paper dries by night too.

use schemars::JsonSchema;
use serde::Serialize;

/// How a shop's days go.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Day {
    /// Hours worked in a day, meals not counted.
    pub hours: f64,
    /// The hour work begins, 0 to 24.
    pub begins: f64,
    /// Days worked in a week, 1 to 7; the rest follow them.
    pub days_a_week: u32,
}

impl Default for Day {
    /// Ten hours net from six in the morning on, six days a week: common practice, no source; Plantin's men began at five
    /// (a newspaper piece of the nineteenth century on his house), and days of twelve to fourteen hours are told with meals.
    fn default() -> Self {
        Self { hours: 10.0, begins: 6.0, days_a_week: 6 }
    }
}

/// When something happens.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, JsonSchema)]
pub struct Moment {
    // First, so that of two moments the later by the clock is the greater: the sum of hours of work may differ in its last bit.
    /// Hours by the clock since the midnight before the work began; day 1 is 0 to 24.
    pub clock_hours: f64,
    /// Hours of work that have passed since the work began.
    pub work_hours: f64,
}

impl Moment {
    /// The day by the calendar, from 1; a midnight still belongs to the day that ends.
    pub fn day(&self) -> u32 {
        (self.clock_hours / 24.0).ceil().max(1.0) as u32
    }

    /// The hour of that day, 0 to 24.
    pub fn hour(&self) -> f64 {
        self.clock_hours - 24.0 * f64::from(self.day() - 1)
    }
}

impl Day {
    /// The clock when so many hours of work have just passed: at the end of a day, not at the start of the next.
    pub(crate) fn clock(&self, work: f64) -> f64 {
        let whole = (work / self.hours).ceil().max(1.0) - 1.0;
        24.0 * self.calendar(whole) + self.begins + (work - whole * self.hours)
    }

    /// The moment at which work goes on after so many hours: in the morning of the next day, not at the end of one.
    pub(crate) fn onward(&self, work: f64) -> Moment {
        // What a sum of hours misses of a whole day by rounding is no work.
        let whole = (work / self.hours + 1e-9).floor();
        let today = (work - whole * self.hours).max(0.0);
        Moment { work_hours: work, clock_hours: 24.0 * self.calendar(whole) + self.begins + today }
    }

    /// The hours of work that have passed at a time by the clock; at night, what passed until the evening.
    pub(crate) fn work(&self, clock: f64) -> f64 {
        let day = (clock / 24.0).floor();
        let (week, of_week) = ((day / 7.0).floor(), day - 7.0 * (day / 7.0).floor());
        let per_week = f64::from(self.days_a_week);
        let before = week * per_week + of_week.min(per_week);
        let today =
            if of_week >= per_week { 0.0 } else { (clock - 24.0 * day - self.begins).clamp(0.0, self.hours) };
        before * self.hours + today
    }

    /// The moment at which so many hours of work have passed.
    pub fn moment(&self, work: f64) -> Moment {
        Moment { work_hours: work, clock_hours: self.clock(work) }
    }

    /// The moment of a time by the clock.
    pub(crate) fn at_clock(&self, clock: f64) -> Moment {
        Moment { work_hours: self.work(clock), clock_hours: clock }
    }

    /// The calendar day, from 0, of a working day, from 0.
    fn calendar(&self, working: f64) -> f64 {
        let per_week = f64::from(self.days_a_week);
        let week = (working / per_week).floor();
        7.0 * week + (working - per_week * week)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn work_stops_at_night_and_on_the_seventh_day() {
        let day = Day::default();
        let at = |work: f64| {
            let m = day.moment(work);
            (m.day(), m.hour())
        };
        assert_eq!(at(0.0), (1, 6.0));
        assert_eq!(at(10.0), (1, 16.0), "the evening of the first day");
        assert_eq!(at(10.5), (2, 6.5));
        assert_eq!(
            (day.onward(10.0).day(), day.onward(10.0).hour()),
            (2, 6.0),
            "work goes on in the morning"
        );
        assert_eq!(at(60.0), (6, 16.0));
        assert_eq!(at(61.0), (8, 7.0), "day 7 is not worked");
        assert!((day.work(24.0 * 6.0 + 12.0) - 60.0).abs() < 1e-9);
        assert!((day.work(20.0) - 10.0).abs() < 1e-9 && (day.work(24.0 + 7.0) - 11.0).abs() < 1e-9);
    }

    #[test]
    fn clock_and_work_go_back_and_forth() {
        let day = Day { hours: 11.5, begins: 5.0, days_a_week: 5 };
        for i in 0..400 {
            let work = f64::from(i) * 0.61;
            assert!((day.work(day.clock(work)) - work).abs() < 1e-9, "{work}");
        }
    }
}

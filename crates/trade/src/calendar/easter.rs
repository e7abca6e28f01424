//! Easter, and the Sunday from which Advent is counted.

use super::{Calendar, CalendarError, Day};
use julian::{Month, Weekday};

/// Easter Sunday of a year, by the Julian reckoning (`gregorian` false: England to 1752) or the Gregorian.
///
/// Julian: the rule of Meeus, with its paschal moon of nineteen years. Gregorian: the anonymous rule printed by Meeus, Jones
/// and Butcher. Both from memory; every year from 1450 to 1837 is held against two Python packages in the tests. In years
/// before AD 326 the rule is carried back to years that did not keep it.
///
/// # Errors
/// A year that is not counted, or before AD 1.
pub fn easter(year: i32, gregorian: bool) -> Result<Day, CalendarError> {
    if !(1..=super::LAST_YEAR).contains(&year) {
        return Err(CalendarError::Year { year });
    }
    let y = year as u32;
    let (month, day) = if gregorian { gregorian_rule(y) } else { julian_rule(y) };
    let month = if month == 3 { Month::March } else { Month::April };
    let calendar = if gregorian { Calendar::GREGORIAN } else { Calendar::JULIAN };
    calendar.day(year, month, day)
}

fn julian_rule(y: u32) -> (u32, u32) {
    let d = (19 * (y % 19) + 15) % 30;
    let e = (2 * (y % 4) + 4 * (y % 7) + 34 - d) % 7;
    ((d + e + 114) / 31, (d + e + 114) % 31 + 1)
}

fn gregorian_rule(y: u32) -> (u32, u32) {
    let (a, b, c) = (y % 19, y / 100, y % 100);
    let (d, e) = (b / 4, b % 4);
    let f = (b + 8) / 25;
    let g = (b + 1 - f) / 3;
    let h = (19 * a + b + 15 - d - g) % 30;
    let (i, k) = (c / 4, c % 4);
    let l = (32 + 2 * e + 2 * i - h - k) % 7;
    let m = (a + 11 * h + 22 * l) / 451;
    let sum = h + l + 114 - 7 * m;
    (sum / 31, sum % 31 + 1)
}

/// Advent Sunday: the Sunday nearest to St Andrew, 30 November.
///
/// # Errors
/// A year that is not counted.
pub fn advent(year: i32, calendar: Calendar) -> Result<Day, CalendarError> {
    Ok(calendar.day(year, Month::November, 27)?.on_or_after(Weekday::Sunday))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(year: i32, gregorian: bool) -> String {
        let calendar = if gregorian { Calendar::GREGORIAN } else { Calendar::JULIAN };
        calendar.date(easter(year, gregorian).unwrap()).to_string()
    }

    #[test]
    fn known_easters() {
        // The last is "Ash Wednesday 13 February 1688/9", from memory; Easter lies 46 days on.
        assert_eq!(told(1600, false), "23 March 1600");
        assert_eq!(told(1761, true), "22 March 1761");
        assert_eq!(told(1689, false), "31 March 1689");
    }

    #[test]
    fn easter_is_a_sunday_and_advent_too() {
        for year in 1..=2100 {
            for gregorian in [false, true] {
                assert_eq!(easter(year, gregorian).unwrap().weekday(), Weekday::Sunday, "{year}");
            }
            assert_eq!(advent(year, Calendar::JULIAN).unwrap().weekday(), Weekday::Sunday);
        }
        assert!(easter(0, false).is_err() && easter(2101, true).is_err());
    }

    #[test]
    fn years_from_lady_day_with_two_easters() {
        // Computed by another script with the same rule (arithmetic); the legal year from 25 March to 24 March.
        let mut two = Vec::new();
        for year in 1485..=1750 {
            let (first, next) = (easter(year, false).unwrap(), easter(year + 1, false).unwrap());
            let lady_day = |y| Calendar::JULIAN.day(y, Month::March, 25).unwrap();
            if first >= lady_day(year) && next < lady_day(year + 1) {
                two.push(year);
            }
        }
        assert_eq!(two, [1504, 1515, 1572, 1599, 1610, 1667, 1694, 1705]);
    }
}

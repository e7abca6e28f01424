//! Days, Easters and the Republic against Python packages and the crate that reckons for ICU4X, and days of the week of history.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use trade::calendar::{Calendar, Day, FIRST_YEAR, LAST_YEAR, RepublicanDate, easter, month_by_number};

/// What the reference script says, as lines of whole numbers; `None` where there is no Python with the packages.
fn lines(what: &str) -> Option<Vec<Vec<i32>>> {
    let python = outside::python_with("convertdate, juliandate")?;
    let answer = outside::script(&python, "dates.py", &[what.to_owned()], b"");
    let text = String::from_utf8(answer).unwrap();
    let line = |l: &str| l.split(' ').map(|n| n.parse().unwrap()).collect();
    Some(text.lines().map(line).collect())
}

#[test]
fn every_day_from_1450_to_1837_as_convertdate_and_juliandate_name_it() {
    let Some(all) = lines("days") else { return };
    assert_eq!(all.len(), 141_705);
    for line in all {
        let [number, oy, om, od, ny, nm, nd, weekday] = line[..] else { panic!("{line:?}") };
        let day = Day::from_number(number).unwrap();
        for (calendar, y, m, d) in [(Calendar::JULIAN, oy, om, od), (Calendar::GREGORIAN, ny, nm, nd)] {
            let date = calendar.date(day);
            assert_eq!((date.year, date.month.number() as i32, date.day as i32), (y, m, d), "{number}");
            assert_eq!(calendar.day(y, month_by_number(m as u32).unwrap(), d as u32), Ok(day));
        }
        assert_eq!(day.weekday().number() as i32 - 1, weekday, "{number}");
    }
}

#[test]
fn every_easter_from_1450_to_1837_as_convertdate_has_it() {
    let Some(all) = lines("easter") else { return };
    assert_eq!(all.len(), 388);
    for line in all {
        let [year, om, od, nm, nd] = line[..] else { panic!("{line:?}") };
        let told = |gregorian: bool| {
            let calendar = if gregorian { Calendar::GREGORIAN } else { Calendar::JULIAN };
            let date = calendar.date(easter(year, gregorian).unwrap());
            (date.month.number() as i32, date.day as i32)
        };
        assert_eq!(told(false), (om, od), "{year}");
        // Before the Gregorian calendar was made the package's rule divides negative numbers towards zero, and is wrong.
        if year >= 1583 {
            assert_eq!(told(true), (nm, nd), "{year}");
        }
    }
}

#[test]
fn every_day_of_the_republic_as_convertdate_names_it() {
    let Some(all) = lines("republic") else { return };
    assert_eq!(all.len(), 4848);
    for line in all {
        let [number, year, month, day] = line[..] else { panic!("{line:?}") };
        let date = RepublicanDate::of(Day::from_number(number).unwrap()).unwrap();
        assert_eq!((date.year as i32, date.month as i32, date.day as i32), (year, month, day), "{number}");
        assert_eq!(date.to_day(), Day::from_number(number));
    }
}

/// Day numbers from 1 January of the year 1, Gregorian, by which the crate behind ICU4X counts, as Julian day numbers. (That day is
/// Julian day number 1,721,426: arithmetic.)
const OF_ICU: i64 = 1_721_425;

#[test]
fn every_day_from_1450_to_1837_as_the_crate_behind_icu4x_names_it() {
    use calendrical_calculations::{gregorian, julian, rata_die::RataDie};
    let ends = [(1450, 1, Calendar::JULIAN), (1838, 1, Calendar::GREGORIAN)];
    let [first, last] = ends.map(|(y, m, c)| c.day(y, month_by_number(m).unwrap(), 1).unwrap().number());
    assert_eq!(last - first, 141_705);
    for number in first..last {
        let day = Day::from_number(number).unwrap();
        let fixed = RataDie::new(i64::from(number) - OF_ICU);
        for (calendar, theirs) in [
            (Calendar::JULIAN, julian::julian_from_fixed(fixed).unwrap()),
            (Calendar::GREGORIAN, gregorian::gregorian_from_fixed(fixed).unwrap()),
        ] {
            let date = calendar.date(day);
            assert_eq!((date.year, date.month.number() as u8, date.day as u8), theirs, "{number}");
        }
        let date = Calendar::JULIAN.date(day);
        let back = julian::fixed_from_julian(date.year, date.month.number() as u8, date.day as u8);
        assert_eq!(back, fixed, "{number}");
        // Day 1 of theirs was a Monday.
        assert_eq!(
            i64::from(day.weekday().number()) % 7,
            (i64::from(number) - OF_ICU).rem_euclid(7),
            "{number}"
        );
    }
}

#[test]
fn every_easter_from_1450_to_1837_as_the_crate_behind_icu4x_has_it() {
    use calendrical_calculations::{gregorian, julian};
    for year in 1450..=1837 {
        let ours = |is_gregorian| i64::from(easter(year, is_gregorian).unwrap().number()) - OF_ICU;
        assert_eq!(ours(false), julian::easter(year).to_i64_date(), "{year}");
        assert_eq!(ours(true), gregorian::easter(year).to_i64_date(), "{year}");
    }
}

/// Day, Julian day number, weekday, the other calendar's day and month. J: given in the Julian calendar. The two days of
/// September 1752 are in Brewer, *Phrase and Fable*; the weekdays of the other events are from memory, all are computed by
/// another script besides.
const DAYS: [(i32, u32, u32, char, i32, &str, &str); 29] = [
    (1415, 10, 25, 'J', 2_238_184, "Friday", "3 November"),
    (1485, 8, 22, 'J', 2_263_688, "Monday", "31 August"),
    (1558, 11, 17, 'J', 2_290_438, "Thursday", "27 November"),
    (1582, 10, 4, 'J', 2_299_160, "Thursday", "14 October"),
    (1582, 10, 15, 'G', 2_299_161, "Friday", "5 October"),
    (1603, 3, 24, 'J', 2_306_636, "Thursday", "3 April"),
    (1605, 11, 5, 'J', 2_307_593, "Tuesday", "15 November"),
    (1616, 4, 23, 'J', 2_311_415, "Tuesday", "3 May"),
    (1642, 8, 22, 'J', 2_321_032, "Monday", "1 September"),
    (1649, 1, 30, 'J', 2_323_385, "Tuesday", "9 February"),
    (1660, 5, 29, 'J', 2_327_522, "Tuesday", "8 June"),
    (1666, 9, 2, 'J', 2_329_809, "Sunday", "12 September"),
    (1685, 2, 6, 'J', 2_336_541, "Friday", "16 February"),
    (1688, 11, 5, 'J', 2_337_909, "Monday", "15 November"),
    (1689, 2, 13, 'J', 2_338_009, "Wednesday", "23 February"),
    (1700, 2, 29, 'J', 2_342_042, "Thursday", "11 March"),
    (1700, 3, 1, 'J', 2_342_043, "Friday", "12 March"),
    (1702, 3, 8, 'J', 2_342_780, "Sunday", "19 March"),
    (1714, 8, 1, 'J', 2_347_309, "Sunday", "12 August"),
    (1752, 9, 2, 'J', 2_361_221, "Wednesday", "13 September"),
    (1752, 9, 14, 'G', 2_361_222, "Thursday", "3 September"),
    (1760, 10, 25, 'G', 2_364_185, "Saturday", "14 October"),
    (1776, 7, 4, 'G', 2_369_916, "Thursday", "23 June"),
    (1789, 7, 14, 'G', 2_374_674, "Tuesday", "3 July"),
    (1793, 1, 21, 'G', 2_375_961, "Monday", "10 January"),
    (1805, 10, 21, 'G', 2_380_616, "Monday", "9 October"),
    (1815, 6, 18, 'G', 2_384_143, "Sunday", "6 June"),
    (1830, 6, 26, 'G', 2_389_630, "Saturday", "14 June"),
    (1837, 6, 20, 'G', 2_392_181, "Tuesday", "8 June"),
];

#[test]
fn days_of_the_week_of_history() {
    for (y, m, d, style, number, weekday, other) in DAYS {
        let (own, its_other) = match style {
            'J' => (Calendar::JULIAN, Calendar::GREGORIAN),
            _ => (Calendar::GREGORIAN, Calendar::JULIAN),
        };
        let day = own.day(y, month_by_number(m).unwrap(), d).unwrap();
        assert_eq!((day.number(), day.weekday().name()), (number, weekday), "{y}-{m}-{d}");
        assert_eq!(its_other.date(day).to_string(), format!("{other} {y}"));
    }
}

#[test]
fn easters_of_the_new_style() {
    // Arithmetic by another script with the rule of Meeus, Jones and Butcher.
    let rows = [
        (1583, "10 April"),
        (1600, "2 April"),
        (1700, "11 April"),
        (1753, "22 April"),
        (1761, "22 March"),
        (1776, "7 April"),
        (1789, "12 April"),
        (1793, "31 March"),
        (1800, "13 April"),
        (1815, "26 March"),
        (1818, "22 March"),
        (1829, "19 April"),
        (1830, "11 April"),
    ];
    for (year, day) in rows {
        let told = Calendar::GREGORIAN.date(easter(year, true).unwrap()).to_string();
        assert_eq!(told, format!("{day} {year}"));
    }
}

/// Both ways over every hundredth day that is counted, and the offset of the two calendars by the general rule.
#[test]
fn conversions_go_both_ways_to_the_ends() {
    for number in (0..=Day::LAST.number()).step_by(97) {
        let day = Day::from_number(number).unwrap();
        for calendar in [Calendar::JULIAN, Calendar::GREGORIAN] {
            let date = calendar.date(day);
            if (FIRST_YEAR..=LAST_YEAR).contains(&date.year) {
                assert_eq!(calendar.day(date.year, date.month, date.day), Ok(day), "{number}");
            }
        }
    }
    for (year, apart) in [(1450, 9), (1582, 10), (1699, 10), (1701, 11), (1801, 12), (1901, 13)] {
        let month = month_by_number(6).unwrap();
        let julian = Calendar::JULIAN.day(year, month, 1).unwrap();
        let gregorian = Calendar::GREGORIAN.day(year, month, 1).unwrap();
        assert_eq!(julian.number() - gregorian.number(), apart, "{year}");
    }
}

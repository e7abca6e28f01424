//! One day by both calendars, written as a fraction: 10/20 June 1650, 28 June/8 July.

use super::element::Element;
use super::lexicon::{is_of_day, month};
use super::numbers::small;
use super::parts::{Parsed, Tokens, meaning, nothing, skip, word};
use super::set::DaySet;
use super::style::{Reckoning, YearStart};
use crate::calendar::{Calendar, Month};
use winnow::combinator::{alt, opt};
use winnow::prelude::*;
use winnow::token::any;

/// The two days, the Old Style's first as it was written; the other way about where only that can be.
pub(super) fn both_styles(input: &mut Tokens<'_>) -> Parsed<Element> {
    skip(|w| matches!(w, "the" | "die"), input);
    let (first, second) = alt((one_month, two_months, month_first)).parse_next(input)?;
    let old_year = opt(two_years).parse_next(input)?;
    let is_possible = |old, new| !days(old, new, None).is_empty();
    let (old, new) = if !is_possible(first, second) && is_possible(second, first) {
        (second, first)
    } else {
        (first, second)
    };
    Ok(Element::BothStyles { old, new, old_year })
}

type DayAndMonth = (u32, Month);

/// 10/20 June; 10th/20th June.
fn one_month(input: &mut Tokens<'_>) -> Parsed<(DayAndMonth, DayAndMonth)> {
    let (first, second) = pair.parse_next(input)?;
    skip(is_of_day, input);
    let month = meaning(month).parse_next(input)?;
    Ok(((first, month), (second, month)))
}

/// June 10/20.
fn month_first(input: &mut Tokens<'_>) -> Parsed<(DayAndMonth, DayAndMonth)> {
    let month = meaning(month).parse_next(input)?;
    skip(|w| w == "the", input);
    let (first, second) = pair.parse_next(input)?;
    Ok(((first, month), (second, month)))
}

/// 28 June/8 July.
fn two_months(input: &mut Tokens<'_>) -> Parsed<(DayAndMonth, DayAndMonth)> {
    let first = day_and_month.parse_next(input)?;
    word("/").parse_next(input)?;
    skip(|w| w == "the", input);
    Ok((first, day_and_month.parse_next(input)?))
}

fn day_and_month(input: &mut Tokens<'_>) -> Parsed<DayAndMonth> {
    let day = small.parse_next(input)?.value;
    skip(is_of_day, input);
    Ok((day, meaning(month).parse_next(input)?))
}

/// 10/20, as one word, or with a stroke between words.
fn pair(input: &mut Tokens<'_>) -> Parsed<(u32, u32)> {
    let in_words = |i: &mut Tokens<'_>| {
        let first = small.parse_next(i)?.value;
        word("/").parse_next(i)?;
        Ok((first, small.parse_next(i)?.value))
    };
    alt((fraction, in_words)).parse_next(input)
}

fn fraction(input: &mut Tokens<'_>) -> Parsed<(u32, u32)> {
    let token = any.parse_next(input)?;
    let Some((first, second)) = token.word.split_once('/') else { return nothing() };
    let day = |text: &str| text.parse::<u32>().ok().filter(|day| (1..=31).contains(day) && text.len() <= 2);
    match (day(first), day(second)) {
        (Some(first), Some(second)) => Ok((first, second)),
        _ => nothing(),
    }
}

/// 1650/1 after the two days: the first of the years.
fn two_years(input: &mut Tokens<'_>) -> Parsed<i32> {
    match super::year::year(input)? {
        Element::DoubleYear { legal } if legal > 0 => Ok(legal),
        _ => nothing(),
    }
}

/// The days that bear both names, in the years that are written if any are.
pub(super) fn days(old: DayAndMonth, new: DayAndMonth, old_year: Option<i32>) -> DaySet {
    let mut set = DaySet::of_day(Calendar::JULIAN, old.1, old.0);
    set.keep(&DaySet::of_day(Calendar::GREGORIAN, new.1, new.0));
    let Some(year) = old_year else { return set };
    let of = |calendar, start, year| {
        let mut days = DaySet::none();
        if let Some(range) = Reckoning::plain(calendar, start, "").year(year) {
            days.add(range);
        }
        days
    };
    let mut in_year = of(Calendar::JULIAN, YearStart::LadyDay, year);
    in_year.join(&of(Calendar::JULIAN, YearStart::January, year));
    set.keep(&in_year);
    set.keep(&of(Calendar::GREGORIAN, YearStart::January, year + 1));
    set
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_days_lie_ten_apart_and_then_eleven() {
        let years = |old, new| {
            let all = days((old, Month::June), (new, Month::June), None);
            let year = |d: Option<crate::calendar::Day>| Calendar::GREGORIAN.date(d.unwrap()).year;
            (year(all.first()), year(all.last()), all.days())
        };
        // 29 February 1500 and 1700, Old Style, are the days on which a tenth and an eleventh day were lost.
        assert_eq!(years(10, 20), (1500, 1699, 200));
        assert_eq!(years(10, 21), (1700, 1799, 100));
        assert!(days((10, Month::June), (25, Month::June), None).is_empty());
    }

    #[test]
    fn two_years_are_the_old_and_the_new() {
        let told = |old, new| {
            let all = days(old, new, Some(1650));
            assert_eq!(all.days(), 1);
            Calendar::JULIAN.date(all.first().unwrap()).to_string()
        };
        assert_eq!(told((31, Month::December), (10, Month::January)), "31 December 1650");
        assert_eq!(told((10, Month::January), (20, Month::January)), "10 January 1651");
    }
}

//! The Roman calendar: Kalends, Nones and Ides, counted back, both ends counted.

use super::element::{Anchor, Element};
use super::lexicon::{anchor, month};
use super::numbers::small;
use super::parts::{Parsed, Tokens, meaning, nothing, skip};
use crate::calendar::{Calendar, Day, Month};
use winnow::combinator::{alt, opt};
use winnow::prelude::*;
use winnow::token::any;

/// Pridie Kal. Ian.; quarto idus Iulij; Ipsis Calendis Januarii; Id. Mart.
pub(super) fn roman_day(input: &mut Tokens<'_>) -> Parsed<Element> {
    skip(|w| matches!(w, "ante" | "diem" | "die" | "ipsis" | "ipsas" | "ad" | "in"), input);
    let count = opt(alt((pridie, small.map(|n| n.value)))).parse_next(input)?;
    let mut ahead = input.clone();
    let words_between = skip(|w| matches!(w, "ante" | "diem"), &mut ahead);
    if words_between > 0 {
        *input = ahead;
    }
    let token = any.parse_next(input)?;
    let Some(anchor) = anchor(&token.word) else { return nothing() };
    skip(|w| matches!(w, "mensis" | "of"), input);
    let month = meaning(month).parse_next(input)?;
    Ok(Element::Roman { anchor, count: count.unwrap_or(1), month })
}

fn pridie(input: &mut Tokens<'_>) -> Parsed<u32> {
    any.verify(|t: &&super::tokens::Token| matches!(t.word.as_str(), "pridie" | "prid" | "pr"))
        .value(2)
        .parse_next(input)
}

/// The day of the month of an anchor.
fn day_of(anchor: Anchor, month: Month) -> u32 {
    let is_late = matches!(month, Month::March | Month::May | Month::July | Month::October);
    match (anchor, is_late) {
        (Anchor::Kalends, _) => 1,
        (Anchor::Nones, false) => 5,
        (Anchor::Nones, true) => 7,
        (Anchor::Ides, false) => 13,
        (Anchor::Ides, true) => 15,
    }
}

/// The largest count before an anchor: the Nones follow the Kalends, the Ides the Nones, the Kalends the Ides of the month before.
pub(super) fn most(anchor: Anchor, month: Month) -> u32 {
    match anchor {
        Anchor::Nones => day_of(anchor, month) - 1,
        Anchor::Ides => 8,
        Anchor::Kalends => {
            let before = month.pred().unwrap_or(Month::December);
            let last = match before.number() {
                2 => 28,
                4 | 6 | 9 | 11 => 30,
                _ => 31,
            };
            last + 1 - day_of(Anchor::Ides, before)
        }
    }
}

/// The days so called whose Kalends, Nones or Ides fall in this year. In leap years VI Kal. Mart. is 24 February and the doubled
/// sixth day the 25th, or the other way about, so both are given; from VII on they are counted as in other years.
pub(super) fn days(
    anchor: Anchor,
    count: u32,
    month: Month,
    year: i32,
    calendar: Calendar,
) -> [Option<Day>; 2] {
    let Ok(anchor_day) = calendar.day(year, month, day_of(anchor, month)) else { return [None, None] };
    let back = anchor_day.plus(1 - count as i32);
    let is_leap = calendar.day(year, Month::February, 29).is_ok();
    if anchor == Anchor::Kalends && month == Month::March && is_leap {
        return match count {
            6 => [Some(back.plus(-1)), Some(back)],
            7.. => [Some(back.plus(-1)), None],
            _ => [Some(back), None],
        };
    }
    [Some(back), None]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counted_back_by_arithmetic() {
        use Anchor::{Ides, Kalends, Nones};
        use Month as M;
        let cases = [
            (Kalends, 2, M::January, "31 December 1700"),
            (Kalends, 19, M::January, "14 December 1700"),
            (Kalends, 8, M::January, "25 December 1700"),
            (Kalends, 15, M::December, "17 November 1701"),
            (Kalends, 3, M::February, "30 January 1701"),
            (Kalends, 16, M::September, "17 August 1701"),
            (Kalends, 10, M::October, "22 September 1701"),
            (Ides, 6, M::March, "10 March 1701"),
            (Ides, 1, M::March, "15 March 1701"),
            (Nones, 3, M::November, "3 November 1701"),
            (Nones, 1, M::October, "7 October 1701"),
            (Nones, 1, M::April, "5 April 1701"),
            (Nones, 4, M::July, "4 July 1701"),
            (Ides, 7, M::August, "7 August 1701"),
            (Kalends, 5, M::March, "25 February 1701"),
        ];
        for (anchor, count, month, wanted) in cases {
            let told = days(anchor, count, month, 1701, Calendar::JULIAN)[0].unwrap();
            assert_eq!(Calendar::JULIAN.date(told).to_string(), wanted);
        }
        let leap = |count| {
            let both = days(Kalends, count, M::March, 1700, Calendar::JULIAN);
            both.iter().flatten().map(|d| Calendar::JULIAN.date(*d).day).collect::<Vec<_>>()
        };
        assert_eq!([leap(5), leap(6), leap(7), leap(9)], [vec![26], vec![24, 25], vec![23], vec![21]]);
        assert_eq!((most(Kalends, M::January), most(Kalends, M::December)), (19, 18));
        assert_eq!((most(Nones, M::March), most(Nones, M::April)), (6, 4));
    }
}

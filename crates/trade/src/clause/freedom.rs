//! Years of freedom: how the Commonwealth of England counted in the place of a reign.

use super::element::Element;
use super::lexicon::is_year;
use super::numbers::small;
use super::parts::{Parsed, Tokens, one, skip};
use crate::calendar::{Calendar, Day, DayRange, month_by_number};
use winnow::prelude::*;

/// The last year that was counted: in its course, on 16 December 1653, the Protectorate began (from memory).
pub(super) const LAST: u32 = 5;

/// In the first yeare of freedome, by God's blessing restored.
pub(super) fn year(input: &mut Tokens<'_>) -> Parsed<Element> {
    skip(|w| w == "the", input);
    let number = small.parse_next(input)?.value;
    one(is_year).parse_next(input)?;
    skip(|w| matches!(w, "of" | "the" | "our" | "their" | "england" | "england's" | "englands"), input);
    one(is_freedom).parse_next(input)?;
    skip(|w| matches!(w, "by" | "god" | "gods" | "blessing" | "restored"), input);
    Ok(Element::Freedom(number))
}

fn is_freedom(word: &str) -> bool {
    matches!(word, "freedom" | "freedome" | "freedoms" | "liberty" | "libertie" | "libertye")
}

/// The days of a year of freedom, from 30 January to 29 January, the last cut by the Protectorate.
///
/// That years were so counted: the seal of 1648, "in the first yeare of freedome" (J. J. Bond, *Handy-Book for Verifying Dates*, 1889,
/// preface, seen). From which day is told by no source that was seen; the seal bears the legal year 1648, so the first year began
/// before 25 March 1648/9, and the day of the king's death is taken, from which the Interregnum is counted.
pub(super) fn days(number: u32) -> Option<DayRange> {
    if !(1..=LAST).contains(&number) {
        return None;
    }
    let on =
        |year, month, day| -> Option<Day> { Calendar::JULIAN.day(year, month_by_number(month)?, day).ok() };
    let year = 1648 + i32::try_from(number).ok()?;
    let last = on(year + 1, 1, 29)?.min(on(1653, 12, 15)?);
    DayRange::new(on(year, 1, 30)?, last)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn five_years_without_a_gap_to_the_protectorate() {
        let all: Vec<DayRange> = (0..=LAST + 1).filter_map(days).collect();
        assert_eq!(all.len(), LAST as usize);
        assert!(all.windows(2).all(|pair| pair[0].last.plus(1) == pair[1].first));
        let name = |day| Calendar::JULIAN.date(day).to_string();
        assert_eq!(
            (name(all[0].first), name(all[4].last)),
            ("30 January 1649".into(), "15 December 1653".into())
        );
    }
}

//! What may have been meant by one part of a date, if one slip was made in it.

use crate::calendar::{Month, month_by_number};
use crate::clause::{Element, Written};
use crate::numerals::{Meant, Prior, arabic_meant, meant, read};
use julian::Weekday;
use std::ops::RangeInclusive;

/// A part as it may have been meant.
#[derive(Debug, Clone, PartialEq)]
pub struct Mended {
    /// The place of the part among all parts.
    pub part: usize,
    /// As it stands.
    pub set: String,
    /// As it may have been meant.
    pub meant: String,
    /// The slip, in words.
    pub reason: String,
}

/// One way of mending: the element, how it is told, the slip, and how likely such a slip is (the house's proposal; no counts are
/// published).
pub(super) struct Way {
    pub(super) element: Element,
    pub(super) meant: String,
    pub(super) reason: String,
    pub(super) weight: f64,
}

/// The chance that a printed date has a slip at all, where nothing better is said of its kind.
const SLIP: f64 = 0.03;

/// Every way of mending an element by one slip, years within `between`.
pub(super) fn ways(element: &Element, between: &RangeInclusive<i32>) -> Vec<Way> {
    match element {
        Element::Year { year, written } => years(*year, written, between),
        Element::DoubleYear { legal } => double_years(*legal, between),
        Element::Day { day, month } => days(*day, *month),
        Element::Weekday(weekday) => weekdays(*weekday),
        Element::Reign { sovereigns, number, queen: None } => reign_years(*number)
            .into_iter()
            .map(|(number, reason, weight)| Way {
                element: Element::Reign { sovereigns: sovereigns.clone(), number, queen: None },
                meant: format!("year {number} of the reign"),
                reason,
                weight,
            })
            .collect(),
        _ => Vec::new(),
    }
}

fn years(year: i32, written: &Written, between: &RangeInclusive<i32>) -> Vec<Way> {
    let prior = Prior { between: between.clone(), sound: 1.0 - SLIP };
    let all = match written {
        Written::Roman(text) => read(text).map(|n| meant(&n, &prior)).unwrap_or_default(),
        Written::Figures(text) => arabic_meant(text, &prior),
        Written::Words => {
            let steps = [1, -1, 10, -10, 100, -100];
            let near = steps.into_iter().map(|s| year + s).filter(|y| between.contains(y));
            return near
                .map(|year| Way {
                    element: Element::Year { year, written: Written::Words },
                    meant: year.to_string(),
                    reason: "one word of the year set for another".to_owned(),
                    weight: SLIP * 0.05,
                })
                .collect();
        }
    };
    let mended = slips_of(all, year);
    mended
        .into_iter()
        .map(|m| Way {
            element: Element::Year { year: m.year, written: Written::Figures(m.year.to_string()) },
            meant: if m.as_set == m.year.to_string() {
                m.as_set
            } else {
                format!("{} ({})", m.as_set, m.year)
            },
            reason: m.slip.map_or_else(|| format!("no slip: read {}", m.system.name()), |s| s.to_string()),
            weight: m.plausibility,
        })
        .collect()
}

fn double_years(legal: i32, between: &RangeInclusive<i32>) -> Vec<Way> {
    let prior = Prior { between: between.clone(), sound: 1.0 - SLIP };
    let all = slips_of(arabic_meant(&legal.to_string(), &prior), legal);
    all.into_iter()
        .map(|m| Way {
            element: Element::DoubleYear { legal: m.year },
            meant: format!("{}/{}", m.year, (m.year + 1) % 10),
            reason: m.slip.map(|s| s.to_string()).unwrap_or_default(),
            weight: m.plausibility,
        })
        .collect()
}

/// What else than `set` may have been meant, all of it together being as likely as a slip at all.
fn slips_of(all: Vec<Meant>, set: i32) -> Vec<Meant> {
    let others: Vec<Meant> = all.into_iter().filter(|m| m.year != set).collect();
    let whole: f64 = others.iter().map(|m| m.plausibility).sum();
    others.into_iter().map(|m| Meant { plausibility: SLIP * m.plausibility / whole, ..m }).collect()
}

/// Another day of the month by one slip in its figures, or another month whose name is easily set for this one.
fn days(day: u32, month: Month) -> Vec<Way> {
    let prior = Prior { between: 1..=31, sound: 1.0 - SLIP };
    let all = slips_of(arabic_meant(&day.to_string(), &prior), day as i32);
    let mut ways: Vec<Way> = all
        .into_iter()
        .map(|m| Way {
            element: Element::Day { day: m.year as u32, month },
            meant: format!("{} {}", m.year, month.name()),
            reason: m.slip.map(|s| s.to_string()).unwrap_or_default(),
            weight: m.plausibility,
        })
        .collect();
    let alike: &[u32] = match month.number() {
        1 | 7 => &[6],
        3 => &[5],
        5 => &[3],
        6 => &[7, 1],
        9..=12 => &[9, 10, 11, 12],
        _ => &[],
    };
    let others = alike.iter().filter(|n| **n != month.number()).filter_map(|n| month_by_number(*n));
    ways.extend(others.map(|other| Way {
        element: Element::Day { day, month: other },
        meant: format!("{day} {}", other.name()),
        reason: format!("{} set for {}, a name like it", month.name(), other.name()),
        weight: SLIP * 0.05,
    }));
    ways
}

fn weekdays(weekday: Weekday) -> Vec<Way> {
    let all = (0..7).map(Weekday::for_jdn).filter(|w| *w != weekday);
    all.map(|other| Way {
        element: Element::Weekday(other),
        meant: other.name().to_owned(),
        reason: "the weekday reckoned wrongly".to_owned(),
        weight: SLIP / 6.0,
    })
    .collect()
}

/// Another year of the reign: one off, which is a slip of counting, or one slip in the figures.
fn reign_years(number: u32) -> Vec<(u32, String, f64)> {
    let prior = Prior { between: 1..=99, sound: 1.0 - SLIP };
    let off = |n: &u32| n.abs_diff(number) == 1;
    let counted = [number.saturating_sub(1), number + 1].into_iter().filter(|n| *n > 0);
    let mut all: Vec<(u32, String, f64)> = counted
        .map(|n| {
            (
                n,
                "the year of the reign counted one off, as when its anniversary is overlooked".to_owned(),
                SLIP * 0.4,
            )
        })
        .collect();
    for m in slips_of(arabic_meant(&number.to_string(), &prior), number as i32) {
        let n = m.year as u32;
        if let Some(slip) = m.slip.filter(|_| !off(&n) && n != number) {
            all.push((n, slip.to_string(), m.plausibility));
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_is_mended() {
        let between = 1450..=1830;
        let told =
            |element: Element| ways(&element, &between).into_iter().map(|w| w.meant).collect::<Vec<_>>();
        let roman = Element::Year { year: 2101, written: Written::Roman("MDDCI".into()) };
        assert!(told(roman).contains(&"MDCCI (1701)".to_owned()));
        let figures = Element::Year { year: 1710, written: Written::Figures("1710".into()) };
        assert!(told(figures).contains(&"1701".to_owned()));
        assert!(told(Element::DoubleYear { legal: 1684 }).contains(&"1648/9".to_owned()));
        assert!(told(Element::Day { day: 19, month: Month::June }).contains(&"16 June".to_owned()));
        assert!(told(Element::Day { day: 19, month: Month::June }).contains(&"19 July".to_owned()));
        assert_eq!(told(Element::Weekday(Weekday::Monday)).len(), 6);
        let reign = Element::Reign { sovereigns: Vec::new(), number: 13, queen: None };
        assert!(told(reign).contains(&"year 14 of the reign".to_owned()));
        assert!(told(Element::Style { is_new: true }).is_empty());
    }
}

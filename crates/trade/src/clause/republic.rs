//! Dates of the French Republic in a clause.

use super::element::Element;
use super::lexicon::republican_month;
use super::numbers::{figures, number};
use super::parts::{Parsed, Tokens, meaning, skip};
use crate::calendar::RepublicanDate;
use winnow::combinator::{alt, preceded};
use winnow::prelude::*;

/// 9 thermidor an II; 6e jour complémentaire an III; an VII.
pub(super) fn day_or_year(input: &mut Tokens<'_>) -> Parsed<Element> {
    alt((day, year.map(Element::RepublicanYear))).parse_next(input)
}

fn day(input: &mut Tokens<'_>) -> Parsed<Element> {
    skip(|w| w == "le", input);
    let day = figures.verify(|n| (1..=99).contains(&n.value)).parse_next(input)?;
    skip(|w| matches!(w, "jour" | "de" | "du"), input);
    let month = meaning(republican_month).parse_next(input)?;
    skip(|w| matches!(w, "de" | "l'an" | "an" | "annee" | "l'annee"), input);
    let year = number.parse_next(input)?;
    Ok(Element::Republican(RepublicanDate { year: year.value, month, day: day.value }))
}

fn year(input: &mut Tokens<'_>) -> Parsed<u32> {
    let is_year = |w: &str| matches!(w, "an" | "l'an");
    preceded(super::parts::one(is_year), number.verify(|n| (1..=99).contains(&n.value)))
        .map(|n| n.value)
        .parse_next(input)
}

//! Days of a month in a clause, and a month by itself.

use super::element::Element;
use super::lexicon::{is_of_day, is_year, month};
use super::numbers::small;
use super::parts::{Parsed, Tokens, meaning, nothing, one, skip};
use super::tokens::Token;
use winnow::combinator::{alt, opt};
use winnow::prelude::*;
use winnow::token::any;

/// The nineteenth day of February; 8 Martii; March the 8th; ultimo Martii.
pub(super) fn day_of_month(input: &mut Tokens<'_>) -> Parsed<Element> {
    alt((number_then_month, last_of_month, month_then_number)).parse_next(input)
}

fn number_then_month(input: &mut Tokens<'_>) -> Parsed<Element> {
    skip(|w| matches!(w, "the" | "die" | "this" | "le"), input);
    let number = small.parse_next(input)?;
    skip(is_of_day, input);
    let month = meaning(month).parse_next(input)?;
    Ok(Element::Day { day: number.value, month })
}

fn last_of_month(input: &mut Tokens<'_>) -> Parsed<Element> {
    skip(|w| w == "the", input);
    any.verify(|t: &&Token| matches!(t.word.as_str(), "ultimo" | "ultima" | "last")).parse_next(input)?;
    skip(is_of_day, input);
    meaning(month).map(Element::LastOf).parse_next(input)
}

fn month_then_number(input: &mut Tokens<'_>) -> Parsed<Element> {
    skip(|w| w == "mensis", input);
    let month = meaning(month).parse_next(input)?;
    skip(|w| matches!(w, "the" | "die" | "day" | "ye"), input);
    let number = small.parse_next(input)?;
    // "March five and twentieth year of our reign" is a month and a year of a reign.
    let mut ahead = input.clone();
    let year: Parsed<&Token> = one(is_year).parse_next(&mut ahead);
    if year.is_ok() {
        return nothing();
    }
    opt(one(|w| matches!(w, "day" | "daye"))).parse_next(input)?;
    Ok(Element::Day { day: number.value, month })
}

/// A month by itself, written as a name; "may" and "march" in small letters are verbs.
pub(super) fn month_alone(input: &mut Tokens<'_>) -> Parsed<Element> {
    let token = any.parse_next(input)?;
    let is_name = token.raw.chars().next().is_some_and(|c| c.is_uppercase() || c.is_ascii_digit());
    match month(&token.word) {
        Some(month) if is_name => Ok(Element::Month(month)),
        _ => nothing(),
    }
}

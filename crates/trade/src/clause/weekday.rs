//! Days of the week in a clause, by themselves and beside a feast.

use super::element::{Element, Shift, Side};
use super::feast::named_after_words;
use super::lexicon::{feria, latin_weekday, weekday};
use super::numbers::small;
use super::parts::{Parsed, Tokens, meaning, nothing, skip, word};
use winnow::combinator::{alt, preceded};
use winnow::prelude::*;
use winnow::token::any;

/// A day of the week, in English, or in Latin after "die" or "feria".
pub(super) fn a_weekday(input: &mut Tokens<'_>) -> Parsed<julian::Weekday> {
    alt((
        meaning(weekday),
        preceded(word("die"), meaning(latin_weekday)),
        preceded(word("feria"), small.verify_map(|n| feria(n.value))),
    ))
    .parse_next(input)
}

/// The Monday next after the feast of St Luke.
pub(super) fn beside(input: &mut Tokens<'_>) -> Parsed<Element> {
    let weekday = a_weekday.parse_next(input)?;
    let is_next = |w: &str| matches!(w, "next" | "nexte" | "then" | "immediately" | "proxima" | "proximo");
    skip(is_next, input);
    let side = any.parse_next(input)?;
    let side = match side.word.as_str() {
        "after" | "post" | "following" => Side::After,
        "before" | "ante" | "afore" => Side::Before,
        _ => return nothing(),
    };
    skip(is_next, input);
    match named_after_words(input)? {
        Element::Feast { feast, shift: Shift::On } => Ok(Element::Beside { weekday, side, feast }),
        _ => nothing(),
    }
}

//! Years of a reign in a clause.

use super::element::Element;
use super::error::ClauseError;
use super::lexicon::{is_of_reign, is_reign, is_year};
use super::names::name;
use super::numbers::small;
use super::parts::{Parsed, Tokens, nothing, one, skip, word};
use super::tokens::Token;
use crate::numerals::Span;
use crate::reigns::{Reign, Sovereign, joint_year};
use winnow::combinator::{alt, opt};
use winnow::prelude::*;
use winnow::token::any;

/// The five and twentieth year of our reign; anno regni Georgii II vicesimo; 7 Hen. 7; of Scotland the fortieth.
pub(super) fn year(input: &mut Tokens<'_>, is_first: bool) -> Parsed<Element> {
    alt((year_of_reign, of_scotland, anno_regni, anno_of, move |i: &mut Tokens<'_>| cited(i, is_first)))
        .parse_next(input)
}

/// A number, or the two of Philip and Mary.
fn numbers(input: &mut Tokens<'_>) -> Parsed<(u32, Option<u32>)> {
    let first = small.parse_next(input)?.value;
    let second = opt(second).parse_next(input)?;
    Ok((first, second))
}

fn second(input: &mut Tokens<'_>) -> Parsed<u32> {
    one(|w| matches!(w, "and" | "et")).parse_next(input)?;
    skip(|w| w == "the", input);
    small.map(|n| n.value).parse_next(input)
}

fn told(sovereigns: Vec<Sovereign>, (number, queen): (u32, Option<u32>)) -> Parsed<Element> {
    let is_pair = sovereigns.is_empty() || sovereigns.contains(&Sovereign::PhilipAndMary);
    if queen.is_some() && !is_pair {
        return nothing();
    }
    let sovereigns = if queen.is_some() { vec![Sovereign::PhilipAndMary] } else { sovereigns };
    Ok(Element::Reign { sovereigns, number, queen })
}

fn year_of_reign(input: &mut Tokens<'_>) -> Parsed<Element> {
    skip(|w| w == "the", input);
    let numbers = numbers.parse_next(input)?;
    one(is_year).parse_next(input)?;
    skip(is_of_reign, input);
    let has_reign: Option<&Token> = opt(one(is_reign)).parse_next(input)?;
    let mut ahead = input.clone();
    skip(is_of_reign, &mut ahead);
    let named = name(&mut ahead).ok();
    if named.is_some() {
        *input = ahead;
    } else if has_reign.is_none() {
        return nothing();
    }
    told(named.unwrap_or_default(), numbers)
}

/// And of Scotland the fortieth: of James VI.
fn of_scotland(input: &mut Tokens<'_>) -> Parsed<Element> {
    skip(|w| matches!(w, "and" | "of"), input);
    one(|w| matches!(w, "scotland" | "scotlande" | "scotiae")).parse_next(input)?;
    skip(|w| w == "the", input);
    let number = small.parse_next(input)?;
    Ok(Element::Reign { sovereigns: vec![Sovereign::JamesViScots], number: number.value, queen: None })
}

/// Anno regni regis Georgii II vicesimo sexto; anno regni nostri quinto.
fn anno_regni(input: &mut Tokens<'_>) -> Parsed<Element> {
    skip(|w| matches!(w, "anno" | "annoque"), input);
    word("regni").parse_next(input)?;
    skip(is_of_reign, input);
    let named = opt(name).parse_next(input)?.unwrap_or_default();
    skip(
        |w| {
            is_of_reign(w) || matches!(w, "anno" | "annis" | "angliae" | "scotiae" | "franciae" | "hiberniae")
        },
        input,
    );
    let numbers = numbers.parse_next(input)?;
    told(named, numbers)
}

/// Anno vicesimo Georgii II.
fn anno_of(input: &mut Tokens<'_>) -> Parsed<Element> {
    one(|w| matches!(w, "anno" | "annis")).parse_next(input)?;
    let numbers = numbers.parse_next(input)?;
    skip(is_of_reign, input);
    let named = name.parse_next(input)?;
    told(named, numbers)
}

/// 7 Hen. 7, as statutes are cited. "Mar." is rather March, unless the clause is that citation alone.
fn cited(input: &mut Tokens<'_>, is_first: bool) -> Parsed<Element> {
    let numbers = numbers.parse_next(input)?;
    let abbreviation = input.first().map(|t: &Token| t.word.clone()).unwrap_or_default();
    let named = name.parse_next(input)?;
    let is_end = {
        let mut ahead = input.clone();
        let next: Parsed<&Token> = any.parse_next(&mut ahead);
        next.map_or(true, |t| matches!(t.word.as_str(), "c" | "cap" | "stat" | "st" | "sess" | "s"))
    };
    if abbreviation == "mar" && numbers.1.is_none() && !(is_first && is_end) {
        return nothing();
    }
    told(named, numbers)
}

/// Refuses a year that none of those named had.
pub(super) fn check(
    sovereigns: &[Sovereign],
    number: u32,
    queen: Option<u32>,
    span: Span,
) -> Result<(), ClauseError> {
    if let Some(queen) = queen {
        return match joint_year(number, queen) {
            Some(_) => Ok(()),
            None => Err(ClauseError::NoSuchJointYear { king: number, queen, span }),
        };
    }
    let longest = sovereigns.iter().filter_map(|s| Reign::of(*s)).max_by_key(|r| r.last_year);
    match longest {
        Some(reign) if number == 0 || number > reign.last_year => {
            Err(ClauseError::NoSuchYearOfReign { name: reign.name, number, last: reign.last_year, span })
        }
        _ => Ok(()),
    }
}

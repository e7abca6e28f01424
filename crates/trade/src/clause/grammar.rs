//! The grammar of a dating clause: its parts in any order, whatever stands between.

use super::element::{Element, Placed};
use super::error::ClauseError;
use super::parts::{Parsed, Tokens, nothing};
use super::refused::{check, last_of_kalends, nothing_read};
use super::tokens::{Token, tokens};
use super::unread::{is_plain, put};
use super::{both, feast, freedom, latin, month_day, reign, republic, weekday, year};
use crate::numerals::Span;
use winnow::combinator::alt;
use winnow::prelude::*;
use winnow::token::any;

/// A clause that was read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Clause {
    /// As it was given.
    pub text: String,
    /// What it is made of, in order; at least one.
    pub elements: Vec<Placed>,
    /// Words that say nothing of when, as far as could be read, with their places.
    pub unread: Vec<(String, Span)>,
}

/// Reads a dating clause.
///
/// The parts may stand in any order and among other words ("Given at Our Court at Merrin the nineteenth day of February, in the
/// five and twentieth year of Our Reign"); what is between them is left, and told in [`Clause::unread`]. English and Latin, words
/// and figures may be mixed. Cost grows with the length of the clause, which is at most [`super::MOST_CHARACTERS`].
///
/// # Errors
/// Where nothing in it is a date, or a part of it is a day or a year that never was; with its place.
///
/// ```
/// use trade::clause::{Element, parse};
/// let clause = parse("8 Martii 1648/9").unwrap();
/// assert_eq!(clause.elements.len(), 2);
/// assert_eq!(clause.elements[1].element, Element::DoubleYear { legal: 1648 });
/// ```
pub fn parse(text: &str) -> Result<Clause, ClauseError> {
    let tokens = tokens(text)?;
    let characters: Vec<char> = text.chars().collect();
    let words = |span: Span| characters[span.start..span.end].iter().collect::<String>();
    last_of_kalends(&tokens, &words)?;
    let mut input = Tokens::new(&tokens);
    let mut elements: Vec<Placed> = Vec::new();
    let mut unread: Vec<(String, Span)> = Vec::new();
    while let Some(first) = input.first() {
        let start = first.span.start;
        let before = input.len();
        let mut ahead = input.clone();
        if let Ok(found) = element(&mut ahead, elements.is_empty()) {
            let taken = before - ahead.len();
            let end = tokens[tokens.len() - before + taken - 1].span.end;
            let span = Span { start, end };
            check(&found, span, &words(span))?;
            elements.push(Placed { element: found, span, words: words(span) });
            input = ahead;
            continue;
        }
        let skipped: Parsed<&Token> = any.parse_next(&mut input);
        if let Ok(token) = skipped {
            put(&mut unread, token, &words);
        }
    }
    if elements.is_empty() {
        return Err(nothing_read(&tokens, &words));
    }
    unread.retain(|(text, _)| !text.split_whitespace().all(is_plain));
    Ok(Clause { text: text.trim().to_owned(), elements, unread })
}

/// One element where the input stands.
fn element(input: &mut Tokens<'_>, is_first: bool) -> Parsed<Element> {
    let reign = move |i: &mut Tokens<'_>| reign::year(i, is_first);
    let days = alt((
        latin::roman_day,
        month_day::day_of_month,
        feast::feast,
        weekday::a_weekday.map(Element::Weekday),
    ));
    // What is longer comes before what it begins with.
    alt((
        alt((style, both::both_styles, republic::day_or_year, weekday::beside)),
        alt((feast::term, freedom::year, reign, days, year::year, month_day::month_alone)),
    ))
    .parse_next(input)
}

/// O.S., N.S., stilo veteri, stylo novo, Old Style.
fn style(input: &mut Tokens<'_>) -> Parsed<Element> {
    let is_style =
        |w: &str| matches!(w, "stilo" | "stylo" | "stile" | "style" | "styl" | "stil" | "s" | "st");
    let first = any.parse_next(input)?;
    let second = any.parse_next(input)?;
    let (kind, is_initials) = match (first.word.as_str(), second.word.as_str()) {
        (kind, "s") => (kind, true),
        (a, b) if is_style(a) && a != "s" => (b, false),
        (a, b) if is_style(b) => (a, false),
        _ => return nothing(),
    };
    match (kind, is_initials) {
        ("n" | "new", _) | ("novo" | "nov" | "novi", false) => Ok(Element::Style { is_new: true }),
        ("o" | "old", _) | ("veteri" | "vetere" | "vet" | "v" | "veteris", false) => {
            Ok(Element::Style { is_new: false })
        }
        _ => nothing(),
    }
}

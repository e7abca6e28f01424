//! The grammar of a dating clause: its parts in any order, whatever stands between.

use super::element::{Element, Placed, Side};
use super::error::ClauseError;
use super::lexicon::{latin_weekday, month, weekday};
use super::parts::{Parsed, Tokens, nothing, skip, word};
use super::tokens::{Token, tokens};
use super::{feast, latin, reign, republic, year};
use crate::numerals::Span;
use winnow::combinator::{alt, opt, preceded};
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

/// Adds a word that was not read to the stretch before it, if it follows at once.
fn put(unread: &mut Vec<(String, Span)>, token: &Token, words: &impl Fn(Span) -> String) {
    match unread.last_mut() {
        Some((text, span)) if span.end + 2 >= token.span.start => {
            span.end = token.span.end;
            *text = words(*span);
        }
        _ => unread.push((words(token.span), token.span)),
    }
}

/// Words of every clause, that need not be told as unread.
fn is_plain(word: &str) -> bool {
    let word: String = word.to_lowercase().chars().filter(|c| c.is_alphabetic()).collect();
    matches!(
        word.as_str(),
        "" | "the"
            | "of"
            | "in"
            | "at"
            | "on"
            | "and"
            | "anno"
            | "annoque"
            | "domini"
            | "dom"
            | "given"
            | "dated"
            | "datum"
            | "data"
            | "day"
            | "year"
            | "yeare"
            | "our"
            | "lord"
            | "god"
            | "this"
            | "being"
            | "a"
            | "d"
            | "ad"
            | "die"
            | "mensis"
            | "vero"
            | "et"
            | "printed"
            | "finis"
            | "upon"
            | "from"
            | "feast"
            | "by"
            | "reign"
            | "yeere"
            | "grace"
            | "christi"
            | "salutis"
            | "i"
            | "ab"
    )
}

/// Refuses "ultimo Kalendis".
fn last_of_kalends(tokens: &[Token], words: &impl Fn(Span) -> String) -> Result<(), ClauseError> {
    let found = tokens.windows(2).find(|pair| {
        matches!(pair[0].word.as_str(), "ultimo" | "ultima")
            && super::lexicon::anchor(&pair[1].word).is_some()
    });
    match found {
        Some([first, second]) => {
            let span = Span { start: first.span.start, end: second.span.end };
            Err(ClauseError::LastOfKalends { found: words(span), span })
        }
        _ => Ok(()),
    }
}

/// The error of a clause without a date: at its first number, if there is one.
fn nothing_read(tokens: &[Token], words: &impl Fn(Span) -> String) -> ClauseError {
    let is_number = |t: &&Token| t.word.starts_with(|c: char| c.is_ascii_digit()) || t.roman.is_some();
    if let Some(number) = tokens.iter().find(is_number) {
        return ClauseError::LooseNumber {
            found: words(number.span),
            span: number.span,
            expected: "a month beside it, as \"8 March\", or a year of four figures, as 1648, or \"year of our reign\"",
        };
    }
    let (first, last) = (tokens.first(), tokens.last());
    let span = Span { start: first.map_or(0, |t| t.span.start), end: last.map_or(0, |t| t.span.end) };
    ClauseError::NoDate { found: words(span), span }
}

/// One element where the input stands.
fn element(input: &mut Tokens<'_>, is_first: bool) -> Parsed<Element> {
    let reign = move |i: &mut Tokens<'_>| reign::year(i, is_first);
    let days = alt((latin::roman_day, day_of_month, feast::feast, a_weekday.map(Element::Weekday)));
    alt((style, republic::day_or_year, beside, feast::term, reign, days, year::year, month_alone))
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

/// A day of the week, in English, or in Latin after "die" or "feria".
fn a_weekday(input: &mut Tokens<'_>) -> Parsed<julian::Weekday> {
    alt((
        super::parts::meaning(weekday),
        preceded(word("die"), super::parts::meaning(latin_weekday)),
        preceded(word("feria"), super::numbers::small.verify_map(|n| super::lexicon::feria(n.value))),
    ))
    .parse_next(input)
}

/// The Monday next after the feast of St Luke.
fn beside(input: &mut Tokens<'_>) -> Parsed<Element> {
    let weekday = a_weekday.parse_next(input)?;
    let is_next = |w: &str| matches!(w, "next" | "nexte" | "then" | "immediately" | "proxima" | "proximo");
    skip(is_next, input);
    let side = any.parse_next(input)?;
    let side = match side.word.as_str() {
        "after" | "post" | "following" | "afore" if side.word != "afore" => Side::After,
        "before" | "ante" | "afore" => Side::Before,
        _ => return nothing(),
    };
    skip(is_next, input);
    match feast::named_after_words(input)? {
        Element::Feast { feast, shift: super::element::Shift::On } => {
            Ok(Element::Beside { weekday, side, feast })
        }
        _ => nothing(),
    }
}

/// The nineteenth day of February; 8 Martii; March the 8th; ultimo Martii.
fn day_of_month(input: &mut Tokens<'_>) -> Parsed<Element> {
    alt((number_then_month, last_of_month, month_then_number)).parse_next(input)
}

fn number_then_month(input: &mut Tokens<'_>) -> Parsed<Element> {
    skip(|w| matches!(w, "the" | "die" | "this" | "le"), input);
    let number = super::numbers::small.parse_next(input)?;
    skip(super::lexicon::is_of_day, input);
    let month = super::parts::meaning(month).parse_next(input)?;
    Ok(Element::Day { day: number.value, month })
}

fn last_of_month(input: &mut Tokens<'_>) -> Parsed<Element> {
    skip(|w| w == "the", input);
    any.verify(|t: &&Token| matches!(t.word.as_str(), "ultimo" | "ultima" | "last")).parse_next(input)?;
    skip(super::lexicon::is_of_day, input);
    super::parts::meaning(month).map(Element::LastOf).parse_next(input)
}

fn month_then_number(input: &mut Tokens<'_>) -> Parsed<Element> {
    skip(|w| w == "mensis", input);
    let month = super::parts::meaning(month).parse_next(input)?;
    skip(|w| matches!(w, "the" | "die" | "day" | "ye"), input);
    let number = super::numbers::small.parse_next(input)?;
    // "March five and twentieth year of our reign" is a month and a year of a reign.
    let mut ahead = input.clone();
    let year: Parsed<&Token> = super::parts::one(super::lexicon::is_year).parse_next(&mut ahead);
    if year.is_ok() {
        return nothing();
    }
    opt(super::parts::one(|w| matches!(w, "day" | "daye"))).parse_next(input)?;
    Ok(Element::Day { day: number.value, month })
}

/// A month by itself, written as a name; "may" and "march" in small letters are verbs.
fn month_alone(input: &mut Tokens<'_>) -> Parsed<Element> {
    let token = any.parse_next(input)?;
    let is_name = token.raw.chars().next().is_some_and(|c| c.is_uppercase() || c.is_ascii_digit());
    match month(&token.word) {
        Some(month) if is_name => Ok(Element::Month(month)),
        _ => nothing(),
    }
}

/// Refuses days and years that never were.
fn check(element: &Element, span: Span, words: &str) -> Result<(), ClauseError> {
    match element {
        Element::Day { day, month } => {
            let last = longest(*month);
            if *day > last {
                return Err(ClauseError::NoSuchDay { month: *month, day: *day, last, span });
            }
        }
        Element::Roman { anchor, count, month } => {
            let most = latin::most(*anchor, *month);
            if *count > most {
                return Err(ClauseError::NoSuchRomanDay { found: words.to_owned(), most, span });
            }
        }
        Element::Reign { sovereigns, number, queen } => {
            return reign::check(sovereigns, *number, *queen, span);
        }
        Element::DoubleYear { legal } if *legal < 0 => {
            return Err(ClauseError::NoDoubleYear { found: words.to_owned(), span });
        }
        Element::Republican(date) if date.to_day().is_none() => {
            return Err(ClauseError::NoSuchRepublicanDay { found: words.to_owned(), span });
        }
        Element::RepublicanYear(year) if !(1..=crate::calendar::LAST_REPUBLICAN_YEAR).contains(year) => {
            return Err(ClauseError::NoSuchRepublicanDay { found: words.to_owned(), span });
        }
        _ => {}
    }
    Ok(())
}

/// The days of a month in a leap year.
fn longest(month: julian::Month) -> u32 {
    match month.number() {
        2 => 29,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

//! Feasts and terms in a clause.

use super::element::{Element, Shift};
use super::lexicon::{is_of_day, is_saint};
use super::parts::{Parsed, Tokens, nothing, one, skip, word};
use super::tokens::Token;
use crate::calendar::{FEASTS, Feast, Term};
use winnow::combinator::opt;
use winnow::prelude::*;
use winnow::token::any;

/// Hilary term; termino Sancti Michaelis.
pub(super) fn term(input: &mut Tokens<'_>) -> Parsed<Element> {
    skip(|w| matches!(w, "the" | "in"), input);
    let is_term = |w: &str| matches!(w, "term" | "terme" | "termino" | "tearme" | "termini");
    let latin: Parsed<Option<&Token>> = opt(one(|w| w == "termino")).parse_next(input);
    let is_latin = latin?.is_some();
    skip(is_saint, input);
    let name = any.parse_next(input)?;
    let term = match name.word.as_str() {
        "hilary" | "hillary" | "hilarii" | "hil" => Term::Hilary,
        "easter" | "pasch" | "paschae" | "pasche" => Term::Easter,
        "trinity" | "trinitie" | "trinitatis" | "trin" => Term::Trinity,
        "michaelmas" | "michaelmass" | "michaelis" | "mich" => Term::Michaelmas,
        _ => return nothing(),
    };
    if !is_latin {
        opt(word("law")).parse_next(input)?;
        one(is_term).parse_next(input)?;
    }
    Ok(Element::Term(term))
}

/// A feast, told as one: with "feast", "Saint", "day" or "eve" about it, or by a name that nothing else bears.
pub(super) fn feast(input: &mut Tokens<'_>) -> Parsed<Element> {
    named(input, false)
}

/// A feast where one must follow: after "next after".
pub(super) fn named_after_words(input: &mut Tokens<'_>) -> Parsed<Element> {
    named(input, true)
}

fn named(input: &mut Tokens<'_>, is_expected: bool) -> Parsed<Element> {
    skip(is_of_day, input);
    let mut shift = shift_before(input);
    let mut is_told = is_expected || shift.is_some();
    skip(is_of_day, input);
    is_told |=
        skip(|w| matches!(w, "feast" | "feaste" | "festo" | "festum" | "festi" | "fest" | "festival"), input)
            > 0;
    skip(is_of_day, input);
    is_told |= skip(is_saint, input) > 0;
    let (feast, words) = longest(input)?;
    let mut ahead = input.clone();
    let after = any::<_, super::parts::ParsedError>.parse_next(&mut ahead).ok();
    match after.map(|t: &Token| t.word.as_str()) {
        Some("eve" | "even" | "eeve" | "vigil") if shift.is_none() => {
            shift = Some(Shift::Eve);
            is_told = true;
            *input = ahead;
        }
        Some("day" | "daye" | "daie" | "tide") => {
            is_told = true;
            *input = ahead;
        }
        _ => {}
    }
    if !is_told && !is_clear(words) {
        return nothing();
    }
    Ok(Element::Feast { feast, shift: shift.unwrap_or(Shift::On) })
}

/// The eve of, the morrow after, the octave of; in crastino, in vigilia, in octavis.
fn shift_before(input: &mut Tokens<'_>) -> Option<Shift> {
    let mut ahead = input.clone();
    let token: Parsed<&Token> = any.parse_next(&mut ahead);
    let shift = match token.ok()?.word.as_str() {
        "eve" | "even" | "vigil" | "vigilia" | "vigill" => Shift::Eve,
        "morrow" | "morow" | "crastino" | "crastinum" => Shift::Morrow,
        "octave" | "octaves" | "utas" | "octavis" | "octabis" => Shift::Octave,
        "quindene" | "quindena" | "quinzaine" => Shift::Quindene,
        _ => return None,
    };
    *input = ahead;
    skip(|w| matches!(w, "of" | "after" | "the" | "day" | "next"), input);
    Some(shift)
}

/// The feast whose words are the longest that stand here, saints and small words between them left out.
fn longest(input: &mut Tokens<'_>) -> Parsed<(&'static Feast, &'static str)> {
    let mut best: Option<(&'static Feast, &'static str, Tokens<'_>)> = None;
    let Some(first) = input.first().map(|t: &Token| t.word.clone()) else { return nothing() };
    for feast in FEASTS {
        for words in feast.words {
            if !words.starts_with(first.as_str()) {
                continue;
            }
            let mut ahead = input.clone();
            if follows(&mut ahead, words) && best.as_ref().is_none_or(|(_, _, rest)| ahead.len() < rest.len())
            {
                best = Some((feast, words, ahead));
            }
        }
    }
    match best {
        Some((feast, words, rest)) => {
            *input = rest;
            Ok((feast, words))
        }
        None => nothing(),
    }
}

fn follows(input: &mut Tokens<'_>, words: &str) -> bool {
    for (i, wanted) in words.split(' ').enumerate() {
        let is_here = input.first().is_some_and(|t: &Token| t.word == wanted);
        if i > 0 && !is_here {
            skip(|w| is_saint(w) || matches!(w, "the" | "of" | "in"), input);
        }
        let token: Parsed<&Token> = any.parse_next(input);
        if !token.is_ok_and(|t| t.word == wanted || (wanted == "and" && t.word == "et")) {
            return false;
        }
    }
    true
}

/// Names that nothing but a feast bears.
fn is_clear(words: &str) -> bool {
    words.contains("mas")
        || words.contains(' ')
            && !matches!(words, "mary magdalene" | "mary magdalen" | "our lady" | "edward confessor")
        || matches!(
            words,
            "epiphany"
                | "purification"
                | "annunciation"
                | "midsummer"
                | "easter"
                | "whitsun"
                | "whitsunday"
                | "whitsuntide"
                | "whitmonday"
                | "pentecost"
                | "pentecostes"
                | "septuagesima"
                | "quinquagesima"
                | "shrovetide"
                | "assumption"
                | "circumcision"
                | "childermas"
                | "hocktide"
                | "rogationtide"
                | "allhallows"
                | "ladyday"
                | "yule"
                | "decollation"
                | "paschae"
                | "paschatis"
                | "bartholomewtide"
                | "quasimodo"
        )
}

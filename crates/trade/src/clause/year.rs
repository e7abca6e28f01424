//! Years of the Lord in a clause.

use super::element::{Element, Written};
use super::lexicon::{anchor, month};
use super::numbers::number;
use super::parts::{Parsed, Tokens, nothing};
use super::tokens::Token;
use winnow::combinator::alt;
use winnow::prelude::*;
use winnow::token::any;

/// Years that are taken for years at all: below lie days and years of reigns, and slips may make them large.
const YEARS: std::ops::RangeInclusive<u32> = 1000..=3999;

/// 1648, 1648/9, M.DC.XLVIII, M. DC. XLVIII, one thousand six hundred forty eight.
pub(super) fn year(input: &mut Tokens<'_>) -> Parsed<Element> {
    alt((double, roman, plain)).parse_next(input)
}

/// 1648/9, 1648/49, 1648-9. One whose parts do not follow each other is given with a negative year, and refused by the caller
/// with its place.
fn double(input: &mut Tokens<'_>) -> Parsed<Element> {
    let token = any.parse_next(input)?;
    let plain: String = token.word.chars().filter(|c| !matches!(c, '[' | ']')).collect();
    let Some((first, second)) = plain.split_once(['/', '-', '–']) else { return nothing() };
    if first.len() != 4 || second.is_empty() || second.len() > 4 {
        return nothing();
    }
    let (Ok(legal), Ok(end)) = (first.parse::<i32>(), second.parse::<i32>()) else { return nothing() };
    let follows = (legal + 1) % 10_i32.pow(second.len() as u32) == end;
    Ok(Element::DoubleYear { legal: if follows { legal } else { -1 } })
}

fn plain(input: &mut Tokens<'_>) -> Parsed<Element> {
    let found = number.verify(|n| YEARS.contains(&n.value)).parse_next(input)?;
    Ok(Element::Year { year: found.value as i32, written: found.written })
}

/// A Roman year, of one word or of several that fall: M. DC. LXXIX.
fn roman(input: &mut Tokens<'_>) -> Parsed<Element> {
    let mut words: Vec<(&Token, u32)> = Vec::new();
    let mut ahead = input.clone();
    let mut room = u32::MAX;
    let mut ends = Vec::new();
    loop {
        let token: Parsed<&Token> = any.parse_next(&mut ahead);
        let Ok(token) = token else { break };
        let Some(value) = token.roman.filter(|v| *v > 0 && *v <= room) else { break };
        room = lowest_place(value);
        words.push((token, value));
        ends.push(ahead.clone());
    }
    // A last word that belongs to what follows: MDC. X Martii.
    let belongs = ends
        .last()
        .and_then(|rest: &Tokens<'_>| rest.first())
        .is_some_and(|next| month(&next.word).is_some() || anchor(&next.word).is_some());
    if belongs && words.len() > 1 {
        words.pop();
        ends.pop();
    }
    let value: u32 = words.iter().map(|(_, v)| v).sum();
    let Some(end) = ends.last().filter(|_| YEARS.contains(&value)) else { return nothing() };
    *input = end.clone();
    let text: Vec<&str> = words.iter().map(|(t, _)| t.raw.as_str()).collect();
    Ok(Element::Year { year: value as i32, written: Written::Roman(text.join(" ")) })
}

/// The place of a number's last figure that is not 0: 100 for 600, 1 for 79.
fn lowest_place(value: u32) -> u32 {
    let mut place = 1;
    while value.is_multiple_of(place * 10) && place < 1000 {
        place *= 10;
    }
    place
}

//! What is said of the gatherings: leaves, signing, pagination, blank leaves, other signatures, remarks.

use super::super::error::Problem;
use super::super::formula::{Item, Statements};
use super::super::pagination::{Numbers, Pagination, Sequence};
use super::super::roman;
use super::super::signature::LeafName;
use super::super::signing::Signing;
use super::fault::{Read, Text, expecting, told};
use super::items::items;
use super::known::is_known;
use super::tokens::{dash, leaf, leaves, number, short, spaces};
use winnow::Parser;
use winnow::combinator::{alt, cut_err, delimited, opt, peek, preceded, terminated};
use winnow::error::ErrMode;
use winnow::stream::{Location as _, Stream as _};
use winnow::token::{literal, one_of, rest, take_while};

const STATEMENT: &str = "a statement: how many leaves (32 leaves), which are signed ($3 signed), the pages \
    (pp. [8] 1-205 [3]), blank leaves (H4 blank), or other signatures (also signed 1-4^8)";

/// The statements after the gatherings, to the end of the text.
pub(super) fn statements(of: &[Item], input: &mut Text<'_>) -> Read<Statements> {
    let mut found = Statements::default();
    loop {
        spaces(input)?;
        let mark = opt(one_of([';', ':', '.', ','])).parse_next(input)?;
        spaces(input)?;
        if input.is_empty() {
            return Ok(found);
        }
        let from = input.current_token_start();
        let start = input.checkpoint();
        match one(of, &mut found, input) {
            Ok(()) => {}
            // After a full stop anything may be said: it is kept, and not understood.
            Err(ErrMode::Backtrack(_)) if mark == Some('.') => {
                input.reset(&start);
                let text: &str = rest.parse_next(input)?;
                let text = text.trim_end_matches(['.', ' ']);
                found.remarks.extend((!text.is_empty()).then(|| text.to_owned()));
            }
            Err(other) => return Err(other),
        }
        // Every statement takes something, or is an error.
        if input.current_token_start() == from {
            return expecting(
                STATEMENT,
                winnow::combinator::fail::<Text<'_>, Statements, ErrMode<super::fault::Fault>>,
            )
            .parse_next(input);
        }
    }
}

/// One statement.
fn one(of: &[Item], found: &mut Statements, input: &mut Text<'_>) -> Read<()> {
    let from = input.current_token_start();
    let fault = |what: &'static str, input: &Text<'_>| Err(told(from, input, Problem::Restated { what }));
    if let Some(n) = opt(stated_leaves).parse_next(input)? {
        if found.leaves.replace(n).is_some() {
            return fault("the number of leaves", input);
        }
        return Ok(());
    }
    if let Some(signing) = opt(signing).parse_next(input)? {
        for leaf in signing.except.iter().chain(&signing.also).chain(signing.missigned.iter().map(|(l, _)| l))
        {
            is_known(of, leaf, from, input)?;
        }
        if found.signing.replace(signing).is_some() {
            return fault("the signing", input);
        }
        return Ok(());
    }
    if opt(literal("also signed")).parse_next(input)?.is_some() {
        spaces(input)?;
        found.also_signed = cut_err(items).parse_next(input)?;
        return Ok(());
    }
    let pages = terminated(pagination, (spaces, peek(closed)));
    if let Some(pages) = opt(pages).parse_next(input)? {
        if found.pagination.replace(pages).is_some() {
            return fault("the pagination", input);
        }
        return Ok(());
    }
    let blank = terminated(leaves, (spaces, literal("blank"), peek(ends)));
    let expected: Read<Vec<LeafName>> =
        expecting(STATEMENT, opt(blank).verify_map(|found| found)).parse_next(input);
    let blank = expected?;
    for leaf in &blank {
        is_known(of, leaf, from, input)?;
    }
    found.blank.extend(blank);
    super::changes::few(found.blank.len(), "blank leaves", from, input)
}

/// Where a statement ends.
fn closed(input: &mut Text<'_>) -> Read<()> {
    alt((winnow::combinator::eof.void(), one_of([';', '.', ':', ',']).void())).parse_next(input)
}

/// Where a word ends.
fn ends(input: &mut Text<'_>) -> Read<()> {
    alt((winnow::combinator::eof.void(), one_of([' ', ';', '.', ',', ':', ')']).void())).parse_next(input)
}

/// "32 leaves".
fn stated_leaves(input: &mut Text<'_>) -> Read<u32> {
    terminated(number, (spaces, alt((literal("leaves"), literal("leaf"))), peek(ends))).parse_next(input)
}

/// "$4(−A3,4) signed; missigning I4 as I3", in brackets or not.
fn signing(input: &mut Text<'_>) -> Read<Signing> {
    let from = input.current_token_start();
    let bracket = opt('[').parse_next(input)?.is_some();
    '$'.parse_next(input)?;
    let first = cut_err(expecting("how many leaves of every gathering are signed, as $4", number))
        .parse_next(input)?;
    let first = short(first, from, input)?;
    spaces(input)?;
    let (mut except, mut also) = (Vec::new(), Vec::new());
    if opt('(').parse_next(input)?.is_some() {
        loop {
            spaces(input)?;
            let what = "leaves that are not signed, or are as well: (-A3,4; +B5)";
            if opt(dash).parse_next(input)?.is_some() {
                spaces(input)?;
                except.extend(cut_err(expecting(what, leaves)).parse_next(input)?);
            } else {
                cut_err(expecting(what, ('+', spaces))).parse_next(input)?;
                also.extend(cut_err(expecting(what, leaves)).parse_next(input)?);
            }
            super::changes::few(except.len() + also.len(), "leaves of one statement", from, input)?;
            spaces(input)?;
            if opt(one_of([',', ';'])).parse_next(input)?.is_none() {
                break;
            }
        }
        cut_err(expecting("\")\" after the leaves", ')')).parse_next(input)?;
    }
    opt((spaces, literal("signed"))).parse_next(input)?;
    let mut missigned = Vec::new();
    let begins = (spaces, one_of([';', ',']), spaces, literal("missigning"), spaces).void();
    let goes_on = |i: &mut Text<'_>| {
        let mut pair = (spaces, ',', spaces, peek((leaf, spaces, literal("as")))).void();
        pair.parse_next(i)
    };
    let mut begins = opt(begins);
    let mut more = begins.parse_next(input)?.is_some();
    while more {
        let what = "a leaf and what is printed there: missigning I4 as I3";
        let as_what = take_while(1..=20, |c: char| !c.is_whitespace() && !";,.])".contains(c));
        let pair = (leaf, preceded((spaces, literal("as"), spaces), as_what));
        let (leaf, as_what): (LeafName, &str) = cut_err(expecting(what, pair)).parse_next(input)?;
        missigned.push((leaf, as_what.to_owned()));
        super::changes::few(missigned.len(), "leaves of one statement", from, input)?;
        more = opt(goes_on).parse_next(input)?.is_some() || begins.parse_next(input)?.is_some();
    }
    if bracket {
        cut_err(expecting("\"]\" after the statement of signing", ']')).parse_next(input)?;
    }
    Ok(Signing { first, except, also, missigned })
}

/// "pp. \[8\] 1-205 \[3\]", "\[4\], CXXII leaves".
fn pagination(input: &mut Text<'_>) -> Read<Pagination> {
    let prefix = |pages: bool| {
        move |i: &mut Text<'_>| {
            if pages {
                alt((literal("pages"), literal("pp."), literal("pp"), literal("p."))).void().parse_next(i)
            } else {
                alt((literal("leaves"), literal("ff."), literal("ff"), literal("fol."))).void().parse_next(i)
            }
        }
    };
    let ahead = opt(alt((prefix(true).value(false), prefix(false).value(true)))).parse_next(input)?;
    spaces(input)?;
    let mut sequences = vec![sequence.parse_next(input)?];
    loop {
        let parted = |i: &mut Text<'_>| {
            let parted = (spaces, opt(','), spaces).take().parse_next(i)?;
            if parted.is_empty() {
                peek('[').void().parse_next(i)?;
            }
            sequence.parse_next(i)
        };
        match opt(parted).parse_next(input)? {
            Some(next) => sequences.push(next),
            None => break,
        }
    }
    let behind = preceded(spaces, alt((prefix(true).value(false), prefix(false).value(true))));
    let behind = opt(behind).parse_next(input)?;
    Ok(Pagination { sequences, is_foliation: ahead.or(behind).unwrap_or(false) })
}

fn sequence(input: &mut Text<'_>) -> Read<Sequence> {
    let bracketed = |i: &mut Text<'_>| {
        let from = i.current_token_start();
        let (first, last) = delimited(('[', spaces), span_of_numbers, (spaces, ']')).parse_next(i)?;
        match last {
            None => Ok(Sequence::Unnumbered(first.0)),
            Some(last) => Ok(Sequence::Inferred(numbers(first, last, from, i)?)),
        }
    };
    let plain = |i: &mut Text<'_>| {
        let from = i.current_token_start();
        let (first, last) = span_of_numbers.parse_next(i)?;
        let says_first = last.is_some();
        let (first, last) = last.map_or(((1, first.1), first), |last| (first, last));
        let numbers = numbers(first, last, from, i)?;
        let that_is = delimited((spaces, literal("[that is,"), spaces), numeral, (spaces, ']'));
        let that_is = opt(that_is).parse_next(i)?.map(|(n, _)| n);
        if let Some(n) = that_is.filter(|n| *n < numbers.first) {
            return Err(told(from, i, Problem::Pages { first: numbers.first, last: n }));
        }
        Ok(Sequence::Numbered { numbers, says_first, that_is })
    };
    alt((bracketed, plain)).parse_next(input)
}

/// A number with the numerals it is written in.
type Numeral = (u32, Option<roman::Case>);

fn span_of_numbers(input: &mut Text<'_>) -> Read<(Numeral, Option<Numeral>)> {
    (numeral, opt(preceded(dash, numeral))).parse_next(input)
}

fn numeral(input: &mut Text<'_>) -> Read<Numeral> {
    let roman = take_while(1..=20, |c: char| "ivxlcdmjIVXLCDMJ".contains(c));
    let roman = roman.verify_map(|t: &str| roman::read(t)).map(|(n, case)| (n, Some(case)));
    alt((number.map(|n| (n, None)), terminated(roman, peek(numeral_ends)))).parse_next(input)
}

/// A numeral is no part of a word.
fn numeral_ends(input: &mut Text<'_>) -> Read<()> {
    peek(winnow::combinator::not(one_of(char::is_alphanumeric))).parse_next(input)
}

fn numbers(first: Numeral, last: Numeral, from: usize, input: &Text<'_>) -> Read<Numbers> {
    if first.0 == 0 || last.0 < first.0 {
        return Err(told(from, input, Problem::Pages { first: first.0, last: last.0 }));
    }
    Ok(Numbers { first: first.0, last: last.0, roman: last.1 })
}

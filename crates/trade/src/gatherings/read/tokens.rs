//! The smallest parts: figures plain, raised and lowered, dashes, signatures, leaves.

use super::super::error::Problem;
use super::super::signature::{LeafName, Series, Signature, Symbol};
use super::fault::{Read, Text, expecting, told};
use winnow::Parser;
use winnow::ascii::{digit1, multispace0};
use winnow::combinator::{alt, delimited, not, opt, peek, preceded, terminated};
use winnow::stream::{Location as _, Stream as _};
use winnow::token::{any, literal, one_of, take_while};

/// Every dash that a run, or a missing leaf, may be written with.
const DASHES: [char; 7] = ['-', '–', '−', '‐', '‑', '—', '‒'];

const RAISED: &str = "⁰¹²³⁴⁵⁶⁷⁸⁹";
const LOWERED: &str = "₀₁₂₃₄₅₆₇₈₉";

/// Signs that gatherings are signed with. What is not among them is told by a word in brackets.
const SIGNS: &str = "*†‡§¶&☞☜❦❧☙✠✝⁂✶✱※⁊";

/// The most that a number is believed.
const MOST_NUMBER: u32 = 100_000;

/// Spaces, if there are any.
pub(super) fn spaces(input: &mut Text<'_>) -> Read<()> {
    multispace0.void().parse_next(input)
}

/// A dash.
pub(super) fn dash(input: &mut Text<'_>) -> Read<()> {
    one_of(DASHES).void().parse_next(input)
}

/// A plain number.
pub(super) fn number(input: &mut Text<'_>) -> Read<u32> {
    let from = input.current_token_start();
    let digits: &str = digit1.parse_next(input)?;
    bounded(digits, from, input)
}

fn bounded(digits: &str, from: usize, input: &Text<'_>) -> Read<u32> {
    match digits.parse::<u32>() {
        Ok(n) if n <= MOST_NUMBER => Ok(n),
        _ => Err(told(from, input, Problem::TooMany { what: "numbers", most: MOST_NUMBER })),
    }
}

/// Figures of a shape other than the plain one.
fn shaped<'a>(shapes: &'static str, input: &mut Text<'a>) -> Read<u32> {
    let from = input.current_token_start();
    let figures: &'a str = take_while(1.., |c| shapes.contains(c)).parse_next(input)?;
    let digits: String = figures
        .chars()
        .filter_map(|c| shapes.chars().position(|s| s == c))
        .filter_map(|p| char::from_digit(p as u32, 10))
        .collect();
    bounded(&digits, from, input)
}

/// A raised number: ⁸ or `^8`.
pub(super) fn raised(input: &mut Text<'_>) -> Read<u32> {
    alt((|i: &mut Text<'_>| shaped(RAISED, i), preceded('^', expecting("a number after ^", number))))
        .parse_next(input)
}

/// A number of leaves of a gathering raised before it is known to be one.
pub(super) fn lowered(input: &mut Text<'_>) -> Read<u32> {
    alt((|i: &mut Text<'_>| shaped(LOWERED, i), preceded('_', number))).parse_next(input)
}

/// A number that must fit a signature or leaf.
pub(super) fn short(n: u32, from: usize, input: &Text<'_>) -> Read<u16> {
    u16::try_from(n)
        .map_err(|_| told(from, input, Problem::TooMany { what: "numbers", most: u32::from(u16::MAX) }))
}

/// A series before a signature: ², `^2`, π or χ, if something follows that it can belong to.
fn series(input: &mut Text<'_>) -> Read<Series> {
    let begins = |i: &mut Text<'_>| {
        peek(alt((
            one_of(|c: char| c.is_alphabetic() || SIGNS.contains(c)).void(),
            ('[', one_of(|c: char| c.is_alphanumeric())).void(),
            (digit1::<Text<'_>, _>, one_of(|c: char| c.is_alphabetic() || c == '[' || SIGNS.contains(c)))
                .void(),
        )))
        .parse_next(i)
    };
    let from = input.current_token_start();
    let word = |w: &'static str| literal(w);
    let series = alt((
        alt((word("[superscript pi]"), word("^pi"), word("π"))).value(Series::Pi),
        alt((word("[superscript chi]"), word("^chi"), word("χ"))).value(Series::Chi),
        word("pi").value(Series::Pi),
        word("chi").value(Series::Chi),
        // A point parts two numbers on a keyboard without raised figures: ^2.2E.
        terminated(raised, opt('.')).map(|n| Series::Nth(u8::try_from(n).unwrap_or(u8::MAX))),
    ))
    .parse_next(input)?;
    begins(input)?;
    if let Series::Nth(n) = series
        && !(2..=20).contains(&n)
    {
        return Err(told(from, input, Problem::TooMany { what: "series of signatures", most: 20 }));
    }
    Ok(series)
}

/// A word in brackets that stands for a sign: `[dagger]`, `[par.]`.
fn named_sign(input: &mut Text<'_>) -> Read<String> {
    let word = take_while(2..=30, |c: char| c.is_alphabetic() || c == ' ' || c == '.' || c == '-');
    let word = word.verify(|w: &str| {
        // One letter, repeated or not, is an inferred signature; and so a run of them begins, A-C or Aa-Cc.
        let begins_a_run = w.split_once('-').is_some_and(|(first, _)| is_one_letter(first));
        w.starts_with(char::is_alphabetic) && !is_one_letter(w) && !begins_a_run
    });
    delimited('[', word, ']').map(|w: &str| format!("[{w}]")).parse_next(input)
}

/// Whether a word is one letter, repeated or not, large or small.
fn is_one_letter(word: &str) -> bool {
    let lower = |c: char| c.to_lowercase().next().unwrap_or(c);
    let mut letters = word.chars().map(lower);
    letters.next().is_some_and(|first| letters.all(|c| c == first))
}

/// A letter, with how often it is repeated: A, Aa, AAA.
fn letters(input: &mut Text<'_>) -> Read<(u16, Symbol)> {
    let from = input.current_token_start();
    let word: &str = take_while(1.., char::is_alphabetic).parse_next(input)?;
    let first = word.chars().next().unwrap_or('?');
    if !is_one_letter(word) {
        return Err(told(from, input, Problem::Letters { letters: word.to_owned() }).backtrack());
    }
    let times = short(word.chars().count() as u32, from, input)?;
    Ok((times, Symbol::Letter(first)))
}

/// A sign, with how often it is repeated.
fn signs(input: &mut Text<'_>) -> Read<(u16, Symbol)> {
    let whole = alt((literal("):("), literal(")(")));
    if let Some(sign) = opt(whole).parse_next(input)? {
        return Ok((1, Symbol::Sign(sign.to_owned())));
    }
    let from = input.current_token_start();
    let first = one_of(|c: char| SIGNS.contains(c)).parse_next(input)?;
    let more: &str = take_while(0.., first).parse_next(input)?;
    Ok((short(1 + more.chars().count() as u32, from, input)?, Symbol::Sign(first.to_string())))
}

/// Pi or chi by themselves: unsigned leaves.
fn unsigned(input: &mut Text<'_>) -> Read<Symbol> {
    alt((
        alt((literal("pi"), literal("π"))).value(Symbol::Pi),
        alt((literal("chi"), literal("χ"))).value(Symbol::Chi),
    ))
    .parse_next(input)
    .and_then(|symbol| {
        peek(not(one_of(char::is_alphabetic))).parse_next(input)?;
        Ok(symbol)
    })
}

/// What a signature shows, with how often: 2A, Aa, **, 31. A single π or χ, whatever stands before it, is of unsigned leaves.
fn shown(input: &mut Text<'_>) -> Read<(u16, Symbol)> {
    counted.parse_next(input).map(|told| match told {
        (1, Symbol::Letter('π')) => (1, Symbol::Pi),
        (1, Symbol::Letter('χ')) => (1, Symbol::Chi),
        other => other,
    })
}

fn counted(input: &mut Text<'_>) -> Read<(u16, Symbol)> {
    let from = input.current_token_start();
    let count = opt(number).parse_next(input)?;
    let symbol = alt((named_sign.map(|s| (1, Symbol::Sign(s))), letters, signs));
    match count {
        None => alt((unsigned.map(|s| (1, s)), symbol)).parse_next(input),
        Some(n) => match opt(symbol).parse_next(input)? {
            Some((times, symbol)) if n > 0 => {
                let times = u32::from(times).saturating_mul(n);
                Ok((short(times, from, input)?, symbol))
            }
            Some(_) => {
                Err(told(from, input, Problem::TooMany { what: "signatures without number", most: 0 }))
            }
            None => Ok((1, Symbol::Number(short(n, from, input)?))),
        },
    }
}

/// A signature.
pub(super) fn signature(input: &mut Text<'_>) -> Read<Signature> {
    let start = input.checkpoint();
    if let Some(symbol) = opt(unsigned).parse_next(input)? {
        // What follows tells πA, a duplicate of A, from π, unsigned leaves.
        let duplicates =
            opt(peek((opt(digit1::<Text<'_>, _>), one_of(|c: char| c.is_alphabetic() || SIGNS.contains(c)))))
                .parse_next(input)?;
        let bracket = opt(peek(('[', one_of(char::is_alphanumeric)))).parse_next(input)?;
        if duplicates.is_none() && bracket.is_none() {
            return Ok(Signature::plain(symbol));
        }
    }
    input.reset(&start);
    let series = opt(series).parse_next(input)?.unwrap_or(Series::Main);
    let bracketed = |i: &mut Text<'_>| {
        let inner = alt((unsigned.map(|s| (1, s)), shown));
        delimited('[', inner, ']').parse_next(i)
    };
    let (is_inferred, (multiple, symbol)) = alt((
        named_sign.map(|s| (false, (1, Symbol::Sign(s)))),
        bracketed.map(|s| (true, s)),
        shown.map(|s| (false, s)),
    ))
    .parse_next(input)?;
    Ok(Signature { series, multiple, symbol, is_inferred })
}

/// The number of a leaf after its signature: plain after a letter, lowered after a number.
fn leaf_number(of: &Signature, input: &mut Text<'_>) -> Read<u16> {
    let from = input.current_token_start();
    let n = if matches!(of.symbol, Symbol::Number(_)) {
        lowered.parse_next(input)?
    } else {
        alt((number, lowered)).parse_next(input)?
    };
    short(n, from, input)
}

/// A leaf by its name.
pub(super) fn leaf(input: &mut Text<'_>) -> Read<LeafName> {
    let signature = signature.parse_next(input)?;
    let number = leaf_number(&signature, input)?;
    Ok(LeafName { signature, number })
}

/// Leaves by their names, the signature said once where it goes on: E7,8 or E7-8 or E7, F1.
pub(super) fn leaves(input: &mut Text<'_>) -> Read<Vec<LeafName>> {
    let mut found = vec![leaf.parse_next(input)?];
    loop {
        super::changes::few(found.len(), "leaves of one list", input.current_token_start(), input)?;
        let Some(last) = found.last().cloned() else { return Ok(found) };
        let start = input.checkpoint();
        let comma = opt((spaces, ',', spaces)).parse_next(input)?.is_some();
        let to = !comma && opt(dash).parse_next(input)?.is_some();
        if !comma && !to {
            return Ok(found);
        }
        let next = opt(|i: &mut Text<'_>| leaf_number(&last.signature, i)).parse_next(input)?;
        // A number before a letter begins another signature: 7,2A1.
        let begins = opt(peek(one_of(|c: char| c.is_alphabetic() || c == '['))).parse_next(input)?;
        match next {
            Some(number) if begins.is_none() => {
                let more = if to { last.number.saturating_add(1)..=number } else { number..=number };
                if to && (more.is_empty() || more.len() > 200) {
                    let at = input.current_token_start();
                    return Err(told(
                        at,
                        input,
                        Problem::Pages { first: u32::from(last.number), last: u32::from(number) },
                    ));
                }
                found.extend(more.map(|number| LeafName { number, ..last.clone() }));
            }
            _ => {
                input.reset(&start);
                let other = |i: &mut Text<'_>| {
                    let leaf = preceded((spaces, ',', spaces), leaf).parse_next(i)?;
                    // A leaf before a plus begins another alteration.
                    peek(not((spaces, '+'))).parse_next(i)?;
                    Ok(leaf)
                };
                match opt(other).parse_next(input)? {
                    Some(leaf) => found.push(leaf),
                    None => return Ok(found),
                }
            }
        }
    }
}

/// Anything up to the closing parenthesis, with none inside.
pub(super) fn to_parenthesis<'a>(input: &mut Text<'a>) -> Read<&'a str> {
    take_while(1.., |c| c != ')' && c != '(').parse_next(input)
}

/// The next character, whatever it is, is not taken.
pub(super) fn ahead(input: &mut Text<'_>) -> Read<Option<char>> {
    opt(peek(any)).parse_next(input)
}

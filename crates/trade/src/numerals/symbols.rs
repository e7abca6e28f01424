//! The sorts of a numeral, one by one, with the places where they stand in the text.

use super::read::{NumeralError, Span};
use winnow::ascii::dec_uint;
use winnow::combinator::{alt, eof, fail, opt, repeat, terminated};
use winnow::error::ContextError;
use winnow::prelude::*;
use winnow::stream::LocatingSlice;
use winnow::token::{any, one_of, take_while};

/// The longest numeral that is read, in characters: the longest year of the hand press, written out by additions, pointed and
/// spaced, stays well below (from memory, no source).
pub const MOST_CHARACTERS: usize = 120;

/// One part of a numeral.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Part {
    /// A sort, or sorts that make one sign (CIↃ), with its value.
    Sign(Sign),
    /// Arabic figures, with their value and how many they are; Z stands for 2.
    Figures { value: u32, count: u32 },
    /// Points, commas and spaces, and whether a space is among them.
    Gap,
    /// A sign raised above the line: iiij^c.
    Raised,
}

/// A Roman sign.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Sign {
    /// 1, 5, 10, 50, 100, 500, 1000 and beyond.
    pub(super) value: u32,
    /// Whether it is printed as an apostrophus, of reversed C's.
    pub(super) is_apostrophus: bool,
    /// Whether it is printed as a small letter.
    pub(super) is_small: bool,
}

/// A part and its place, in characters from the beginning of the text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Placed {
    pub(super) part: Part,
    pub(super) span: Span,
}

type Input<'a> = LocatingSlice<&'a str>;
type Parsed<T> = Result<T, winnow::error::ErrMode<ContextError>>;

/// Whether a letter can be a sign of a numeral: I V X L C D M, J and U, small or capital.
pub(crate) fn is_numeral_letter(letter: char) -> bool {
    letter_value(letter).is_some()
}

/// The value of a letter. Equal for small and capital letters; J is I, U is V: Roberts and Etherington, *Bookbinding and the
/// Conservation of Books*, "I, i or j = 1"; the rest of the table is common knowledge, from memory.
pub(super) fn letter_value(letter: char) -> Option<u32> {
    Some(match letter.to_ascii_uppercase() {
        'I' | 'J' => 1,
        'V' | 'U' => 5,
        'X' => 10,
        'L' => 50,
        'C' => 100,
        'D' => 500,
        'M' => 1000,
        _ => return None,
    })
}

/// The reversed C of the apostrophus, and the bracket by which it is typed.
fn is_reversed_c(c: char) -> bool {
    matches!(c, 'Ↄ' | 'ↄ' | ')')
}

fn is_open_c(c: char) -> bool {
    matches!(c, 'C' | 'c' | '(')
}

fn is_gap(c: char) -> bool {
    c.is_whitespace() || matches!(c, '.' | ',' | ':' | ';' | '·' | '\'' | '-')
}

/// CIↃ, (I), IↃ, IↃↃ and their like: one more pair of C's makes it ten times as much. C. Jacobi, *Gesta Typographica* (1897),
/// p. 18, has 500 to 100,000; Roberts and Etherington print "I)" and "CI)".
fn apostrophus(input: &mut Input<'_>) -> Parsed<Sign> {
    let opening = take_while(0..=3, is_open_c).parse_next(input)?;
    let stroke = one_of(['I', 'i', 'l', '|']).parse_next(input)?;
    let closing = take_while(1..=3, is_reversed_c).parse_next(input)?;
    let (open, close) = (opening.chars().count() as u32, closing.chars().count() as u32);
    let value = match (open, close) {
        (0, n) => 50 * 10_u32.pow(n),
        (n, m) if n == m => 100 * 10_u32.pow(n),
        _ => return fail.parse_next(input),
    };
    Ok(Sign { value, is_apostrophus: true, is_small: stroke == 'i' })
}

/// C's before an apostrophus that are hundreds of their own: no more of them may open it than close it.
fn hundred(input: &mut Input<'_>) -> Parsed<Sign> {
    letter.verify(|s: &Sign| s.value == 100).parse_next(input)
}

/// The ligatures of Unicode. ↀ and Ↄ: Jacobi p. 18 for the signs; ↁ, ↂ, ↇ, ↈ and the look-alike ∞ from memory.
fn ligature(input: &mut Input<'_>) -> Parsed<Sign> {
    let sign = |value| Sign { value, is_apostrophus: true, is_small: false };
    alt((
        "⊂I⊃".value(sign(1000)),
        "⊂|⊃".value(sign(1000)),
        'ↀ'.value(sign(1000)),
        '∞'.value(sign(1000)),
        'ↁ'.value(sign(500)),
        'ↂ'.value(sign(10_000)),
        'ↇ'.value(sign(50_000)),
        'ↈ'.value(sign(100_000)),
    ))
    .parse_next(input)
}

/// A letter, with a bar over it a thousand times as much: Jacobi p. 18 (V̄ 5000).
fn letter(input: &mut Input<'_>) -> Parsed<Sign> {
    let printed = any.verify(|c: &char| is_numeral_letter(*c)).parse_next(input)?;
    let bar = opt(one_of(['\u{304}', '\u{305}'])).parse_next(input)?;
    let value = letter_value(printed).unwrap_or(0);
    let value = if bar.is_some() { value.saturating_mul(1000) } else { value };
    Ok(Sign { value, is_apostrophus: false, is_small: printed.is_lowercase() })
}

/// Unicode's signs for whole numerals, Ⅰ to Ⅿ and ⅰ to ⅿ, one letter each: I V X L C D M stand alone, others are refused with
/// their place, since a compositor had no such sort.
fn compatibility(input: &mut Input<'_>) -> Parsed<Sign> {
    let pick = |value, is_small| Sign { value, is_apostrophus: false, is_small };
    alt((
        'Ⅰ'.value(pick(1, false)),
        'Ⅴ'.value(pick(5, false)),
        'Ⅹ'.value(pick(10, false)),
        'Ⅼ'.value(pick(50, false)),
        'Ⅽ'.value(pick(100, false)),
        'Ⅾ'.value(pick(500, false)),
        'Ⅿ'.value(pick(1000, false)),
        'ⅿ'.value(pick(1000, true)),
        'ⅹ'.value(pick(10, true)),
    ))
    .parse_next(input)
}

fn part(input: &mut Input<'_>) -> Parsed<Part> {
    alt((
        take_while(1.., is_gap).map(|_: &str| Part::Gap),
        '^'.value(Part::Raised),
        ligature.map(Part::Sign),
        apostrophus.map(Part::Sign),
        hundred.map(Part::Sign),
        letter.map(Part::Sign),
        compatibility.map(Part::Sign),
        one_of(['Z', 'z']).value(Part::Figures { value: 2, count: 1 }),
        dec_uint
            .with_taken()
            .map(|(value, taken): (u32, &str)| Part::Figures { value, count: taken.chars().count() as u32 }),
    ))
    .parse_next(input)
}

/// The parts of a numeral, in order.
///
/// # Errors
/// Nothing in it, too long, or a character that is no sign, with its place.
pub(super) fn parts(text: &str) -> Result<Vec<Placed>, NumeralError> {
    let characters = text.chars().count();
    if text.trim().is_empty() {
        return Err(NumeralError::Empty);
    }
    if characters > MOST_CHARACTERS {
        return Err(NumeralError::TooLong { characters, most: MOST_CHARACTERS });
    }
    let mut input = LocatingSlice::new(text);
    let place = |byte: usize| text.get(..byte).map_or(0, |before| before.chars().count());
    let placed = part.with_span().map(|(part, bytes)| Placed {
        part,
        span: Span { start: place(bytes.start), end: place(bytes.end) },
    });
    let all: Parsed<Vec<Placed>> = repeat(1.., placed).parse_next(&mut input);
    let rest: &str = *input;
    let is_whole = terminated((), eof::<_, ContextError>).parse(rest).is_ok();
    match all {
        Ok(all) if is_whole => {
            if all.iter().any(|p| matches!(p.part, Part::Sign(_) | Part::Figures { .. })) {
                Ok(all)
            } else {
                Err(NumeralError::Empty)
            }
        }
        _ => {
            let at = characters - rest.chars().count();
            let found = rest.chars().next().unwrap_or(' ');
            if is_reversed_c(found) {
                Err(NumeralError::StrayReversedC { at })
            } else {
                Err(NumeralError::NoSign { found, at })
            }
        }
    }
}

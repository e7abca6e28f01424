//! The gatherings: runs, single leaves, and what stands beside them in parentheses.

use super::super::error::Problem;
use super::super::formula::{Added, Item, Run};
use super::super::signature::{LeafName, Series, Signature, Symbol};
use super::changes::{changes, parenthesis};
use super::fault::{Read, Text, expecting, told};
use super::run::{check_leaves, check_run};
use super::tokens::{ahead, dash, leaf, number, raised, short, signature, spaces};
use winnow::Parser;
use winnow::combinator::{alt, cut_err, delimited, opt, peek, preceded, terminated};
use winnow::stream::{Location as _, Stream as _};
use winnow::token::{literal, one_of};

/// What gatherings are expected to look like.
pub(super) const GATHERING: &str = "a gathering, as A^4, B-C^8 or [A]^4";

/// Every gathering, up to the statements or the end.
pub(super) fn items(input: &mut Text<'_>) -> Read<Vec<Item>> {
    let mut items = vec![expecting(GATHERING, item).parse_next(input)?];
    loop {
        let start = input.checkpoint();
        let from = input.current_token_start();
        let parted = (spaces, opt((',', spaces))).take().parse_next(input)?.len();
        match ahead.parse_next(input)? {
            None | Some(';' | ':' | '.') => return Ok(items),
            // An alteration may stand apart from its gathering: 2D⁴ (2D4 blank).
            Some('(') => {
                let Some((Item::Run(run), before)) = items.split_last_mut() else {
                    let found = "a parenthesis after a single leaf".to_owned();
                    return Err(told(from, input, Problem::Unexpected { expected: GATHERING, found }));
                };
                parenthesis(run, before, input)?;
            }
            // Two of an unsigned book may stand close: [1-4⁸][5-6⁶].
            Some('[') => items.push(expecting(GATHERING, cut_err(item)).parse_next(input)?),
            Some(_) if parted > 0 => items.push(expecting(GATHERING, cut_err(item)).parse_next(input)?),
            Some(_) if closes(items.last()) => {
                items.push(expecting(GATHERING, cut_err(item)).parse_next(input)?);
            }
            Some(c) => {
                input.reset(&start);
                return Err(told(
                    from,
                    input,
                    Problem::Unexpected {
                        expected: "a space, or \"(\" with what was altered",
                        found: format!("\"{c}\""),
                    },
                ));
            }
        }
    }
}

/// Whether an item ends so clearly that the next may follow without a space: A⁸(-A1)B-E⁸, A⁴B-Y⁸.
fn closes(last: Option<&Item>) -> bool {
    matches!(last, Some(Item::Run(_)))
}

fn item(input: &mut Text<'_>) -> Read<Item> {
    alt((enclosed.map(Item::Run), plain)).parse_next(input)
}

/// A run with its leaves in brackets as a whole: [1-6⁸].
fn enclosed(input: &mut Text<'_>) -> Read<Run> {
    let from = input.current_token_start();
    let inner = |i: &mut Text<'_>| {
        let first = signature.parse_next(i)?;
        run_from(first, from, i)
    };
    let run = delimited('[', inner, ']').parse_next(input)?;
    let mut run = Run { is_enclosed: true, ..run };
    after_leaves(&mut run, from, input)?;
    Ok(run)
}

fn plain(input: &mut Text<'_>) -> Read<Item> {
    let from = input.current_token_start();
    let first = signature.parse_next(input)?;
    // A number that is neither raised nor lowered: a single leaf of those that have no signature, or a slip.
    let unnumbered = !matches!(first.symbol, Symbol::Number(_));
    if unnumbered && let Some(n) = opt(number).parse_next(input)? {
        if !first.is_unsigned() && n != 1 {
            let signature = first.to_string();
            return Err(told(from, input, Problem::PlainNumber { signature, number: n }));
        }
        let number = short(n, from, input)?;
        if number == 0 {
            return Err(told(from, input, Problem::Leaves { leaves: 0, most: super::MOST_LEAVES }));
        }
        let identical_to = opt(delimited(literal("[="), cut_err(leaf), ']')).parse_next(input)?;
        return Ok(Item::Leaf { name: LeafName { signature: first, number }, identical_to });
    }
    let mut run = run_from(first, from, input)?;
    after_leaves(&mut run, from, input)?;
    Ok(Item::Run(run))
}

/// The rest of a run after its first signature: to the last, and the leaves.
fn run_from(first: Signature, from: usize, input: &mut Text<'_>) -> Read<Run> {
    let last = opt(preceded((dash, spaces), cut_err(expecting("the last signature of the run", signature))))
        .parse_next(input)?;
    let last = last.map(|l| in_series(l, &first));
    let leaves_from = input.current_token_start();
    let leaves = expecting("the number of leaves, raised: ^8 or a raised 8", raised);
    let leaves =
        if last.is_some() { cut_err(leaves).parse_next(input)? } else { { leaves }.parse_next(input)? };
    let leaves = check_leaves(leaves, leaves_from, input)?;
    let slash = |i: &mut Text<'_>| {
        one_of(['/', '⁄', '∕']).parse_next(i)?;
        cut_err(expecting("how many leaves every second gathering has, as ^8/4", alt((raised, number))))
            .parse_next(i)
    };
    let alternately = match opt(slash).parse_next(input)? {
        Some(n) => Some(check_leaves(n, leaves_from, input)?),
        None => None,
    };
    let run = Run {
        first,
        last,
        leaves,
        alternately,
        is_enclosed: false,
        stated: None,
        changes: Vec::new(),
        blank: Vec::new(),
        remarks: Vec::new(),
    };
    if let Some(last) = &run.last
        && run.first.place() == super::super::signature::Place::Alone
        && run.first == *last
    {
        return Err(told(from, input, Problem::OneOnly { signature: last.to_string() }));
    }
    Ok(run)
}

/// The last signature of a run belongs to the series of the first, and a Greek π or χ at the end of a Greek run is a letter.
fn in_series(mut last: Signature, first: &Signature) -> Signature {
    if last.series == Series::Main {
        last.series = first.series;
    }
    last.is_inferred |= first.is_inferred && first.symbol != Symbol::Pi;
    let greek = matches!(first.symbol, Symbol::Letter(c) if ('α'..='ω').contains(&c));
    match last.symbol {
        Symbol::Pi if greek => last.symbol = Symbol::Letter('π'),
        Symbol::Chi if greek => last.symbol = Symbol::Letter('χ'),
        _ => {}
    }
    last
}

/// What follows the leaves: the number of gatherings, and what was altered.
fn after_leaves(run: &mut Run, from: usize, input: &mut Text<'_>) -> Read<()> {
    let stated = delimited((spaces, literal("[=")), number, ']');
    run.stated = opt(stated).parse_next(input)?;
    let is_followed = opt(peek((spaces, '('))).parse_next(input)?.is_some();
    check_run(run, is_followed, from, input)?;
    while opt(peek('(')).parse_next(input)?.is_some() {
        parenthesis(run, &[], input)?;
    }
    Ok(())
}

/// A gathering that is put into another, with what was altered in it.
pub(super) fn laid_in(depth: u8, input: &mut Text<'_>) -> Read<Added> {
    let from = input.current_token_start();
    let signature = signature.parse_next(input)?;
    let leaves = raised.parse_next(input)?;
    let leaves = check_leaves(leaves, from, input)?;
    if depth >= super::MOST_DEEP {
        return Err(told(from, input, Problem::TooDeep { most: super::MOST_DEEP }));
    }
    let run = Run {
        first: signature,
        last: None,
        leaves,
        alternately: None,
        is_enclosed: false,
        stated: None,
        changes: Vec::new(),
        blank: Vec::new(),
        remarks: Vec::new(),
    };
    let altered = opt(peek('(')).parse_next(input)?.is_some();
    check_run(&run, altered, from, input)?;
    let changes = if altered {
        let inner = |i: &mut Text<'_>| changes(&run, depth + 1, i);
        delimited(('(', spaces), cut_err(inner), (spaces, ')')).parse_next(input)?
    } else {
        Vec::new()
    };
    Ok(Added::Gathering { signature: run.first, leaves, changes })
}

/// "single sheet, unsigned".
pub(super) fn single_sheet(input: &mut Text<'_>) -> Read<Vec<Item>> {
    let words = (literal("single sheet"), opt((',', spaces, literal("unsigned"))));
    terminated(words, spaces).map(|_| vec![Item::SingleSheet]).parse_next(input)
}

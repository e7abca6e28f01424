//! Reading a formula.

mod changes;
mod fault;
mod header;
mod items;
mod known;
mod run;
mod statements;
mod tokens;

use super::error::{FormulaError, Problem, Span};
use super::formula::{Formula, Item, changed_leaves};
use fault::{Read, Text, expecting};
use winnow::Parser as _;
use winnow::combinator::{alt, opt};
use winnow::error::ErrMode;
use winnow::stream::LocatingSlice;

pub(super) use changes::{leaves_of, nth_of};
pub(super) use run::gatherings;

/// The longest text that is read, characters. A thousand gatherings written singly take about seven thousand.
const MOST_CHARACTERS: usize = 100_000;

/// The most gatherings of one run. (Common practice, no source: no book comes near.)
pub(super) const MOST_GATHERINGS: u32 = 20_000;

/// The most leaves of one gathering. (Common practice, no source: quires of some dozens of leaves are known.)
pub(super) const MOST_LEAVES: u16 = 200;

/// The most leaves of all gatherings together. (Common practice, no source: a long set of many volumes has some ten thousand.)
const MOST_LEAVES_OF_ALL: u32 = 100_000;

/// The most alterations of one run, and leaves of one list: they are looked up one by one.
const MOST_LISTED: usize = 500;

/// How deep gatherings may lie in gatherings.
const MOST_DEEP: u8 = 3;

/// Reads a formula with its statements.
pub(super) fn read(text: &str) -> Result<Formula, FormulaError> {
    let start = Span { first: 0, end: 0 };
    if text.trim().is_empty() {
        return Err(FormulaError { at: start, problem: Problem::Empty });
    }
    let characters = text.chars().count();
    if characters > MOST_CHARACTERS {
        return Err(FormulaError {
            at: start,
            problem: Problem::TooLong { characters, most: MOST_CHARACTERS },
        });
    }
    // Whatever stands for a space is one, character for character, so that places stay what they are.
    let text = &text.chars().map(|c| if c.is_whitespace() { ' ' } else { c }).collect::<String>();
    let mut input = LocatingSlice::new(text.as_str());
    whole(&mut input).map_err(|e| match e {
        ErrMode::Backtrack(fault) | ErrMode::Cut(fault) => fault.into_error(text),
        // All of the text is here, so none is waited for.
        ErrMode::Incomplete(_) => FormulaError { at: start, problem: Problem::Empty },
    })
}

fn whole(input: &mut Text<'_>) -> Read<Formula> {
    tokens::spaces(input)?;
    let title = header::title(input)?;
    let format = opt(header::format).parse_next(input)?;
    let items = expecting(items::GATHERING, alt((items::single_sheet, items::items))).parse_next(input)?;
    few_enough(&items, input)?;
    let statements = statements::statements(&items, input)?;
    few_enough(&statements.also_signed, input)?;
    Ok(Formula { title, format, items, statements })
}

/// Refuses a formula of more leaves than any book has, before they are counted out one by one.
fn few_enough(items: &[Item], input: &Text<'_>) -> Read<()> {
    let mut leaves = 0_i64;
    for item in items {
        leaves += match item {
            Item::Leaf { .. } | Item::SingleSheet => 1,
            Item::Run(run) => {
                let more = run.leaves.max(run.alternately.unwrap_or(0));
                i64::from(gatherings(run)) * i64::from(more) + changed_leaves(&run.changes)
            }
        };
    }
    if leaves > i64::from(MOST_LEAVES_OF_ALL) {
        return Err(fault::told(0, input, Problem::TooMany { what: "leaves", most: MOST_LEAVES_OF_ALL }));
    }
    Ok(())
}

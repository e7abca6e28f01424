//! Whether a run can be: its order, its leaves, and how many gatherings it has.

use super::super::error::Problem;
use super::super::formula::Run;
use super::super::signature::{Place, Series, Signature};
use super::fault::{Read, Text, told};

/// How many gatherings a run has.
pub(in super::super) fn gatherings(run: &Run) -> u32 {
    let Some(last) = &run.last else { return 1 };
    let between = match (run.first.place(), last.place()) {
        (Place::InAlphabet(_, a), Place::InAlphabet(_, b)) | (Place::Number(a), Place::Number(b)) => {
            b.checked_sub(a).map(|n| n + 1)
        }
        _ => None,
    };
    between.or(run.stated).unwrap_or(1)
}

/// A number of leaves that a gathering can have.
pub(super) fn check_leaves(leaves: u32, from: usize, input: &Text<'_>) -> Read<u16> {
    match u16::try_from(leaves) {
        Ok(n) if (1..=super::MOST_LEAVES).contains(&n) => Ok(n),
        _ => Err(told(from, input, Problem::Leaves { leaves, most: super::MOST_LEAVES })),
    }
}

/// Refuses a run whose order, number or leaves cannot be.
pub(super) fn check_run(run: &Run, is_altered: bool, from: usize, input: &Text<'_>) -> Read<()> {
    let fault = |problem: Problem| Err(told(from, input, problem));
    for leaves in std::iter::once(run.leaves).chain(run.alternately) {
        // One leaf is a leaf; any other odd number wants a reason beside it.
        if leaves > 1 && leaves % 2 == 1 && !is_altered {
            return fault(Problem::Odd { leaves, even: leaves + 1, less: leaves - 1 });
        }
    }
    if let Some(last) = &run.last {
        check_order(run, last, from, input)?;
    } else if let Some(stated) = run.stated.filter(|n| *n != 1) {
        return fault(Problem::RunCount { counted: 1, stated });
    }
    let counted = gatherings(run);
    if counted > super::MOST_GATHERINGS {
        return fault(Problem::TooMany { what: "gatherings", most: super::MOST_GATHERINGS });
    }
    match run.stated {
        Some(stated) if stated != counted || stated == 0 => fault(Problem::RunCount { counted, stated }),
        _ => Ok(()),
    }
}

/// Refuses a run that does not go from an earlier to a later signature of one sequence.
fn check_order(run: &Run, last: &Signature, from: usize, input: &Text<'_>) -> Read<()> {
    let (a, b) = (run.first.to_string(), last.to_string());
    let fault = |problem: Problem| Err(told(from, input, problem));
    if run.first.series != last.series {
        let name = |s: &Signature| match s.series {
            Series::Main => "the main series",
            Series::Nth(_) => "a numbered series",
            Series::Pi => "the series before the first",
            Series::Chi => "the series after",
        };
        return fault(Problem::Across { first: a, last: b, from: name(&run.first), to: name(last) });
    }
    match (run.first.place(), last.place()) {
        (Place::InAlphabet(x, i), Place::InAlphabet(y, j)) if x == y => in_order(i, j, a, b, from, input),
        (Place::Number(i), Place::Number(j)) => in_order(i, j, a, b, from, input),
        (Place::Alone, _) | (_, Place::Alone) if run.stated.is_some_and(|n| n >= 2) => Ok(()),
        (Place::InAlphabet(x, _), Place::InAlphabet(y, _)) => {
            fault(Problem::Across { first: a, last: b, from: x.name(), to: y.name() })
        }
        (Place::InAlphabet(x, _), Place::Number(_)) => {
            fault(Problem::Across { first: a, last: b, from: x.name(), to: "numbers" })
        }
        (Place::Number(_), Place::InAlphabet(y, _)) => {
            fault(Problem::Across { first: a, last: b, from: "numbers", to: y.name() })
        }
        _ => fault(Problem::NoOrder { first: a, last: b }),
    }
}

fn in_order(i: u32, j: u32, first: String, last: String, from: usize, input: &Text<'_>) -> Read<()> {
    match i.cmp(&j) {
        std::cmp::Ordering::Less => Ok(()),
        std::cmp::Ordering::Equal => Err(told(from, input, Problem::OneOnly { signature: last })),
        std::cmp::Ordering::Greater => Err(told(from, input, Problem::Backwards { first, last })),
    }
}

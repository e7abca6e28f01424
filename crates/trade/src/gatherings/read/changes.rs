//! What stands in parentheses beside a gathering: leaves missing, replaced and put in, blank leaves, remarks.

use super::super::error::Problem;
use super::super::formula::{Added, Change, Item, Run};
use super::super::signature::{LeafName, Signature, Symbol};
use super::fault::{Read, Text, expecting, told};
use super::items::laid_in;
use super::known::is_known;
use super::run::gatherings;
use super::tokens::{dash, leaf, leaves, number, short, signature, spaces, to_parenthesis};
use winnow::Parser;
use winnow::combinator::{alt, cut_err, delimited, opt, peek, preceded, terminated};
use winnow::stream::{Location as _, Stream as _};
use winnow::token::{literal, one_of, take_while};

/// Words that make what stands in parentheses a remark, kept as it is written.
const REMARKS: [&str; 8] = [
    "also signed",
    "missigned",
    "missigning",
    "numerals",
    "characters",
    "alphabet",
    "right to left",
    "as printed",
];

/// A parenthesis beside a run, from its opening to its closing.
///
/// Blank leaves may be of any gathering before, where a list of them closes the formula.
pub(super) fn parenthesis(run: &mut Run, before: &[Item], input: &mut Text<'_>) -> Read<()> {
    let remark = delimited('(', to_parenthesis, ')').verify(|t: &str| REMARKS.iter().any(|r| t.contains(r)));
    if let Some(text) = opt(remark).parse_next(input)? {
        run.remarks.push(text.trim().to_owned());
        return Ok(());
    }
    let from = input.current_token_start();
    let blank = delimited(('(', spaces), leaves, (spaces, literal("blank"), spaces, ')'));
    if let Some(blank) = opt(blank).parse_next(input)? {
        for leaf in &blank {
            if nth_of(run, &leaf.signature).is_some() {
                is_of(run, leaf, from, input)?;
            } else {
                is_known(before, leaf, from, input)?;
            }
        }
        run.blank.extend(blank);
        return Ok(());
    }
    let of = run.clone();
    let inner = |i: &mut Text<'_>| changes(&of, 0, i);
    let close = expecting("\")\" after what was altered", (spaces, ')'));
    let found = delimited(('(', spaces), cut_err(inner), cut_err(close)).parse_next(input)?;
    run.changes.extend(found);
    few(run.changes.len(), "alterations of one run", from, input)?;
    twice(&run.changes, from, input)
}

/// Refuses more of what is looked up one by one than any book has.
pub(super) fn few(n: usize, what: &'static str, from: usize, input: &Text<'_>) -> Read<()> {
    if n > super::MOST_LISTED {
        return Err(told(from, input, Problem::TooMany { what, most: super::MOST_LISTED as u32 }));
    }
    Ok(())
}

/// Refuses a leaf that is cut away or replaced twice.
fn twice(changes: &[Change], from: usize, input: &Text<'_>) -> Read<()> {
    let mut gone: Vec<&LeafName> = Vec::new();
    let mut whole: Vec<&Signature> = Vec::new();
    for change in changes {
        if let Change::GatheringReplaced(signature) = change {
            if whole.iter().any(|g| g.is_same(signature)) {
                return Err(told(from, input, Problem::Twice { leaf: signature.to_string() }));
            }
            whole.push(signature);
        }
        let these: Vec<&LeafName> = match change {
            Change::Missing(l) | Change::Replaced(l) | Change::Substituted { leaves: l, .. } => {
                l.iter().collect()
            }
            Change::PairReplaced(a, b) => vec![a, b],
            Change::GatheringReplaced(_) | Change::Inserted { .. } => Vec::new(),
        };
        for leaf in these {
            if gone.iter().any(|g| g.number == leaf.number && g.signature.is_same(&leaf.signature)) {
                return Err(told(from, input, Problem::Twice { leaf: leaf.to_string() }));
            }
            gone.push(leaf);
        }
    }
    Ok(())
}

/// Alterations, parted by commas.
pub(super) fn changes(of: &Run, depth: u8, input: &mut Text<'_>) -> Read<Vec<Change>> {
    let mut found = vec![change(of, depth, input)?];
    let parted = (spaces, one_of([',', ';']), spaces);
    let mut more = opt(parted);
    while more.parse_next(input)?.is_some() {
        let from = input.current_token_start();
        found.push(change(of, depth, input)?);
        few(found.len(), "alterations of one run", from, input)?;
    }
    Ok(found)
}

const CHANGE: &str = "what was altered: (-A1) missing, (±A1) replaced, (±A) the whole gathering replaced, (A1+χ1) put in after A1";

fn change(of: &Run, depth: u8, input: &mut Text<'_>) -> Read<Change> {
    let from = input.current_token_start();
    let replaced = alt((literal("±"), literal("+-"), literal("+/-")));
    if opt(replaced).parse_next(input)?.is_some() {
        spaces(input)?;
        let from = input.current_token_start();
        return replacement(of, from, input);
    }
    if opt(dash).parse_next(input)?.is_some() {
        spaces(input)?;
        let leaves = checked_leaves(of, "the leaf, as A1", input)?;
        return Ok(
            match opt(preceded((spaces, '+', spaces), |i: &mut Text<'_>| added(depth, i)))
                .parse_next(input)?
            {
                Some(by) => Change::Substituted { leaves, by },
                None => Change::Missing(leaves),
            },
        );
    }
    let after = expecting(CHANGE, leaf).parse_next(input)?;
    is_of(of, &after, from, input)?;
    expecting("\"+\" and what was put in after that leaf", (spaces, '+', spaces)).parse_next(input)?;
    Ok(Change::Inserted { after, what: added(depth, input)? })
}

/// After ±: single leaves, a pair with a point between, or the signature alone for the whole gathering. (The last from memory, after
/// Bowers, *Principles of Bibliographical Description*, chapter 5; the cataloguing rules that were seen have none.)
fn replacement(of: &Run, from: usize, input: &mut Text<'_>) -> Read<Change> {
    let start = input.checkpoint();
    let pair = |i: &mut Text<'_>| {
        let first = leaf.parse_next(i)?;
        let second = preceded('.', number).parse_next(i)?;
        Ok((first, second))
    };
    if let Some((first, second)) = opt(pair).parse_next(input)? {
        let second = LeafName { number: short(second, from, input)?, ..first.clone() };
        let leaves = is_of(of, &first, from, input)?;
        is_of(of, &second, from, input)?;
        let fellow = leaves + 1 - first.number;
        if fellow != second.number {
            let name = LeafName { number: fellow, ..first.clone() };
            return Err(told(
                from,
                input,
                Problem::NotConjugate {
                    a: first.to_string(),
                    number: second.number,
                    b: second.to_string(),
                    fellow: name.to_string(),
                },
            ));
        }
        return Ok(Change::PairReplaced(first, second));
    }
    input.reset(&start);
    let alone = terminated(signature, peek((spaces, one_of([')', ',', ';']))));
    if let Some(signature) = opt(alone).parse_next(input)? {
        if nth_of(of, &signature).is_none() {
            return Err(told(from, input, other_gathering(of, signature.to_string())));
        }
        return Ok(Change::GatheringReplaced(signature));
    }
    input.reset(&start);
    checked_leaves(of, "the leaf, as A1, or the signature alone for the whole gathering", input)
        .map(Change::Replaced)
}

fn checked_leaves(of: &Run, expected: &'static str, input: &mut Text<'_>) -> Read<Vec<LeafName>> {
    let from = input.current_token_start();
    let found = expecting(expected, leaves).parse_next(input)?;
    for leaf in &found {
        is_of(of, leaf, from, input)?;
    }
    Ok(found)
}

/// What was put in, after the plus.
fn added(depth: u8, input: &mut Text<'_>) -> Read<Vec<Added>> {
    let mut found = Vec::new();
    loop {
        let from = input.current_token_start();
        let quotes = ['\'', '‘', '’', '"', '“', '”'];
        let text = take_while(1..=40, move |c: char| {
            !quotes.contains(&c) && c != '(' && c != ')' && !c.is_control()
        });
        let printed =
            delimited(one_of(quotes), text, one_of(quotes)).map(|t: &str| Added::Printed(t.to_owned()));
        let unnamed = |i: &mut Text<'_>| {
            let n = number.parse_next(i)?;
            peek(alt((one_of([',', ')', '+', ' ']).void(), winnow::combinator::eof.void()))).parse_next(i)?;
            Ok(n)
        };
        if let Some(one) = opt(printed).parse_next(input)? {
            found.push(one);
        } else if let Some(one) = opt(|i: &mut Text<'_>| laid_in(depth, i)).parse_next(input)? {
            found.push(one);
        } else if let Some(n) = opt(unnamed).parse_next(input)? {
            if !(1..=u32::from(super::MOST_LEAVES)).contains(&n) {
                return Err(told(from, input, Problem::Leaves { leaves: n, most: super::MOST_LEAVES }));
            }
            found.push(Added::Unnamed(short(n, from, input)?));
        } else {
            let several = |i: &mut Text<'_>| {
                // A leaf before a plus begins another alteration: it is not put in here.
                leaves.parse_next(i)
            };
            let what = "what was put in: χ1 for a leaf, χ² for two conjugate leaves, A^8 for a gathering, 1 for a leaf without a name";
            found.extend(expecting(what, several).parse_next(input)?.into_iter().map(Added::Leaf));
            few(found.len(), "leaves put in at one place", from, input)?;
        }
        if opt((spaces, '+', spaces)).parse_next(input)?.is_none() {
            return Ok(found);
        }
    }
}

/// How many leaves the gathering of a leaf has, if the run has such a leaf.
pub(super) fn is_of(run: &Run, leaf: &LeafName, from: usize, input: &Text<'_>) -> Read<u16> {
    let Some(nth) = nth_of(run, &leaf.signature) else {
        return Err(told(from, input, other_gathering(run, leaf.to_string())));
    };
    let leaves = leaves_of(run, nth);
    if leaf.number == 0 || leaf.number > leaves {
        let gathering = leaf.signature.to_string();
        return Err(told(from, input, Problem::NoLeaf { leaf: leaf.to_string(), gathering, leaves }));
    }
    Ok(leaves)
}

/// What is altered is of none of the run's gatherings.
fn other_gathering(run: &Run, leaf: String) -> Problem {
    let mut gatherings = String::new();
    // Writing to a string does not fail.
    run.write_range(false, &mut gatherings).ok();
    Problem::OtherGathering { leaf, gatherings }
}

/// Which gathering of a run, from 0, bears a signature.
pub(in super::super) fn nth_of(run: &Run, of: &Signature) -> Option<u32> {
    use super::super::signature::Place;
    if of.is_same(&run.first) {
        return Some(0);
    }
    // Beside a run of brackets, a pi in Greek runs: the letter that is written.
    let last = run.last.as_ref()?;
    if of.is_same(last) || (of.symbol == Symbol::Pi && last.symbol == Symbol::Letter('π')) {
        return Some(gatherings(run) - 1);
    }
    if of.series != run.first.series {
        return None;
    }
    let between = match (run.first.place(), of.place(), last.place()) {
        (Place::InAlphabet(x, a), Place::InAlphabet(y, b), Place::InAlphabet(_, c)) if x == y => (a, b, c),
        (Place::Number(a), Place::Number(b), Place::Number(c)) => (a, b, c),
        _ => return None,
    };
    (between.0..=between.2).contains(&between.1).then(|| between.1 - between.0)
}

/// How many leaves the n-th gathering of a run has, from 0.
pub(in super::super) fn leaves_of(run: &Run, nth: u32) -> u16 {
    match run.alternately {
        Some(other) if nth % 2 == 1 => other,
        _ => run.leaves,
    }
}

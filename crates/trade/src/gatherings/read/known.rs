//! Whether a leaf belongs to any gathering of the formula.

use super::super::error::Problem;
use super::super::formula::{Item, Run};
use super::super::signature::LeafName;
use super::changes::{is_of, nth_of};
use super::fault::{Read, Text, told};

/// Refuses a leaf of no gathering of the formula.
pub(super) fn is_known(of: &[Item], leaf: &LeafName, from: usize, input: &Text<'_>) -> Read<()> {
    let runs = of.iter().filter_map(|i| match i {
        Item::Run(run) => Some(run),
        _ => None,
    });
    let mut of_run: Option<&Run> = None;
    for run in runs.filter(|run| nth_of(run, &leaf.signature).is_some()) {
        // Where a signature stands twice, that which has such a leaf is meant.
        if is_of(run, leaf, from, input).is_ok() {
            return Ok(());
        }
        of_run = Some(run);
    }
    if let Some(run) = of_run {
        is_of(run, leaf, from, input)?;
    }
    let is_single = of.iter().any(|i| matches!(i, Item::Leaf { name, .. } if name == leaf));
    if is_single { Ok(()) } else { Err(told(from, input, Problem::Unknown { leaf: leaf.to_string() })) }
}

//! What is said of many copies.

use crate::record::{ManyRecord, PairFound, Photographed};
use evidence::ChangeClass;
use evidence::many::Variant;

/// The copies by their numbers: "1, 3 to 6 and 9".
pub fn numbers(copies: &[usize]) -> String {
    let mut all: Vec<String> = Vec::new();
    for run in copies.chunk_by(|p, q| *q == p + 1) {
        match run {
            [first, .., last] if run.len() > 2 => all.push(format!("{} to {}", first + 1, last + 1)),
            _ => all.extend(run.iter().map(|c| (c + 1).to_string())),
        }
    }
    match all.split_last() {
        None => "none".to_owned(),
        Some((only, [])) => only.clone(),
        Some((last, others)) => format!("{} and {last}", others.join(", ")),
    }
}

fn copies(n: usize) -> String {
    if n == 1 { "1 copy".to_owned() } else { format!("{n} copies") }
}

/// The first and the last file.
pub(super) fn title(record: &ManyRecord) -> String {
    from_to(&record.photographs).unwrap_or_else(|| "Many copies".to_owned())
}

/// The first and the last file of several.
pub(crate) fn from_to(photographs: &[Option<Photographed>]) -> Option<String> {
    let names: Vec<String> = photographs.iter().flatten().map(|p| crate::report::name(&p.file)).collect();
    match (names.first(), names.last()) {
        (Some(first), Some(last)) if names.len() > 1 => Some(format!("{first} to {last}")),
        _ => None,
    }
}

/// The result in one sentence.
pub(super) fn verdict(record: &ManyRecord) -> String {
    let all = record.photographs.len();
    let shared: Vec<usize> = record.settings.iter().map(Vec::len).filter(|&n| n > 1).collect();
    let alone = record.settings.len() - shared.len();
    match (&shared[..], alone) {
        ([], 0) => format!("Of {}, none could be placed.", copies(all)),
        ([], _) => format!("Of {}, no two are of one setting.", copies(all)),
        ([one], 0) if *one == all => format!("All {all} copies are of one setting."),
        ([one], 0) => format!("Of {}, {one} are of one setting.", copies(all)),
        ([one], 1) => format!("Of {}, {one} are of one setting; one stands alone.", copies(all)),
        ([one], _) => format!("Of {}, {one} are of one setting; {alone} stand alone.", copies(all)),
        (many, 0) => format!("{} of {} settings.", copies(all), many.len()),
        (many, 1) => format!("{} of {} settings; one stands alone.", copies(all), many.len()),
        (many, _) => format!("{} of {} settings; {alone} stand alone.", copies(all), many.len()),
    }
}

/// The settings, a sentence each, and what was left.
pub(super) fn findings(record: &ManyRecord) -> Vec<String> {
    let settings = record.settings.iter().zip(&record.groups_within).enumerate();
    let mut out: Vec<String> = settings
        .filter(|(_, (of, _))| of.len() > 1)
        .map(|(i, (of, groups))| {
            let of_setting = record.variants.iter().filter(|v| of.contains(&v.variant.frame));
            let (clear, perhaps): (Vec<_>, Vec<_>) = of_setting.partition(|v| v.variant.readings.len() > 1);
            let places = |n: usize| if n == 1 { "one place".to_owned() } else { format!("{n} places") };
            let within = match (clear.len(), perhaps.len()) {
                (0, 0) => "no place was found in which they differ".to_owned(),
                (0, n) => format!("they may differ in {}, but in none is it clear", places(n)),
                (n, 0) => format!("they differ in {}, in {} groups", places(n), groups.len()),
                (n, m) => {
                    format!("they differ in {}, in {} groups, and may in {m} more", places(n), groups.len())
                }
            };
            format!("Setting {}: copies {}; {within}.", i + 1, numbers(of))
        })
        .collect();
    let alone: Vec<usize> = record.settings.iter().filter(|of| of.len() == 1).flatten().copied().collect();
    match &alone[..] {
        [] => {}
        [one] => out.push(format!("Copy {} agrees with no other.", one + 1)),
        _ => out.push(format!("Copies {} agree with no other, each a setting by itself.", numbers(&alone))),
    }
    if !record.unplaced.is_empty() {
        let all: Vec<usize> = record.unplaced.iter().map(|u| u.copy).collect();
        out.push(format!("Not placed: {}.", numbers(&all)));
    }
    out
}

/// What is said of a setting over its places.
pub(super) fn of_setting(all: &[usize], groups: &[Vec<usize>]) -> String {
    let groups: Vec<String> = groups.iter().filter(|g| g.len() > 1).map(|g| numbers(g)).collect();
    if all.len() == 1 {
        format!("Copy {} agrees with no other.", all[0] + 1)
    } else if groups.is_empty() {
        "No two copies agree in every place that could be judged.".to_owned()
    } else {
        format!("In every place that could be judged these agree: {}.", groups.join("; "))
    }
}

/// What contradicts itself, a sentence each.
pub(super) fn contradictions(record: &ManyRecord) -> Vec<String> {
    record
        .contradictions
        .iter()
        .map(|c| {
            let [p, q] = c.of_one_setting_with;
            format!(
                "Copy {} is of one setting with copy {} and with copy {}, but of these two it is found: {}",
                c.copy + 1,
                p + 1,
                q + 1,
                c.but_these.amid_a_sentence()
            )
        })
        .collect()
}

/// Terms and what they are: how many pairs, how surely, how well they lie.
pub(super) fn measures(record: &ManyRecord) -> Vec<(String, String)> {
    let pairs = &record.pairs;
    let one = pairs.iter().filter(|p| p.verdict.is_one_setting());
    let mut weights: Vec<f64> = one.clone().filter_map(|p| p.weight_log10).collect();
    weights.sort_by(f64::total_cmp);
    let mut residuals: Vec<f64> = one.filter_map(|p| p.residual.median_mm).collect();
    residuals.sort_by(f64::total_cmp);
    let mut out = vec![("Laid together".to_owned(), format!("{} pairs", pairs.len()))];
    if let (Some(least), Some(most)) = (weights.first(), weights.last()) {
        let range =
            if most - least < 0.05 { format!("{most:.1}") } else { format!("{least:.1} to {most:.1}") };
        out.push(("Weight within the settings, log10".to_owned(), range));
    }
    if let (Some(least), Some(most)) = (residuals.first(), residuals.last()) {
        out.push((
            "Residual within the settings".to_owned(),
            format!("{least:.3} to {most:.3} mm (medians)"),
        ));
    }
    out
}

pub(super) fn verdict_of_pair(pair: &PairFound) -> String {
    let perhaps = if pair.perhaps_one_copy.is_some() { " Perhaps one copy, photographed twice." } else { "" };
    format!("{}{perhaps}", pair.verdict.sentence())
}

/// What differs at a place, from the first reading to the others; where no other is clear, that it may.
pub fn what_differs(variant: &Variant) -> String {
    let perhaps = if variant.readings.len() < 2 { "perhaps " } else { "" };
    let what = match variant.class {
        ChangeClass::SortAdded => "print that the first reading lacks",
        ChangeClass::SortLost => "print that only the first reading has",
        other => other.words(),
    };
    format!("{perhaps}{what}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn copies_are_told_as_one_reads_them() {
        assert_eq!(numbers(&[0]), "1");
        assert_eq!(numbers(&[0, 2]), "1 and 3");
        assert_eq!(numbers(&[0, 2, 3]), "1, 3 and 4");
    }
}

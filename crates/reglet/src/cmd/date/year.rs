//! A single year in Roman letters, and a chronogram: what is said of them.

use super::record::{ChronogramFound, DateRecord, GivenDate, MeantFound, NumeralFound, ReadingFound};
use anyhow::{Context as _, Result};
use publish::record::PROGRAM;
use std::ops::RangeInclusive;
use trade::numerals::{Chronogram, HAND_PRESS, Meant, Numeral, Prior, meant, read};
use trade::reckoning::that_is;

/// A share from which on one reading is said without a query in the cataloguing form.
const SURE: f64 = 0.95;
/// Readings below this share are counted and not told one by one; and so many are told at most.
const TOLD: f64 = 0.005;
const MOST_TOLD: usize = 8;

/// What is said of a numeral.
pub(super) fn of_numeral(text: &str, between: Option<&RangeInclusive<i32>>) -> Result<(DateRecord, String)> {
    let numeral = read(text).with_context(|| format!("\"{text}\" cannot be read"))?;
    let window = between.cloned().unwrap_or(HAND_PRESS);
    let prior = Prior { between: window.clone(), ..Prior::default() };
    let all = meant(&numeral, &prior);
    let strict = i32::try_from(numeral.strict()).unwrap_or(i32::MAX);
    let can_be = window.contains(&strict);
    let catalogued: Vec<String> = match all.first() {
        Some(best) if !can_be || best.year != strict => {
            vec![that_is(text, best.year, best.plausibility >= SURE)]
        }
        _ => Vec::new(),
    };
    let words = words(&numeral, &all, &window, between.is_some(), &catalogued);
    let record = DateRecord {
        can_be,
        numeral: Some(NumeralFound {
            strictly: numeral.strict(),
            readings: numeral
                .readings
                .iter()
                .map(|r| ReadingFound { value: r.value, how: r.system.name().to_owned() })
                .collect(),
            meant: all
                .iter()
                .map(|m| MeantFound {
                    year: m.year,
                    as_set: m.as_set.clone(),
                    slip: m.slip.map(|s| s.kind().to_owned()),
                    reason: reason(m),
                    plausibility: m.plausibility,
                })
                .collect(),
            between_from: *window.start(),
            between_to: *window.end(),
        }),
        catalogued,
        cautions: vec![WEIGHED.to_owned()],
        ..empty(text)
    };
    Ok((record, words))
}

/// How the shares come about.
const WEIGHED: &str = "The shares are estimates, not counts: every year in the window is taken as equally likely, 97 dates in 100 as \
    set as they were meant, and how often each kind of slip is made is this program's own proposal. Another date on the sheet, or \
    the years in which the printer worked, decides better.";

fn empty(text: &str) -> DateRecord {
    DateRecord {
        can_be: true,
        dates: vec![GivenDate {
            role: "imprint".to_owned(),
            text: text.to_owned(),
            parts: Vec::new(),
            unread: Vec::new(),
        }],
        numeral: None,
        chronogram: None,
        days: Vec::new(),
        conflicts: Vec::new(),
        remedies: Vec::new(),
        left_out: Vec::new(),
        catalogued: Vec::new(),
        cautions: Vec::new(),
        program: PROGRAM.to_owned(),
    }
}

fn reason(m: &Meant) -> String {
    match m.slip {
        Some(slip) => slip.to_string(),
        None => format!("no slip: {}", m.system.name()),
    }
}

fn words(
    numeral: &Numeral,
    all: &[Meant],
    window: &RangeInclusive<i32>,
    is_given: bool,
    catalogued: &[String],
) -> String {
    let strict = numeral.strict();
    let mut out = vec![format!("{} strictly reads {strict}.", numeral.text)];
    for other in numeral.readings.iter().skip(1) {
        out.push(format!("It could also be read as {}, {}.", other.value, other.system.name()));
    }
    let can_be = i32::try_from(strict).is_ok_and(|year| window.contains(&year));
    let (from, to) = (window.start(), window.end());
    if !can_be {
        out.push(if is_given {
            format!("That lies outside the years you gave, {from} to {to}.")
        } else {
            format!("No sheet of the hand press can bear that year: it lies outside {from} to {to}.")
        });
    }
    out.push(String::new());
    if all.is_empty() {
        out.push(format!(
            "No year from {from} to {to} is within one slip of it. Look at the sheet again, letter by letter."
        ));
        return out.join("\n");
    }
    let told: Vec<&Meant> = all.iter().filter(|m| m.plausibility >= TOLD).take(MOST_TOLD).collect();
    if can_be && told.len() == 1 {
        out.push(
            "Nothing speaks against it: with one slip undone, no other year comes to half a hundredth."
                .to_owned(),
        );
    } else {
        out.push(if can_be {
            "It may stand. With a slip of the compositor it could also have been meant otherwise, likeliest first:".to_owned()
        } else {
            "What it may have been meant to say, likeliest first, each with the one slip that explains it:".to_owned()
        });
        let width = told.iter().map(|m| m.as_set.chars().count()).max().unwrap_or(0);
        for m in &told {
            let share = m.plausibility * 100.0;
            out.push(format!("  {}  {:width$}  {share:3.0} in 100  {}", m.year, m.as_set, reason(m)));
        }
        if all.len() > told.len() {
            out.push(format!("  and {} more, each less likely", all.len() - told.len()));
        }
    }
    if let [form] = catalogued {
        out.extend([String::new(), format!("In a catalogue: {form}")]);
    }
    if !can_be && all[0].plausibility < 0.5 {
        out.push("No reading has half of the belief: only another date can decide.".to_owned());
    }
    if !can_be || told.len() > 1 {
        out.extend([String::new(), WEIGHED.to_owned()]);
    }
    if !can_be {
        out.push(format!(
            "To hold it against another date: reglet date 'imprint: {}' 'text: {}'",
            numeral.text,
            all.first().map_or(1701, |m| m.year)
        ));
    }
    out.join("\n")
}

/// What is said of a chronogram.
pub(super) fn of_chronogram(text: &str, told: &Chronogram) -> (DateRecord, String) {
    let counted: Vec<String> = told.letters.iter().map(|l| format!("{} {}", l.letter, l.value)).collect();
    let words = format!(
        "The capitals that are numerals come to {}.\n\nThey are, in order: {}.\n\nOther capitals count nothing. In some places W \
         counts 10 (--double-v), in the Low Countries Y counts 2 (--y-as-two).",
        told.year,
        counted.join(", ")
    );
    let letters = told.letters.iter().map(|l| (l.letter.to_string(), l.value, l.span.start)).collect();
    let record = DateRecord { chronogram: Some(ChronogramFound { year: told.year, letters }), ..empty(text) };
    (record, words)
}

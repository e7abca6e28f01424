//! Dating clauses, one or several held against each other: what is said of them.

use super::record::{DateRecord, DaysFound, GivenDate, PartFound, RemedyFound, SlipFound};
use crate::cmd::calendar::{Stretch, element_words, stretch_words};
use anyhow::Result;
use publish::record::PROGRAM;
use std::ops::RangeInclusive;
use trade::clause::{DaySet, Element, Place, Reckoning};
use trade::reckoning::{Reconciled, Remedy, Request, Statement, catalogued, reconcile};
use trade::reigns::{Counting, REIGNS, year};

/// Stretches of days that are told at most, in words and in the record; and remedies.
const MOST_TOLD: usize = 12;
const MOST_WRITTEN: usize = 100;
const MOST_REMEDIES: usize = 5;
/// The share of belief from which on a remedy's year is written without a query.
const SURE: f64 = 0.95;

const CAUTION: &str = "A date on a sheet is evidence of when it was dated, not proof of when it was printed: old dates were reprinted, \
    and false ones set on purpose.";

/// What is said of dates.
pub(super) fn of_dates(
    statements: &[Statement],
    place: Place,
    between: Option<&RangeInclusive<i32>>,
) -> Result<(DateRecord, String)> {
    let told = reconcile(statements, &Request { place, between: between.cloned() })?;
    let record = record(statements, &told);
    let words = words(statements, &told, &record, between);
    Ok((record, words))
}

fn record(statements: &[Statement], told: &Reconciled) -> DateRecord {
    // A licence or an event is told as a whole.
    let part_words = |p: &usize| {
        let part = &told.parts[*p];
        let statement = &statements[part.statement];
        if statement.role.is_of_printing() {
            part.placed.words.clone()
        } else {
            format!("{}: {}", statement.role.name(), statement.text)
        }
    };
    let agreed = told.agreement.iter().map(|r| {
        let mut taken = granted(told, &r.countings, &r.days);
        if r.year_of_january {
            taken.push("the year taken as that of the January which is named, so that the day lies in the year before".to_owned());
        }
        found(&r.days, &r.reckonings, taken)
    });
    let agreed: Vec<DaysFound> = agreed.collect();
    DateRecord {
        can_be: !told.agreement.is_empty(),
        dates: statements.iter().map(given).collect(),
        numeral: None,
        chronogram: None,
        days: agreed,
        conflicts: told.conflicts.iter().map(|c| c.parts.iter().map(part_words).collect()).collect(),
        remedies: told.remedies.iter().map(remedy).collect(),
        left_out: told.left_out.iter().map(part_words).collect(),
        catalogued: catalogue(statements, told),
        cautions: vec![CAUTION.to_owned()],
        program: PROGRAM.to_owned(),
    }
}

fn given(statement: &Statement) -> GivenDate {
    GivenDate {
        role: statement.role.name().to_owned(),
        text: statement.text.clone(),
        parts: statement
            .elements
            .iter()
            .map(|p| PartFound {
                words: p.words.clone(),
                from_character: p.span.start,
                to_character: p.span.end,
                read_as: element_words(&p.element),
            })
            .collect(),
        unread: statement.unread.iter().map(|(words, _)| words.clone()).collect(),
    }
}

fn remedy(r: &Remedy) -> RemedyFound {
    RemedyFound {
        slips: r
            .slips
            .iter()
            .map(|s| SlipFound { set: s.set.clone(), meant: s.meant.clone(), reason: s.reason.clone() })
            .collect(),
        days: found(&r.days, &r.reckonings, Vec::new()),
        plausibility: r.plausibility,
    }
}

fn found(days: &DaySet, reckonings: &[Reckoning], taken_for_granted: Vec<String>) -> DaysFound {
    let stretches = days.ranges();
    DaysFound {
        reckonings: reckonings.iter().map(|r| r.name.to_owned()).collect(),
        taken_for_granted,
        count: days.days(),
        stretches: stretches
            .iter()
            .take(MOST_WRITTEN)
            .map(|range| {
                Stretch::of(*range, reckonings.first().map_or_else(String::new, |r| stretch_words(*range, r)))
            })
            .collect(),
    }
}

/// How reigns that are counted in two ways were counted, where it makes a difference to these days.
fn granted(told: &Reconciled, countings: &[Counting], days: &DaySet) -> Vec<String> {
    let [counting] = countings else { return Vec::new() };
    let mut all: Vec<String> = Vec::new();
    for part in &told.parts {
        let Element::Reign { sovereigns, number, queen: None } = &part.placed.element else { continue };
        for sovereign in REIGNS.iter().map(|r| r.sovereign) {
            let Some(counts) = sovereign.counts() else { continue };
            let is_meant = sovereigns.contains(&sovereign) || sovereigns.is_empty() && counts.is_in_handbooks;
            let holds = year(sovereign, *number, *counting).is_some_and(|range| {
                let mut of_year = DaySet::none();
                of_year.add(range);
                of_year.meets(days)
            });
            let words = if *counting == Counting::Usual { counts.usual } else { counts.other };
            if is_meant && holds && sovereign.is_disputed(*number) && !all.iter().any(|w| w == words) {
                all.push(words.to_owned());
            }
        }
    }
    all
}

/// The cataloguing forms of the dates of printing: where all agree by one year, or by the likeliest remedy.
fn catalogue(statements: &[Statement], told: &Reconciled) -> Vec<String> {
    let (days, reckoning, is_sure) = match (&told.agreement[..], told.remedies.first()) {
        ([only], _) => (&only.days, only.reckonings[0], true),
        ([first, ..], _) => (&first.days, first.reckonings[0], false),
        ([], Some(best)) => (&best.days, best.reckonings[0], best.plausibility >= SURE),
        ([], None) => return Vec::new(),
    };
    statements.iter().filter_map(|s| catalogued(s, days, &reckoning, is_sure)).collect()
}

fn words(
    statements: &[Statement],
    told: &Reconciled,
    record: &DateRecord,
    between: Option<&RangeInclusive<i32>>,
) -> String {
    let mut out = vec!["Read:".to_owned()];
    for (statement, given) in statements.iter().zip(&record.dates) {
        let is_one = statements.len() == 1;
        if !is_one {
            out.push(format!("  {}: {}", given.role, given.text));
        }
        for part in &given.parts {
            let indent = if is_one { "  " } else { "    " };
            out.push(format!("{indent}\"{}\" as {}", part.words, part.read_as));
        }
        for (words, _) in &statement.unread {
            out.push(format!("    (not read: \"{words}\")"));
        }
    }
    out.push(String::new());
    if told.agreement.is_empty() {
        against(&mut out, told, record, between);
    } else {
        agreed(&mut out, statements, record, between.is_some());
    }
    let title = "In a catalogue:".to_owned();
    if !record.catalogued.is_empty() {
        out.push(String::new());
        out.push(title);
        out.extend(record.catalogued.iter().map(|c| format!("  {c}")));
    }
    out.extend([String::new(), CAUTION.to_owned()]);
    out.join("\n")
}

fn agreed(out: &mut Vec<String>, statements: &[Statement], record: &DateRecord, has_window: bool) {
    let is_one = statements.len() == 1;
    let what = match (is_one, record.days.len()) {
        (true, 1) => "It says:",
        (true, _) => "It can say, by different reckonings:",
        (false, 1) => "The dates agree. Printed, if they are true:",
        (false, _) => "The dates agree, by more than one reckoning. Printed, if they are true:",
    };
    out.push(what.to_owned());
    for days in &record.days {
        days_told(out, days, "  ");
    }
    let many = record.days.iter().any(|d| d.stretches.len() > MOST_TOLD);
    if many && !has_window {
        out.push(
            "To narrow it, give another date of the sheet, or the years of the printer: --between 1640..1720"
                .to_owned(),
        );
    }
}

fn days_told(out: &mut Vec<String>, days: &DaysFound, indent: &str) {
    for stretch in days.stretches.iter().take(MOST_TOLD) {
        out.push(format!("{indent}{}", stretch.words));
    }
    let more = days.stretches.len().saturating_sub(MOST_TOLD);
    if more > 0 {
        let at_least = if days.stretches.len() == MOST_WRITTEN { "at least " } else { "" };
        out.push(format!("{indent}and {at_least}{more} more"));
    }
    out.push(match &days.reckonings[..] {
        [one] => format!("{indent}  by {one}"),
        all => format!("{indent}  the same by {}", all.join(", and by ")),
    });
    for granted in &days.taken_for_granted {
        out.push(format!("{indent}  {granted}"));
    }
}

fn against(
    out: &mut Vec<String>,
    told: &Reconciled,
    record: &DateRecord,
    between: Option<&RangeInclusive<i32>>,
) {
    if told.outside_window
        && let Some(years) = between
    {
        out.push(format!(
            "No day that it allows lies from {} to {}, the years you gave.",
            years.start(),
            years.end()
        ));
    } else {
        out.push("There is no day on which all this is true.".to_owned());
    }
    for conflict in &record.conflicts {
        let all: Vec<String> = conflict.iter().map(|w| format!("\"{w}\"")).collect();
        out.push(match &all[..] {
            [one] => format!("  {one} by itself: no day from 1400 to 1900 is so called there"),
            _ => format!("  these cannot be true together: {}", all.join(", ")),
        });
    }
    out.push(String::new());
    if record.remedies.is_empty() {
        if record.left_out.is_empty() || record.left_out.len() == told.parts.len() {
            out.push("No three slips of a compositor would reconcile it.".to_owned());
        } else {
            out.push("No slips of a compositor that are looked for would reconcile it. The rest agrees if this is left out:".to_owned());
            out.extend(record.left_out.iter().map(|w| format!("  \"{w}\"")));
        }
        return;
    }
    let slips = record.remedies[0].slips.len();
    let how = if slips == 1 { "One slip".to_owned() } else { format!("{slips} slips, and no fewer,") };
    out.push(format!("{how} would reconcile it; the possibilities, likeliest first:"));
    for remedy in record.remedies.iter().take(MOST_REMEDIES) {
        let share = format!("{:.0} in 100", remedy.plausibility * 100.0);
        for slip in &remedy.slips {
            out.push(format!("  \"{}\" meant {}  ({share})", slip.set, slip.meant));
            out.push(format!("    {}", slip.reason));
        }
        if let Some(first) = remedy.days.stretches.first() {
            let more = remedy.days.stretches.len() - 1;
            let more = if more > 0 { format!(", and {more} more") } else { String::new() };
            out.push(format!("    then printed: {}{more}", first.words));
        }
    }
    let more = record.remedies.len().saturating_sub(MOST_REMEDIES);
    if more > 0 {
        out.push(format!("  and {more} more, each less likely"));
    }
    out.push("The shares are this program's estimate of how often each slip is made, not counts.".to_owned());
}

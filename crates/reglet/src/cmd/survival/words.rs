//! What is lost, in words.

use super::super::told::{chance, tenth, whole};
use super::SurvivalRecord;
use crate::say::list;
use trade::survival::{Estimate, Interval, Survival};

/// Everything a reader at a terminal is told.
pub(super) fn of(record: &SurvivalRecord) -> String {
    let mut out = Vec::new();
    if let Some(study) = &record.study {
        of_study(&mut out, study);
    }
    if let Some(r) = &record.recapture {
        part(&mut out);
        out.push(format!(
            "Found in two books: there are about {} (Chapman), {}{}",
            tenth(r.chapman),
            range(&r.interval_95),
            r.lincoln_petersen.map_or_else(String::new, |l| format!(
                "; {} by the plain proportion (Lincoln and Petersen)",
                tenth(l)
            ))
        ));
        out.push(
            "  Both books are taken to draw on one fount, and each sort to have the same chance in either."
                .to_owned(),
        );
    }
    if let Some(likeness) = record.likeness {
        part(&mut out);
        out.push(format!(
            "Two founts that have nothing to do with each other share at least one such likeness with a chance of {}.",
            chance(likeness)
        ));
        out.push("  One likeness proves little then; several that are independent, much.".to_owned());
    }
    if let Some(seen) = record.sorts_seen {
        part(&mut out);
        out.push(format!("Different damaged sorts expected to have been seen by then: {}.", tenth(seen)));
    }
    out.join("\n")
}

fn part(out: &mut Vec<String>) {
    if !out.is_empty() {
        out.push(String::new());
    }
}

fn range(interval: &Interval) -> String {
    match interval.high {
        Some(high) => format!("95 percent: {} to {}", whole(interval.low), whole(high)),
        None => format!("95 percent: {} or more, without an upper bound", whole(interval.low)),
    }
}

fn of_study(out: &mut Vec<String>, told: &Survival) {
    let items = told.items as f64;
    out.push(format!("{} items are known, in {} copies.", whole(items), whole(told.copies as f64)));
    if told.known_lost > 0 {
        out.push(format!(
            "Besides, {} without a copy are known from elsewhere.",
            whole(told.known_lost as f64)
        ));
    }
    out.push(String::new());
    out.push("How many there were, lost ones counted in".to_owned());
    out.push(line("At least, by Chao (Chao1)", &told.chao1, items));
    if let Some(z) = &told.zelterman {
        out.push(line("From those in 1 and 2 copies (Zelterman)", z, items));
    }
    for law in &told.laws {
        out.push(line(&format!("If copies follow the law: {}", law.law), &law.estimate, items));
    }
    let e = told.equal_editions;
    match (e.even_chance, e.most_likely) {
        (Some(n), _) => out.push(format!(
            "  All copies are of different editions. Were all editions as likely to leave a copy, the least number that makes this as \
             likely as not is {} (as Greg reckoned for Everyman)",
            whole(n as f64)
        )),
        (None, Some(n)) => {
            let estimate = Estimate { total: Some(n), standard_error: None, interval_95: e.interval_95 };
            out.push(line("Were all as likely to leave a copy", &estimate, items));
        }
        (None, None) => {}
    }
    out.push(String::new());
    out.push("How well the laws fit".to_owned());
    for law in &told.laws {
        let numbers: Vec<String> =
            law.parameters.iter().map(|p| format!("{} {:.4}", p.name, p.value)).collect();
        let weight =
            law.weight.map_or_else(String::new, |w| format!(", {:.0} of 100 by weight (Akaike)", w * 100.0));
        let fit = match law.fit {
            Some(f) => format!(", fits this badly or worse with a chance of {}", chance(f.chance)),
            None if law.parameters.is_empty() => String::new(),
            None => ", too few counts to tell how well it fits".to_owned(),
        };
        let numbers = if numbers.is_empty() { "no fit".to_owned() } else { numbers.join(", ") };
        out.push(format!("  {}: {numbers}{weight}{fit}", law.law));
        out.push(format!("    {}.", law.caution));
    }
    out.push(String::new());
    let c = told.coverage;
    out.push(format!(
        "Of all copies that may turn up, about {:.0} in 100 would be of items that are known ({:.0} to {:.0}; Good and Turing).",
        c.share * 100.0,
        c.interval_95[0] * 100.0,
        c.interval_95[1] * 100.0
    ));
    for f in &told.further {
        let size = if f.share < 1.0 {
            format!("{} times as much searching", f.share)
        } else {
            "As much searching again".to_owned()
        };
        out.push(format!(
            "{size} would bring about {} new items, give or take {} (Good and Toulmin).",
            whole(f.new_items),
            whole(f.standard_deviation)
        ));
    }
    list(out, "Mind:", &told.warnings);
    list(out, "Why this could be wrong:", &told.cautions);
}

fn line(name: &str, estimate: &Estimate, known: f64) -> String {
    let interval = &estimate.interval_95;
    match estimate.total {
        Some(total) => format!(
            "  {name}: {} ({}); {:.0} in 100 survive",
            whole(total),
            range(interval),
            100.0 * known / total
        ),
        None => format!("  {name}: no number ({})", range(interval)),
    }
}

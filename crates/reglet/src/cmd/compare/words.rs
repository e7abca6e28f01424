//! The result as it is said on a terminal.

use crate::say::list;
use evidence::many::Variant;
use evidence::{Change, Comparison};
use publish::many::what_differs;
use publish::record::ManyRecord;
use publish::report::{line_words, name as short};

/// Places listed on a terminal; the page and the JSON have all.
const LISTED: usize = 12;

/// Where a place lies on a photograph.
fn at(line: Option<usize>, box_px: [f64; 4]) -> String {
    let line = line_words(line);
    let [x, y, w, h] = box_px.map(f64::round);
    format!("{line}, {w} x {h} px at {x}, {y}")
}

/// The places that differ, one a line.
fn places(c: &Comparison) -> Vec<String> {
    let place = |p: &Change| {
        format!("{} of the first: {} (score {:.2})", at(p.line, p.box_a_px), p.class.words(), p.score)
    };
    let mut out: Vec<String> = c.changes.iter().take(LISTED).map(place).collect();
    if c.changes.len() > LISTED {
        out.push(format!("and {} more; the page and the JSON list all", c.changes.len() - LISTED));
    }
    out
}

/// The verdict on two photographs.
pub(super) fn of_pair(c: &Comparison) -> String {
    let mut out = vec![c.verdict.sentence().to_owned()];
    if let Some(w) = c.weight_log10 {
        let way = if w >= 0.0 { "one setting" } else { "two settings" };
        out.push(format!("Weight of the evidence: {:.1} (log10), for {way}.", w.abs()));
    }
    list(&mut out, "Why", &c.reasons);
    list(&mut out, "Where", &places(c));
    if let Some(one) = &c.perhaps_one_copy {
        list(&mut out, "Perhaps one copy", std::slice::from_ref(one));
    }
    list(&mut out, "Beware", &c.cautions);
    list(&mut out, "Notes", &c.warnings);
    out.join("\n")
}

/// What was found of many copies.
pub(super) fn of_many(record: &ManyRecord) -> String {
    let name = |copy: usize| {
        let about = record.photographs.get(copy).and_then(Option::as_ref);
        about.map_or_else(|| format!("copy {}", copy + 1), |a| short(&a.file))
    };
    let names = |copies: &[usize]| copies.iter().map(|&c| name(c)).collect::<Vec<_>>().join(", ");
    let mut out = vec![match record.settings.len() {
        0 => "No two of the photographs allow a verdict.".to_owned(),
        1 => "All that could be placed agree with one setting of type.".to_owned(),
        n => format!("{n} settings of type."),
    }];
    for (i, (setting, groups)) in record.settings.iter().zip(&record.groups_within).enumerate() {
        let copies =
            if setting.len() == 1 { "1 copy".to_owned() } else { format!("{} copies", setting.len()) };
        let items: Vec<String> = match &groups[..] {
            [_] | [] => vec![names(setting)],
            several => {
                several.iter().map(|group| format!("agree in every place: {}", names(group))).collect()
            }
        };
        list(&mut out, &format!("Setting {}, {copies}", i + 1), &items);
        let places: Vec<String> = record
            .variants
            .iter()
            .map(|v| &v.variant)
            .filter(|v| setting.contains(&v.frame))
            .map(|v| variant(v, &name, &names))
            .collect();
        list(&mut out, &format!("Where the copies of setting {} differ", i + 1), &places);
    }
    let contradictions: Vec<String> = record
        .contradictions
        .iter()
        .map(|c| {
            let [p, q] = c.of_one_setting_with;
            format!(
                "{} agrees with {} and with {}, but of these two it is found: {}",
                name(c.copy),
                name(p),
                name(q),
                c.but_these.amid_a_sentence()
            )
        })
        .collect();
    list(&mut out, "What contradicts itself", &contradictions);
    let unplaced: Vec<String> = record.unplaced.iter().map(|u| format!("{}: {}", u.file, u.reason)).collect();
    list(&mut out, "Not placed", &unplaced);
    list(&mut out, "Beware", &record.cautions);
    list(&mut out, "Notes", &record.warnings);
    out.join("\n")
}

/// One place that differs, and who agrees there.
fn variant(v: &Variant, name: &impl Fn(usize) -> String, names: &impl Fn(&[usize]) -> String) -> String {
    let mut parties: Vec<String> = v.readings.iter().map(|r| names(r)).collect();
    if !v.unclear.is_empty() {
        parties.push(format!("not clear in {}", names(&v.unclear)));
    }
    format!("{} of {}: {}; {}", at(v.line, v.box_px), name(v.frame), what_differs(v), parties.join(" | "))
}

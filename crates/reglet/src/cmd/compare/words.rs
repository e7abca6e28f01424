//! The verdict as it is said on a terminal.

use evidence::{Change, Comparison};

/// Places listed on a terminal; the page and the JSON have all.
const LISTED: usize = 12;

/// The places that differ, one a line.
fn places(c: &Comparison) -> Vec<String> {
    let place = |p: &Change| {
        let line = p.line.map_or_else(|| "between the lines".to_owned(), |n| format!("line {n}"));
        let [x, y, w, h] = p.box_a_px.map(f64::round);
        format!("{line}, {w} x {h} px at {x}, {y} of the first: {} (score {:.2})", p.class.words(), p.score)
    };
    let mut out: Vec<String> = c.changes.iter().take(LISTED).map(place).collect();
    if c.changes.len() > LISTED {
        out.push(format!("and {} more; the page and the JSON list all", c.changes.len() - LISTED));
    }
    out
}

/// The verdict as it is said on a terminal.
pub(super) fn words(c: &Comparison) -> String {
    let mut out = vec![c.verdict.sentence().to_owned()];
    if let Some(w) = c.weight_log10 {
        let way = if w >= 0.0 { "one setting" } else { "two settings" };
        out.push(format!("Weight of the evidence: {:.1} (log10), for {way}.", w.abs()));
    }
    let list = |out: &mut Vec<String>, title: &str, items: &[String]| {
        if !items.is_empty() {
            out.push(String::new());
            out.push(title.to_owned());
            out.extend(items.iter().map(|i| format!("  - {i}")));
        }
    };
    list(&mut out, "Why", &c.reasons);
    list(&mut out, "Where", &places(c));
    if let Some(one) = &c.perhaps_one_copy {
        list(&mut out, "Perhaps one copy", std::slice::from_ref(one));
    }
    list(&mut out, "Beware", &c.cautions);
    list(&mut out, "Notes", &c.warnings);
    out.join("\n")
}

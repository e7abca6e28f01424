//! Formats and papers in words.

use super::record::FormatRecord;
use crate::say::list;
use trade::format::{Agreement, Candidate, Evidence, Found, Place};
use trade::lengths::Band;
use trade::paper::{self, Paper};

/// A band in whole millimetres.
fn band(b: Band) -> String {
    let (least, most) = (b.least_mm.0.round(), b.most_mm.0.round());
    if (least - most).abs() < 0.5 { format!("{least}") } else { format!("{least}-{most}") }
}

/// A paper by its name, with its period.
fn paper_name(p: &Paper) -> String {
    format!("{} ({})", p.name, p.period)
}

/// Papers listed for each format.
const LISTED: usize = 3;

/// What a leaf may come from.
pub(super) fn of_leaf(evidence: &Evidence, found: &Found, cautions: &[String], all: bool) -> String {
    let chains_alone = evidence.leaf.is_none() && evidence.watermark.is_none();
    let mut out = vec![match found.formats.as_slice() {
        [] => "No format and paper known here agree with all of the evidence.".to_owned(),
        many if chains_alone => {
            format!("The format cannot be told: chain-lines that run so are found in {}.", many.join(", "))
        }
        [one] => format!("The evidence agrees with one format: {one}."),
        many => format!("The evidence agrees with {} formats: {}.", many.len(), many.join(", ")),
    }];
    if let Some((height, width)) = evidence.leaf {
        for &format in &found.formats {
            let these: Vec<&Candidate> =
                found.candidates.iter().filter(|c| c.format == format && !c.contradicts()).collect();
            listed(&mut out, &format!("{format}, leaf of {} by {} mm", height.0, width.0), &these, all);
        }
    }
    let against: Vec<&Candidate> = found.candidates.iter().filter(|c| c.contradicts()).collect();
    if all && evidence.leaf.is_some() {
        listed(&mut out, "Against the chain-lines or the watermark", &against, true);
    } else if evidence.leaf.is_some() {
        let mut formats: Vec<String> = against.iter().map(|c| speaks_against(c)).collect();
        formats.sort();
        formats.dedup();
        list(&mut out, "Of the size would also be, but for what speaks against it", &formats);
    }
    list(&mut out, "Cautions", cautions);
    out.join("\n")
}

/// Why a format is not among those that agree.
fn speaks_against(c: &Candidate) -> String {
    let what = if c.chain_lines == Agreement::Contradicts { "the chain-lines" } else { "the watermark" };
    format!("{}: {what}", c.format)
}

fn listed(out: &mut Vec<String>, title: &str, these: &[&Candidate], all: bool) {
    let shown = if all { these.len() } else { LISTED };
    let mut rows: Vec<String> = these.iter().take(shown).map(|c| row(c)).collect();
    if these.len() > shown {
        rows.push(format!("and {} more papers; --all lists them", these.len() - shown));
    }
    list(out, title, &rows);
}

/// One candidate in words.
fn row(c: &Candidate) -> String {
    let (Some(paper), Some(height), Some(width), Some(trim)) =
        (&c.paper, c.untrimmed_height, c.untrimmed_width, c.trim)
    else {
        return c.format.to_owned();
    };
    let mut said = format!(
        "{}: untrimmed {} by {} mm, so cut by {} mm in height and {} in width",
        paper_name(paper),
        band(height),
        band(width),
        cut(trim.height),
        cut(trim.width)
    );
    if c.distance_mm.0 > 0.0 {
        said.push_str("; more than one binding takes, or the leaf is a little large");
    }
    if c.watermark == Agreement::Nearly {
        said.push_str("; the watermark lies next to where it should");
    }
    if c.year == Agreement::Contradicts {
        said.push_str("; the list is of another time");
    }
    said
}

/// What was cut off, never less than nothing.
fn cut(b: Band) -> String {
    band(Band::new(b.least_mm.0.max(0.0), b.most_mm.0.max(0.0)))
}

/// What sheets make.
pub(super) fn of_sheets(record: &FormatRecord) -> String {
    let mut out = Vec::new();
    for made in &record.sheets {
        let name = made.paper.as_ref().map_or_else(|| "A sheet".to_owned(), paper_name);
        let (long, short) = (band(made.sheet.long), band(made.sheet.short));
        let rows = made.leaves.iter().map(|l| {
            let places: Vec<String> = l.watermark.iter().map(Place::to_string).collect();
            format!(
                "{}: leaf {} by {} mm; chain-lines {}; watermark {}",
                l.format,
                band(l.height),
                band(l.width),
                l.chain_lines,
                places.join(", or ")
            )
        });
        if !out.is_empty() {
            out.push(String::new());
        }
        out.push(format!("{name}, {long} by {short} mm. Leaves, height by width, untrimmed:"));
        out.extend(rows.map(|r| format!("  - {r}")));
        out.extend(made.paper.map(|p| {
            let seen = if p.standing == paper::Standing::Seen { "seen" } else { "from memory" };
            format!("  Source of the size: {} ({seen})", p.source)
        }));
    }
    list(&mut out, "Cautions", &record.cautions);
    out.join("\n")
}

//! From a record to the page that is shown: every word of it, ready to be read.

mod edges;
mod frame;
mod residuals;

use crate::page::{ChangeModel, DriftPoint, LineModel, PageModel, SideModel, WeightModel};
use crate::pictures::{CannotDraw, OnFrame};
use crate::record::{Photographed, Record};
use evidence::{Change, Comparison, LineFinding, Sorts, Standing, Verdict};
use sheet::scale::{Scale, ScaleSource};

pub(crate) use edges::strip;
pub(crate) use frame::Frame;
pub(crate) use residuals::residual_map;

/// Sets the record as a page, with `drawn` to look at; `command` made it.
///
/// # Errors
/// When a picture cannot be encoded.
pub fn page_model(record: &Record, drawn: &OnFrame, command: String) -> Result<PageModel, CannotDraw> {
    let c = &record.comparison;
    let frame = Frame::of(&record.photographs[0]);
    let (unit, words) = unit(record);
    Ok(PageModel {
        title: format!("{} and {}", name(&record.photographs[0].file), name(&record.photographs[1].file)),
        verdict_words: c.verdict.sentence().to_owned(),
        verdict_reasons: c.reasons.clone(),
        cautions: c.cautions.clone(),
        weight: c.weight_log10.map(|log10| WeightModel { log10, words: weight_words(c) }),
        residual_words: residual_words(c, words, unit),
        sides: record.photographs.each_ref().map(side),
        pictures: Some(drawn.to_look_at()?),
        changes: c
            .changes
            .iter()
            .map(|x| change(x, frame, false))
            .chain(c.doubtful.iter().map(|x| change(x, frame, true)))
            .collect(),
        no_changes: no_changes(c.verdict).to_owned(),
        lines: c.lines.iter().map(|l| line(l, frame, unit, words)).collect(),
        drift_unit: words.to_owned(),
        residuals: residual_map(record, drawn)?,
        edges: edges::edges(c, frame, (unit, words), drawn)?,
        not_judged: not_judged(c),
        warnings: c.perhaps_one_copy.iter().chain(&c.warnings).cloned().collect(),
        program: record.program.clone(),
        command,
    })
}

/// What is said where no place is listed.
fn no_changes(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::DifferentSetting => {
            "Between two settings every word may differ: single places are not listed."
        }
        Verdict::DifferentText => "Of two texts no places are listed.",
        Verdict::Undetermined => "None is listed, for it is not known whether this is one setting.",
        _ => "None was found.",
    }
}

/// Where a place lies on a page, in words: "line 7".
pub fn line_words(line: Option<usize>) -> String {
    line.map_or_else(|| "between the lines".to_owned(), |n| format!("line {n}"))
}

/// The name of a file without the folders it lies in.
pub fn name(file: &str) -> String {
    std::path::Path::new(file)
        .file_name()
        .map_or_else(|| file.to_owned(), |n| n.to_string_lossy().into_owned())
}

pub(crate) fn side(p: &Photographed) -> SideModel {
    SideModel {
        file_name: name(&p.file),
        sha256: Some(p.sha256.clone()),
        size_px: [p.width_px as u32, p.height_px as u32],
        scale_words: p.scale.as_ref().map_or_else(|| "scale unknown".to_owned(), scale_words),
    }
}

fn scale_words(scale: &Scale) -> String {
    let from = match scale.source {
        ScaleSource::Metadata { tag } => format!("from a tag of the file ({tag}), which may be wrong"),
        ScaleSource::StatedPpi => "as stated".to_owned(),
        ScaleSource::KnownLength { px, mm } => format!("from a known length, {} px = {} mm", px.0, mm.0),
    };
    let doubt = 100.0 * scale.relative_sd;
    let doubt = if doubt < 1.0 { format!("{doubt:.1}") } else { format!("{doubt:.0}") };
    format!("{:.0} ppi, {from}; uncertain by {doubt} percent", scale.ppi.0)
}

fn weight_words(c: &Comparison) -> String {
    c.weight_basis.as_ref().map_or_else(String::new, |b| {
        format!(
            "calibrated on {} simulated and {} real pairs, which can support no more \
             than {:.1} either way; this pair is {}like them",
            b.simulated_pairs,
            b.real_pairs,
            b.largest,
            if b.resembles { "" } else { "not " }
        )
    })
}

fn residual_words(c: &Comparison, unit_words: &str, unit: f64) -> String {
    c.residual.median_px.map_or_else(
        || "not laid together".to_owned(),
        |px| format!("median {:.3} {unit_words} ({px:.2} px) over {} patches", px / unit, c.residual.patches),
    )
}

/// The unit that lengths are told in, pixels of the first, and its name.
pub(crate) fn unit(record: &Record) -> (f64, &'static str) {
    let residual = &record.comparison.residual;
    let per_mm = record.photographs[0].scale.as_ref().map(|s| s.ppi.px_per_mm());
    let x_height = residual.median_px.zip(residual.median_x_heights).map(|(px, x)| px / x);
    match (per_mm, x_height) {
        (Some(k), _) => (k, "mm"),
        (None, Some(x)) if x.is_finite() && x > 0.0 => (x, "x-heights"),
        _ => (1.0, "px"),
    }
}

/// A length in pixels of the first, in the unit of the page.
fn length(px: f64, (unit, words): (f64, &str)) -> String {
    let length = px.abs() / unit;
    if words == "px" { format!("{length:.1} px") } else { format!("{length:.2} {words}") }
}

fn change(c: &Change, frame: Frame, doubtful: bool) -> ChangeModel {
    let whole = |b: [f64; 4]| b.map(|v| v.round() as i64);
    ChangeModel {
        class_words: c.class.words().to_owned(),
        score: c.score,
        doubtful,
        frame: frame.share(c.box_a_px),
        box_a_px: whole(c.box_a_px),
        box_b_px: whole(c.box_b_px),
        size_words: size_words(c),
    }
}

/// The size of a place in the best unit that is known.
fn size_words(c: &Change) -> Option<String> {
    let mm = c.size_mm.map(|[w, h]| format!("{w:.1} × {h:.1} mm"));
    mm.or_else(|| c.size_x_heights.map(|[w, h]| format!("{w:.1} × {h:.1} x-heights")))
}

fn line(l: &LineFinding, frame: Frame, unit: f64, words: &str) -> LineModel {
    let largest = l.drift.iter().map(|d| d.drift_px.abs()).fold(0.0, f64::max);
    LineModel {
        number: l.number,
        frame: frame.share(l.box_a_px),
        standing: l.standing,
        sorts_words: match l.sorts {
            Some(Sorts::Same) => "as before",
            Some(Sorts::Other) => "otherwise",
            None => "not clear",
        }
        .to_owned(),
        drift_words: if l.drift.is_empty() {
            format!("{} of {} words found", l.words_found, l.words)
        } else {
            format!("{:.3} {words} at most", largest / unit)
        },
        drift: l
            .drift
            .iter()
            .map(|d| DriftPoint { at: frame.along(l.box_a_px, d.along_px), drift: d.drift_px / unit })
            .collect(),
    }
}

fn not_judged(c: &Comparison) -> Vec<String> {
    let unjudged: Vec<String> = c
        .lines
        .iter()
        .filter(|l| l.standing == Standing::Unjudged && l.words > 2)
        .map(|l| l.number.to_string())
        .collect();
    let mut out = Vec::new();
    if !unjudged.is_empty() {
        out.push(format!("Lines {}: too few words, or too little ink to follow them.", unjudged.join(", ")));
    }
    if c.residual.unjudged > 0 {
        out.push(format!(
            "{} of {} patches that hold print could not be found again.",
            c.residual.unjudged,
            c.residual.unjudged + c.residual.patches
        ));
    }
    out
}

//! A pair as a picture, with what is true of it and what was said of it: for looking at failures.

mod drawing;

use std::path::{Path, PathBuf};

use anyhow::Context as _;
use evidence::Standing;
use sheet::decode::{DecodeRequest, decode};
use sheet::{Plane, Rect};

use super::answer::{Answer, Outcome};
use super::pair::{Truth, read_json};
use super::report::rect;
use super::run::{Results, results_file};
use super::set::Set;
use drawing::{Drawing, Pen};

/// What to look at.
#[derive(Debug)]
pub(crate) struct Wanted {
    /// The set.
    pub set: Set,
    /// The folder of the benchmark.
    pub bench: PathBuf,
    /// The pair.
    pub pair: usize,
    /// A part of the first photograph, pixels; drawn at its own size, with the like part of the second.
    pub part: Option<Rect>,
    /// Draw what the yardstick said, not Reglet.
    pub yardstick: bool,
    /// The PNG to write.
    pub to: PathBuf,
}

/// Colours: the truth teal, what was said ochre (DESIGN §3), notes warm black.
const TRUTH: [u8; 3] = [0x0B, 0x64, 0x70];
const SAID: [u8; 3] = [0xB4, 0x61, 0x0F];
const NOTE: [u8; 3] = [0x2A, 0x26, 0x23];
/// Margins, and the room above for the notes.
const MARGIN: f64 = 24.0;
const NOTES: f64 = 120.0;
/// Longest side of a photograph as drawn.
const LONGEST: f64 = 1500.0;

/// Draws it.
pub(crate) fn look(wanted: &Wanted) -> anyhow::Result<()> {
    let folder = wanted.set.folder(&wanted.bench);
    let outcome = outcome(&folder, wanted.pair)?;
    let answer = if wanted.yardstick {
        outcome.yardstick.as_ref().context("the yardstick did not run on this pair")?
    } else {
        &outcome.reglet
    };
    let truth: Truth =
        outcome.pair.truth.as_ref().map(|t| read_json(&folder.join(t))).transpose()?.unwrap_or_default();
    let (a, b) = (open(&folder.join(&outcome.pair.a))?, open(&folder.join(&outcome.pair.b))?);
    let (of_a, of_b) = parts(wanted.part, (&a, &b), answer, &truth);
    let scale = |r: Rect| if wanted.part.is_some() { 1.0 } else { (LONGEST / r.w.max(r.h)).min(1.0) };
    // Both at one size on the page, as the resolutions have it.
    let ratio = match (outcome.pair.ppi_a, outcome.pair.ppi_b) {
        (Some(p), Some(q)) => p / q,
        _ => 1.0,
    };
    let scale_a = scale(of_a).min(scale(of_b) / ratio);
    let scale_b = scale_a * ratio;

    let width = of_a.w * scale_a + of_b.w * scale_b + 3.0 * MARGIN;
    let height = (of_a.h * scale_a).max(of_b.h * scale_b) + NOTES + 2.0 * MARGIN;
    let mut drawing = Drawing::new(width.ceil() as u32, height.ceil() as u32)?;
    notes(&mut drawing, &outcome, answer);
    let at_b = 2.0 * MARGIN + of_a.w * scale_a;
    for (picture, part, scale, x) in [(&a, of_a, scale_a, MARGIN), (&b, of_b, scale_b, at_b)] {
        let cut = picture.crop(part.x as usize, part.y as usize, part.w as usize, part.h as usize);
        drawing.photograph(&cut, x as f32, NOTES as f32, scale)?;
    }
    let on = |part: Rect, scale: f64, x: f64| {
        move |r: Rect| {
            part.shared(r).map(|r| {
                Rect::new(
                    (r.x - part.x) * scale + x,
                    (r.y - part.y) * scale + NOTES,
                    r.w * scale,
                    r.h * scale,
                )
            })
        }
    };
    marks(&mut drawing, answer, &truth, on(of_a, scale_a, MARGIN), on(of_b, scale_b, at_b));
    drawing.save(&wanted.to)
}

/// The outcome of a pair, of the last run that had it.
fn outcome(folder: &Path, number: usize) -> anyhow::Result<Outcome> {
    let find = |part: bool| {
        let results: Results = read_json(&results_file(folder, part)).ok()?;
        results.outcomes.into_iter().find(|o| o.pair.number == number)
    };
    let newer = |part: bool| std::fs::metadata(results_file(folder, part)).and_then(|m| m.modified()).ok();
    let part_first = newer(true) > newer(false);
    find(part_first).or_else(|| find(!part_first)).with_context(|| {
        format!(
            "pair {number} was not run: cargo xtask bench run --only {number} ... (in {})",
            folder.display()
        )
    })
}

/// Decodes the brightness of a photograph.
fn open(path: &Path) -> anyhow::Result<Plane<u8>> {
    let bytes = std::fs::read(path).with_context(|| format!("cannot read {}", path.display()))?;
    let photograph = decode(&bytes, &DecodeRequest::default());
    Ok(photograph.with_context(|| format!("cannot decode {}", path.display()))?.luminance)
}

/// The parts of both photographs to draw: all, or the part asked for and where sealed points (else
/// reported changes) near it lie on the second.
fn parts(
    part: Option<Rect>,
    (a, b): (&Plane<u8>, &Plane<u8>),
    answer: &Answer,
    truth: &Truth,
) -> (Rect, Rect) {
    let whole = |p: &Plane<u8>| Rect::new(0.0, 0.0, p.width() as f64, p.height() as f64);
    let inside = |r: Rect, p: &Plane<u8>| {
        whole(p).shared(Rect::new(r.x.floor(), r.y.floor(), r.w.ceil(), r.h.ceil())).unwrap_or(whole(p))
    };
    let Some(part) = part else { return (whole(a), whole(b)) };
    let by_truth = truth.points.iter().filter(|p| part.holds(sheet::Point::new(p[0], p[1])));
    let by_truth = Rect::around(by_truth.map(|p| sheet::Point::new(p[2], p[3])));
    let reported =
        answer.changes.iter().chain(&answer.doubtful).find(|c| part.shared(rect(c.box_a_px)).is_some());
    let by_answer = reported.map(|c| rect(c.box_b_px).grown(part.w / 2.0));
    let of_b = by_truth.or(by_answer).unwrap_or(part).grown(20.0);
    (inside(part, a), inside(of_b, b))
}

/// What the pair is, what was said, and the legend.
fn notes(drawing: &mut Drawing, o: &Outcome, answer: &Answer) {
    let told = answer.verdict.map_or("failed", evidence::Verdict::code);
    let weight = answer.weight_log10.map_or(String::new(), |w| format!(", weight {w:.1}"));
    let line = format!("{}. {}: {}; said: {told}{weight}", o.pair.number, o.pair.name, o.pair.verdict.code());
    drawing.words(&line, MARGIN, 32.0, 24.0, NOTE);
    let mut x = MARGIN;
    let legend = [
        ("true change", Pen { colour: TRUTH, breadth: 4.0, dash: None }),
        ("true, not to be judged", Pen { colour: TRUTH, breadth: 2.0, dash: Some(4.0) }),
        ("said to differ", Pen { colour: SAID, breadth: 4.0, dash: None }),
        ("doubtful", Pen { colour: SAID, breadth: 2.0, dash: Some(4.0) }),
    ];
    for (words, pen) in legend {
        drawing.outline(Rect::new(x, 50.0, 30.0, 16.0), pen);
        x = drawing.words(words, x + 38.0, 66.0, 20.0, NOTE) + 24.0;
    }
    drawing.words(
        "left of a line, as said: = stands, m moved, R set again, w other words, ? unjudged; true: R set again, d respaced",
        MARGIN,
        98.0,
        18.0,
        NOTE,
    );
}

/// Boxes on both photographs, and how the lines stand.
fn marks(
    drawing: &mut Drawing,
    answer: &Answer,
    truth: &Truth,
    on_a: impl Fn(Rect) -> Option<Rect>,
    on_b: impl Fn(Rect) -> Option<Rect>,
) {
    for c in &truth.changes {
        let (breadth, dash) = if c.judgeable { (4.0, None) } else { (2.0, Some(4.0)) };
        let pen = Pen { colour: TRUTH, breadth, dash };
        for r in [c.box_a_px.and_then(|r| on_a(rect(r))), c.box_b_px.and_then(|r| on_b(rect(r)))]
            .into_iter()
            .flatten()
        {
            drawing.outline(r.grown(3.0), pen);
        }
    }
    let said = answer
        .changes
        .iter()
        .map(|c| (c, 4.0, None))
        .chain(answer.doubtful.iter().map(|c| (c, 2.0, Some(4.0))));
    for (c, breadth, dash) in said {
        let pen = Pen { colour: SAID, breadth, dash };
        for r in [on_a(rect(c.box_a_px)), on_b(rect(c.box_b_px))].into_iter().flatten() {
            drawing.outline(r, pen);
        }
    }
    for line in &answer.lines {
        if let Some(r) = on_a(rect(line.box_a_px)) {
            let mark = match line.standing {
                Standing::Same => "=",
                Standing::Moved => "m",
                Standing::Respaced => "s",
                Standing::Reset => "R",
                Standing::OtherWords => "w",
                Standing::Unjudged => "?",
            };
            drawing.words(mark, 4.0, r.y + 0.8 * r.h, 20.0, SAID);
        }
    }
    for line in &truth.lines {
        let mark = if line.reset { "R" } else { "d" };
        if let Some(r) = on_a(rect(line.box_a_px)).filter(|_| line.reset || !line.drift_px.is_empty()) {
            drawing.words(mark, MARGIN - 4.0, r.y + 0.8 * r.h, 20.0, TRUTH);
        }
    }
}

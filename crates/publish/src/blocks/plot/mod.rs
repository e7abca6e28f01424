//! The years of the impressions of a block as a drawing: laid out once, drawn as SVG or as pixels.

mod axis;
mod drawn;
mod legend;
mod svg;

use crate::page::blocks::{DatesModel, YearModel, YearRow};
use axis::Axis;
use chronology::Dated;
use legend::legend;

pub(crate) use drawn::draw;
pub use svg::date_plot_svg;
pub(crate) use svg::inline;

/// How wide a drawing is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Breadth {
    /// For a screen or a plate: names stand beside the rows.
    Wide,
    /// For a hand: names stand over the rows.
    Narrow,
}

/// What is drawn, from behind to before. Units are pixels at the drawing's own size.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Plot {
    pub(crate) size: [f64; 2],
    pub(crate) marks: Vec<Mark>,
    /// What the shapes mean, with words; it stands under the rest.
    pub(crate) legend: Vec<Mark>,
    /// How far down the legend begins.
    pub(crate) foot: f64,
}

/// One piece of a drawing.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Mark {
    /// A line.
    Line { from: [f64; 2], to: [f64; 2], width: f64, is_dashed: bool, is_soft: bool },
    /// A bar, full or in outline.
    Bar { corner: [f64; 2], size: [f64; 2], is_full: bool },
    /// A disc or a ring.
    Dot { at: [f64; 2], radius: f64, is_full: bool },
    /// A square on its corner: a year that is known.
    Diamond { at: [f64; 2], radius: f64 },
    /// A hatched box.
    Hatch { corner: [f64; 2], size: [f64; 2] },
    /// Words on a line.
    Words { at: [f64; 2], text: String, stands: Stands, is_soft: bool },
}

/// Where words stand at their place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Stands {
    /// They begin at it.
    From,
    /// It is their middle.
    About,
}

/// The size of words, pixels.
pub(crate) const WORDS: f64 = 16.5;

/// Measures of a drawing, pixels: how wide, where the years begin and how far from the right end they stop, the height of a
/// row, how far down in it the lines begin and its name stands, how many years are named at most.
struct Measures {
    wide: f64,
    left: f64,
    right: f64,
    row: f64,
    down: f64,
    named_at: f64,
    named: usize,
}

const WIDE: Measures =
    Measures { wide: 960.0, left: 268.0, right: 30.0, row: 48.0, down: 19.0, named_at: 29.0, named: 9 };
const NARROW: Measures =
    Measures { wide: 350.0, left: 14.0, right: 18.0, row: 66.0, down: 38.0, named_at: 20.0, named: 5 };
const TOP: f64 = 34.0;
const BETWEEN_ANSWERS: f64 = 16.0;
const BAR: f64 = 8.0;
/// Letters of a name that have room.
const LETTERS: usize = 28;

/// Lays out the drawing; `None` where nothing is known of any year.
pub(crate) fn plot(dates: &DatesModel, breadth: Breadth) -> Option<Plot> {
    let m = if breadth == Breadth::Wide { WIDE } else { NARROW };
    let axis = Axis::over(&dates.rows, m.left, m.wide - m.right, m.named)?;
    let mut marks = Vec::new();
    let foot = TOP + m.row * dates.rows.len() as f64;
    marks.extend(beyond(dates, &axis, foot));
    for year in axis.named() {
        let x = axis.x(f64::from(year));
        marks.push(line([x, TOP - 6.0], [x, foot + 6.0], 0.8, false, true));
        for y in [TOP - 13.0, foot + 22.0] {
            marks.push(words([x, y], year.to_string(), Stands::About, false));
        }
    }
    for (i, row) in dates.rows.iter().enumerate() {
        let top = TOP + m.row * i as f64;
        let at = top + m.named_at;
        marks.push(words([0.0, at], row.impression.to_string(), Stands::From, false));
        marks.push(words([30.0, at], shortened(&row.name), Stands::From, true));
        marks.extend(one_row(row, &axis, top + m.down));
        marks.push(line([0.0, top + m.row], [m.wide, top + m.row], 0.5, false, true));
    }
    let (legend, end) = legend(dates, breadth, foot + 50.0);
    Some(Plot { size: [m.wide, end], marks, legend, foot: foot + 32.0 })
}

fn line(from: [f64; 2], to: [f64; 2], width: f64, is_dashed: bool, is_soft: bool) -> Mark {
    Mark::Line { from, to, width, is_dashed, is_soft }
}

fn words(at: [f64; 2], text: String, stands: Stands, is_soft: bool) -> Mark {
    Mark::Words { at, text, stands, is_soft }
}

fn shortened(name: &str) -> String {
    if name.chars().count() <= LETTERS {
        return name.to_owned();
    }
    let kept: String = name.chars().take(LETTERS - 1).collect();
    format!("{kept}…")
}

/// The years beyond the dated impressions, hatched; nothing where none is dated on both sides.
fn beyond(dates: &DatesModel, axis: &Axis, foot: f64) -> Vec<Mark> {
    let known: Vec<[f64; 2]> = dates.rows.iter().filter_map(|r| both_ends(r.dated)).collect();
    let first = known.iter().map(|k| k[0]).fold(f64::MAX, f64::min);
    let last = known.iter().map(|k| k[1]).fold(f64::MIN, f64::max);
    if known.is_empty() {
        return Vec::new();
    }
    let hatch = |from: f64, to: f64| Mark::Hatch { corner: [from, TOP], size: [to - from, foot - TOP] };
    let (x1, x2) = (axis.x(first), axis.x(last));
    let mut out = Vec::new();
    if x1 > axis.left + 1.0 {
        out.push(hatch(axis.left, x1));
    }
    if x2 < axis.right - 1.0 {
        out.push(hatch(x2, axis.right));
    }
    out
}

/// The ends of a year that is known on both sides.
fn both_ends(dated: Dated) -> Option<[f64; 2]> {
    match dated {
        Dated::Exactly { year } => Some([f64::from(year); 2]),
        Dated::Between { from, to } => Some([f64::from(from), f64::from(to)]),
        Dated::NotBefore { .. } | Dated::NotAfter { .. } | Dated::Unknown => None,
    }
}

/// What is known, and both answers under each other.
fn one_row(row: &YearRow, axis: &Axis, y: f64) -> Vec<Mark> {
    let mut out = known(row.dated, axis, y);
    let below = y + BETWEEN_ANSWERS;
    if let Some(year) = &row.by_order {
        out.extend(answer(year, axis, y, false));
    }
    if let Some(year) = &row.with_rate {
        out.extend(answer(year, axis, below, true));
    }
    out
}

/// What was said of a year: a diamond, a span with ends, or an arrow.
fn known(dated: Dated, axis: &Axis, y: f64) -> Vec<Mark> {
    let exact = y;
    // Above the first answer.
    let y = y - BETWEEN_ANSWERS / 2.0 - 2.0;
    let end = |x: f64| line([x, y - 4.0], [x, y + 4.0], 1.5, false, false);
    let arrow = |x: f64, way: f64| {
        let tip = x + way * 26.0;
        vec![
            end(x),
            line([x, y], [tip, y], 1.5, false, false),
            line([tip - way * 6.0, y - 3.5], [tip, y], 1.5, false, false),
            line([tip - way * 6.0, y + 3.5], [tip, y], 1.5, false, false),
        ]
    };
    match dated {
        Dated::Unknown => Vec::new(),
        Dated::Exactly { year } => vec![Mark::Diamond { at: [axis.x(f64::from(year)), exact], radius: 6.5 }],
        Dated::Between { from, to } => {
            let [a, b] = [from, to].map(|v| axis.x(f64::from(v)));
            vec![end(a), end(b), line([a, y], [b, y], 1.5, false, false)]
        }
        Dated::NotBefore { year } => arrow(axis.x(f64::from(year)), 1.0),
        Dated::NotAfter { year } => arrow(axis.x(f64::from(year)), -1.0),
    }
}

/// A year with its doubt: thin to 95 percent, thick to 50, the median a ring or a disc.
fn answer(year: &YearModel, axis: &Axis, y: f64, is_full: bool) -> Vec<Mark> {
    let [a, b] = year.nearly_all.map(|v| axis.x(v));
    let [c, d] = year.half.map(|v| axis.x(v));
    vec![
        line([a, y], [b, y], 1.3, year.rests_on_window, false),
        Mark::Bar { corner: [c, y - BAR / 2.0], size: [(d - c).max(1.0), BAR], is_full },
        Mark::Dot { at: [axis.x(year.median), y], radius: 5.0, is_full: !is_full },
    ]
}

/// Lines of a hatched box, each from one of its sides to another.
pub(crate) fn hatching([x, y]: [f64; 2], [w, h]: [f64; 2]) -> Vec<[[f64; 2]; 2]> {
    const STEP: f64 = 9.0;
    let mut out = Vec::new();
    // Along x + y = c within the box.
    let mut c = STEP;
    while c < w + h {
        let from = if c <= h { [x, y + c] } else { [x + c - h, y + h] };
        let to = if c <= w { [x + c, y] } else { [x + w, y + c - w] };
        out.push([from, to]);
        c += STEP;
    }
    out
}

#[cfg(test)]
mod tests;

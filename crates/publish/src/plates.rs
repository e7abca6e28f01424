//! Plates of a comparison: pictures for a publication, at full size, as PNG.

mod blocks;
mod measures;

pub use blocks::of_blocks;
pub use measures::of_measures;

use crate::many::{numbers, what_differs};
use crate::pictures::{CannotDraw, OnFrame, Shown};
use crate::record::Record;
use crate::report::{Frame, line_words, name, residual_map, strip};
use evidence::many::Variant;
use evidence::{Change, StraightEdge};
use sheet::{Point, Rect};
use std::fmt::Write as _;

/// One plate.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plate {
    /// Its file name.
    pub name: String,
    /// What it shows, in a sentence.
    pub shows: String,
    /// The file.
    pub png: Vec<u8>,
}

/// About a place that differs so much is shown, in x-heights: some three words, and the lines over and under it.
const ABOUT_A_PLACE: [f64; 2] = [9.0, 3.5];
/// The same where no x-height is known, pixels.
const ABOUT_PX: [f64; 2] = [160.0, 70.0];

/// Hands the plates of a comparison to `put` one by one, so that no more than one is in memory.
///
/// # Errors
/// When a picture cannot be encoded, or with what `put` fails.
pub fn of_pair<E: From<CannotDraw>>(
    record: &Record,
    drawn: &OnFrame,
    mut put: impl FnMut(Plate) -> Result<(), E>,
) -> Result<(), E> {
    let ppi = record.photographs[0].scale.as_ref().map(|s| s.ppi);
    let mut plate = |name: &str, shows: String, png: Option<Vec<u8>>| match png {
        Some(png) => put(Plate { name: format!("{name}.png"), shows, png }),
        None => Ok(()),
    };
    let [first, second] = record.photographs.each_ref().map(|p| name(&p.file));
    let second_lies = if drawn.is_laid() { "as it lies on the first" } else { "as it is" };
    plate("first", format!("The first photograph, {first}."), drawn.plate(Shown::First, ppi)?)?;
    plate(
        "second",
        format!("The second photograph, {second}, {second_lies}."),
        drawn.plate(Shown::Second, ppi)?,
    )?;
    let inks = "Both inks: ochre only in the first, teal only in the second, black in both.";
    plate("together", inks.to_owned(), drawn.plate(Shown::Both, ppi)?)?;
    let frame = Frame::of(&record.photographs[0]);
    let comparison = &record.comparison;
    if let Some(map) = residual_map(record, drawn)? {
        let shows =
            format!("The map of the residual: of every patch of print a stroke; {}.", map.drawn_words);
        plate("residual", shows, drawn.map_plate(&map)?)?;
    }
    for (i, edge) in comparison.straight_edge.iter().enumerate() {
        let (name, shows) = (format!("edge-{}", i + 1), of_edge(i + 1, edge));
        plate(&name, shows, drawn.pair_plate(strip(edge, frame), ppi)?)?;
    }
    let all = comparison
        .changes
        .iter()
        .map(|c| (c, ""))
        .chain(comparison.doubtful.iter().map(|c| (c, ", doubtful")));
    for (i, (change, doubt)) in all.enumerate() {
        let place = about(change, frame);
        plate(&format!("place-{:02}", i + 1), of_place(change, doubt), drawn.column_plate(place, ppi)?)?;
    }
    Ok(())
}

fn of_edge(number: usize, edge: &StraightEdge) -> String {
    format!(
        "Straight edge {number}, over the first (left) and the second as it lies on the first (right); it fails in {} of \
         {} lines.",
        edge.fails, edge.crossed
    )
}

fn of_place(change: &Change, doubt: &str) -> String {
    let [x, y, w, h] = change.box_a_px.map(|v| v.round() as i64);
    let line = change.line.map_or_else(String::new, |n| format!("line {n}, "));
    format!(
        "{}{doubt}: {line}{w} x {h} px at {x}, {y} of the first; above the first, then the second, then both inks.",
        change.class.words()
    )
}

/// What is shown of a place: its surroundings on the first set upright.
fn about(change: &Change, frame: Frame) -> Rect {
    let [x, y, w, h] = change.box_a_px;
    let place = frame.upright(Rect::new(x, y, w, h));
    let x_height = change.size_x_heights.filter(|s| s[1] > 0.0).map(|s| place.h / s[1]);
    let [across, down] = x_height.map_or(ABOUT_PX, |x| ABOUT_A_PLACE.map(|v| v * x));
    let middle = place.centre();
    let (w, h) = (place.w.max(0.0) + 2.0 * across, place.h.max(0.0) + 2.0 * down);
    let corner = Point::new(middle.x - w / 2.0, middle.y - h / 2.0);
    Rect::new(corner.x, corner.y, w, h)
}

/// Pictures of a place in many copies that stand beside each other.
pub const TO_A_ROW: usize = 5;

/// What the plate of a place in many copies shows.
pub fn of_many(number: usize, variant: &Variant) -> String {
    let mut parties: Vec<String> = variant.readings.iter().map(|r| numbers(r)).collect();
    if !variant.unclear.is_empty() {
        parties.push(format!("not clear in {}", numbers(&variant.unclear)));
    }
    let line = line_words(variant.line);
    format!(
        "place {number}, {line} of copy {}: {}; copies {}, each reading in rows of its own.",
        variant.frame + 1,
        what_differs(variant),
        parties.join(" | ")
    )
}

/// The list of the plates, a line each, as a text beside them.
/// What the reader must know beside it, as which copy is which, is in `notes`.
pub fn list(program: &str, command: &str, plates: &[(String, String)], notes: &[String]) -> String {
    let longest = plates.iter().map(|(name, _)| name.len()).max().unwrap_or(0);
    let lines = plates.iter().fold(String::new(), |mut lines, (name, shows)| {
        let _ = writeln!(lines, "{name:longest$}  {shows}");
        lines
    });
    let notes = notes.iter().fold(String::new(), |notes, note| notes + note + "\n");
    let notes = if notes.is_empty() { notes } else { notes + "\n" };
    format!("{LIST_HEAD} {program}, made by: {command}\n\n{lines}\n{notes}{LIST_FOOT}")
}

/// How a list of plates begins: by it a folder of plates is known.
pub const LIST_HEAD: &str = "Plates drawn by";
const LIST_FOOT: &str = "Evidence about printing; neither an authentication nor a valuation. Before a photograph is \
    published, ask the library that holds the sheet.\n";

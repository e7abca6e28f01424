//! The straight-edge test.

use super::{Frame, length};
use crate::page::{CrossingModel, EdgeModel};
use crate::pictures::{CannotDraw, OnFrame};
use evidence::{Comparison, StraightEdge};
use sheet::Rect;

/// Half the width of a strip, in pitches of the lines: some six letters on either side.
const HALF_WIDTH: f64 = 2.2;
/// How far a strip reaches over the first line and below the last, in pitches.
const BEYOND: f64 = 0.8;

/// The edges with a strip of both impressions along each; lengths told in a unit of so many pixels.
///
/// # Errors
/// When a picture cannot be encoded.
pub(super) fn edges(
    c: &Comparison,
    frame: Frame,
    unit: (f64, &str),
    drawn: &OnFrame,
) -> Result<Vec<EdgeModel>, CannotDraw> {
    let pitches = c.straight_edge.iter().map(|edge| pitch(edge, frame));
    let pitch = pitches.fold(f64::INFINITY, f64::min);
    let edges = c.straight_edge.iter().enumerate();
    edges.map(|(i, edge)| told(i + 1, edge, (frame, pitch), unit, drawn)).collect()
}

fn told(
    number: usize,
    edge: &StraightEdge,
    (frame, pitch): (Frame, f64),
    unit: (f64, &str),
    drawn: &OnFrame,
) -> Result<EdgeModel, CannotDraw> {
    let place = along(edge, frame, pitch);
    let crossings = edge.crossings.iter().map(|c| CrossingModel {
        line: c.line,
        down: (frame.turned.upright(c.at_px).y - place.y) / place.h,
        off_words: length(c.off_px, unit),
        fails: c.fails,
    });
    let words = if edge.fails == 0 {
        format!("In all {} lines that it crosses it cuts the same letters in both.", edge.crossed)
    } else {
        format!(
            "In {} of the {} lines that it crosses the letters lie elsewhere in the second, by up to {}.",
            edge.fails,
            edge.crossed,
            length(edge.largest_px, unit)
        )
    };
    Ok(EdgeModel {
        number,
        words,
        strips: drawn.strips(place)?,
        frame: frame.upright_share(place),
        crossings: crossings.collect(),
    })
}

/// What a plate shows along an edge: a box of the first set upright.
pub(crate) fn strip(edge: &StraightEdge, frame: Frame) -> Rect {
    along(edge, frame, pitch(edge, frame))
}

fn along(edge: &StraightEdge, frame: Frame, pitch: f64) -> Rect {
    let (from, to) = (frame.turned.upright(edge.from_px), frame.turned.upright(edge.to_px));
    let (left, top) = (from.x - HALF_WIDTH * pitch, from.y - BEYOND * pitch);
    Rect::new(left, top, 2.0 * HALF_WIDTH * pitch, to.y - from.y + 2.0 * BEYOND * pitch)
}

/// From one line that the edge crosses to the next, commonly.
fn pitch(edge: &StraightEdge, frame: Frame) -> f64 {
    let down: Vec<f64> = edge.crossings.iter().map(|c| frame.turned.upright(c.at_px).y).collect();
    let mut steps: Vec<f64> = down.windows(2).map(|w| w[1] - w[0]).collect();
    steps.sort_by(f64::total_cmp);
    steps.get(steps.len() / 2).copied().unwrap_or(1.0).max(1.0)
}

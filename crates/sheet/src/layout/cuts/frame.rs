//! Cuts within a frame of their own: what is traced in them as type is ornament.

use super::super::runs::{Component, Run};
use super::{LEAST_SIDE, Side, TYPE_IN};
use crate::Rect;

/// Share of each side of a frame that is there, and how far it may stray from a straight line, x-heights.
const THERE: f64 = 0.75;
const STRAY: f64 = 0.5;
/// A frame's longer side: letters of the title are shorter, x-heights.
const LEAST_LONG: f64 = 8.0;

/// The boxes of pieces that are frames, and hold no text.
pub(super) fn frames(side: &Side<'_>) -> Vec<Rect> {
    let is_large = |c: &Component| {
        let least = LEAST_SIDE * side.x_height;
        c.width().min(c.height()) >= least
            && c.width().max(c.height()) >= LEAST_LONG * side.x_height
            && !is_at_edge(c, side)
    };
    let parts = side.pieces.parts.iter().enumerate();
    let large: Vec<usize> = parts.filter(|(_, c)| is_large(c)).map(|(i, _)| i).collect();
    let mut runs: Vec<Vec<Run>> = vec![Vec::new(); large.len()];
    for run in &side.pieces.runs {
        if let Ok(i) = large.binary_search(&(run.part as usize)) {
            runs[i].push(*run);
        }
    }
    let framed = large.iter().zip(&runs).filter_map(|(&i, runs)| {
        let c = &side.pieces.parts[i];
        let bounds = Rect::new(f64::from(c.left), f64::from(c.top), c.width(), c.height());
        (is_frame(c, runs, side) && side.type_in(bounds) < TYPE_IN).then_some(bounds)
    });
    framed.collect()
}

/// Whether a piece touches the photograph's edge: the page's own edge makes a frame.
fn is_at_edge(c: &Component, side: &Side<'_>) -> bool {
    let (width, height) = (side.pieces.width as u32, side.pieces.height as u32);
    c.left < 2 || c.top < 2 || c.right + 2 > width || c.bottom + 2 > height
}

/// Whether a piece has four straight sides.
fn is_frame(c: &Component, runs: &[Run], side: &Side<'_>) -> bool {
    let (w, h) = ((c.right - c.left) as usize, (c.bottom - c.top) as usize);
    let [mut tops, mut bottoms] = [vec![f64::INFINITY; w], vec![f64::NEG_INFINITY; w]];
    let [mut lefts, mut rights] = [vec![f64::INFINITY; h], vec![f64::NEG_INFINITY; h]];
    for run in runs {
        let y = (run.y - c.top) as usize;
        let (from, to) = ((run.from - c.left) as usize, (run.to - c.left) as usize);
        lefts[y] = lefts[y].min(from as f64);
        rights[y] = rights[y].max(to as f64);
        for x in from..to {
            tops[x] = tops[x].min(y as f64);
            bottoms[x] = bottoms[x].max(y as f64);
        }
    }
    let stray = (STRAY * side.x_height).max(2.0);
    [(tops, side.fall), (bottoms, side.fall), (lefts, -side.fall), (rights, -side.fall)]
        .into_iter()
        .all(|(places, fall)| is_straight(&places, fall, stray))
}

/// Whether most places lie on a line that falls so.
fn is_straight(places: &[f64], fall: f64, stray: f64) -> bool {
    let off: Vec<f64> = places.iter().enumerate().map(|(i, p)| p - fall * i as f64).collect();
    let mut sorted = off.clone();
    sorted.sort_by(f64::total_cmp);
    let middle = sorted[sorted.len() / 2];
    let on = off.iter().filter(|p| (*p - middle).abs() <= stray).count();
    on as f64 >= THERE * places.len() as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_leaning_line_is_straight_and_a_bow_is_not() {
        let leaning: Vec<f64> = (0..200).map(|i| 5.0 + 0.02 * f64::from(i)).collect();
        assert!(is_straight(&leaning, 0.02, 2.0));
        let bow: Vec<f64> = (0..200).map(|i| 0.01 * f64::from((i - 100) * (i - 100))).collect();
        assert!(!is_straight(&bow, 0.0, 2.0));
    }
}

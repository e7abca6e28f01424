//! The straight-edge test of the handbooks (FACTS §8; common practice): a straight line laid from a
//! letter in the first line to one in the last passes through the same parts of the same letters in
//! every impression of one setting, and does not where the type was set again.

use super::drift::{Line, Word};
use super::lines::LineWeight;
use crate::record::StraightEdge;
use crate::standing::Standing;
use sheet::Point;

/// Where across the measure an edge is laid.
const ACROSS: [f64; 3] = [0.25, 0.5, 0.75];
/// A line fails when its letters lie this many standard deviations off the edge.
const FAILS_AT: f64 = 4.0;
/// Fewest lines an edge must cross to be a test.
const FEWEST: usize = 4;

/// Lays three edges across the page and says at how many lines each would cut other parts of letters.
pub(super) fn lay_edges(lines: &[Line], words: &[Vec<Word>], weights: &[LineWeight]) -> Vec<StraightEdge> {
    let (Some(left), Some(right)) = (
        lines.iter().map(|l| l.bounds.x).reduce(f64::min),
        lines.iter().map(|l| l.bounds.right()).reduce(f64::max),
    ) else {
        return Vec::new();
    };
    ACROSS.iter().filter_map(|&share| edge(left + share * (right - left), lines, words, weights)).collect()
}

fn edge(x: f64, lines: &[Line], words: &[Vec<Word>], weights: &[LineWeight]) -> Option<StraightEdge> {
    // Height on the page, drift of the letters under the edge, and its error.
    let mut crossings: Vec<(f64, f64, f64)> = Vec::new();
    for ((line, words), weight) in lines.iter().zip(words).zip(weights) {
        if weight.standing == Standing::Unjudged {
            continue;
        }
        let under =
            words.iter().filter(|w| w.bounds.x <= x + line.x_height && w.bounds.right() >= x - line.x_height);
        if let Some(d) = under.filter_map(|w| w.drift).next() {
            crossings.push((line.bounds.centre().y, d.along, d.sd.hypot(weight.error)));
        }
    }
    crossings.sort_by(|p, q| p.0.total_cmp(&q.0));
    let (first, last) = (crossings.first()?, crossings.last()?);
    if crossings.len() < FEWEST || last.0 <= first.0 {
        return None;
    }
    let (top, foot) = (*first, *last);
    let (mut fails, mut largest) = (0, 0.0f64);
    for &(y, drift, sd) in &crossings {
        let share = (y - top.0) / (foot.0 - top.0);
        let off = drift - (top.1 + share * (foot.1 - top.1));
        let error = (sd * sd + ((1.0 - share) * top.2).powi(2) + (share * foot.2).powi(2)).sqrt();
        fails += usize::from(off.abs() > FAILS_AT * error);
        largest = largest.max(off.abs());
    }
    Some(StraightEdge {
        from_px: Point::new(x, top.0),
        to_px: Point::new(x, foot.0),
        crossed: crossings.len(),
        fails,
        largest_px: largest,
    })
}

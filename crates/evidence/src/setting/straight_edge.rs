//! The straight-edge test of the handbooks (common practice, no source): a straight line laid from a
//! letter in the first line to one in the last passes through the same parts of the same letters in
//! every impression of one setting, and does not where the type was set again.

use super::drift::{Line, Word};
use super::lines::LineWeight;
use crate::rank::median;
use crate::record::{Crossing, StraightEdge};
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
    // Height on the page, drift of the letters under the edge, its error, and the line's number.
    let mut crossings: Vec<(f64, f64, f64, usize)> = Vec::new();
    for (i, ((line, words), weight)) in lines.iter().zip(words).zip(weights).enumerate() {
        if weight.standing == Standing::Unjudged {
            continue;
        }
        let mut under =
            words.iter().filter(|w| w.bounds.x <= x + line.x_height && w.bounds.right() >= x - line.x_height);
        if let Some(d) = under.find_map(|w| w.drift) {
            crossings.push((line.bounds.centre().y, d.along, d.error().hypot(weight.error), i + 1));
        }
    }
    crossings.sort_by(|p, q| p.0.total_cmp(&q.0));
    let (first, last) = (crossings.first()?, crossings.last()?);
    if crossings.len() < FEWEST || last.0 <= first.0 {
        return None;
    }
    let (top, foot) = (first.0, last.0);
    let (slope, start) = straight_through(&crossings);
    let rounded = |v: f64| (v * 100.0).round() / 100.0;
    let crossings: Vec<Crossing> = crossings
        .iter()
        .map(|&(y, drift, sd, line)| {
            let off = drift - (start + slope * y);
            let fails = off.abs() > FAILS_AT * sd;
            Crossing { line, at_px: Point::new(x, y), off_px: rounded(off), sd_px: rounded(sd), fails }
        })
        .collect();
    Some(StraightEdge {
        from_px: Point::new(x, top),
        to_px: Point::new(x, foot),
        crossed: crossings.len(),
        fails: crossings.iter().filter(|c| c.fails).count(),
        largest_px: crossings.iter().filter(|c| c.fails).map(|c| c.off_px.abs()).fold(0.0, f64::max),
        crossings,
    })
}

/// The straight line through most of the crossings: the median of all slopes between two of them, and the
/// median height (Theil 1950 and Sen 1968). Two letters alone, as under a wooden edge, would make the
/// whole test hang on them.
fn straight_through(crossings: &[(f64, f64, f64, usize)]) -> (f64, f64) {
    let mut slopes = Vec::new();
    for (i, p) in crossings.iter().enumerate() {
        slopes.extend(crossings[i + 1..].iter().filter(|q| q.0 > p.0).map(|q| (q.1 - p.1) / (q.0 - p.0)));
    }
    let slope = median(slopes);
    (slope, median(crossings.iter().map(|c| c.1 - slope * c.0).collect()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_line_out_of_place_does_not_tilt_the_edge() {
        let mut crossings: Vec<(f64, f64, f64, usize)> =
            (0..9).map(|i| (f64::from(i) * 10.0, 0.2 + 0.01 * f64::from(i) * 10.0, 0.1, 1)).collect();
        crossings[0].1 = 40.0;
        let (slope, start) = straight_through(&crossings);
        assert!((slope - 0.01).abs() < 1e-9 && (start - 0.2).abs() < 1e-9, "{slope} {start}");
    }
}

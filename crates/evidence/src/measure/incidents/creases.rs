//! Creases: straight lines across the paper where the light falls otherwise.
//!
//! Whether a sheet was folded before it was printed or later is not told: a fold that was opened leaves a white gap in the print, and so does a
//! later one along which the ink has broken off. On simulated sheets the breadth of the gap told one from the other for half of them only.

use super::Candidate;
use crate::measure::Side;
use crate::measure::record::IncidentClass;
use sheet::{Fold, Plane, Point, Rect};

/// Strength, standard deviations, at which a line is as likely a crease as not, and how fast it grows likelier (fitted by eye to the
/// development set of the benchmark; the curve of precision hangs on the order alone).
const EVEN_ODDS: f64 = 40.0;
const GROWS: f64 = 18.0;
/// Breadth of the box about a crease, x-heights.
const BREADTH: f64 = 0.5;
/// What is less sure is not told: four of ten such lines are chain-lines and the like.
const LEAST: f64 = 0.35;
/// A line along which ink runs without a break for so many x-heights, no farther from it than this, is a rule or the edge of an ornament.
const RULE: f64 = 14.0;
const AT_A_RULE: f64 = 1.1;
/// Ink that is print, of 255.
const DARK: u8 = 70;
/// So much of a crease runs through the box of the text (lines of so many words), a share of that box's longer side: what runs beside it is the edge
/// of the page, the shadow of a gutter, or of no matter to the print.
const THROUGH_TEXT: f64 = 0.25;
const OF_TEXT: usize = 3;
/// x-height, pixels, where no line of type was found.
const NO_X_HEIGHT: f64 = 18.0;

/// Candidates, on the side set upright.
pub(super) fn creases(side: &Side) -> Vec<Candidate> {
    let x_height = side.layout.x_height.map_or(NO_X_HEIGHT, |x| x.0);
    let text = side.layout.lines.iter().filter(|l| l.words.len() >= OF_TEXT);
    let Some(area) = text.map(|l| l.bounds).reduce(Rect::united) else { return Vec::new() };
    side.folds
        .iter()
        .filter(|f| runs_through(area, f) && !is_rule(side.ink.full(), f, x_height))
        .map(|fold| {
            let score = 1.0 / (1.0 + ((EVEN_ODDS - fold.strength) / GROWS).exp());
            let bounds =
                Rect::around([fold.from, fold.to]).unwrap_or(side.page).grown(BREADTH * x_height / 2.0);
            Candidate { class: IncidentClass::Crease, score, bounds, ends: Some([fold.from, fold.to]) }
        })
        .filter(|c| c.score >= LEAST)
        .collect()
}

/// Whether enough of a line runs through a box.
fn runs_through(area: Rect, fold: &Fold) -> bool {
    let along = fold.to - fold.from;
    let steps = along.length().max(1.0) as usize;
    let inside =
        (0..steps).filter(|&t| area.holds(fold.from + along * ((t as f64 + 0.5) / steps as f64))).count();
    inside as f64 >= THROUGH_TEXT * area.w.max(area.h)
}

/// Whether ink runs along a line without a break.
fn is_rule(ink: &Plane<u8>, fold: &Fold, x_height: f64) -> bool {
    let along = fold.to - fold.from;
    let long = along.length().max(1e-9);
    let (u, v) = (along * (1.0 / long), Point::new(-along.y / long, along.x / long));
    let reach = (AT_A_RULE * x_height) as i32;
    // A rule may be a pixel or two off the line at one end and not at the other: each place looks for ink by itself.
    let is_inked = |t: f64| {
        (-reach..=reach).any(|k| {
            let p = fold.from + u * t + v * f64::from(k);
            ink.holds(p) && ink.at(p.x as usize, p.y as usize) > DARK
        })
    };
    let mut run = 0.0;
    (0..long as usize).any(|t| {
        run = if is_inked(t as f64 + 0.5) { run + 1.0 } else { 0.0 };
        run >= RULE * x_height
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Print all over.
    fn printed() -> Plane<u8> {
        let mut ink = Plane::filled(600, 400, 0u8);
        for y in 40..360 {
            for x in (40..560).filter(|x| x % 9 < 4) {
                ink.row_mut(y)[x] = if y % 30 < 18 { 220 } else { 0 };
            }
        }
        ink
    }

    #[test]
    fn a_rule_and_what_runs_beside_the_print_are_no_creases() {
        let mut ink = printed();
        (30..370).for_each(|y| ink.row_mut(y)[298..301].fill(200));
        let at = |x: f64| Fold { from: Point::new(x, 0.0), to: Point::new(x + 2.0, 400.0), strength: 60.0 };
        assert!(is_rule(&ink, &at(300.0), 18.0) && !is_rule(&ink, &at(420.0), 18.0));
        let area = Rect::new(40.0, 40.0, 520.0, 320.0);
        assert!(!runs_through(area, &at(8.0)) && runs_through(area, &at(60.0)));
    }
}

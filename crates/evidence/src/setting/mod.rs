//! The verdict on a setting of type, from two readings.
//!
//! The life of one comparison: lay the second over the first; follow every word; take the paper's
//! motion away; weigh each line; where lines stand, look at each word's ink; decide.

mod by_lines;
mod calibration;
mod crowded;
mod decide;
mod drift;
mod farther;
mod folds;
mod height;
mod lines;
mod one_text;
mod resemblance;
mod say;
mod sorts;
mod straight_edge;
mod weight;

use crate::changes::{self, Judged, Weighed};
use crate::rank::median;
use crate::reading::Reading;
use crate::record::{Comparison, FoundCrease, PatchResidual, Placement, Residual, to_thousandths};
use crate::standing::{Sorts, Standing};
use by_lines::ByLines;
use decide::Evidence;
use lines::LineWeight;
use register::{Crease, Guide, Laid, LineGuide, Patch, lay};
use sheet::Point;

/// A comparison, and how the second photograph lies on the first, for drawing.
#[derive(Debug, Clone)]
pub struct Compared {
    /// What was found out.
    pub comparison: Comparison,
    /// The placement of the sides set upright; `None` when the two could not be laid together.
    pub laid: Option<Laid>,
    /// All that was weighed, also that of which nothing is said.
    pub weighed: Weighed,
}

/// Compares two readings as settings of type. Never fails: what cannot be judged is undetermined,
/// with the reason.
pub fn compare(a: &Reading, b: &Reading) -> Compared {
    let guide = Guide {
        px_per_mm: a.working_px_per_mm(),
        lines: a.x_height_px().map(|_| LineGuide { turn: a.layout.skew.radians(), pitch: pitch(a) }),
        folds: [&a.folds, &b.folds],
    };
    let mut compared = match lay(&a.ink, &a.features, &b.ink, &b.features, &guide) {
        Ok(laid) => {
            let (comparison, weighed) = with_placement(a, b, &laid);
            Compared { comparison, laid: Some(laid), weighed }
        }
        Err(why) => Compared {
            comparison: decide::without_placement(a, b, why, one_text::in_common(a, b)),
            laid: None,
            weighed: Weighed::default(),
        },
    };
    compared.comparison.turn_back(a.turned, b.turned);
    compared
}

fn with_placement(a: &Reading, b: &Reading, laid: &Laid) -> (Comparison, Weighed) {
    let text = lines::of(&a.layout);
    let pitch = pitch(a);
    let x_height = a.x_height_px().unwrap_or(pitch / PITCH_IN_X_HEIGHTS);
    let mut words = drift::followed(&a.ink, &b.ink, laid, &text);
    farther::look(&a.ink, &b.ink, laid, &text, &mut words);
    crowded::take_back(laid, &text, &mut words);

    let folds = folds::without_crease(a, b, laid, x_height);
    let by_sorts = sorts::weighed(&words, &text, (&a.ink, &b.ink, laid), &folds);
    let page = lines::Page { laid, x_height, pitch, b, folds: &folds, by_sorts: &by_sorts };

    // First against all print but lines of other sorts, then against the lines that stand, as far as that can be told by now.
    drift::against_paper(&mut words, &text, laid, pitch, |i| by_sorts[i].told() != Some(Sorts::Other));
    let mut weights = lines::weigh_all(&words, &text, &page);
    let by_all_print = (weights.clone(), words.clone());
    let mut trusted = vec![true; text.len()];
    for _ in 0..ROUNDS_OF_TRUST {
        let standing = lines::standing_share(&weights);
        let before = std::mem::replace(&mut trusted, weights.iter().map(LineWeight::may_stand).collect());
        if trusted == before || !(LEAST_TRUSTED..1.0).contains(&standing) {
            break;
        }
        drift::against_paper(&mut words, &text, laid, pitch, |i| trusted[i]);
        weights = lines::weigh_all(&words, &text, &page);
    }
    for (i, (first, words_at_first)) in by_all_print.0.into_iter().zip(by_all_print.1).enumerate() {
        if weights[i].likelihoods.is_none() && first.standing == Standing::Reset {
            // No print that stands is near: that lines set again disagree among themselves is all there is.
            weights[i] = first;
            words[i] = words_at_first;
        }
        weights[i].by_all_print = first.standing;
    }

    // Heights are told anew without the lines that seem off theirs. Along the lines these tell as well as any.
    let mut before = Vec::new();
    for _ in 0..ROUNDS_OF_TRUST {
        let trusted: Vec<bool> = weights.iter().map(|w| w.may_stand() && !w.off_height).collect();
        if trusted == before || !weights.iter().any(|w| w.off_height) {
            break;
        }
        let mut told = words.clone();
        drift::against_paper(&mut told, &text, laid, pitch, |i| trusted[i]);
        height::judge(&mut weights, &told, &text);
        before = trusted;
    }

    let by_lines = ByLines::of(a, b, &weights);
    let mut judged = if by_lines.told.asks_for_places() {
        changes::judge(a, b, laid, &text_words(&text, &words, &weights), x_height)
    } else {
        Judged::default()
    };
    let mut weighed = std::mem::take(&mut judged.weighed);
    weighed.lines = weights.iter().filter_map(|w| w.log10_by_manner).collect();
    let evidence = Evidence {
        residual: residual(a, laid, x_height),
        straight_edge: straight_edge::lay_edges(&text, &words, &weights),
        placement: placement(a, laid),
        lines: &text,
        words: &words,
        weights: &weights,
        by_lines,
        judged,
        found_share: laid.found_share,
        x_height,
    };
    (decide::with_placement(a, b, laid, evidence), weighed)
}

/// From line to line in x-heights, at most: set solid, a body is about 2.3 x-heights of old-style type (common
/// practice, no source). What lies farther apart is headings or has blanks between, and the paper's motion
/// is told from near print alone.
const PITCH_IN_X_HEIGHTS: f64 = 2.7;

fn pitch(a: &Reading) -> f64 {
    let solid = a.x_height_px().unwrap_or(2.0 * a.working_px_per_mm()) * PITCH_IN_X_HEIGHTS;
    a.layout.line_pitch.map_or(solid, |p| p.0.min(solid)).max(1.0)
}

/// How often the lines are weighed anew against those that were found to stand.
const ROUNDS_OF_TRUST: usize = 2;
/// Share of the words that must stand before the others are measured against them alone.
const LEAST_TRUSTED: f64 = 0.2;

/// What the search for changes needs of each line.
fn text_words(
    text: &[drift::Line],
    words: &[Vec<drift::Word>],
    weights: &[LineWeight],
) -> Vec<changes::LineOfWords> {
    text.iter()
        .zip(words)
        .zip(weights)
        .map(|((line, words), weight)| changes::LineOfWords {
            standing: weight.standing,
            x_height: line.x_height,
            words: words
                .iter()
                .zip(&line.words)
                .map(|(w, &(_, foot))| changes::WordAtHand {
                    bounds: w.bounds,
                    foot,
                    found: w.found,
                    is_found: w.is_found(),
                    astride: w.astride,
                    drift_along: w.drift.map(|d| d.along),
                    drift_sd: w.drift.map_or(weight.error, |d| d.error().hypot(weight.error)),
                })
                .collect(),
        })
        .collect()
}

fn residual(a: &Reading, laid: &Laid, x_height: f64) -> Residual {
    let mut lengths: Vec<f64> = laid.patches.iter().filter_map(|p| p.residual.map(Point::length)).collect();
    lengths.sort_by(f64::total_cmp);
    if lengths.is_empty() {
        return Residual { unjudged: laid.patches.len(), ..Residual::default() };
    }
    let middle = median(lengths.clone());
    let (sin, cos) = a.layout.skew.radians().sin_cos();
    let part = |x: f64, y: f64| {
        let parts = laid.patches.iter().filter_map(|p| p.residual.map(|r| (r.x * x + r.y * y).abs()));
        median(parts.collect())
    };
    Residual {
        along_px: Some(part(cos, sin)),
        across_px: Some(part(-sin, cos)),
        median_mm: a.scale.as_ref().map(|s| middle / s.ppi.px_per_mm()),
        median_px: Some(middle),
        median_x_heights: a.x_height_px().map(|_| middle / x_height),
        p95_px: lengths.get(lengths.len() * 95 / 100).copied(),
        patches: lengths.len(),
        unjudged: laid.patches.len() - lengths.len(),
    }
}

/// A crease from edge to edge of the photograph; `None` where it runs beside it.
fn found_crease(crease: &Crease, width: f64, height: f64) -> Option<FoundCrease> {
    let (p, n) = (crease.through(), crease.normal());
    let along = Point::new(-n.y, n.x);
    // How far along the line each pair of edges lies.
    let within = |at: f64, step: f64, end: f64| {
        if step.abs() < 1e-9 {
            return if (0.0..=end).contains(&at) { (f64::MIN, f64::MAX) } else { (f64::MAX, f64::MIN) };
        }
        let (s, t) = (-at / step, (end - at) / step);
        (s.min(t), s.max(t))
    };
    let ((s0, t0), (s1, t1)) = (within(p.x, along.x, width), within(p.y, along.y, height));
    let (from, to) = (s0.max(s1), t0.min(t1));
    let rounded = |q: Point| Point::new((q.x * 10.0).round() / 10.0, (q.y * 10.0).round() / 10.0);
    (from < to).then(|| FoundCrease {
        from_px: rounded(p + along * from),
        to_px: rounded(p + along * to),
        jump_px: (crease.jump_beside(p).abs() * 100.0).round() / 100.0,
    })
}

/// Nodes a side of the grid of places that a record carries.
const GRID: usize = 33;

fn placement(a: &Reading, laid: &Laid) -> Placement {
    let (w, h) = (a.ink.full().width() as f64, a.ink.full().height() as f64);
    let middle = Point::new(w / 2.0, h / 2.0);
    let j = laid.map.view.jacobian(middle);
    let grid = (0..GRID * GRID)
        .map(|i| {
            let step = (GRID - 1) as f64;
            let p = Point::new((i % GRID) as f64 / step * w, (i / GRID) as f64 / step * h);
            let q = laid.map.to_b(p);
            [p.x, p.y, q.x, q.y].map(to_thousandths)
        })
        .collect();
    Placement {
        view: laid.map.view.rows(),
        turn_degrees: (j[1][0] - j[0][1]).atan2(j[0][0] + j[1][1]).to_degrees(),
        scale: laid.scale,
        grid,
        creases: laid.map.paper.creases().iter().filter_map(|c| found_crease(c, w, h)).collect(),
        found_share: laid.found_share,
        patch_px: laid.patch_side,
        patches: laid.patches.iter().map(of_patch).collect(),
    }
}

/// A patch as it is written to a record, to a hundredth of a pixel.
fn of_patch(patch: &Patch) -> PatchResidual {
    let rounded = |v: f64| (v * 100.0).round() / 100.0;
    PatchResidual {
        at_px: Point::new(rounded(patch.at.x), rounded(patch.at.y)),
        residual_px: patch.residual.map(|r| [rounded(r.x), rounded(r.y)]),
    }
}

//! Fields of shading as a cutter sees them who copies one: lines side by side, to be drawn again with another count.

use sheet::Point;

use super::curve;
use super::stroke::{Knot, Path, Stroke, StrokeKind};

/// Lines side by side: places in the list of strokes, in order across the field.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Run(pub Vec<usize>);

/// Two lines are neighbours when both their ends lie within this of each other, in mm.
const NEAR: f64 = 1.7;

/// The runs of all fields; strokes that stand alone are runs of one. Only shading belongs to a field.
pub(super) fn runs(strokes: &[Stroke]) -> Vec<Run> {
    let mut runs: Vec<(u16, StrokeKind, [Point; 2], Run)> = Vec::new();
    // Runs that are still open begin here: fields are drawn one after another.
    let mut open = 0;
    let mut field = 0;
    for (i, stroke) in strokes.iter().enumerate() {
        if !is_shading(stroke) {
            continue;
        }
        let Some(ends) = ends(stroke) else { continue };
        if stroke.field != field {
            open = runs.len();
            field = stroke.field;
        }
        let near = |other: &[Point; 2]| other[0].distance(ends[0]).max(other[1].distance(ends[1]));
        let best = runs[open..]
            .iter()
            .enumerate()
            .filter(|(_, r)| r.1 == stroke.kind && near(&r.2) < NEAR)
            .min_by(|a, b| near(&a.1.2).total_cmp(&near(&b.1.2)))
            .map(|(k, _)| open + k);
        if let Some(k) = best {
            runs[k].2 = ends;
            runs[k].3.0.push(i);
        } else {
            runs.push((stroke.field, stroke.kind, ends, Run(vec![i])));
        }
    }
    runs.into_iter().map(|r| r.3).collect()
}

/// Whether a stroke is a line of a field of shading.
pub(super) fn is_shading(stroke: &Stroke) -> bool {
    stroke.field > 0 && matches!(stroke.path, Path::Line(_))
}

fn ends(stroke: &Stroke) -> Option<[Point; 2]> {
    match &stroke.path {
        Path::Line(knots) => Some([knots.first()?.at, knots.last()?.at]),
        Path::Area(_) => None,
    }
}

/// The line that would stand at a place among the lines of a run: 0 is the first, 1 the second, halves lie between.
pub(super) fn between(strokes: &[Stroke], run: &Run, place: f64) -> Vec<Knot> {
    let last = run.0.len() - 1;
    let low = (place.floor().max(0.0) as usize).min(last.saturating_sub(1));
    let high = (low + 1).min(last);
    let t = place - low as f64;
    let (a, b) = (knots(&strokes[run.0[low]]), knots(&strokes[run.0[high]]));
    let n = a.len().max(b.len()).max(3);
    (0..n)
        .map(|i| {
            let share = i as f64 / (n - 1) as f64;
            let (p, q) = (at(a, share), at(b, share));
            Knot { at: curve::mixed(p.at, q.at, t), width: (p.width + (q.width - p.width) * t).max(0.05) }
        })
        .collect()
}

fn knots(stroke: &Stroke) -> &[Knot] {
    match &stroke.path {
        Path::Line(knots) => knots,
        Path::Area(_) => &[],
    }
}

fn at(knots: &[Knot], share: f64) -> Knot {
    let n = knots.len();
    if n == 0 {
        return Knot { at: Point::new(0.0, 0.0), width: 0.0 };
    }
    let place = share * (n - 1) as f64;
    let low = (place.floor() as usize).min(n - 1);
    let high = (low + 1).min(n - 1);
    let t = place - low as f64;
    let (a, b) = (knots[low], knots[high]);
    Knot { at: curve::mixed(a.at, b.at, t), width: a.width + (b.width - a.width) * t }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hatch(i: u32, field: u16, x: f64) -> Stroke {
        let knots = (0..8).map(|k| Knot { at: Point::new(x, f64::from(k) * 0.4), width: 0.2 }).collect();
        Stroke { id: i, kind: StrokeKind::Hatch, field, inks: true, path: Path::Line(knots) }
    }

    #[test]
    fn lines_side_by_side_are_one_run_and_a_gap_parts_them() {
        let strokes: Vec<Stroke> =
            [0.0, 0.7, 1.4, 5.0, 5.7].iter().enumerate().map(|(i, &x)| hatch(i as u32, 1, x)).collect();
        assert_eq!(runs(&strokes), vec![Run(vec![0, 1, 2]), Run(vec![3, 4])]);
        let half = between(&strokes, &Run(vec![0, 1, 2]), 1.5);
        assert!((half[3].at.x - 1.05).abs() < 1e-9);
    }
}

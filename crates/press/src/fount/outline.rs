//! The printing face of a sort as closed lines.

use serde::{Deserialize, Serialize};
use sheet::{Point, Rect};
use swash::zeno::{Point as FontPoint, Verb};

/// Closed lines, filled by the non-zero rule. The unit is the user's (ems or millimetres); y runs down.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Outline(pub Vec<Vec<Point>>);

/// A chord may leave its curve by this part of the em: 0.002 mm in a letter of pica.
const CHORD_MISS: f64 = 1.0 / 2000.0;
/// Chords to a cubic curve; the founts have next to none.
const CHORDS: usize = 5;

impl Outline {
    /// The outline of a glyph in font units (y up), divided by the em, with curves made into chords.
    pub(super) fn flattened(points: &[FontPoint], verbs: &[Verb], em: f64) -> Self {
        let point = |p: FontPoint| Point::new(f64::from(p.x) / em, -f64::from(p.y) / em);
        let mut lines = Self::default();
        let mut current: Vec<Point> = Vec::new();
        let mut rest = points.iter().map(|&p| point(p));
        for verb in verbs {
            let last = current.last().copied().unwrap_or(Point::new(0.0, 0.0));
            match verb {
                Verb::MoveTo => {
                    lines.close(&mut current);
                    current.extend(rest.next());
                }
                Verb::LineTo => current.extend(rest.next()),
                Verb::QuadTo => {
                    if let (Some(control), Some(end)) = (rest.next(), rest.next()) {
                        let curve = |t: f64| {
                            last * ((1.0 - t) * (1.0 - t)) + control * (2.0 * t * (1.0 - t)) + end * (t * t)
                        };
                        // One chord misses a parabola by a quarter of its second difference; n chords by 1/n^2 of that.
                        let bulge = (last - control * 2.0 + end) * 0.25;
                        let chords = (bulge.x.hypot(bulge.y) / CHORD_MISS).sqrt().ceil().max(1.0) as usize;
                        current.extend((1..=chords).map(|i| curve(i as f64 / chords as f64)));
                    }
                }
                Verb::CurveTo => {
                    if let (Some(p), Some(q), Some(end)) = (rest.next(), rest.next(), rest.next()) {
                        let curve = |t: f64| {
                            let s = 1.0 - t;
                            last * (s * s * s)
                                + p * (3.0 * s * s * t)
                                + q * (3.0 * s * t * t)
                                + end * (t * t * t)
                        };
                        current.extend((1..=CHORDS).map(|i| curve(i as f64 / CHORDS as f64)));
                    }
                }
                Verb::Close => lines.close(&mut current),
            }
        }
        lines.close(&mut current);
        lines
    }

    fn close(&mut self, line: &mut Vec<Point>) {
        line.dedup_by(|a, b| a.distance(*b) < 1e-6);
        if line.len() > 2 {
            self.0.push(std::mem::take(line));
        }
        line.clear();
    }

    /// An upright box.
    pub fn rectangle(r: Rect) -> Self {
        Self(vec![vec![
            Point::new(r.x, r.y),
            Point::new(r.right(), r.y),
            Point::new(r.right(), r.bottom()),
            Point::new(r.x, r.bottom()),
        ]])
    }

    /// The smallest upright box around it; `None` when it prints nothing.
    pub fn bounds(&self) -> Option<Rect> {
        Rect::around(self.0.iter().flatten().copied())
    }

    /// Every point moved by a rule.
    #[must_use]
    pub fn mapped(&self, rule: impl Fn(Point) -> Point) -> Self {
        Self(self.0.iter().map(|line| line.iter().map(|&p| rule(p)).collect()).collect())
    }

    /// Every edge moved outwards by `by` (inwards when negative): ink squeezed beyond the face, or a
    /// worn or badly inked face. Corners are not rounded; right for shifts far below a stroke's width.
    #[must_use]
    pub fn spread(&self, by: f64) -> Self {
        let outwards = if self.area() >= 0.0 { by } else { -by };
        Self(self.0.iter().map(|line| spread_line(line, outwards)).collect())
    }

    /// No side longer than `longest`, so that a bent sheet bends it.
    #[must_use]
    pub fn divided(&self, longest: f64) -> Self {
        let divide = |line: &Vec<Point>| {
            let mut out = Vec::with_capacity(line.len());
            for (i, &p) in line.iter().enumerate() {
                let q = line[(i + 1) % line.len()];
                let parts = (p.distance(q) / longest).ceil().max(1.0) as usize;
                out.extend((0..parts).map(|k| p + (q - p) * (k as f64 / parts as f64)));
            }
            out
        };
        Self(self.0.iter().map(divide).collect())
    }

    /// Signed area: positive when the outer lines run clockwise on the screen.
    pub(crate) fn area(&self) -> f64 {
        self.0
            .iter()
            .map(|line| {
                let next = line.iter().cycle().skip(1);
                line.iter().zip(next).map(|(p, q)| p.x * q.y - q.x * p.y).sum::<f64>() / 2.0
            })
            .sum()
    }
}

/// A closed line with every corner moved to its right-hand side (as it runs, y down) turned outwards.
fn spread_line(line: &[Point], by: f64) -> Vec<Point> {
    let n = line.len();
    (0..n)
        .map(|i| {
            let (before, here, after) = (line[(i + n - 1) % n], line[i], line[(i + 1) % n]);
            let along = after - before;
            let length = (along.x * along.x + along.y * along.y).sqrt();
            if length < 1e-9 { here } else { here + Point::new(along.y, -along.x) * (by / length) }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spreading_a_square_and_its_hole_thickens_both_ways() {
        let mut square = Outline::rectangle(Rect::new(0.0, 0.0, 10.0, 10.0));
        let mut hole = Outline::rectangle(Rect::new(4.0, 4.0, 2.0, 2.0)).0.remove(0);
        hole.reverse();
        square.0.push(hole);
        let fat = square.divided(0.5).spread(0.1);
        let outer = Rect::around(fat.0[0].iter().copied()).unwrap();
        assert!((outer.w - 10.2).abs() < 1e-9, "{outer:?}");
        let top_of_hole = fat.0[1].iter().map(|p| p.distance(Point::new(5.0, 4.1))).fold(f64::MAX, f64::min);
        assert!(top_of_hole < 1e-9);
    }
}

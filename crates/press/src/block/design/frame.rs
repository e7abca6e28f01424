//! Rules round a design.

use sheet::{Point, Rect};

use crate::block::drawing::{Drawing, Pen};
use crate::block::stroke::StrokeKind;

impl Drawing {
    /// One rule round a box, its outer edge on the box: four strokes that cross or just miss at the corners.
    pub(super) fn rule_round(&mut self, r: Rect, width: f64) {
        let inner = r.grown(-width / 2.0);
        let corners = inner.corners();
        for i in 0..4 {
            let (a, b) = (corners[i], corners[(i + 1) % 4]);
            let d = crate::block::curve::unit(b - a);
            let slip = |drawing: &mut Self| drawing.chance.normal(0.12);
            let (s, e) = (slip(self), slip(self));
            let bent = crate::block::curve::across(d) * self.chance.normal(0.12);
            let middle = (a + b) * 0.5 + bent;
            let path = crate::block::curve::smooth(&[a - d * s, middle, b + d * e], 0.4);
            let heavier = width * (1.0 + self.chance.normal(0.08));
            self.line_above(&path, Pen::new(StrokeKind::Frame, heavier));
        }
    }

    /// A frame of one or two rules; also the box within.
    pub(super) fn framed(&mut self, r: Rect) -> Rect {
        let line = self.hand.line;
        match self.chance.below(3) {
            0 => {
                let wide = 1.5 * line;
                self.rule_round(r, wide);
                r.grown(-wide)
            }
            1 => {
                self.rule_round(r, 1.7 * line);
                let gap = 1.7 * line + self.chance.between(0.55, 1.0);
                self.rule_round(r.grown(-gap), 0.9 * line);
                r.grown(-gap - 0.9 * line)
            }
            _ => {
                let wide = self.chance.between(2.2, 3.2) * line;
                self.rule_round(r, wide.min(1.1));
                r.grown(-wide.min(1.1))
            }
        }
    }
}

/// The same line run the other way round, so that it is a hole.
pub(super) fn reversed(ring: &[Point]) -> Vec<Point> {
    ring.iter().rev().copied().collect()
}

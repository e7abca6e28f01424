//! Places that were found on sides set upright, told on the photographs as they were taken.

use crate::record::{Change, Comparison, box_px, rect, to_thousandths};
use sheet::{Homography, Point, Turned};

impl Comparison {
    /// Tells every place on the photographs; `a` and `b` are how they were turned.
    pub(crate) fn turn_back(&mut self, a: Turned, b: Turned) {
        if a.quarters() == 0 && b.quarters() == 0 {
            return;
        }
        for change in self.changes.iter_mut().chain(&mut self.doubtful) {
            let Change { box_a_px, box_b_px, .. } = change;
            (*box_a_px, *box_b_px) = (boxed(a, *box_a_px), boxed(b, *box_b_px));
        }
        for line in &mut self.lines {
            let middle = rect(line.box_a_px).centre().y;
            for point in &mut line.drift {
                let at = a.on_photograph(Point::new(point.along_px, middle));
                point.along_px = if a.quarters() % 2 == 1 { at.y } else { at.x };
            }
            line.box_a_px = boxed(a, line.box_a_px);
        }
        for edge in &mut self.straight_edge {
            (edge.from_px, edge.to_px) = (a.on_photograph(edge.from_px), a.on_photograph(edge.to_px));
            for crossing in &mut edge.crossings {
                crossing.at_px = a.on_photograph(crossing.at_px);
            }
        }
        if let Some(placement) = &mut self.placement {
            for node in &mut placement.grid {
                let (p, q) = (Point::new(node[0], node[1]), Point::new(node[2], node[3]));
                let (p, q) = (a.on_photograph(p), b.on_photograph(q));
                *node = [p.x, p.y, q.x, q.y].map(to_thousandths);
            }
            for crease in &mut placement.creases {
                (crease.from_px, crease.to_px) =
                    (a.on_photograph(crease.from_px), a.on_photograph(crease.to_px));
            }
            let origin = a.on_photograph(Point::new(0.0, 0.0));
            for patch in &mut placement.patches {
                patch.at_px = a.on_photograph(patch.at_px);
                patch.residual_px = patch.residual_px.map(|[x, y]| {
                    let turned = a.on_photograph(Point::new(x, y)) - origin;
                    [turned.x, turned.y]
                });
            }
            if let Some(upright) = a.map().inverse() {
                placement.view = b.map().after(&Homography::from_rows(placement.view)).after(&upright).rows();
            }
            // A side turned clockwise to stand upright was taken as much anticlockwise.
            let more = 90.0 * (f64::from(a.quarters()) - f64::from(b.quarters()));
            placement.turn_degrees = (placement.turn_degrees + more + 180.0).rem_euclid(360.0) - 180.0;
        }
    }
}

fn boxed(turned: Turned, place: [f64; 4]) -> [f64; 4] {
    box_px(turned.box_on_photograph(rect(place)))
}

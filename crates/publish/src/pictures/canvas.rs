//! A picture that is drawn on: lines, boxes, discs, and figures.

use sheet::Plane;
use tiny_skia::{Color, FillRule, LineCap, Paint, PathBuilder, Pixmap, Stroke, StrokeDash, Transform};

/// The black of the house, and bare paper for what must stand free of the print.
pub(crate) const INK: [u8; 3] = [23, 20, 18];
pub(crate) const WHITE: [u8; 3] = [255; 3];

/// A picture that is drawn on. Places are pixels from its top left corner.
pub(crate) struct Canvas {
    map: Pixmap,
}

impl Canvas {
    /// White, of this size; `None` of none, or of one too large.
    pub(crate) fn blank(w: usize, h: usize) -> Option<Self> {
        let mut map = Pixmap::new(u32::try_from(w).ok()?, u32::try_from(h).ok()?)?;
        map.fill(Color::WHITE);
        Some(Self { map })
    }

    /// A number in its ring.
    pub(crate) fn ring(&mut self, n: usize, middle: [f64; 2], high: f64) {
        let radius = high * if n < 100 { 1.0 } else { 1.35 };
        self.dot(middle, radius, false, (0.09 * high).max(1.0));
        self.number(n, middle, 0.85 * high);
    }

    /// Lays a picture down with its corner here; what would lie beyond the canvas is left out.
    pub(crate) fn lay(&mut self, picture: &Plane<[u8; 3]>, x: usize, y: usize) {
        let wide = self.map.width() as usize;
        let high = self.map.height() as usize;
        let pixels = self.map.data_mut();
        for row in 0..picture.height().min(high.saturating_sub(y)) {
            let from = picture.row(row).iter().take(wide.saturating_sub(x));
            let start = ((y + row) * wide + x.min(wide)) * 4;
            for (to, from) in pixels[start..].chunks_exact_mut(4).zip(from) {
                to[..3].copy_from_slice(from);
                to[3] = 255;
            }
        }
    }

    /// The picture.
    pub(crate) fn done(self) -> Plane<[u8; 3]> {
        let (w, h) = (self.map.width() as usize, self.map.height() as usize);
        let pixels: Vec<[u8; 3]> = self.map.data().chunks_exact(4).map(|p| [p[0], p[1], p[2]]).collect();
        Plane::from_vec(w, h, pixels).unwrap_or_else(|| Plane::filled(w, h, WHITE))
    }

    /// Lines from point to point, dashed where asked for.
    pub(crate) fn stroke(&mut self, points: &[[f64; 2]], width: f64, colour: [u8; 3], is_dashed: bool) {
        let Some(path) = path(points, false) else { return };
        let dash = is_dashed.then(|| StrokeDash::new(vec![5.0, 4.0], 0.0)).flatten();
        let stroke = Stroke { width: width as f32, line_cap: LineCap::Round, dash, ..Stroke::default() };
        self.map.stroke_path(&path, &paint(colour), &stroke, Transform::identity(), None);
    }

    /// A shape filled.
    pub(crate) fn fill(&mut self, points: &[[f64; 2]], colour: [u8; 3]) {
        if let Some(path) = path(points, true) {
            self.map.fill_path(&path, &paint(colour), FillRule::Winding, Transform::identity(), None);
        }
    }

    /// A box in outline, white about it so that it stands off dark print.
    pub(crate) fn frame(&mut self, [x, y, w, h]: [f64; 4], width: f64) {
        let corners = [[x, y], [x + w, y], [x + w, y + h], [x, y + h], [x, y]];
        self.stroke(&corners, 2.6 * width, WHITE, false);
        self.stroke(&corners, width, INK, false);
    }

    /// An ellipse in outline within a box, white about it.
    pub(crate) fn ellipse(&mut self, [x, y, w, h]: [f64; 4], width: f64) {
        let around = arc([x + w / 2.0, y + h / 2.0], [w / 2.0, h / 2.0], 0.0, 360.0);
        self.stroke(&around, 2.6 * width, WHITE, false);
        self.stroke(&around, width, INK, false);
    }

    /// A disc, or a ring filled with white.
    pub(crate) fn dot(&mut self, at: [f64; 2], radius: f64, is_full: bool, width: f64) {
        let around = circle(at, radius);
        self.fill(&around, if is_full { INK } else { WHITE });
        let mut closed = around;
        closed.push(closed[0]);
        self.stroke(&closed, width, INK, false);
    }

    /// A whole number, `high` pixels high, its middle here.
    pub(crate) fn number(&mut self, n: usize, middle: [f64; 2], high: f64) {
        self.figures(&n.to_string(), middle, high);
    }

    /// Figures, Arabic or Roman, likewise; what is neither is left out.
    pub(crate) fn figures(&mut self, text: &str, middle: [f64; 2], high: f64) {
        let step = ADVANCE * high;
        let left = middle[0] - step * text.len() as f64 / 2.0;
        for (i, figure) in text.bytes().enumerate() {
            let at = [left + step * (i as f64 + 0.5), middle[1]];
            for line in strokes(figure) {
                let points: Vec<[f64; 2]> =
                    line.iter().map(|[x, y]| [at[0] + x * high, at[1] + y * high]).collect();
                self.stroke(&points, (0.13 * high).max(1.0), INK, false);
            }
        }
    }
}

/// Figures are so far apart, in their height.
pub(crate) const ADVANCE: f64 = 0.72;

fn paint(colour: [u8; 3]) -> Paint<'static> {
    let [r, g, b] = colour;
    let mut paint = Paint::default();
    paint.set_color_rgba8(r, g, b, 255);
    paint.anti_alias = true;
    paint
}

fn path(points: &[[f64; 2]], is_closed: bool) -> Option<tiny_skia::Path> {
    let mut path = PathBuilder::new();
    for (i, [x, y]) in points.iter().enumerate() {
        if i == 0 {
            path.move_to(*x as f32, *y as f32);
        } else {
            path.line_to(*x as f32, *y as f32);
        }
    }
    if is_closed {
        path.close();
    }
    path.finish()
}

fn circle([x, y]: [f64; 2], radius: f64) -> Vec<[f64; 2]> {
    arc([x, y], [radius; 2], 0.0, 360.0)
}

/// Points along an arc, by degrees clockwise from the right.
fn arc([x, y]: [f64; 2], [across, down]: [f64; 2], from: f64, to: f64) -> Vec<[f64; 2]> {
    const PIECES: usize = 24;
    (0..=PIECES)
        .map(|i| {
            let turn = (from + (to - from) * i as f64 / PIECES as f64).to_radians();
            [x + across * turn.cos(), y + down * turn.sin()]
        })
        .collect()
}

/// The strokes of a figure in a box one high about its middle, half a figure to either side. Drawn for this crate, which holds
/// no face that it could read: plates need no more than numbers, and their words stand in the list beside them.
fn strokes(figure: u8) -> Vec<Vec<[f64; 2]>> {
    let (r, q) = (0.25, 0.24);
    match figure {
        b'0' => vec![arc([0.0, 0.0], [0.27, 0.48], 0.0, 360.0)],
        b'1' => vec![vec![[-0.14, -0.32], [0.04, -0.48], [0.04, 0.48]]],
        b'2' => {
            let mut top = arc([0.0, -0.22], [0.26, 0.26], 180.0, 380.0);
            top.extend([[-0.26, 0.48], [0.28, 0.48]]);
            vec![top]
        }
        b'3' => vec![arc([-0.02, -q], [r, q], 200.0, 450.0), arc([-0.02, q], [0.28, 0.24], 270.0, 520.0)],
        b'4' => vec![vec![[0.12, 0.48], [0.12, -0.48], [-0.28, 0.2], [0.3, 0.2]]],
        b'5' => {
            let mut all = vec![[0.24, -0.48], [-0.2, -0.48], [-0.23, -0.06]];
            all.extend(arc([-0.02, 0.18], [0.28, 0.3], 232.0, 510.0));
            vec![all]
        }
        b'6' => {
            vec![vec![[0.18, -0.48], [-0.1, -0.2], [-0.25, 0.12]], arc([0.0, 0.2], [0.26, 0.28], 0.0, 360.0)]
        }
        b'7' => vec![vec![[-0.26, -0.48], [0.26, -0.48], [-0.06, 0.48]]],
        b'8' => vec![arc([0.0, -0.24], [0.22, 0.24], 0.0, 360.0), arc([0.0, 0.24], [0.27, 0.24], 0.0, 360.0)],
        b'9' => {
            vec![vec![[-0.18, 0.48], [0.1, 0.2], [0.25, -0.12]], arc([0.0, -0.2], [0.26, 0.28], 0.0, 360.0)]
        }
        b'I' => vec![vec![[0.0, -0.48], [0.0, 0.48]]],
        b'V' => vec![vec![[-0.28, -0.48], [0.0, 0.48], [0.28, -0.48]]],
        b'X' => vec![vec![[-0.26, -0.48], [0.26, 0.48]], vec![[0.26, -0.48], [-0.26, 0.48]]],
        b'L' => vec![vec![[-0.2, -0.48], [-0.2, 0.48], [0.26, 0.48]]],
        b'C' => vec![arc([0.04, 0.0], [0.3, 0.48], 50.0, 310.0)],
        _ => Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ink(picture: &Plane<[u8; 3]>) -> usize {
        picture.data().iter().filter(|p| p[0] < 128).count()
    }

    #[test]
    fn every_figure_is_drawn_and_none_is_another() {
        let drawn: Vec<Plane<[u8; 3]>> = (0..10)
            .map(|n| {
                let mut canvas = Canvas::blank(40, 40).unwrap();
                canvas.number(n, [20.0, 20.0], 30.0);
                canvas.done()
            })
            .collect();
        for (i, one) in drawn.iter().enumerate() {
            assert!(ink(one) > 60, "{i}");
            for (j, other) in drawn.iter().enumerate().skip(i + 1) {
                let apart =
                    one.data().iter().zip(other.data()).filter(|(a, b)| a[0].abs_diff(b[0]) > 128).count();
                assert!(apart > 40, "{i} looks like {j}");
            }
        }
    }

    #[test]
    fn a_picture_lies_where_it_is_laid_and_never_beyond() {
        let mut canvas = Canvas::blank(10, 10).unwrap();
        canvas.lay(&Plane::filled(4, 4, [9; 3]), 8, 8);
        canvas.lay(&Plane::filled(4, 4, [9; 3]), 30, 0);
        let done = canvas.done();
        assert_eq!([done.at(7, 8), done.at(8, 8), done.at(9, 9)], [WHITE, [9; 3], [9; 3]]);
        assert_eq!(ink(&done), 4);
    }
}

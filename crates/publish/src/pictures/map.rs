//! The map of the residual: a stroke for every patch of print.

use super::halved::halved;
use sheet::Plane;
use std::borrow::Cow;
use tiny_skia::{Color, Paint, PathBuilder, PixmapMut, Rect, Stroke, Transform};

/// How far the patches of print lie off the smooth motion of the paper.
#[derive(Debug, Clone)]
pub struct ResidualMap {
    /// Height of the frame to its width.
    pub shape: f64,
    /// The print of both, pale, as a JPEG to lie under the map; none where no picture could be drawn.
    pub print: Option<Vec<u8>>,
    /// Side of a patch, as a share of the frame's width.
    pub side: f64,
    /// The patches that hold print.
    pub patches: Vec<PatchStroke>,
    /// How much longer than it is each displacement is drawn.
    pub drawn_times: f64,
    /// The same in words: "it is drawn 20 times as long as it is".
    pub drawn_words: String,
}

/// One patch of print. All lengths are shares of the frame's *width*.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PatchStroke {
    /// Its middle, from the left and from the top.
    pub middle: [f64; 2],
    /// Its displacement, right and down; none where it could not be judged.
    pub displacement: Option<[f64; 2]>,
}

/// A stroke is drawn no longer than so many patches are wide, and then ends in a ring.
const LONGEST: f64 = 3.0;
/// Patches overlap: so much of a side is hatched.
pub(crate) const HATCHED: f64 = 0.72;

impl ResidualMap {
    /// The end of a patch's stroke against its middle, as shares of the frame's width, and whether it was cut short.
    pub(crate) fn stroke(&self, displacement: [f64; 2]) -> ([f64; 2], bool) {
        let [dx, dy] = displacement.map(|v| v * self.drawn_times);
        let kept = (LONGEST * self.side / dx.hypot(dy)).min(1.0);
        ([dx * kept, dy * kept], kept < 1.0)
    }
}

/// Longer side of the print under a map, pixels, at most.
const LONGEST_PRINT: usize = 1300;
/// The map on a plate is so many times as fine.
const FINER: usize = 2;

/// A picture of inks reduced and pale, to draw a map on.
pub(super) fn pale(together: &Plane<[u8; 3]>, longest: usize) -> Plane<[u8; 3]> {
    let mut small = Cow::Borrowed(together);
    while small.width().max(small.height()) > longest {
        small = Cow::Owned(halved(&small));
    }
    // Brightness alone, brought near to the paper's.
    small.map(|[_, g, _]| [255 - (255 - g) / 4; 3])
}

/// The print that lies under the map of a page.
pub(super) fn under(together: &Plane<[u8; 3]>) -> Plane<[u8; 3]> {
    pale(together, LONGEST_PRINT)
}

/// The map drawn on the print of both; `None` of a picture without pixels.
pub(super) fn drawn(map: &ResidualMap, together: &Plane<[u8; 3]>) -> Option<Plane<[u8; 3]>> {
    let print = pale(together, LONGEST_PRINT * FINER);
    let (w, h) = (print.width(), print.height());
    let mut samples: Vec<u8> = print.data().iter().flat_map(|&[r, g, b]| [r, g, b, 255]).collect();
    let mut canvas = PixmapMut::from_bytes(&mut samples, w as u32, h as u32)?;
    let unit = w as f64;
    let at = |share: f64| (share * unit) as f32;
    let mut ink = Paint::default();
    ink.set_color(Color::from_rgba8(23, 20, 18, 255));
    let (mut strokes, mut hatches) = (PathBuilder::new(), PathBuilder::new());
    for patch in &map.patches {
        let [x, y] = patch.middle;
        let Some(displacement) = patch.displacement else {
            let half = map.side * HATCHED / 2.0;
            let wide = at(2.0 * half);
            if let Some(rect) = Rect::from_xywh(at(x - half), at(y - half), wide, wide) {
                hatches.push_rect(rect);
                for share in [0.5, 1.0] {
                    let step = wide * share;
                    hatches.move_to(rect.left() + step, rect.top());
                    hatches.line_to(rect.left(), rect.top() + step);
                    hatches.move_to(rect.right(), rect.top() + step);
                    hatches.line_to(rect.left() + step, rect.bottom());
                }
            }
            continue;
        };
        let ([dx, dy], is_cut) = map.stroke(displacement);
        strokes.move_to(at(x), at(y));
        strokes.line_to(at(x + dx), at(y + dy));
        if is_cut {
            strokes.push_circle(at(x + dx), at(y + dy), at(0.004));
        }
    }
    for (path, width) in [(hatches.finish(), 0.0008), (strokes.finish(), 0.0017)] {
        if let Some(path) = path {
            let stroke = Stroke { width: at(width).max(1.0), ..Stroke::default() };
            canvas.stroke_path(&path, &ink, &stroke, Transform::identity(), None);
        }
    }
    let pixels = samples.chunks_exact(4).map(|p| [p[0], p[1], p[2]]).collect();
    Plane::from_vec(w, h, pixels)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn map(displacement: Option<[f64; 2]>) -> ResidualMap {
        ResidualMap {
            shape: 1.0,
            print: None,
            side: 0.05,
            patches: vec![PatchStroke { middle: [0.5, 0.5], displacement }],
            drawn_times: 10.0,
            drawn_words: String::new(),
        }
    }

    #[test]
    fn a_stroke_runs_as_far_as_it_should_and_no_farther_than_may_be() {
        assert_eq!(map(None).stroke([0.003, 0.0]), ([0.03, 0.0], false));
        let ([dx, dy], is_cut) = map(None).stroke([0.0, -0.3]);
        assert!(is_cut && dx.abs() < 1e-12 && (dy + 0.15).abs() < 1e-12);
    }

    #[test]
    fn the_map_is_drawn_where_the_patches_are() {
        let paper = Plane::filled(200, 200, [252, 250, 244]);
        let stroke = drawn(&map(Some([0.01, 0.0])), &paper).unwrap();
        assert!(stroke.at(110, 100)[0] < 160 && stroke.at(90, 100)[0] > 240);
        let hatched = drawn(&map(None), &paper).unwrap();
        let darkest = (90..110).map(|x| hatched.at(x, 100)[0]).min();
        assert!(darkest.unwrap() < 160 && hatched.at(60, 100)[0] > 240);
    }
}

//! The drawing of years in pixels. Of its words only numbers are drawn: the names and what the shapes mean stand in
//! the list of the plates.

use super::{Mark, Plot, WORDS, hatching};
use crate::pictures::{Canvas, INK, WHITE};
use sheet::Plane;

/// Pixels to one of the layout.
const TIMES: f64 = 2.0;
/// White about it, pixels of the layout.
const MARGIN: f64 = 24.0;
const SOFT: [u8; 3] = [190, 186, 180];

/// Draws it; `None` where it would be too large.
pub(crate) fn draw(plot: &Plot) -> Option<Plane<[u8; 3]>> {
    let [w, h] = [plot.size[0], plot.foot].map(|v| ((v + 2.0 * MARGIN) * TIMES).ceil() as usize);
    let mut canvas = Canvas::blank(w, h)?;
    for mark in &plot.marks {
        one(&mut canvas, mark);
    }
    Some(canvas.done())
}

fn place(at: [f64; 2]) -> [f64; 2] {
    at.map(|v| (v + MARGIN) * TIMES)
}

fn one(canvas: &mut Canvas, mark: &Mark) {
    match mark {
        Mark::Line { from, to, width, is_dashed, is_soft } => {
            let colour = if *is_soft { SOFT } else { INK };
            canvas.stroke(&[place(*from), place(*to)], width * TIMES, colour, *is_dashed);
        }
        Mark::Bar { corner: [x, y], size: [w, h], is_full } => {
            let corners = [[*x, *y], [x + w, *y], [x + w, y + h], [*x, y + h]].map(place);
            canvas.fill(&corners, if *is_full { INK } else { WHITE });
            let [a, b, c, d] = corners;
            canvas.stroke(&[a, b, c, d, a], 1.3 * TIMES, INK, false);
        }
        Mark::Dot { at, radius, is_full } => canvas.dot(place(*at), radius * TIMES, *is_full, 1.6 * TIMES),
        Mark::Diamond { at: [x, y], radius: r } => {
            canvas.fill(&[[x - r, *y], [*x, y - r], [x + r, *y], [*x, y + r]].map(place), INK);
        }
        Mark::Hatch { corner, size } => {
            for [from, to] in hatching(*corner, *size) {
                canvas.stroke(&[place(from), place(to)], 0.7 * TIMES, SOFT, false);
            }
        }
        Mark::Words { at: [x, y], text, stands, .. } => {
            if let Ok(n) = text.parse() {
                let high = 0.66 * WORDS;
                let half = match stands {
                    super::Stands::About => 0.0,
                    super::Stands::From => crate::pictures::ADVANCE * high * text.len() as f64 / 2.0,
                };
                canvas.number(n, place([x + half, y - high / 2.0]), high * TIMES);
            }
        }
    }
}

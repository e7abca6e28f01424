//! How alike the masses of two cuts are, from the coarse to the fine, once one is laid on the other.
//!
//! What a cut shows is seen as shades on grids of 12, 24, 48 and 96 samples to its longer side. Of each grid only that is
//! compared which the next coarser does not show, so that each tells something of its own; and of all only what lies within
//! the border, for two designs in the same frame would be alike by the frame.

use sheet::{Plane, Rect};

/// Samples to the longer side of the coarsest grid; each next has twice as many.
const COARSEST: usize = 12;
/// Grids.
const GRIDS: usize = 4;

/// Correlation of both inks on one frame, the coarsest grid first, -1 to 1; 0 where either shows nothing there.
pub(super) fn masses(a: &Plane<u8>, b: &Plane<u8>, body: Rect) -> [f64; GRIDS] {
    let longer = body.w.max(body.h).max(1.0);
    let of = |side: f64| ((side / longer * COARSEST as f64).round() as usize).max(3);
    let size = (of(body.w), of(body.h));
    let finest = 1 << (GRIDS - 1);
    let mut grids: Vec<[Plane<f32>; 2]> =
        vec![[a, b].map(|ink| shades(ink, body, (size.0 * finest, size.1 * finest)))];
    while grids.len() < GRIDS {
        let coarser = grids[grids.len() - 1].each_ref().map(halved);
        grids.push(coarser);
    }
    grids.reverse();
    std::array::from_fn(|k| {
        let border = 1 << k;
        let own = |which: usize| {
            let grid = &grids[k][which];
            let (w, h) = (grid.width(), grid.height());
            let within = (border..h - border).flat_map(move |y| (border..w - border).map(move |x| (x, y)));
            let coarser = k.checked_sub(1).map(|k| &grids[k][which]);
            within
                .map(|(x, y)| grid.at(x, y) - coarser.map_or(0.0, |c| c.at(x / 2, y / 2)))
                .map(f64::from)
                .collect::<Vec<f64>>()
        };
        correlation(&own(0), &own(1))
    })
}

/// Mean ink of each sample of a grid over a box.
fn shades(ink: &Plane<u8>, body: Rect, (width, height): (usize, usize)) -> Plane<f32> {
    let edge = |from: f64, side: f64, i: usize, n: usize, most: usize| {
        ((from + side * i as f64 / n as f64).round().max(0.0) as usize).min(most)
    };
    let data = (0..height).flat_map(|j| (0..width).map(move |i| (i, j))).map(|(i, j)| {
        let (l, r) =
            (edge(body.x, body.w, i, width, ink.width()), edge(body.x, body.w, i + 1, width, ink.width()));
        let (t, d) = (
            edge(body.y, body.h, j, height, ink.height()),
            edge(body.y, body.h, j + 1, height, ink.height()),
        );
        // A cut smaller than the grid gives several samples the same pixel.
        let (r, d) = (r.max(l + 1).min(ink.width()), d.max(t + 1).min(ink.height()));
        let (l, t) = (l.min(r.saturating_sub(1)), t.min(d.saturating_sub(1)));
        let sum: u32 = (t..d).map(|y| ink.row(y)[l..r].iter().map(|&v| u32::from(v)).sum::<u32>()).sum();
        sum as f32 / ((r - l) * (d - t)).max(1) as f32
    });
    Plane::from_vec(width, height, data.collect()).unwrap_or_else(|| Plane::filled(width, height, 0.0))
}

fn halved(grid: &Plane<f32>) -> Plane<f32> {
    let (width, height) = (grid.width() / 2, grid.height() / 2);
    let data = (0..height)
        .flat_map(|y| (0..width).map(move |x| (2 * x, 2 * y)))
        .map(|(x, y)| (grid.at(x, y) + grid.at(x + 1, y) + grid.at(x, y + 1) + grid.at(x + 1, y + 1)) / 4.0);
    Plane::from_vec(width, height, data.collect()).unwrap_or_else(|| Plane::filled(width, height, 0.0))
}

fn correlation(a: &[f64], b: &[f64]) -> f64 {
    let n = a.len().max(1) as f64;
    let (ma, mb) = (a.iter().sum::<f64>() / n, b.iter().sum::<f64>() / n);
    let (mut aa, mut bb, mut ab) = (0.0, 0.0, 0.0);
    for (p, q) in a.iter().zip(b) {
        let (p, q) = (p - ma, q - mb);
        aa += p * p;
        bb += q * q;
        ab += p * q;
    }
    if aa < n || bb < n { 0.0 } else { ab / (aa * bb).sqrt() }
}

#[cfg(test)]
mod tests {
    use super::*;

    const BODY: Rect = Rect { x: 10.0, y: 10.0, w: 240.0, h: 240.0 };

    /// A frame about discs, each at the place and of the size that its number gives.
    fn discs(seed: usize) -> Plane<u8> {
        let mut ink = Plane::filled(260, 260, 0u8);
        for y in 0..260 {
            for (x, v) in ink.row_mut(y).iter_mut().enumerate() {
                let is_frame = !(16..244).contains(&x) || !(16..244).contains(&y);
                let is_disc = (0..9).any(|k| {
                    let of = |m: usize| 40 + (seed * 7919 + k * m) % 180;
                    let (dx, dy) = (x.abs_diff(of(104_729)), y.abs_diff(of(15_485_863)));
                    dx * dx + dy * dy < 300
                });
                *v = if is_frame || is_disc { 230 } else { 0 };
            }
        }
        ink
    }

    #[test]
    fn a_design_is_like_itself_and_another_in_the_same_frame_is_not() {
        let own = masses(&discs(1), &discs(1), BODY);
        assert!(own.iter().all(|c| (*c - 1.0).abs() < 1e-9), "{own:?}");
        let other = masses(&discs(1), &discs(75), BODY);
        assert!(other.iter().all(|c| *c < 0.5), "{other:?}");
        let bare = Plane::filled(260, 260, 0u8);
        let none = masses(&discs(1), &bare, BODY);
        assert!(none.iter().all(|c| c.abs() < 1e-12), "{none:?}");
    }
}

//! The second photograph drawn on the frame of the first.

use crate::PaperMap;
use rayon::prelude::*;
use sheet::{Plane, Point};

/// Side, in samples, of the tiles within which the map is taken as straight. Over so few samples a
/// cockle of 0.6 mm in 30 mm bends by under a hundredth of a sample at 300 ppi.
const TILE: usize = 16;

/// A part of a photograph, at some size.
#[derive(Debug, Clone, Copy)]
pub struct Part<'p, T> {
    /// What is to be seen of it.
    pub samples: &'p Plane<T>,
    /// Its top left corner on the photograph, pixels.
    pub corner: Point,
    /// Pixels of the photograph to a sample.
    pub unit: f64,
}

/// A part of photograph A that is drawn on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Its top left corner on A, pixels.
    pub corner: Point,
    /// Pixels of A to a sample.
    pub unit: f64,
    /// Width and height, samples.
    pub size: (usize, usize),
}

/// Draws B on A's frame: a plane of `size` samples, each `unit_a` pixels of A apart, taken from `b`, a plane of B reduced
/// by `unit_b`. Places off B are `outside`.
pub fn overlay<T, const N: usize>(
    map: &PaperMap,
    b: &Plane<T>,
    unit_b: f64,
    size: (usize, usize),
    unit_a: f64,
    outside: T,
) -> Plane<T>
where
    T: Sample<N> + Send + Sync,
{
    let origin = Point::new(0.0, 0.0);
    let part = Part { samples: b, corner: origin, unit: unit_b };
    overlay_part(map, part, Frame { corner: origin, unit: unit_a, size }, outside)
}

/// Draws a part of B on a part of A. Places off the part of B are `outside`.
pub fn overlay_part<T, const N: usize>(
    map: &PaperMap,
    part: Part<'_, T>,
    frame: Frame,
    outside: T,
) -> Plane<T>
where
    T: Sample<N> + Send + Sync,
{
    let Part { samples: b, corner: corner_b, unit: unit_b } = part;
    let Frame { corner: corner_a, unit: unit_a, size: (width, height) } = frame;
    let mut out = Plane::filled(width, height, outside);
    out.data_mut().par_chunks_mut(width * TILE).enumerate().for_each(|(band, rows)| {
        let y0 = band * TILE;
        let high = rows.len() / width;
        for x0 in (0..width).step_by(TILE) {
            let wide = TILE.min(width - x0);
            let (cx, cy) = (x0 as f64 + wide as f64 / 2.0, y0 as f64 + high as f64 / 2.0);
            let (centre, slope) = map.to_b_with_slope(corner_a + Point::new(cx * unit_a, cy * unit_a));
            let s = slope.map(|r| r.map(|v| v * unit_a / unit_b));
            let (ux, uy) = ((centre.x - corner_b.x) / unit_b, (centre.y - corner_b.y) / unit_b);
            for (j, row) in rows.chunks_exact_mut(width).enumerate() {
                let dy = (y0 + j) as f64 + 0.5 - cy;
                let dx = x0 as f64 + 0.5 - cx;
                let (mut x, mut y) = (ux + s[0][0] * dx + s[0][1] * dy, uy + s[1][0] * dx + s[1][1] * dy);
                for v in &mut row[x0..x0 + wide] {
                    if x >= 0.0 && y >= 0.0 && x < b.width() as f64 && y < b.height() as f64 {
                        *v = T::between(b, x, y);
                    }
                    x += s[0][0];
                    y += s[1][0];
                }
            }
        }
    });
    out
}

/// A sample that can be drawn between others: one byte, or three of a colour.
pub trait Sample<const N: usize>: Copy {
    /// The value at a place of a plane, between the centres of its samples.
    fn between(plane: &Plane<Self>, x: f64, y: f64) -> Self;
}

impl Sample<1> for u8 {
    fn between(plane: &Plane<Self>, x: f64, y: f64) -> Self {
        (plane.sample(x, y) + 0.5) as Self
    }
}

impl Sample<3> for [u8; 3] {
    fn between(plane: &Plane<Self>, x: f64, y: f64) -> Self {
        let (x, y) = (x - 0.5, y - 0.5);
        let (fx, fy) = (x.floor(), y.floor());
        let (ax, ay) = ((x - fx) as f32, (y - fy) as f32);
        let (ix, iy) = (fx as isize, fy as isize);
        let corner = |i, j| plane.at_clamped(ix + i, iy + j);
        let (p, q, r, s) = (corner(0, 0), corner(1, 0), corner(0, 1), corner(1, 1));
        std::array::from_fn(|k| {
            let top = f32::from(p[k]) + ax * (f32::from(q[k]) - f32::from(p[k]));
            let low = f32::from(r[k]) + ax * (f32::from(s[k]) - f32::from(r[k]));
            (top + ay * (low - top) + 0.5) as u8
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use sheet::Homography;

    #[test]
    fn a_shift_brings_the_print_back_and_leaves_the_rest_outside() {
        let mut b = Plane::filled(60, 40, 0u8);
        b.row_mut(20)[33] = 200;
        let map = PaperMap::flat(Homography::similarity(1.0, 0.0, Point::new(5.0, 3.0)));
        let on_a = overlay(&map, &b, 1.0, (60, 40), 1.0, 9);
        assert_eq!(on_a.at(28, 17), 200);
        assert_eq!(on_a.at(59, 39), 9);
    }

    #[test]
    fn a_part_is_the_same_as_that_part_of_the_whole() {
        let data: Vec<u8> = (0..80 * 70).map(|i| (i * 37 % 251) as u8).collect();
        let b = Plane::from_vec(80, 70, data).unwrap();
        let map = PaperMap::flat(Homography::similarity(1.1, 0.02, Point::new(3.3, -2.1)));
        let whole = overlay(&map, &b, 1.0, (60, 50), 1.0, 0);
        // Cut where the tiles of the whole begin, so that both take the map as straight over the same places.
        let frame = Frame { corner: Point::new(16.0, 16.0), unit: 1.0, size: (32, 16) };
        let samples = b.crop(10, 8, 60, 50);
        let part = Part { samples: &samples, corner: Point::new(10.0, 8.0), unit: 1.0 };
        let drawn = overlay_part(&map, part, frame, 0);
        for y in 0..16 {
            for x in 0..32 {
                assert!(drawn.at(x, y).abs_diff(whole.at(16 + x, 16 + y)) <= 1, "{x}, {y}");
            }
        }
    }
}

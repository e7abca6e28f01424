//! Both impressions about a place, as a small picture of a fixed size, and what it alone says.

mod net;

use sheet::{Plane, Point};

/// Samples of a side of a view.
const SIDE: usize = 32;
/// Samples to the x-height: two and two thirds x-heights are seen.
const DETAIL: f64 = 12.0;
/// Log odds so low that the other way round is not asked for: nearly all places are not changed.
const LITTLE: f32 = -5.0;

/// Ink of both impressions about a place, by rows, the first's before the second's; of 255.
#[derive(Debug, Clone, PartialEq)]
pub struct View(Box<[u8]>);

impl View {
    /// About `middle`, in samples of the planes, of which `x_height` go to an x-height; `gain` brings the solid ink of
    /// both to the darker one's. Beyond the planes there is no ink.
    pub(super) fn of(planes: [&Plane<u8>; 2], gain: [f32; 2], middle: Point, x_height: f64) -> Self {
        let step = x_height / DETAIL;
        // Of finer planes so many samples by so many are averaged.
        let fine = (step.ceil() as usize).max(1);
        let along = |middle: f64| -> Vec<f64> {
            let at = |k: usize| (k as f64 + 0.5) / fine as f64 - SIDE as f64 / 2.0;
            (0..SIDE * fine).map(|k| middle + at(k) * step).collect()
        };
        let (across, down) = (along(middle.x), along(middle.y));
        let mut out = Vec::with_capacity(2 * SIDE * SIDE);
        for (plane, gain) in planes.into_iter().zip(gain) {
            let (w, h) = (plane.width() as f64, plane.height() as f64);
            for rows in down.chunks_exact(fine) {
                let rows = rows.iter().filter(|&&y| y >= 0.0 && y < h);
                let mut sums = [0.0f32; SIDE];
                for &y in rows {
                    for (sum, columns) in sums.iter_mut().zip(across.chunks_exact(fine)) {
                        let columns = columns.iter().filter(|&&x| x >= 0.0 && x < w);
                        *sum += columns.map(|&x| plane.sample(x, y)).sum::<f32>();
                    }
                }
                out.extend(sums.map(|sum| (sum * gain / (fine * fine) as f32).min(255.0) as u8));
            }
        }
        Self(out.into())
    }

    /// The samples, 2 · 32 · 32.
    pub fn samples(&self) -> &[u8] {
        &self.0
    }

    /// Log odds, by this picture alone, that the type in its middle was changed; the two taken either way round, unless
    /// one way leaves hardly a chance.
    ///
    /// A small network of convolutions (LeCun et al., *Proceedings of the IEEE* 86 (1998), 2278-2324), fitted to places
    /// of simulated pairs that were corrected in many places (`cargo xtask bench fit view`). It knows nothing of the
    /// page: what is usual there the regressions put beside it.
    pub(super) fn log_odds(&self) -> f64 {
        let (first, second) = self.0.split_at(SIDE * SIDE);
        let told = net::log_odds([first, second]);
        if told <= LITTLE {
            return f64::from(told);
        }
        f64::from(told + net::log_odds([second, first])) / 2.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_view_is_of_one_size_whatever_the_resolution() {
        for x_height in [9usize, 18, 31] {
            // A block one x-height broad and high.
            let side = 4 * x_height;
            let mut plane = Plane::filled(side, side, 0u8);
            for y in 0..x_height {
                plane.row_mut(x_height + y)[x_height..2 * x_height].fill(200);
            }
            let blank = Plane::filled(side, side, 0u8);
            let middle = Point::new(1.5 * x_height as f64, 1.5 * x_height as f64);
            let view = View::of([&plane, &blank], [1.25, 1.0], middle, x_height as f64);
            let (first, second) = view.samples().split_at(SIDE * SIDE);
            assert!(second.iter().all(|&v| v == 0));
            let at = |x: usize, y: usize| first[y * SIDE + x];
            assert!((249..=250).contains(&at(16, 16)), "{}", at(16, 16));
            let mass = first.iter().map(|&v| f64::from(v)).sum::<f64>() / 250.0;
            assert!((mass - DETAIL * DETAIL).abs() < 8.0, "{x_height}: {mass}");
            assert_eq!([at(2, 16), at(29, 16), at(16, 2), at(16, 29)], [0; 4]);
        }
    }

    #[test]
    fn what_lies_beyond_the_planes_is_blank() {
        let plane = Plane::filled(6, 6, 255u8);
        let view = View::of([&plane, &plane], [1.0; 2], Point::new(0.0, 0.0), 12.0);
        assert_eq!((view.samples()[0], view.samples()[17 * SIDE + 17]), (0, 255));
    }
}

//! Whether two photographs may show one and the same copy.
//!
//! Copies of one setting agree in their ink. Their paper does not: fibres, stains, tears and the wires of the mould lie
//! otherwise in every sheet. Only the margins beside the type are asked, for what is printed on the back shows through
//! all copies alike, and letters have halos.

use crate::reading::Reading;
use rayon::prelude::*;
use register::{Laid, overlay};
use rustfft::num_complex::Complex32;
use rustfft::{Fft, FftPlanner};
use sheet::Plane;

/// Lines on the first photograph that tell how wide the type is, at least.
const FEWEST_LINES: usize = 3;
/// One line in so many may reach farther than the type.
const ONE_LINE_IN: usize = 50;
/// From the type to where the margin begins, as a share of the photograph's breadth.
const CLEAR: f64 = 0.02;
/// Samples of bare margin below which nothing is said.
const FEWEST_SAMPLES: usize = 8000;
/// Farthest shift that the paper is tried at, samples.
const FARTHEST: usize = 40;
/// What lies within so many samples is no other place.
const SAME_PLACE: isize = 2;
/// What must be reached where the print puts the paper: standard deviations of all other places, times the best of those,
/// and plain correlation. Two copies came to 19 at most, where both lay in a gutter's shadow, but then not to twice the
/// next; leaves that follow each other in one book to 14 (docs/benchmarks.md).
const DEVIATIONS: f32 = 14.0;
const TIMES_THE_NEXT: f32 = 2.0;
const CORRELATION: f32 = 0.1;

/// How two papers agree where the print puts them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Agreement {
    /// Standard deviations above all other places.
    deviations: f32,
    /// The best other place, in the same.
    next: f32,
    /// Plain correlation, -1 to 1.
    correlation: f32,
}

impl Agreement {
    /// Whether it is what one sheet of paper shows.
    pub(crate) fn is_of_one_copy(self) -> bool {
        self.deviations >= DEVIATIONS
            && self.deviations >= TIMES_THE_NEXT * self.next
            && self.correlation >= CORRELATION
    }
}

/// How the margins of two photographs that lie on each other agree; `None` where too little of them is seen on both.
pub(crate) fn agreement(a: &Reading, b: &Reading, laid: &Laid) -> Option<Agreement> {
    let (left, right) = type_area(a)?;
    let unit = a.paper.reduction() as f64;
    let size = (a.paper.light().width(), a.paper.light().height());
    let clear = CLEAR * size.0 as f64;
    let (left, right) = (left / unit - clear, right / unit + clear);
    let drawn = |of_b: &Plane<u8>| overlay(&laid.map, of_b, b.paper.reduction() as f64, size, unit, 0);
    let mask = drawn(b.paper.mask());
    let beside = |x: usize, _: usize| (x as f64) < left || x as f64 > right;
    let [first, second] = a.paper.together((drawn(b.paper.light()), &mask), beside);
    if first.samples() < FEWEST_SAMPLES {
        return None;
    }
    let (first, second) = rayon::join(|| first.fine_relief(), || second.fine_relief());
    agree(&first?, &second?)
}

/// Where the lines of type begin and end, pixels along the first photograph.
fn type_area(a: &Reading) -> Option<(f64, f64)> {
    let lines = &a.layout.lines;
    if lines.len() < FEWEST_LINES {
        return None;
    }
    let skip = lines.len() / ONE_LINE_IN;
    let mut left: Vec<f64> = lines.iter().map(|l| l.bounds.x).collect();
    let mut right: Vec<f64> = lines.iter().map(|l| l.bounds.right()).collect();
    left.sort_by(f64::total_cmp);
    right.sort_by(f64::total_cmp);
    Some((*left.get(skip)?, *right.get(right.len() - 1 - skip)?))
}

/// Lays two reliefs over each other at all shifts that are tried. By their spectra: C. D. Kuglin and D. C. Hines, "The
/// phase correlation image alignment method", Proc. IEEE Conf. on Cybernetics and Society (1975), 163-165 (from memory).
fn agree(first: &Plane<f32>, second: &Plane<f32>) -> Option<Agreement> {
    let product =
        |p: &Plane<f32>, q: &Plane<f32>| p.data().iter().zip(q.data()).map(|(u, v)| u * v).sum::<f32>();
    let power = (product(first, first) * product(second, second)).sqrt();
    if power <= 0.0 {
        return None;
    }
    // Round the edges, shifts come in from the other side; so there is empty room as wide as the farthest.
    let room = |n: usize| (n + FARTHEST).next_multiple_of(64);
    let (w, h) = (room(first.width()), room(first.height()));
    // Two real planes in one complex transform.
    let mut both = vec![Complex32::default(); w * h];
    for y in 0..first.height() {
        for ((z, &p), &q) in both[y * w..].iter_mut().zip(first.row(y)).zip(second.row(y)) {
            *z = Complex32::new(p, q);
        }
    }
    let mut planner = FftPlanner::new();
    let both = transformed(both, w, h, &mut planner);
    // The transform lies on its side now: `h` values to each of `w` columns.
    let mut cross = vec![Complex32::default(); w * h];
    for x in 0..w {
        for y in 0..h {
            let (z, mirrored) = (both[x * h + y], both[(w - x) % w * h + (h - y) % h].conj());
            let (p, q) = ((z + mirrored) * 0.5, (z - mirrored) * Complex32::new(0.0, -0.5));
            // The inverse transform is the transform of the conjugate.
            let c = p.conj() * q;
            cross[x * h + y] = whitened(c);
        }
    }
    let at_shifts = transformed(cross, h, w, &mut planner);
    let at = |dx: isize, dy: isize| {
        let (x, y) = (dx.rem_euclid(w as isize) as usize, dy.rem_euclid(h as isize) as usize);
        at_shifts[y * w + x].re
    };
    let far = FARTHEST as isize;
    let (mut here, mut others) = (f32::MIN, Vec::new());
    for dy in -far..=far {
        for dx in -far..=far {
            // A sample beside the place is the place: the grids of the photographs are cut off at their edges.
            if dx.abs() <= 1 && dy.abs() <= 1 {
                here = here.max(at(dx, dy));
            } else if dx.abs() > SAME_PLACE || dy.abs() > SAME_PLACE {
                others.push(at(dx, dy));
            }
        }
    }
    let n = others.len() as f32;
    let mean = others.iter().sum::<f32>() / n;
    let deviation = (others.iter().map(|v| (v - mean).powi(2)).sum::<f32>() / n).sqrt();
    let next = others.iter().fold(f32::MIN, |m, &v| m.max(v));
    let told = |v: f32| (v - mean) / deviation;
    (deviation > 0.0).then(|| Agreement {
        deviations: told(here),
        next: told(next),
        correlation: product(first, second) / power,
    })
}

/// A wave with three quarters of its strength (as a power) taken away: a mould's wires and chains are few strong waves, and
/// agree wherever they are brought to lie over each other.
fn whitened(wave: Complex32) -> Complex32 {
    let root = wave.norm_sqr().sqrt().sqrt();
    if root > 0.0 { wave / (root * root.sqrt()) } else { wave }
}

/// The transform of a plane of `h` rows of `w` values, turned over its diagonal: `w` rows of `h`.
fn transformed(
    mut plane: Vec<Complex32>,
    w: usize,
    h: usize,
    planner: &mut FftPlanner<f32>,
) -> Vec<Complex32> {
    by_rows(&mut plane, planner.plan_fft_forward(w).as_ref());
    let mut turned = vec![Complex32::default(); w * h];
    for (y, row) in plane.chunks_exact(w).enumerate() {
        for (x, &v) in row.iter().enumerate() {
            turned[x * h + y] = v;
        }
    }
    by_rows(&mut turned, planner.plan_fft_forward(h).as_ref());
    turned
}

/// Transforms each row.
fn by_rows(plane: &mut [Complex32], transform: &dyn Fft<f32>) {
    let scratch = || vec![Complex32::default(); transform.get_inplace_scratch_len()];
    plane
        .par_chunks_exact_mut(transform.len())
        .for_each_init(scratch, |scratch, row| transform.process_with_scratch(row, scratch));
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Grain, with `share` of it from one seed and the rest from another, in the margins of a plane; with wires.
    fn relief(share: f32, seed: u32, shift: usize) -> Plane<f32> {
        let grain = |n: u32, seed: u32| {
            let mut v = n.wrapping_mul(0x9E37_79B9) ^ seed.wrapping_mul(0x85EB_CA6B);
            v = (v ^ (v >> 15)).wrapping_mul(0x2C1B_3C6D);
            v = (v ^ (v >> 12)).wrapping_mul(0x297A_2D39);
            (v ^ (v >> 15)) as f32 / u32::MAX as f32 - 0.5
        };
        let mut plane = Plane::filled(300, 400, 0.0f32);
        for y in 0..400 {
            for x in (0..60).chain(240..300) {
                let n = (y * 300 + x + shift) as u32;
                let wires = if y % 4 < 2 { 0.15 } else { -0.15 };
                plane.row_mut(y)[x] = share * grain(n, 1) + (1.0 - share) * grain(n, seed) + wires;
            }
        }
        plane
    }

    #[test]
    fn spectra_are_those_of_scipy() {
        let (w, h) = (96, 64);
        let grain = relief(0.5, 7, 0);
        let values: Vec<Complex32> =
            (0..w * h).map(|i| Complex32::new(grain.data()[i % 60], grain.data()[(i + 17) % 300])).collect();
        let input: Vec<u8> =
            values.iter().flat_map(|z| [z.re.to_le_bytes(), z.im.to_le_bytes()]).flatten().collect();
        let Some(theirs) = outside::kernel(&["spectrum".to_owned(), w.to_string(), h.to_string()], &input)
        else {
            return;
        };
        // Ours lies on its side.
        let ours = transformed(values, w, h, &mut FftPlanner::new());
        let largest = theirs.iter().fold(0.0f32, |m, v| m.max(v.abs()));
        for (i, z) in theirs.as_chunks::<2>().0.iter().enumerate() {
            let own = ours[i % w * h + i / w];
            assert!((own - Complex32::new(z[0], z[1])).norm() < 1e-5 * largest, "{i}: {own} {z:?}");
        }
    }

    #[test]
    fn one_paper_agrees_where_the_print_puts_it() {
        let found = agree(&relief(0.6, 2, 0), &relief(0.6, 3, 0)).unwrap();
        assert!(found.is_of_one_copy(), "{found:?}");
        // Plain correlation, checked against the definition: shared variance over all of it.
        let (shared, own, wires) = (0.36 / 12.0, 0.16 / 12.0, 0.15f32.powi(2));
        let expected = (shared + wires) / (shared + own + wires);
        assert!((found.correlation - expected).abs() < 0.03, "{found:?} {expected}");
    }

    #[test]
    fn another_paper_of_the_same_mould_does_not() {
        let found = agree(&relief(0.0, 2, 0), &relief(0.0, 3, 0)).unwrap();
        assert!(!found.is_of_one_copy(), "{found:?}");
    }

    #[test]
    fn one_paper_elsewhere_is_another_copy() {
        let found = agree(&relief(0.9, 2, 0), &relief(0.9, 3, 11)).unwrap();
        assert!(!found.is_of_one_copy() && found.next > 14.0, "{found:?}");
        assert!(agree(&relief(0.9, 2, 0), &Plane::filled(300, 400, 0.0)).is_none());
    }
}

//! Grey dilation, erosion and closing with square windows.

use crate::Plane;

/// The largest (`pick = max`) or smallest (`pick = min`) value in the square window of `2 radius + 1`
/// about every sample; the edge is repeated.
///
/// A window of any width is two overlapping windows of a power of two, and those come by doubling:
/// log2 passes over rows, whatever the radius.
pub(super) fn extreme(plane: &Plane<u8>, radius: usize, pick: impl Fn(u8, u8) -> u8 + Copy) -> Plane<u8> {
    let along = rows(plane, radius, pick);
    rows(&along.transposed(), radius, pick).transposed()
}

/// Grey closing: dark places that the window cannot fit into are filled up to the level of the
/// lightest way out, slopes and large dark areas stay as they are.
///
/// Beyond the edge the border is repeated twice the radius wide, so that a dark strip along the
/// border (a shadow, a table) counts as large however narrow it is.
pub(super) fn closing(plane: &Plane<u8>, radius: usize) -> Plane<u8> {
    let (w, h, m) = (plane.width(), plane.height(), 2 * radius);
    let mut wide = Plane::filled(w + 2 * m, h + 2 * m, 0u8);
    for y in 0..h + 2 * m {
        let source = plane.row(y.saturating_sub(m).min(h - 1));
        let row = wide.row_mut(y);
        row[..m].fill(source[0]);
        row[m..m + w].copy_from_slice(source);
        row[m + w..].fill(source[w - 1]);
    }
    extreme(&extreme(&wide, radius, u8::max), radius, u8::min).crop(m, m, w, h)
}

/// The mean of the 3 x 3 samples about each with weights 1 2 1, over those that are not 0 (not page);
/// samples that are 0 stay 0.
pub(super) fn smoothed(plane: &Plane<u8>) -> Plane<u8> {
    let (w, h) = (plane.width(), plane.height());
    let mut out = plane.clone();
    for y in 0..h {
        for x in 0..w {
            if plane.at(x, y) == 0 {
                continue;
            }
            let (mut sum, mut weight) = (0u32, 0u32);
            for dy in -1..=1isize {
                for dx in -1..=1isize {
                    let v = plane.at_clamped(x as isize + dx, y as isize + dy);
                    let k = if v == 0 {
                        0
                    } else {
                        (2 - dx.unsigned_abs() as u32) * (2 - dy.unsigned_abs() as u32)
                    };
                    sum += k * u32::from(v);
                    weight += k;
                }
            }
            out.row_mut(y)[x] = ((sum + weight / 2) / weight) as u8;
        }
    }
    out
}

/// The window's extreme along every row.
fn rows(plane: &Plane<u8>, radius: usize, pick: impl Fn(u8, u8) -> u8) -> Plane<u8> {
    let (w, h) = (plane.width(), plane.height());
    let window = 2 * radius + 1;
    let padded = w + 2 * radius;
    let mut out = Plane::filled(w, h, 0u8);
    let (mut line, mut doubled) = (vec![0u8; padded], vec![0u8; padded]);
    for y in 0..h {
        let source = plane.row(y);
        line[..radius].fill(source[0]);
        line[radius..radius + w].copy_from_slice(source);
        line[radius + w..].fill(source[w - 1]);
        let mut covered = 1;
        while 2 * covered <= window {
            // From one line into another, which the compiler does sixteen at once.
            let pairs = line.iter().zip(&line[covered..]);
            doubled.iter_mut().zip(pairs).for_each(|(o, (&p, &q))| *o = pick(p, q));
            std::mem::swap(&mut line, &mut doubled);
            covered *= 2;
        }
        let rest = window - covered;
        for ((o, &p), &q) in out.row_mut(y).iter_mut().zip(&line).zip(&line[rest..]) {
            *o = pick(p, q);
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn obvious(p: &Plane<u8>, r: isize, pick: impl Fn(u8, u8) -> u8 + Copy) -> Vec<u8> {
        let mut out = Vec::new();
        for y in 0..p.height() as isize {
            for x in 0..p.width() as isize {
                let mut v = p.at_clamped(x, y);
                for dy in -r..=r {
                    for dx in -r..=r {
                        v = pick(v, p.at_clamped(x + dx, y + dy));
                    }
                }
                out.push(v);
            }
        }
        out
    }

    proptest! {
        #[test]
        fn the_window_by_doubling_is_the_obvious_window(
            w in 1usize..12, h in 1usize..9, r in 0usize..6, seed in proptest::collection::vec(any::<u8>(), 108)
        ) {
            let p = Plane::from_vec(w, h, seed[..w * h].to_vec()).unwrap();
            prop_assert_eq!(extreme(&p, r, u8::max).into_vec(), obvious(&p, r as isize, u8::max));
            prop_assert_eq!(extreme(&p, r, u8::min).into_vec(), obvious(&p, r as isize, u8::min));
        }

        #[test]
        fn a_closing_never_darkens(
            w in 1usize..12, h in 1usize..9, r in 0usize..4, seed in proptest::collection::vec(any::<u8>(), 108)
        ) {
            let p = Plane::from_vec(w, h, seed[..w * h].to_vec()).unwrap();
            let once = closing(&p, r);
            prop_assert!(once.data().iter().zip(p.data()).all(|(a, b)| a >= b));
        }
    }

    #[test]
    fn a_letter_is_filled_and_a_dark_strip_at_the_border_is_not() {
        let mut p = Plane::filled(20, 20, 200u8);
        p.row_mut(10)[9] = 10;
        for y in 0..20 {
            p.row_mut(y)[..2].fill(40);
        }
        let c = closing(&p, 3);
        assert_eq!(c.at(9, 10), 200);
        assert_eq!(c.at(0, 10), 40);
    }
}

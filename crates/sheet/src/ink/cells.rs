//! The coarse grid on which paper is measured.

use crate::Plane;
use rayon::prelude::*;

/// The long side of a picture is at most this many cells (and at least half as many). Common
/// practice, no source: a page of 40 to 50 lines has then a line of type every 5 to 10 cells.
const CELLS: usize = 512;

/// A cell is looked at in this many parts each way, so that one bright speck of grain is not paper.
const PARTS: usize = 4;

/// The side of a cell for a picture of this size: a power of two, so that the cells of a halved
/// picture are the same places.
pub(super) fn size(width: usize, height: usize) -> usize {
    let mut cell = 1;
    while width.max(height) > cell * CELLS {
        cell *= 2;
    }
    cell
}

/// The brightest part of every cell: the largest of the means of its 4 x 4 parts (of its pixels,
/// when the cell is smaller than that). What hangs over the right and lower edge is left out, unless
/// it is all there is.
pub(super) fn bright(luminance: &Plane<u8>, cell: usize) -> Plane<u8> {
    let (w, h) = (luminance.width(), luminance.height());
    let part = (cell / PARTS).clamp(1, 16);
    let (across, down) = (w.div_ceil(cell).max(1), h.div_ceil(cell).max(1));
    let mut out = Plane::filled(across, down, 0u8);
    if w < part || h < part {
        return out;
    }
    out.data_mut().par_chunks_mut(across).enumerate().for_each(|(row, cells)| {
        let mut sums = vec![0u16; w];
        let mut best = vec![0u16; w / part];
        let top = (row * cell).min(h - part);
        let bottom = ((row + 1) * cell).min(h).max(top + part);
        for y in (top..=bottom - part).step_by(part) {
            sums.fill(0);
            for source in (y..y + part).map(|y| luminance.row(y)) {
                for (sum, &v) in sums.iter_mut().zip(source) {
                    *sum += u16::from(v);
                }
            }
            raise(&mut best, &sums, part);
        }
        let shift = 2 * part.trailing_zeros();
        let last = best.len() - 1;
        for (column, out) in cells.iter_mut().enumerate() {
            let from = (column * cell / part).min(last);
            let to = ((column + 1) * cell / part).min(best.len());
            *out = best[from..to].iter().max().map_or(0, |&v| (v >> shift) as u8);
        }
    });
    out
}

/// Raises the best of every part to the sum of its columns, if that is more.
fn raise(best: &mut [u16], sums: &[u16], part: usize) {
    // The usual widths are spelt out, so that the compiler unrolls them.
    let all = best.iter_mut();
    match part {
        1 => all.zip(sums).for_each(|(b, &s)| *b = (*b).max(s)),
        2 => all.zip(sums.chunks_exact(2)).for_each(|(b, s)| *b = (*b).max(s[0] + s[1])),
        4 => all.zip(sums.chunks_exact(4)).for_each(|(b, s)| *b = (*b).max(s[0] + s[1] + s[2] + s[3])),
        _ => all.zip(sums.chunks_exact(part)).for_each(|(b, s)| *b = (*b).max(s.iter().sum())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cell_is_a_power_of_two_and_the_grid_is_bounded() {
        assert_eq!(size(1, 1), 1);
        assert_eq!(size(512, 300), 1);
        assert_eq!(size(513, 300), 2);
        assert_eq!(size(2450, 3266), 8);
        assert_eq!(size(1225, 1633), 4);
    }

    #[test]
    fn one_speck_does_not_make_a_cell_bright() {
        let mut p = Plane::filled(8, 8, 100u8);
        p.data_mut()[0] = 200;
        assert_eq!(bright(&p, 8).data(), &[125]);
    }

    #[test]
    fn an_overhanging_cell_is_measured_on_what_there_is() {
        let p = Plane::filled(17, 9, 90u8);
        let b = bright(&p, 8);
        assert_eq!((b.width(), b.height()), (3, 2));
        assert!(b.data().iter().all(|&v| v == 90));
    }
}

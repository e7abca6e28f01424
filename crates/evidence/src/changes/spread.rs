//! Ink spread a little: what a heavier impression would have covered.

use sheet::Plane;

/// The darkest ink within `reach` samples in x and in y (a square), by rows and then by columns.
pub(super) fn spread(ink: &Plane<u8>, reach: usize) -> Plane<u8> {
    let (w, h) = (ink.width(), ink.height());
    let mut across = ink.clone();
    for y in 0..h {
        let row = ink.row(y);
        let out = across.row_mut(y);
        for d in 1..=reach.min(w.saturating_sub(1)) {
            for (o, v) in out[..w - d].iter_mut().zip(&row[d..]) {
                *o = (*o).max(*v);
            }
            for (o, v) in out[d..].iter_mut().zip(row) {
                *o = (*o).max(*v);
            }
        }
    }
    let mut down = across.clone();
    for y in 0..h {
        for d in 1..=reach {
            for other in [y.checked_sub(d), (y + d < h).then_some(y + d)].into_iter().flatten() {
                let source = across.row(other);
                for (o, v) in down.row_mut(y).iter_mut().zip(source) {
                    *o = (*o).max(*v);
                }
            }
        }
    }
    down
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_dot_becomes_a_square() {
        let mut p = Plane::filled(7, 7, 0u8);
        p.row_mut(3)[3] = 90;
        let s = spread(&p, 2);
        assert_eq!(s.data().iter().map(|&v| u32::from(v)).sum::<u32>(), 25 * 90);
        assert_eq!((s.at(1, 1), s.at(0, 3)), (90, 0));
    }
}

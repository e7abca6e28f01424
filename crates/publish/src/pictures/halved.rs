//! Pictures in colour at half their size.

use rayon::prelude::*;
use sheet::Plane;

/// The picture with four pixels made one; an odd last row or column is left out.
pub(super) fn halved(picture: &Plane<[u8; 3]>) -> Plane<[u8; 3]> {
    let (w, h) = ((picture.width() / 2).max(1), (picture.height() / 2).max(1));
    let mut half = Plane::filled(w, h, [0u8; 3]);
    let last = picture.height() - 1;
    half.data_mut().par_chunks_mut(w).enumerate().for_each(|(y, out)| {
        let (top, low) = (picture.row((2 * y).min(last)), picture.row((2 * y + 1).min(last)));
        for (x, out) in out.iter_mut().enumerate() {
            let (l, r) = (2 * x, (2 * x + 1).min(picture.width() - 1));
            *out = std::array::from_fn(|k| {
                let sum = [top[l], top[r], low[l], low[r]].iter().map(|p| u16::from(p[k])).sum::<u16>();
                ((sum + 2) / 4) as u8
            });
        }
    });
    half
}

/// The picture halved so many times.
#[must_use]
pub fn reduced(picture: Plane<[u8; 3]>, times: usize) -> Plane<[u8; 3]> {
    (0..times).fold(picture, |picture, _| halved(&picture))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn four_pixels_become_their_mean_and_an_odd_edge_goes() {
        let data = vec![[0; 3], [10; 3], [99; 3], [20; 3], [30; 3], [99; 3]];
        let half = halved(&Plane::from_vec(3, 2, data).unwrap());
        assert_eq!((half.width(), half.height(), half.data()), (1, 1, &[[15; 3]][..]));
        assert_eq!(halved(&Plane::filled(1, 1, [7; 3])).data(), [[7; 3]]);
    }
}

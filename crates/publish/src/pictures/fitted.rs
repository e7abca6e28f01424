//! Pictures made smaller to a given length, and ink as a picture.

use image::imageops::{FilterType, resize};
use image::{ImageBuffer, Rgb};
use sheet::Plane;

use super::inks::{BOTH, PAPER};

/// The picture with its longer side no longer than this many pixels, each the mean of what it stands for; never larger than
/// it is.
#[must_use]
pub fn fitted(picture: &Plane<[u8; 3]>, long: f64) -> Plane<[u8; 3]> {
    let share = long / picture.width().max(picture.height()) as f64;
    if share >= 1.0 {
        return picture.clone();
    }
    let to = |side: usize| (side as f64 * share).round().max(1.0) as u32;
    let (w, h) = (picture.width() as u32, picture.height() as u32);
    let bytes = picture.data().as_flattened().to_vec();
    let Some(from) = ImageBuffer::<Rgb<u8>, Vec<u8>>::from_raw(w, h, bytes) else { return picture.clone() };
    let small = resize(&from, to(picture.width()), to(picture.height()), FilterType::Triangle);
    let (w, h) = (small.width() as usize, small.height() as usize);
    let pixels = small.pixels().map(|p| p.0).collect();
    Plane::from_vec(w, h, pixels).unwrap_or_else(|| picture.clone())
}

/// Ink in the black of the house on bare paper.
#[must_use]
pub fn black(ink: &Plane<u8>) -> Plane<[u8; 3]> {
    ink.map(|ink| {
        let share = f32::from(ink) / 255.0;
        std::array::from_fn(|k| (share * BOTH[k] + (1.0 - share) * PAPER[k]).round() as u8)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_picture_is_made_smaller_and_never_larger() {
        let even = Plane::filled(200, 100, [90, 80, 70]);
        let small = fitted(&even, 50.0);
        assert_eq!((small.width(), small.height(), small.at(20, 10)), (50, 25, [90, 80, 70]));
        assert_eq!(fitted(&even, 500.0), even);
    }

    #[test]
    fn full_ink_is_black_and_none_is_paper() {
        let drawn = black(&Plane::from_vec(2, 1, vec![255, 0]).unwrap());
        assert_eq!(drawn.data(), [BOTH.map(|v| v as u8), PAPER.map(|v| v as u8)]);
    }
}

//! Both inks of a pair laid together, as a picture to look at.

use std::path::Path;

use anyhow::Context as _;
use evidence::block::{BlocksCompared, Cut};
use sheet::Plane;

/// Paper, ink of the first alone, of the second alone, and of both (DESIGN §3).
const PAPER: [f64; 3] = [255.0, 255.0, 255.0];
const FIRST: [f64; 3] = [180.0, 97.0, 15.0];
const SECOND: [f64; 3] = [11.0, 100.0, 112.0];
const BOTH: [f64; 3] = [42.0, 38.0, 35.0];

/// Draws the second laid on the first, or beside it where they could not be laid together, as a PNG.
pub(super) fn together(a: &Cut, compared: &BlocksCompared, to: &Path) -> anyhow::Result<()> {
    let Some(laid) = &compared.laid else { return Ok(()) };
    let first = a.ink.full();
    let size = (first.width(), first.height());
    let second = register::overlay(&laid.laid.map, laid.second.ink.full(), 1.0, size, 1.0, 0u8);
    let rgb: Vec<u8> = inks(first, &second).flatten().collect();
    image::save_buffer(to, &rgb, size.0 as u32, size.1 as u32, image::ExtendedColorType::Rgb8)
        .with_context(|| format!("cannot write {}", to.display()))
}

/// The colour of each pixel.
fn inks<'p>(a: &'p Plane<u8>, b: &'p Plane<u8>) -> impl Iterator<Item = [u8; 3]> + 'p {
    a.data().iter().zip(b.data()).map(|(&p, &q)| {
        let (p, q) = (f64::from(p) / 255.0, f64::from(q) / 255.0);
        std::array::from_fn(|k| {
            let bare = PAPER[k] * (1.0 - q) + SECOND[k] * q;
            let inked = FIRST[k] * (1.0 - q) + BOTH[k] * q;
            (bare * (1.0 - p) + inked * p).round() as u8
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_ink_has_its_colour() {
        let a = Plane::from_vec(4, 1, vec![0, 255, 0, 255]).unwrap();
        let b = Plane::from_vec(4, 1, vec![0, 0, 255, 255]).unwrap();
        let seen: Vec<[u8; 3]> = inks(&a, &b).collect();
        assert_eq!(seen, [[255, 255, 255], [180, 97, 15], [11, 100, 112], [42, 38, 35]]);
    }
}

//! What there is to look at of blocks, and how it is cut for the page.

use crate::pictures::{CannotDraw, Overview, Shades, Small, fitted};
use sheet::{Plane, Point, Rect};

/// What there is to look at of blocks.
#[derive(Debug, Clone, Default)]
pub struct BlocksPictures {
    /// Of each block of the record, in its order; `None` where there is nothing to lay together, as of a block of one
    /// impression.
    pub blocks: Vec<Option<OneBlockPictures>>,
    /// Of each photograph the cut as it lies on it, in colour, with a little of what is around it; `None` of one that could
    /// not be read or has none. Larger than the page shows does no harm.
    pub cuts: Vec<Option<Plane<[u8; 3]>>>,
}

/// What there is to look at of one block: everything on one frame, a part of the photograph of the frame's impression as a
/// viewer shows it, and of one size.
#[derive(Debug, Clone)]
pub struct OneBlockPictures {
    /// The ink of the best impression there is of it, 0 to 255: the wood whole as far as any impression shows it.
    pub composite: Plane<u8>,
    /// Its impressions, in the order of the record.
    pub impressions: Vec<ImpressionOnFrame>,
    /// Where the top left corner of the frame lies on the frame's photograph, pixels of that photograph.
    pub origin: Point,
    /// Pixels of these pictures for each pixel of the frame's photograph, along a side: 1 unless they are reduced.
    pub scale: f64,
}

/// An impression as it lies on the frame of its block.
#[derive(Debug, Clone)]
pub struct ImpressionOnFrame {
    /// The impression, as its place in the photographs of the record, from 0.
    pub impression: usize,
    /// Its photograph.
    pub photograph: Plane<[u8; 3]>,
    /// Its ink, 0 to 255.
    pub ink: Plane<u8>,
}

impl OneBlockPictures {
    /// A box of the frame's photograph in pixels of these pictures.
    pub(crate) fn place(&self, [x, y, w, h]: [f64; 4]) -> Rect {
        Rect::new(x - self.origin.x, y - self.origin.y, w, h).scaled(self.scale)
    }

    /// What is shown about a damage, in pixels of these pictures: a square with its surroundings.
    pub(crate) fn about(&self, place: Rect) -> Rect {
        let (w, h) = (self.composite.width() as f64, self.composite.height() as f64);
        let side = (ABOUT * place.w.max(place.h)).max(LEAST_SHARE * w.max(h)).min(w.min(h)).max(1.0);
        let middle = place.centre();
        let corner = |at: f64, end: f64| (at - side / 2.0).clamp(0.0, (end - side).max(0.0));
        Rect::new(corner(middle.x, w), corner(middle.y, h), side, side)
    }

    pub(crate) fn of(&self, impression: usize) -> Option<&ImpressionOnFrame> {
        self.impressions.iter().find(|i| i.impression == impression)
    }
}

/// A square about a damage is so many times as long as the damage, and no shorter than this share of the block: one wants to
/// see the strokes about it (common practice, no source).
const ABOUT: f64 = 2.2;
const LEAST_SHARE: f64 = 0.07;

/// Pixels of all impressions of a page, and the fewest and most of one. As a photograph and as ink one pixel of a dense cut takes
/// 0.9 bytes of the page (two full-page cuts of a book of 1538, reduced to 440 to 760 pixels), so that a page of twelve
/// stays under four million bytes.
const OF_IMPRESSIONS: f64 = 2.7e6;
const FEWEST: f64 = 8.0e4;
const MOST: f64 = 7.0e5;
/// Longest sides on the page, pixels: the composite; a head; a cut as photographed.
const OF_COMPOSITE: f64 = 900.0;
const OF_HEADS: f64 = 88.0;
const OF_CUTS: f64 = 300.0;
/// Of a damage in an impression, with up to so many pictures; beyond the last there are none.
const OF_CROPS: [(usize, f64); 4] = [(80, 128.0), (180, 96.0), (700, 72.0), (1500, 48.0)];

/// The longest side of a picture of a damage on a page with so many, pixels; `None` where there are too many to show.
pub(super) fn of_crops(count: usize) -> Option<f64> {
    OF_CROPS.iter().find(|(most, _)| count <= *most).map(|(_, long)| *long)
}

/// An impression seen whole, on a page with so many, and the head of its column.
pub(super) fn overview(one: &ImpressionOnFrame, count: usize) -> Result<(Overview, Small), CannotDraw> {
    let pixels = (OF_IMPRESSIONS / count.max(1) as f64).clamp(FEWEST, MOST);
    let (w, h) = (one.ink.width() as f64, one.ink.height() as f64);
    let long = (pixels * w.max(h) / w.min(h)).sqrt();
    let photograph = fitted(&one.photograph, long);
    let ink = fitted(&one.ink.map(|ink| [ink; 3]), long).map(|[ink, ..]| ink);
    let overview = Overview { photograph: Small::photograph(&photograph)?, ink: Shades::of(&ink)? };
    Ok((overview, Small::photograph(&fitted(&photograph, OF_HEADS))?))
}

/// The composite in black on the sheet.
pub(super) fn composite(ink: &Plane<u8>) -> Result<Small, CannotDraw> {
    Small::ink(&fitted(&crate::pictures::black(ink), OF_COMPOSITE))
}

/// A cut as it is photographed.
pub(super) fn cut(picture: &Plane<[u8; 3]>) -> Result<Small, CannotDraw> {
    Small::photograph(&fitted(picture, OF_CUTS))
}

/// A part of a photograph on the frame.
pub(super) fn crop(picture: &Plane<[u8; 3]>, shown: Rect, long: f64) -> Result<Option<Small>, CannotDraw> {
    part(picture, shown).map(|part| Small::photograph(&fitted(&part, long))).transpose()
}

/// The pixels of a box; `None` where it holds none.
pub(crate) fn part(picture: &Plane<[u8; 3]>, place: Rect) -> Option<Plane<[u8; 3]>> {
    let edge = |v: f64, end: usize| v.round().clamp(0.0, end as f64) as usize;
    let (x, y) = (edge(place.x, picture.width()), edge(place.y, picture.height()));
    let (right, foot) = (edge(place.right(), picture.width()), edge(place.bottom(), picture.height()));
    (right > x && foot > y).then(|| picture.crop(x, y, right - x, foot - y))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pictures() -> OneBlockPictures {
        let composite = Plane::filled(200, 100, 0);
        OneBlockPictures { composite, impressions: Vec::new(), origin: Point::new(40.0, 30.0), scale: 0.5 }
    }

    #[test]
    fn a_place_of_the_photograph_is_found_on_reduced_pictures() {
        assert_eq!(pictures().place([60.0, 50.0, 8.0, 4.0]), Rect::new(10.0, 10.0, 4.0, 2.0));
    }

    #[test]
    fn what_is_shown_about_a_damage_is_square_and_on_the_frame() {
        for place in [
            Rect::new(0.0, 0.0, 3.0, 3.0),
            Rect::new(190.0, 90.0, 9.0, 9.0),
            Rect::new(0.0, 40.0, 200.0, 3.0),
        ] {
            let shown = pictures().about(place);
            assert!((shown.w - shown.h).abs() < 1e-9);
            assert!(
                shown.x >= 0.0 && shown.y >= 0.0 && shown.right() <= 200.0 && shown.bottom() <= 100.0,
                "{shown:?}"
            );
        }
    }

    #[test]
    fn beyond_the_frame_there_is_nothing_to_crop() {
        let picture = Plane::filled(10, 10, [1; 3]);
        assert!(part(&picture, Rect::new(12.0, 0.0, 5.0, 5.0)).is_none());
        assert_eq!(part(&picture, Rect::new(8.0, 8.0, 5.0, 5.0)).unwrap().width(), 2);
    }
}

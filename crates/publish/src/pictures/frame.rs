//! Two photographs on one frame, as they are drawn, cut and printed.

use super::encode::{Colour, OF_MAPS, OF_PHOTOGRAPHS, jpeg, png};
use super::halved::reduced;
use super::joined::{one_under_the_other, side_by_side};
use super::map::{self, ResidualMap};
use super::tiles::Tiled;
use super::{CannotDraw, PictureSet, Strips, TABLE, inks};
use evidence::Reading;
use register::{Laid, overlay};
use sheet::{Plane, Ppi, Rect};

/// A second photograph so much finer than the first is drawn on a frame of twice the pixels.
const FINER: f64 = 1.5;
/// Pixels that the frame of the second has at most: of a small first photograph laid on a page of a large one.
const MOST_PIXELS: f64 = 2.5e8;

/// One of the pictures of a comparison.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shown {
    /// The first photograph.
    First,
    /// The second, as it lies on the first where the two could be laid together.
    Second,
    /// Both inks.
    Both,
}

/// Both photographs set upright; the second, where the two could be laid together, as it lies on the first.
#[derive(Debug, Clone)]
pub struct OnFrame {
    first: Plane<[u8; 3]>,
    second: Plane<[u8; 3]>,
    /// Both inks in their colours; none where the two could not be laid together.
    together: Option<Plane<[u8; 3]>>,
    /// The second has two to this power times the pixels of the first, each way.
    finer: u32,
}

impl OnFrame {
    /// Draws both photographs, given in colour as a viewer shows them.
    pub fn new(colours: [Plane<[u8; 3]>; 2], readings: [&Reading; 2], laid: Option<&Laid>) -> Self {
        let [a, b] = readings;
        let [first, second] = colours;
        let (first, second) =
            (first.into_turned(a.turned.quarters()), second.into_turned(b.turned.quarters()));
        let Some(laid) = laid else { return Self { first, second, together: None, finer: 0 } };
        let size = (first.width(), first.height());
        let level = laid.level_of_b(0).min(b.ink.depth() - 1);
        let ink = overlay(&laid.map, b.ink.level(level), 2f64.powi(level as i32), size, 1.0, 0);
        let together = Some(inks::both(a.ink.full(), &ink));
        let (second, finer) = on_first(second, laid, size);
        Self { first, second, together, finer }
    }

    /// What there is to look at on a page.
    ///
    /// # Errors
    /// When a picture cannot be encoded.
    pub fn to_look_at(&self) -> Result<PictureSet, CannotDraw> {
        Ok(PictureSet {
            first: Tiled::of_photograph(&self.first)?,
            second: Tiled::of_photograph(&self.second)?,
            together: self.together.as_ref().map(Tiled::of_inks).transpose()?,
        })
    }

    /// Whether the second lies on the first.
    pub fn is_laid(&self) -> bool {
        self.together.is_some()
    }

    /// The print of both, reduced and pale, to draw a map on, as a JPEG; `None` where the two were not laid together.
    ///
    /// # Errors
    /// When it cannot be encoded.
    pub fn pale_print(&self) -> Result<Option<Vec<u8>>, CannotDraw> {
        let pale = self.together.as_ref().map(map::under);
        pale.map(|print| jpeg(&print, OF_MAPS, Colour::Halved)).transpose()
    }

    /// Both impressions in a box of the first, set upright; `None` where the box holds no pixel of it, or the two were
    /// not laid together.
    ///
    /// # Errors
    /// When a picture cannot be encoded.
    pub fn strips(&self, place: Rect) -> Result<Option<Strips>, CannotDraw> {
        let Some([first, second, _]) = self.part(place) else { return Ok(None) };
        let strip = |picture: &Plane<[u8; 3]>| jpeg(picture, OF_PHOTOGRAPHS, Colour::Halved);
        let size_px = [first.width(), first.height()];
        Ok(Some(Strips { size_px, first: strip(&first)?, second: strip(&second)? }))
    }

    /// One of the pictures at full size, as a PNG; `ppi` is that of the first photograph. `None` of both inks where the
    /// two were not laid together.
    ///
    /// # Errors
    /// When it cannot be encoded.
    pub fn plate(&self, what: Shown, ppi: Option<Ppi>) -> Result<Option<Vec<u8>>, CannotDraw> {
        let (picture, ppi) = match what {
            Shown::First => (Some(&self.first), ppi),
            Shown::Second if self.is_laid() => {
                (Some(&self.second), ppi.map(|p| Ppi(p.0 * f64::from(1 << self.finer))))
            }
            // As it is, it has another scale.
            Shown::Second => (Some(&self.second), None),
            Shown::Both => (self.together.as_ref(), ppi),
        };
        picture.map(|picture| png(picture, ppi)).transpose()
    }

    /// Both impressions in a box of the first, side by side, as a PNG; `None` as of [`Self::strips`].
    ///
    /// # Errors
    /// When it cannot be encoded.
    pub fn pair_plate(&self, place: Rect, ppi: Option<Ppi>) -> Result<Option<Vec<u8>>, CannotDraw> {
        let Some([first, second, _]) = self.part(place) else { return Ok(None) };
        png(&side_by_side(&[first, second]), ppi).map(Some)
    }

    /// The first, the second and both inks in a box of the first, one under the other, as a PNG; `None` as of
    /// [`Self::strips`].
    ///
    /// # Errors
    /// When it cannot be encoded.
    pub fn column_plate(&self, place: Rect, ppi: Option<Ppi>) -> Result<Option<Vec<u8>>, CannotDraw> {
        let Some(parts) = self.part(place) else { return Ok(None) };
        png(&one_under_the_other(&parts), ppi).map(Some)
    }

    /// The map of the residual as a PNG; `None` where the two were not laid together.
    ///
    /// # Errors
    /// When it cannot be encoded.
    pub fn map_plate(&self, residuals: &ResidualMap) -> Result<Option<Vec<u8>>, CannotDraw> {
        let drawn = self.together.as_ref().and_then(|together| map::drawn(residuals, together));
        drawn.map(|drawn| png(&drawn, None)).transpose()
    }

    /// The first, the second and both inks in a box of the first; `None` where it holds no pixel, or the two were not
    /// laid together.
    fn part(&self, place: Rect) -> Option<[Plane<[u8; 3]>; 3]> {
        let together = self.together.as_ref()?;
        let [x, y, w, h] = self.within(place)?;
        let [left, top, wide, high] = [x, y, w, h].map(|v| v << self.finer);
        let second = reduced(self.second.crop(left, top, wide, high), self.finer as usize);
        Some([self.first.crop(x, y, w, h), second, together.crop(x, y, w, h)])
    }

    /// A box in whole pixels of the first; `None` where it holds none.
    fn within(&self, place: Rect) -> Option<[usize; 4]> {
        let edge = |v: f64, end: usize| v.round().clamp(0.0, end as f64) as usize;
        let (w, h) = (self.first.width(), self.first.height());
        let (x, y) = (edge(place.x, w), edge(place.y, h));
        let (right, foot) = (edge(place.right(), w), edge(place.bottom(), h));
        (right > x && foot > y).then(|| [x, y, right - x, foot - y])
    }
}

/// The second photograph on the frame of the first, drawn about as finely as it is itself; and how often the frame was
/// doubled for it.
fn on_first(second: Plane<[u8; 3]>, laid: &Laid, (w, h): (usize, usize)) -> (Plane<[u8; 3]>, u32) {
    let times = |finer: u32| 2f64.powi(finer as i32);
    let pixels = |finer: u32| (w * h) as f64 * times(finer).powi(2);
    let mut finer = 0;
    while laid.scale / times(finer) > FINER && pixels(finer + 1) <= MOST_PIXELS {
        finer += 1;
    }
    // Of a photograph that is finer still single pixels would be picked: it is halved to about the frame's detail.
    let level = (laid.scale / times(finer)).log2().floor().max(0.0) as usize;
    let second = reduced(second, level);
    let drawn =
        overlay(&laid.map, &second, times(level as u32), (w << finer, h << finer), 1.0 / times(finer), TABLE);
    (drawn, finer)
}

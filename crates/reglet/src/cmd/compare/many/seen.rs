//! A place, and the whole side, in every copy of a setting, drawn on the frame of its first.

use super::Study;
use super::kept::Kept;
use anyhow::Result;
use evidence::many::Variant;
use publish::many::{ManyPictures, PlacePictures};
use publish::pictures::{Overview, Shades, Small, TABLE, plate_of_groups, reduced};
use publish::plates::{Plate, TO_A_ROW, of_many};
use publish::record::{ManyRecord, OnCopy, VariantFound};
use rayon::prelude::*;
use register::{Frame, PaperMap, Part, overlay_part};
use sheet::{Homography, Plane, Point, Rect};
use std::borrow::Cow;

/// Samples to the x-height in which copies are compared: what a letter needs, and no grain of the paper.
const COMPARED_AT: f64 = 14.0;
/// Longer side of what is compared, samples.
const LONGEST_COMPARED: f64 = 220.0;
/// About a place so much is compared, x-heights.
const ABOUT_COMPARED: f64 = 0.25;
/// Samples to the x-height of a picture of a place, at most.
const SHOWN_AT: f64 = 24.0;
/// About a place so much is shown, x-heights: the word and its neighbours, and a little of the lines over and under it.
const ABOUT_SHOWN: [f64; 2] = [4.5, 1.6];
/// x-height, pixels, that stands for one that is not known.
const USUAL_X_HEIGHT: f64 = 20.0;
/// Longer side of a copy seen whole, samples.
const LONGEST_WHOLE: f64 = 1500.0;
/// So many pixels more are read than are drawn from, for what lies between the samples.
const BESIDE: f64 = 3.0;

impl Study<'_> {
    /// Ink of a copy in a box of the photograph `frame`; `None` where it does not show it.
    pub(super) fn ink_at(&self, frame: usize, copy: usize, box_px: [f64; 4]) -> Option<Plane<u8>> {
        let x_height = self.copies[frame].as_ref()?.x_height.unwrap_or(USUAL_X_HEIGHT);
        let place = self.upright(frame, box_px).grown(ABOUT_COMPARED * x_height);
        let (map, kept) = self.lies(frame, copy)?;
        // Of a whole line less detail will do.
        let frame = on_frame(place, (x_height / COMPARED_AT).max(place.w / LONGEST_COMPARED).max(1.0));
        // A disk that cannot be read shows nothing; that it cannot is said when pictures are drawn.
        let ink = kept.ink(map.box_on_b(place).grown(BESIDE)).ok().flatten()?;
        Some(ink_on(&map, ink, place, frame))
    }

    /// How a copy lies on a frame, and what was kept of it.
    fn lies(&self, frame: usize, copy: usize) -> Option<(Cow<'_, PaperMap>, &Kept)> {
        Some((self.map(frame, copy)?, &self.copies[copy].as_ref()?.kept))
    }

    /// How a copy lies on a frame.
    fn map(&self, frame: usize, copy: usize) -> Option<Cow<'_, PaperMap>> {
        let still = || PaperMap::flat(Homography::similarity(1.0, 0.0, Point::new(0.0, 0.0)));
        if copy == frame {
            Some(Cow::Owned(still()))
        } else {
            self.maps.get(&[frame, copy]).map(Cow::Borrowed)
        }
    }

    /// A box of a photograph on the same set upright.
    fn upright(&self, copy: usize, [x, y, w, h]: [f64; 4]) -> Rect {
        let place = Rect::new(x, y, w, h);
        self.copies[copy].as_ref().map_or(place, |c| c.turned.upright_box(place))
    }

    /// Where a box of a copy's photograph lies on the frame's, both as photographed.
    pub(super) fn on_frame(&self, frame: usize, copy: usize, box_px: [f64; 4]) -> Option<[f64; 4]> {
        let map = self.map(frame, copy)?;
        let corners = self.upright(copy, box_px).corners().map(|p| map.to_a(p));
        let place = Rect::around(corners.into_iter().flatten())?;
        let place = self.copies[frame].as_ref()?.turned.box_on_photograph(place);
        Some([place.x, place.y, place.w, place.h])
    }

    /// Where a place of the frame's photograph lies on that of each copy of its setting.
    pub(super) fn on_copies(&self, frame: usize, setting: &[usize], box_px: [f64; 4]) -> Vec<OnCopy> {
        let place = self.upright(frame, box_px);
        let on = |&copy: &usize| {
            let on_copy = self.map(frame, copy)?.box_on_b(place);
            let on_copy = self.copies[copy].as_ref()?.turned.box_on_photograph(on_copy);
            let box_px = [on_copy.x, on_copy.y, on_copy.w, on_copy.h].map(|v| (v * 10.0).round() / 10.0);
            Some(OnCopy { copy, box_px })
        };
        setting.iter().filter_map(on).collect()
    }

    /// Every place of the record in every copy of its setting, and every copy seen whole.
    ///
    /// # Errors
    /// A disk that cannot be read, a picture that cannot be encoded.
    pub(in crate::cmd::compare) fn pictures(&self, record: &ManyRecord) -> Result<ManyPictures> {
        let places = record.variants.par_iter().map(|variant| {
            let variant = &variant.variant;
            let setting = record.settings.iter().find(|s| s.contains(&variant.frame));
            let (shown, place, x_height) = self.shown(variant);
            let frame = on_frame(shown, (x_height / SHOWN_AT).max(1.0));
            let mut copies = Vec::new();
            for &copy in setting.into_iter().flatten() {
                let Some(picture) = self.colour_on(variant.frame, copy, frame)? else { continue };
                copies.push((copy, Small::photograph(&picture)?));
            }
            Ok(PlacePictures { shown, place, copies })
        });
        let places = places.collect::<Result<_>>()?;
        let frame_of =
            |copy: usize| record.settings.iter().find(|s| s.contains(&copy)).map_or(copy, |s| self.frame(s));
        let overviews =
            (0..self.copies.len()).into_par_iter().map(|copy| self.overview(frame_of(copy), copy));
        Ok(ManyPictures { places, overviews: overviews.collect::<Result<_>>()? })
    }

    /// What is shown of a place, the place itself, both on the frame set upright, and the frame's x-height.
    fn shown(&self, variant: &Variant) -> (Rect, Rect, f64) {
        let x_height = self.copies[variant.frame].as_ref().and_then(|c| c.x_height).unwrap_or(USUAL_X_HEIGHT);
        let place = self.upright(variant.frame, variant.box_px);
        let [across, down] = ABOUT_SHOWN.map(|v| v * x_height);
        let shown = Rect::new(place.x - across, place.y - down, place.w + 2.0 * across, place.h + 2.0 * down);
        (shown, place, x_height)
    }

    /// Draws a plate of each place, in every copy of its setting, at the full size of the frame's photograph.
    ///
    /// # Errors
    /// A disk that cannot be read, a picture that cannot be encoded, and with what `put` fails.
    pub(in crate::cmd::compare) fn plates(
        &self,
        record: &ManyRecord,
        put: &mut dyn FnMut(Plate) -> Result<()>,
    ) -> Result<()> {
        for (i, VariantFound { variant, .. }) in record.variants.iter().enumerate() {
            let on = on_frame(self.shown(variant).0, 1.0);
            let groups = variant.readings.iter().chain([&variant.unclear]).map(|copies| {
                let drawn = copies.iter().map(|&copy| self.colour_on(variant.frame, copy, on));
                drawn.filter_map(Result::transpose).collect::<Result<Vec<_>>>()
            });
            let groups: Vec<_> = groups.collect::<Result<_>>()?;
            let about = record.photographs[variant.frame].as_ref();
            let ppi = about.and_then(|a| a.scale.as_ref()).map(|s| s.ppi);
            put(Plate {
                name: format!("place-{:03}.png", i + 1),
                shows: of_many(i + 1, variant),
                png: plate_of_groups(&groups, TO_A_ROW, ppi)?,
            })?;
        }
        Ok(())
    }

    /// A copy seen whole, on the frame of its setting; by itself where it does not lie there, `None` if it could not be
    /// read.
    fn overview(&self, frame: usize, copy: usize) -> Result<Option<Overview>> {
        let frame = if self.lies(frame, copy).is_some() { frame } else { copy };
        let Some((map, kept)) = self.lies(frame, copy) else { return Ok(None) };
        let Some((_, of_frame)) = self.lies(frame, frame) else { return Ok(None) };
        let whole = of_frame.whole();
        let on = on_frame(whole, (whole.w.max(whole.h) / LONGEST_WHOLE).max(1.0));
        let Some(photograph) = self.colour_on(frame, copy, on)? else { return Ok(None) };
        let Some(ink) = kept.ink(kept.whole())? else { return Ok(None) };
        let ink = ink_on(&map, ink, whole, on);
        Ok(Some(Overview { photograph: Small::photograph(&photograph)?, ink: Shades::of(&ink)? }))
    }

    /// A copy in colour on a part of a frame; `None` where it does not show it.
    fn colour_on(&self, frame: usize, copy: usize, on: Frame) -> Result<Option<Plane<[u8; 3]>>> {
        let Some((map, kept)) = self.lies(frame, copy) else { return Ok(None) };
        let place =
            Rect::new(on.corner.x, on.corner.y, on.size.0 as f64 * on.unit, on.size.1 as f64 * on.unit);
        let Some((colour, corner)) = kept.colour(map.box_on_b(place).grown(BESIDE))? else { return Ok(None) };
        let level = level(&map, place, on.unit);
        let colour = reduced(colour, level);
        let part = Part { samples: &colour, corner, unit: 2f64.powi(level as i32) };
        Ok(Some(overlay_part(&map, part, on, TABLE)))
    }
}

/// Ink of a copy, from its corner on, on a part of a frame that covers `place`.
fn ink_on(map: &PaperMap, (ink, corner): (Plane<u8>, Point), place: Rect, on: Frame) -> Plane<u8> {
    let level = level(map, place, on.unit);
    let ink = (0..level).fold(ink, |ink, _| ink.halved());
    overlay_part(map, Part { samples: &ink, corner, unit: 2f64.powi(level as i32) }, on, 0)
}

/// A box of a frame, drawn in samples of so many pixels.
fn on_frame(place: Rect, unit: f64) -> Frame {
    let samples = |length: f64| ((length / unit).round() as usize).max(1);
    Frame { corner: Point::new(place.x, place.y), unit, size: (samples(place.w), samples(place.h)) }
}

/// How often a copy is halved before it is drawn in samples of so many pixels of the frame.
fn level(map: &PaperMap, place: Rect, unit: f64) -> usize {
    (map.scale_at(place.centre()) * unit).log2().floor().max(0.0) as usize
}

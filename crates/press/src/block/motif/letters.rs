//! Letters cut in the wood.

use sheet::{Point, Rect};

use crate::block::curve;
use crate::block::drawing::Drawing;
use crate::block::stroke::StrokeKind;
use crate::fount::{Face, Founts, Outline};

/// The outline of a letter made to fill a box.
pub(in crate::block) fn letter_in(founts: &Founts, letter: char, r: Rect) -> Option<Outline> {
    let cast = founts.cast(Face::FrenchCanonRoman, letter)?;
    let b = cast.outline.bounds()?;
    let k = (r.h / b.h).min(r.w / b.w);
    // Wide letters are not as high as narrow ones are wide: each fills the box as far as it can in both ways.
    let stretch = (r.w / (b.w * k)).min(1.25);
    let (c, m) = (r.centre(), b.centre());
    Some(cast.outline.mapped(|p| Point::new((p.x - m.x) * k * stretch + c.x, (p.y - m.y) * k + c.y)))
}

impl Drawing {
    /// Letters along a path, capitals so high (mm), filling it from end to end. Each is a stroke of its own.
    pub(in crate::block) fn lettering(&mut self, founts: &Founts, text: &str, path: &[Point], high: f64) {
        let face = Face::GreatPrimerRoman;
        let casts: Vec<_> = text.chars().map(|c| (c, founts.cast(face, c))).collect();
        let tall = founts.cast(face, 'H').and_then(|c| c.outline.bounds()).map_or(0.68, |b| b.h);
        let k = high / tall;
        let set: Vec<f64> = casts.iter().map(|(_, c)| c.map_or(0.35, |c| c.width) * k).collect();
        let whole: f64 = set.iter().sum();
        let room = curve::length(path);
        let squeeze = (0.94 * room / whole.max(1e-6)).min(1.35);
        let mut run = (room - whole * squeeze) / 2.0;
        for ((_, cast), wide) in casts.iter().zip(&set) {
            let step = wide * squeeze;
            if let Some(cast) = cast {
                let (at, along) = curve::at(path, ((run + step / 2.0) / room).clamp(0.0, 1.0));
                let (narrow, lean) = (squeeze.min(1.0), self.chance.normal(0.03));
                let down = curve::across(along);
                let half = cast.width / 2.0;
                let outline = cast.outline.spread(0.012).mapped(|p| {
                    let x = (p.x - half) * k * narrow - lean * p.y * k;
                    at + along * x + down * (p.y * k + high / 2.0)
                });
                if !outline.0.is_empty() {
                    self.area_of(StrokeKind::Letter, outline.0, true);
                }
            }
            run += step;
        }
    }
}

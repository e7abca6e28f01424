//! Whether two cuts show one design, whoever cut it: what their masses say.

use super::calibration::{DESIGN_OFFSET, DESIGN_SLOPES};
use super::laid::right_way_up;
use super::masses::masses;
use super::{BlockSigns, Cut, LaidCut};
use register::{PaperMap, Whole, by_whole, overlay};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Share of its windows from which a placement is believed, and no other way of laying the two as wholes is tried.
const LAID_WELL: f64 = 0.5;

/// What was measured of two cuts as wholes.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct DesignSigns {
    /// How alike the two are seen so small that strokes become shades, at the best size, turn and shift; 0 to 1.
    pub composition: f64,
    /// Correlation of what lies within their borders on grids of 12, 24, 48 and 96 samples to the longer side, of each only
    /// what the coarser does not show; -1 to 1.
    pub masses: [f64; 4],
    /// Proportions: how far the second is relatively wider than the first, as the size of a natural logarithm; 0 for none.
    pub aspect: f64,
    /// Of both, the greater share of grey to ink: where more than so much of a print is neither bare nor solid, it is blurred, or took ink
    /// badly, and its masses say little.
    #[serde(default)]
    pub grey: f64,
    /// Longer side of the smaller of the two, its pixels.
    #[serde(default)]
    pub longer_px: f64,
}

/// What is found of two cuts, laid on each other or not.
pub(super) fn design(
    a: &Cut,
    b: &Cut,
    laid: Option<&LaidCut>,
    over: Option<&sheet::Plane<u8>>,
) -> DesignSigns {
    DesignSigns {
        grey: a.grey().max(b.grey()),
        longer_px: a.longer().min(b.longer()),
        ..of_masses(a, b, laid, over)
    }
}

fn of_masses(a: &Cut, b: &Cut, laid: Option<&LaidCut>, over: Option<&sheet::Plane<u8>>) -> DesignSigns {
    let as_laid = laid.zip(over).map(|(laid, over)| {
        let whole = by_whole(&a.ink, &laid.second.ink);
        let by_map = DesignSigns::of(a, &laid.second, whole, over);
        whole.map_or(by_map, |w| {
            by_map.better(DesignSigns::of(a, &laid.second, whole, &drawn(a, &laid.second, &w)))
        })
    });
    if let Some(found) = as_laid
        && laid.is_some_and(|l| l.laid.found_share >= LAID_WELL)
    {
        return found;
    }
    let upright = |b: Cut| match right_way_up(a, &b) {
        0 => b,
        quarters => b.turned(quarters),
    };
    let ways = [upright(b.clone()), upright(b.mirrored())];
    let best = ways.iter().filter_map(|second| {
        let whole = by_whole(&a.ink, &second.ink)?;
        Some(DesignSigns::of(a, second, Some(whole), &drawn(a, second, &whole)))
    });
    best.chain(as_laid).reduce(DesignSigns::better).unwrap_or_default()
}

/// The second drawn on the first as a whole lies.
fn drawn(a: &Cut, b: &Cut, whole: &Whole) -> sheet::Plane<u8> {
    let full = a.ink.full();
    overlay(&PaperMap::flat(whole.map), b.ink.full(), 1.0, (full.width(), full.height()), 1.0, 0u8)
}

impl DesignSigns {
    fn of(a: &Cut, b: &Cut, whole: Option<Whole>, over: &sheet::Plane<u8>) -> Self {
        let wide = |c: &Cut| (c.body.w / c.body.h).ln();
        Self {
            composition: whole.map_or(0.0, |w| w.alike),
            masses: masses(a.ink.full(), over, a.body),
            aspect: (wide(b) - wide(a)).abs(),
            ..Self::default()
        }
    }

    /// The one by which the two are more alike.
    fn better(self, o: Self) -> Self {
        let of = |s: &Self| s.composition + s.masses.iter().sum::<f64>();
        if of(&o) > of(&self) { o } else { self }
    }

    /// log10 of how many times likelier this is of one design, cut twice, than of two designs; `signs` of the strokes, where
    /// the two could be laid together.
    pub(super) fn weight(&self, signs: Option<&BlockSigns>) -> f64 {
        let told = self.told(signs);
        told.iter().zip(DESIGN_SLOPES).map(|(t, s)| t * s).sum::<f64>() + DESIGN_OFFSET
    }

    /// Last stands what tells how much the rest can say: two of one design that are small, blurred or badly inked often cannot be
    /// laid, and their masses differ.
    fn told(&self, signs: Option<&BlockSigns>) -> [f64; 11] {
        let m = self.masses;
        let (found, likeness) = signs.map_or((0.0, 0.0), |s| (s.found, s.likeness));
        let is_laid = f64::from(u8::from(signs.is_some()));
        let size = self.longer_px.max(1.0).ln();
        [
            self.composition,
            m[0],
            m[1],
            m[2],
            m[3],
            self.aspect.min(0.3),
            found,
            likeness,
            is_laid,
            self.grey,
            size,
        ]
    }
}

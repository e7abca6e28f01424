//! A photograph is set upright before it is read.

use register::Pyramid;
use sheet::{BarePaper, Fold, Layout, Plane, Rect, Stand, Turned, folds, ink, layout};

/// Longer side, in samples, of the level that is laid out.
const LAID_OUT_AT: usize = 2600;

/// The ink of a photograph, turned so that its lines of type run level, and laid out.
#[derive(Debug)]
pub(crate) struct Upright {
    pub(crate) ink: Pyramid,
    pub(crate) layout: Layout,
    pub(crate) turned: Turned,
    stand: Stand,
}

/// A photograph set upright, and what its paper shows. Places are those of the side set upright.
#[derive(Debug)]
pub(crate) struct Photographed {
    pub(crate) upright: Upright,
    pub(crate) paper: BarePaper,
    /// The paper's folds, as far as the light shows them.
    pub(crate) folds: Vec<Fold>,
    /// The page within the side.
    pub(crate) page: Rect,
}

impl Photographed {
    /// From the brightness of a photograph.
    pub(crate) fn of(luminance: &Plane<u8>) -> Self {
        let inked = ink(luminance);
        let paper = BarePaper::of(luminance, &inked);
        let folds = folds(&paper, inked.page);
        let upright = Upright::of(inked.darkness);
        let turned = upright.turned;
        let set_upright = |f: Fold| Fold { from: turned.upright(f.from), to: turned.upright(f.to), ..f };
        let folds = folds.into_iter().map(set_upright).collect();
        let (paper, page) = (paper.turned(turned.quarters()), turned.upright_box(inked.page));
        Self { upright, paper, folds, page }
    }
}

impl Upright {
    /// Turns ink by right angles until its lines can be read.
    ///
    /// All that follows (words, ribbons, drift) is told of lines that run roughly level. So the ink is turned once,
    /// here, and places are turned back where they are written down. Only a side that does not read as it
    /// stands is laid out again.
    pub(crate) fn of(ink: Plane<u8>) -> Self {
        let turned = Turned::new(0, ink.width(), ink.height());
        let given = Self::laid_out(ink, turned);
        if given.layout.is_legible() {
            return if given.stand == Stand::Head { given.further(2) } else { given };
        }
        let aside = given.further(1);
        if !aside.layout.is_legible() {
            return given;
        }
        if aside.stand == Stand::Feet { aside } else { aside.further(2) }
    }

    fn laid_out(ink: Plane<u8>, turned: Turned) -> Self {
        let ink = Pyramid::new(ink);
        let level = ink.level_within(LAID_OUT_AT);
        let reduction = 2f64.powi(level as i32);
        let layout = layout(ink.level(level), reduction);
        let stand = layout.stand(ink.level(level), reduction);
        Self { ink, layout, turned, stand }
    }

    fn further(&self, quarters: u8) -> Self {
        Self::laid_out(self.ink.full().turned(quarters), self.turned.more(quarters))
    }
}

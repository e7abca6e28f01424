//! What windows of pairs said, as the fits read it.

use std::path::Path;

use anyhow::Context as _;
use evidence::block::{BlocksCompared, Sight, StrokeWindow};

/// The windows of one pair.
#[derive(Debug)]
pub(super) struct Windows {
    /// The pair's number.
    pair: usize,
    strokes: Vec<StrokeWindow>,
    sights: Vec<Sight>,
}

impl Windows {
    pub(super) fn of(pair: usize, compared: &mut BlocksCompared) -> Self {
        let strokes = std::mem::take(&mut compared.strokes);
        Self { pair, strokes, sights: std::mem::take(&mut compared.sights) }
    }

    /// Rows of the pair's number, place, column and row, and what was weighed.
    fn strokes(&self) -> Vec<u8> {
        let row = |w: &StrokeWindow| {
            let place = [self.pair as f64, w.at.x, w.at.y, w.cell.0 as f64, w.cell.1 as f64, w.bolder_px];
            numbers(place.into_iter().chain(w.told))
        };
        self.strokes.iter().flat_map(row).collect()
    }

    /// Rows of the pair's number, place, and what the window says.
    fn sights(&self) -> Vec<u8> {
        let row = |s: &Sight| numbers([self.pair as f64, s.at.x, s.at.y, s.says]);
        self.sights.iter().flat_map(row).collect()
    }
}

fn numbers(values: impl IntoIterator<Item = f64>) -> Vec<u8> {
    values.into_iter().flat_map(|v| (v as f32).to_le_bytes()).collect()
}

/// Writes all of them: `strokes.f32`, `sights.f32`, and beside the latter, in the same order, what is seen (`sights.u8`).
pub(super) fn write(all: &[Windows], folder: &Path) -> anyhow::Result<()> {
    let file = |name: &str, bytes: Vec<u8>| {
        let path = folder.join(name);
        std::fs::write(&path, bytes).with_context(|| format!("cannot write {}", path.display()))
    };
    file("strokes.f32", all.iter().flat_map(Windows::strokes).collect())?;
    file("sights.f32", all.iter().flat_map(Windows::sights).collect())?;
    let seen = |w: &Windows| w.sights.iter().flat_map(|s| s.view.samples().to_vec()).collect::<Vec<u8>>();
    file("sights.u8", all.iter().flat_map(seen).collect())
}

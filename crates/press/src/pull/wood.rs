//! How wood takes ink otherwise than type: less in its broad blacks and hollows, and with edges that stray.

use std::borrow::Cow;

use rayon::prelude::*;
use sheet::Plane;

use super::blur::blurred;
use super::frame::Frame;
use super::grain::Grain;
use crate::ink::OnWood;

/// What the film of ink lacks on wood.
#[derive(Debug)]
pub(super) struct Wood {
    /// The printing surface, blurred over [`BROAD`].
    broad: Plane<f32>,
    hollows: [Grain; 2],
    starved: f32,
    speckled: f32,
}

/// A black much broader than this (mm, standard deviation) is short of ink in its midst.
const BROAD: f64 = 0.45;
/// Widths of the hollows of paper that stay white, as standard deviations in mm, and how deep each is.
const HOLLOWS: [(f64, f32); 2] = [(0.05, 0.55), (0.13, 0.85)];

impl Wood {
    /// `None` where wood takes ink as type does.
    pub(super) fn new(cover: &Plane<f32>, on_wood: &OnWood, frame: &Frame, seed: u64) -> Option<Self> {
        let OnWood { starved, speckled, .. } = *on_wood;
        if starved <= 0.0 && speckled <= 0.0 {
            return None;
        }
        Some(Self {
            broad: blurred(cover, frame.px(BROAD)),
            hollows: [0, 1].map(|i| Grain::new(seed ^ (0xA0 + i as u64), frame.px(HOLLOWS[i].0).max(0.4))),
            starved: starved as f32,
            speckled: speckled as f32,
        })
    }

    /// Film that is lacking in a pixel, 1 being a good black's.
    pub(super) fn lacks(&self, x: usize, y: usize) -> f32 {
        let t = ((self.broad.row(y)[x] - 0.4) / 0.55).clamp(0.0, 1.0);
        let midst = t * t * (3.0 - 2.0 * t);
        let depth: f32 = self
            .hollows
            .iter()
            .zip(HOLLOWS)
            .map(|(grain, (_, deep))| {
                let row = grain.row(y);
                deep * row[x % row.len()]
            })
            .sum();
        // Lines are pressed into the paper; broad blacks lie on its high places.
        0.4 * self.starved * midst + 0.5 * self.speckled * (0.35 + 0.65 * midst) * (depth - 0.4).max(0.0)
    }
}

/// Length of edge over which ink strays one way, as a standard deviation in mm.
const STRAYS: f64 = 0.1;

/// The printing surface as its ink lies on the paper: every edge a little to this side or that of the wood's, see
/// [`OnWood::ragged`].
pub(super) fn strayed<'a>(
    cover: &'a Plane<f32>,
    on_wood: &OnWood,
    px_per_mm: f64,
    seed: u64,
) -> Cow<'a, Plane<f32>> {
    let by = (on_wood.ragged.0 * px_per_mm) as f32;
    if by <= 0.0 {
        return Cow::Borrowed(cover);
    }
    let [across, down] = [0xB0, 0xB1].map(|s| Grain::new(seed ^ s, STRAYS * px_per_mm));
    let (width, height) = (cover.width(), cover.height());
    let last = (width.saturating_sub(1) as f32, height.saturating_sub(1) as f32);
    let mut out = Plane::filled(width, height, 0.0f32);
    out.data_mut().par_chunks_mut(width).enumerate().for_each(|(y, row)| {
        let (across, down) = (across.row(y), down.row(y));
        for (x, to) in row.iter_mut().enumerate() {
            let (i, j) = (x % across.len(), x % down.len());
            let (u, v) = (
                (x as f32 + by * across[i]).clamp(0.0, last.0),
                (y as f32 + by * down[j]).clamp(0.0, last.1),
            );
            let (left, top) = (u as usize, v as usize);
            let (right, foot) = ((left + 1).min(width - 1), (top + 1).min(height - 1));
            let (s, t) = (u - left as f32, v - top as f32);
            let along = |row: &[f32]| row[left] + s * (row[right] - row[left]);
            let (above, below) = (along(cover.row(top)), along(cover.row(foot)));
            *to = above + t * (below - above);
        }
    });
    Cow::Owned(out)
}

#[cfg(test)]
mod tests {
    use sheet::Mm;

    use super::*;

    /// Where the edge of a wood that ends at column 60 lies in each row.
    fn edge(ragged: f64, seed: u64) -> Vec<f64> {
        let mut cover = Plane::filled(120, 400, 0.0f32);
        (0..400).for_each(|y| cover.row_mut(y)[..60].fill(1.0));
        let cover =
            strayed(&cover, &OnWood { ragged: Mm(ragged), ..OnWood::default() }, 20.0, seed).into_owned();
        (0..400).map(|y| cover.row(y).iter().map(|c| f64::from(*c)).sum()).collect()
    }

    fn mean_product(a: &[f64], b: &[f64]) -> f64 {
        a.iter().zip(b).map(|(a, b)| (a - 60.0) * (b - 60.0)).sum::<f64>() / a.len() as f64
    }

    #[test]
    fn an_edge_strays_as_far_as_it_should_and_anew_in_every_pull() {
        assert!(edge(0.0, 1).iter().all(|at| (at - 60.0).abs() < 1e-6));
        let (one, other) = (edge(0.05, 1), edge(0.05, 2));
        // 0.05 mm at 20 px a millimetre is 1 px.
        let spread = mean_product(&one, &one).sqrt();
        assert!((0.6..1.4).contains(&spread), "{spread}");
        let alike = mean_product(&one, &other) / (spread * mean_product(&other, &other).sqrt());
        assert!(alike.abs() < 0.4, "{alike}");
    }
}

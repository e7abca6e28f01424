//! Coarse placement: rotation, scale and shift from a low resolution, with nothing assumed about
//! the two photographs' size, resolution, crop, orientation or lighting; then perspective.

mod blur;
mod consensus;
mod descriptor;
mod keypoints;
mod matching;
mod whole;

use crate::Pyramid;
use descriptor::Descriptor;
use keypoints::{Keypoint, Octave};
use rayon::prelude::*;
use sheet::Homography;

pub(crate) use whole::whole;
pub use whole::{Whole, by_quarters, by_whole};

/// Longer side, in samples, of the level in which keypoints are looked for at first: words are blobs there.
const SMALL: usize = 700;
/// Blobs kept of it.
const STRONGEST: usize = 400;
/// The same where these are not enough. A sheet of about 300 mm then has about 90 samples to the inch, where letters
/// are blobs too.
const LONGEST: usize = 1300;
const MOST: usize = 1800;

/// What a photograph's keypoints are and look like; found once, used against every other copy.
#[derive(Debug, Clone)]
pub struct Features {
    keypoints: Vec<Keypoint>,
    descriptors: Vec<Descriptor>,
    /// Photograph pixels to one sample of the level the keypoints were found in.
    step: f64,
    side: f64,
}

/// A possible placement of one photograph on another.
#[derive(Debug, Clone)]
pub struct Coarse {
    /// From pixels of A to pixels of B.
    pub map: Homography,
    /// How many separate places agree on it.
    pub agreeing: usize,
}

impl Features {
    /// Number of keypoints.
    pub fn len(&self) -> usize {
        self.keypoints.len()
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.keypoints.is_empty()
    }
}

/// Finds the strongest keypoints of a photograph's ink, seen small.
pub fn features(ink: &Pyramid) -> Features {
    seen(ink, SMALL, STRONGEST)
}

/// Finds more keypoints, of smaller things, for what is a small part of the other photograph or shares little of its print.
pub(crate) fn close_features(ink: &Pyramid) -> Features {
    seen(ink, LONGEST, MOST)
}

fn seen(ink: &Pyramid, longest: usize, most: usize) -> Features {
    let level = ink.level(ink.level_within(longest));
    let octaves = keypoints::octaves(&level.map(|v| f32::from(v) / 255.0));
    let blobs = keypoints::blobs(&octaves, most);
    let (keypoints, descriptors) = described(&blobs, &octaves);
    let step = ink.full().width() as f64 / level.width() as f64;
    Features {
        keypoints,
        descriptors,
        step: 2f64.powf(step.log2().round()),
        side: level.width().max(level.height()) as f64,
    }
}

/// Blobs once for each of their directions, and what they look like.
fn described(blobs: &[Keypoint], octaves: &[Octave]) -> (Vec<Keypoint>, Vec<Descriptor>) {
    let turned: Vec<Keypoint> =
        blobs.par_iter().flat_map_iter(|k| keypoints::directions(k, octaves)).collect();
    let descriptors = turned.par_iter().map(|k| descriptor::describe(k, octaves)).collect();
    (turned, descriptors)
}

/// The few placements of B on A that the keypoints allow, most agreed first; empty when none is.
pub fn coarse(a: &Features, b: &Features) -> Vec<Coarse> {
    let matches = matching::matches(&a.keypoints, &a.descriptors, &b.keypoints, &b.descriptors);
    let up = Homography::scaling(b.step);
    let down = Homography::scaling(1.0 / a.step);
    consensus::candidates(&matches, &a.keypoints, &b.keypoints, a.side)
        .into_iter()
        .map(|c| Coarse { map: up.after(&c.map).after(&down), agreeing: c.agreeing })
        .collect()
}

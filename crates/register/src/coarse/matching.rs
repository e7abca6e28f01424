//! Which keypoint of one photograph is which of the other.

use super::descriptor::{Descriptor, distance};
use super::keypoints::Keypoint;
use rayon::prelude::*;

/// A keypoint of A (index), one of B, and how much nearer it is than the next best place.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Match {
    pub(crate) a: usize,
    pub(crate) b: usize,
    /// Squared distance over that of the best rival elsewhere: below one, smaller is surer.
    pub(crate) ratio: f32,
}

/// Ratio of squared distances up to which a match is kept. Type repeats its letters, so the bar is
/// lower than Lowe's 0.8 squared; the consensus sorts out the rest.
const RATIO: f32 = 0.86;

/// Rivals closer than this many sigmas are the same place found twice.
const SAME_PLACE_IN_SIGMAS: f32 = 2.0;

/// Matches in which each is the other's nearest and clearly nearer than any rival.
pub(crate) fn matches(ka: &[Keypoint], da: &[Descriptor], kb: &[Keypoint], db: &[Descriptor]) -> Vec<Match> {
    let forward = nearest(da, kb, db);
    let back = nearest(db, ka, da);
    forward
        .iter()
        .enumerate()
        .filter_map(|(a, &(b, ratio))| {
            let b = b?;
            (back[b].0 == Some(a) && ratio < RATIO).then_some(Match { a, b, ratio })
        })
        .collect()
}

fn nearest(from: &[Descriptor], keys: &[Keypoint], to: &[Descriptor]) -> Vec<(Option<usize>, f32)> {
    from.par_iter()
        .map_init(
            || vec![0i32; to.len()],
            |distances, d| {
                for (slot, other) in distances.iter_mut().zip(to) {
                    *slot = distance(d, other);
                }
                let Some((best, &least)) = distances.iter().enumerate().min_by_key(|&(_, v)| *v) else {
                    return (None, 1.0);
                };
                let k = &keys[best];
                let rival = distances
                    .iter()
                    .zip(keys)
                    .filter(|(_, o)| {
                        let reach = SAME_PLACE_IN_SIGMAS * k.sigma.max(o.sigma);
                        (o.x - k.x).powi(2) + (o.y - k.y).powi(2) > reach * reach
                    })
                    .map(|(&v, _)| v)
                    .min()
                    .unwrap_or(i32::MAX);
                (Some(best), least as f32 / rival.max(1) as f32)
            },
        )
        .collect()
}

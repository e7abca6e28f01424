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
    (0..da.len())
        .into_par_iter()
        .map_init(Vec::new, |room, a| {
            let (b, ratio) = nearest(&da[a], kb, db, room)?;
            if ratio >= RATIO {
                return None;
            }
            // Only the few that pass are asked the other way round.
            let (back, _) = nearest(&db[b], ka, da, room)?;
            (back == a).then_some(Match { a, b, ratio })
        })
        .flatten()
        .collect()
}

/// The nearest of `to`, and its squared distance over that of the nearest at another place.
fn nearest(
    d: &Descriptor,
    keys: &[Keypoint],
    to: &[Descriptor],
    distances: &mut Vec<i32>,
) -> Option<(usize, f32)> {
    distances.clear();
    distances.extend(to.iter().map(|other| distance(d, other)));
    let (best, &least) = distances.iter().enumerate().min_by_key(|&(_, v)| *v)?;
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
    Some((best, least as f32 / rival.max(1) as f32))
}

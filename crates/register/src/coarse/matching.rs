//! Which keypoint of one photograph is which of the other.

use super::descriptor::{Descriptor, distance_below};
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
        .filter_map(|a| {
            let (b, ratio) = nearest(&da[a], kb, db)?;
            if ratio >= RATIO {
                return None;
            }
            // Only the few that pass are asked the other way round.
            let (back, _) = nearest(&db[b], ka, da)?;
            (back == a).then_some(Match { a, b, ratio })
        })
        .collect()
}

/// The nearest of `to`, and its squared distance over that of the nearest at another place.
fn nearest(d: &Descriptor, keys: &[Keypoint], to: &[Descriptor]) -> Option<(usize, f32)> {
    let (mut best, mut least, mut rival) = (0, i32::MAX, i32::MAX);
    for (i, other) in to.iter().enumerate() {
        // What is no nearer than the rival can become neither.
        let Some(away) = distance_below(d, other, rival) else { continue };
        let elsewhere = is_elsewhere(&keys[best], &keys[i]);
        if away >= least {
            if elsewhere {
                rival = away;
            }
            continue;
        }
        // The nearest so far is a rival now, unless it is the same place.
        if elsewhere {
            rival = least;
        }
        (best, least) = (i, away);
    }
    (least < i32::MAX).then(|| (best, least as f32 / rival.max(1) as f32))
}

/// Whether two lie at different places, of which one is not the other found twice.
fn is_elsewhere(p: &Keypoint, q: &Keypoint) -> bool {
    let reach = SAME_PLACE_IN_SIGMAS * p.sigma.max(q.sigma);
    (p.x - q.x).powi(2) + (p.y - q.y).powi(2) > reach * reach
}

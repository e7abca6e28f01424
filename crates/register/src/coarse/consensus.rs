//! The one placement most matches agree on.
//!
//! Every match alone proposes a turn, a scale and a shift, so each can be tried in turn and no
//! random draw is needed. Text repeats itself, so several distinct placements are kept and the ink
//! decides between them later.

use super::keypoints::Keypoint;
use super::matching::Match;
use rayon::prelude::*;
use sheet::{Homography, Point};

/// A placement with the matches that agree on it.
#[derive(Debug, Clone)]
pub(crate) struct Candidate {
    pub(crate) map: Homography,
    /// Matches within tolerance, each counted once per place on A.
    pub(crate) agreeing: usize,
}

/// Distance up to which a match agrees with a first rough proposal, as a share of A's longer side:
/// one blob's own turn and scale are only roughly known.
const ROUGH: f64 = 0.03;
/// The same after fitting; room is left for curl, cockle and sorts set again elsewhere in the line.
const CLOSE: f64 = 0.008;
/// Matches tried as proposals, best first.
const PROPOSALS: usize = 600;
/// Distinct placements handed on.
const KEPT: usize = 4;
/// Fewest agreeing matches worth handing on.
const FEWEST: usize = 6;

pub(crate) fn candidates(matches: &[Match], ka: &[Keypoint], kb: &[Keypoint], side: f64) -> Vec<Candidate> {
    let mut order: Vec<&Match> = matches.iter().collect();
    order.sort_by(|p, q| p.ratio.total_cmp(&q.ratio).then(p.a.cmp(&q.a)));
    let pairs: Vec<(Point, Point, f64)> = order
        .iter()
        .map(|m| (place(&ka[m.a]), place(&kb[m.b]), f64::from(1.0 - m.ratio).max(0.05)))
        .collect();
    let proposals: Vec<Homography> =
        order.iter().take(PROPOSALS).map(|m| proposal(&ka[m.a], &kb[m.b])).collect();
    let mut scored: Vec<(f64, usize)> =
        proposals.par_iter().enumerate().map(|(i, h)| (support(h, &pairs, ROUGH * side), i)).collect();
    scored.sort_by(|p, q| q.0.total_cmp(&p.0).then(p.1.cmp(&q.1)));

    let mut kept: Vec<Candidate> = Vec::new();
    for (_, i) in scored.into_iter().take(60) {
        if kept.len() >= KEPT {
            break;
        }
        if kept.iter().any(|k| !apart(&k.map, &proposals[i], side)) {
            continue;
        }
        if let Some(c) = settled(&proposals[i], &pairs, side)
            && c.agreeing >= FEWEST
            && kept.iter().all(|k| apart(&k.map, &c.map, side))
        {
            kept.push(c);
        }
    }
    kept.sort_by_key(|c| std::cmp::Reverse(c.agreeing));
    kept
}

fn place(k: &Keypoint) -> Point {
    Point::new(f64::from(k.x), f64::from(k.y))
}

fn proposal(a: &Keypoint, b: &Keypoint) -> Homography {
    let scale = f64::from(b.sigma / a.sigma);
    let turn = f64::from(b.turn - a.turn);
    let turned = Homography::similarity(scale, turn, Point::new(0.0, 0.0)).map(place(a));
    Homography::similarity(scale, turn, place(b) - turned)
}

/// Sum over matches of how well each agrees (a truncated parabola: one to zero over `reach`),
/// measured in A's pixels so that a placement cannot win by shrinking B to a point.
fn support(h: &Homography, pairs: &[(Point, Point, f64)], reach: f64) -> f64 {
    let Some(back) = h.inverse() else { return 0.0 };
    pairs
        .iter()
        .map(|(p, q, w)| {
            let d = back.map(*q).distance(*p) / reach;
            if d < 1.0 { w * (1.0 - d * d) } else { 0.0 }
        })
        .sum()
}

/// A proposal refitted to the matches that agree with it, with ever less tolerance: first a
/// similarity, then a full projective map where there are matches enough to hold it.
fn settled(first: &Homography, pairs: &[(Point, Point, f64)], side: f64) -> Option<Candidate> {
    let mut map = *first;
    let mut reach = ROUGH * side;
    for round in 0..6 {
        let near = agreeing(&map, pairs, reach)?;
        if near.len() < FEWEST {
            return None;
        }
        map = if round < 2 || near.len() < 16 { fit_similarity(&near)? } else { Homography::fit(&near)? };
        reach = (reach * 0.7).max(CLOSE * side);
    }
    let near = agreeing(&map, pairs, CLOSE * side)?;
    believable(&map, &near).then(|| Candidate { map, agreeing: distinct(&near, CLOSE * side) })
}

fn agreeing(map: &Homography, pairs: &[(Point, Point, f64)], reach: f64) -> Option<Vec<(Point, Point, f64)>> {
    let back = map.inverse()?;
    Some(pairs.iter().filter(|(p, q, _)| back.map(*q).distance(*p) < reach).copied().collect())
}

/// Counts places, not matches: a blob with two directions must not vote twice.
fn distinct(near: &[(Point, Point, f64)], reach: f64) -> usize {
    let mut seen: Vec<Point> = Vec::new();
    for (p, _, _) in near {
        if seen.iter().all(|s| s.distance(*p) > reach / 4.0) {
            seen.push(*p);
        }
    }
    seen.len()
}

/// Weighted least-squares turn, scale and shift.
fn fit_similarity(pairs: &[(Point, Point, f64)]) -> Option<Homography> {
    let total: f64 = pairs.iter().map(|p| p.2).sum();
    let mean = |pick: fn(&(Point, Point, f64)) -> Point| {
        pairs.iter().fold(Point::new(0.0, 0.0), |s, p| s + pick(p) * p.2) * (1.0 / total)
    };
    let (ca, cb) = (mean(|p| p.0), mean(|p| p.1));
    let (mut dot, mut cross, mut size) = (0.0, 0.0, 0.0);
    for (p, q, w) in pairs {
        let (p, q) = (*p - ca, *q - cb);
        dot += w * (p.x * q.x + p.y * q.y);
        cross += w * (p.x * q.y - p.y * q.x);
        size += w * (p.x * p.x + p.y * p.y);
    }
    if size <= 0.0 {
        return None;
    }
    let (scale, turn) = (dot.hypot(cross) / size, cross.atan2(dot));
    (scale > 1e-6).then(|| {
        let turned = Homography::similarity(scale, turn, Point::new(0.0, 0.0)).map(ca);
        Homography::similarity(scale, turn, cb - turned)
    })
}

/// No photograph of a sheet turns it inside out or foreshortens one corner to less than a half.
fn believable(map: &Homography, near: &[(Point, Point, f64)]) -> bool {
    let area = |p: Point| {
        let j = map.jacobian(p);
        j[0][0] * j[1][1] - j[0][1] * j[1][0]
    };
    let areas: Vec<f64> = near.iter().map(|p| area(p.0)).collect();
    let (least, most) =
        areas.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, m), &v| (l.min(v), m.max(v)));
    least > 0.0 && most / least < 4.0
}

fn apart(h: &Homography, g: &Homography, side: f64) -> bool {
    let Some(back) = g.inverse() else { return true };
    let corners = [(0.2, 0.2), (0.8, 0.2), (0.5, 0.8)];
    corners.iter().any(|&(x, y)| {
        let p = Point::new(x * side, y * side);
        back.map(h.map(p)).distance(p) > 2.0 * ROUGH * side
    })
}

//! Lines found in parts, at different sizes, are made whole.

use super::columns::Inked;
use super::{fit, inked};
use crate::Plane;

/// Parts of one line are at most this far apart, in x-heights of the larger.
const GAP: f64 = 2.4;
/// Their baselines differ by at most this, in x-heights of the smaller.
const OFF: f64 = 0.3;
/// Their x-heights differ by at most this factor: a part of capitals beside small letters.
const SIZES: f64 = 1.8;

/// Joins lines that were found apart but are one.
pub(super) fn mended(level: &Plane<u8>, mut lines: Vec<Inked>, fall: f64) -> Vec<Inked> {
    lines.sort_by(|a, b| a.line.left.total_cmp(&b.line.left).then(a.line.right.total_cmp(&b.line.right)));
    let mut i = 0;
    while i < lines.len() {
        let next = (i + 1..lines.len()).find(|&j| are_one(&lines[i], &lines[j]));
        let whole = next.and_then(|j| joined(level, &lines[i], &lines[j], fall).map(|w| (j, w)));
        match whole {
            Some((j, whole)) => {
                lines[i] = whole;
                lines.remove(j);
            }
            None => i += 1,
        }
    }
    lines
}

/// Whether `b`, which begins to the right of where `a` does, goes on with it.
fn are_one(a: &Inked, b: &Inked) -> bool {
    // Parts of one pass were parted for a reason, or are the columns of the main type.
    if a.cut && b.cut || a.pass == 1 && b.pass == 1 {
        return false;
    }
    let (p, q) = (&a.line, &b.line);
    let (small, large) = (p.x_height.min(q.x_height), p.x_height.max(q.x_height));
    let gap = q.left - p.right;
    let x = f64::midpoint(p.right.min(q.right), q.left);
    large <= SIZES * small
        && gap <= GAP * large
        && gap >= -0.8 * (q.right - q.left).min(p.right - p.left)
        && (p.baseline(x) - q.baseline(x)).abs() <= OFF * small
}

/// One line over the places of both; its size is that of the longer.
fn joined(level: &Plane<u8>, a: &Inked, b: &Inked, fall: f64) -> Option<Inked> {
    let main = if a.line.width() >= b.line.width() { a } else { b };
    let size = main.line.x_height;
    let mut track = Vec::new();
    for l in [&a.line, &b.line] {
        let steps = (l.width() / size * 2.0).ceil().max(1.0);
        track.extend((0..=steps as usize).map(|i| {
            let x = l.left + l.width() * i as f64 / steps;
            (x, l.baseline(x) - size / 2.0)
        }));
    }
    track.sort_by(|p, q| p.0.total_cmp(&q.0));
    track.dedup_by(|p, q| p.0 - q.0 < 1e-6);
    let slope = if a.line.width() + b.line.width() > 6.0 * size {
        fit::slope_between(&a.line, &b.line)
    } else {
        fall
    };
    inked(level, &track, size, slope, main.pass)
}

//! From crests to lines of type: a line is followed from column to column.

use super::ridge::{Crest, Grid};

/// A crest continues a line that it misses by at most this share of the x-height.
const MISS: f64 = 0.35;
/// A line is given up after a gap of this many x-heights without a crest.
const GAP: f64 = 2.0;

/// The middle of a line of type: x and y in pixels of the level, from left to right.
pub(super) type Track = Vec<(f64, f64)>;

/// A line being followed.
struct Open {
    places: Vec<(f64, f64)>,
    strength: f64,
    last: usize,
    /// Rows it has lately been falling for every pixel.
    fall: f64,
}

/// Follows the crests from left to right. Each crest goes to at most one line, the nearest pairs
/// first.
pub(super) fn tracks(grid: &Grid, crests: &[Vec<Crest>], x_height: f64, fall: f64) -> Vec<Track> {
    let patience = (GAP * x_height / grid.across as f64).ceil() as usize;
    let mut open: Vec<Open> = Vec::new();
    let mut done: Vec<Open> = Vec::new();
    for (column, found) in crests.iter().enumerate() {
        let (still, given_up): (Vec<Open>, Vec<Open>) =
            open.into_iter().partition(|o| column - o.last <= patience);
        done.extend(given_up);
        open = still;
        let x = grid.x(column);
        for (crest, line) in pairs(&open, found, x, MISS * x_height).into_iter().enumerate() {
            let y = f64::from(found[crest].y);
            let strength = f64::from(found[crest].strength);
            match line {
                Some(i) => open[i].extend(x, y, strength, column, x_height),
                None => open.push(Open { places: vec![(x, y)], strength, last: column, fall }),
            }
        }
    }
    done.extend(open);
    done.retain(|o| o.places.len() > 1);
    done.into_iter().map(|o| o.places).collect()
}

impl Open {
    fn extend(&mut self, x: f64, y: f64, strength: f64, column: usize, x_height: f64) {
        self.places.push((x, y));
        self.strength += strength;
        self.last = column;
        // The slope over the last three x-heights, held back so that one letter does not steer it.
        let back = self.places.iter().rev().find(|p| x - p.0 >= 3.0 * x_height);
        if let Some(p) = back {
            self.fall += 0.2 * ((y - p.1) / (x - p.0) - self.fall);
        }
    }

    fn expected(&self, x: f64) -> f64 {
        self.places.last().map_or(0.0, |p| p.1 + (x - p.0) * self.fall)
    }
}

/// For every crest of a column the open line it continues.
fn pairs(open: &[Open], found: &[Crest], x: f64, miss: f64) -> Vec<Option<usize>> {
    let mut near: Vec<(f64, usize, usize)> = Vec::new();
    for (i, line) in open.iter().enumerate() {
        let y = line.expected(x);
        for (j, crest) in found.iter().enumerate() {
            let off = (f64::from(crest.y) - y).abs();
            if off <= miss {
                near.push((off, i, j));
            }
        }
    }
    near.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)).then(a.2.cmp(&b.2)));
    let mut taken = vec![false; open.len()];
    let mut out = vec![None; found.len()];
    for (_, i, j) in near {
        if !taken[i] && out[j].is_none() {
            taken[i] = true;
            out[j] = Some(i);
        }
    }
    out
}

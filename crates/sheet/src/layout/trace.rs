//! From crests to lines of type: a line is followed from column to column.

use super::ridge::{Crest, Grid};

/// A crest continues a line that it misses by at most this share of the x-height.
const MISS: f64 = 0.35;
/// A line is given up after a gap of this many x-heights without a crest.
const GAP: f64 = 2.0;

/// Two tracks closer than this share of the x-height are one.
const JOIN: f64 = 0.45;

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
    let mut tracks: Vec<Track> = done.into_iter().map(|o| o.places).collect();
    tracks.sort_by(|a, b| a[0].0.total_cmp(&b[0].0).then(a[0].1.total_cmp(&b[0].1)));
    joined(tracks, x_height).into_iter().filter(|t| t.len() > 1).collect()
}

/// Joins tracks of one line: those that overlap or nearly meet at about the same height. From the
/// left, each to the nearest that may be continued.
fn joined(tracks: Vec<Track>, x_height: f64) -> Vec<Track> {
    let mut out: Vec<Track> = Vec::new();
    for track in tracks {
        let (x, y) = track[0];
        let near = |t: &Track| {
            let end = t[t.len() - 1].0;
            if x > end + GAP * x_height {
                return None;
            }
            // Where both run, their distance over what they share; else from the end to the start.
            let shared: Vec<f64> =
                track.iter().take_while(|p| p.0 <= end).map(|p| (p.1 - at(t, p.0)).abs()).collect();
            let off = if shared.is_empty() {
                (y - ahead(t, x, x_height)).abs()
            } else {
                shared.iter().sum::<f64>() / shared.len() as f64
            };
            (off <= JOIN * x_height).then_some(off)
        };
        let best = (0..out.len())
            .filter_map(|i| near(&out[i]).map(|off| (off, i)))
            .min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        match best {
            Some((_, i)) => {
                out[i].extend(track);
                out[i].sort_by(|a, b| a.0.total_cmp(&b.0));
                merge_columns(&mut out[i]);
            }
            None => out.push(track),
        }
    }
    out
}

/// Where a track would be at a column beyond its end.
fn ahead(track: &Track, x: f64, x_height: f64) -> f64 {
    let last = track[track.len() - 1];
    let back = track.iter().rev().find(|p| last.0 - p.0 >= 4.0 * x_height);
    back.map_or(last.1, |p| last.1 + (last.1 - p.1) / (last.0 - p.0) * (x - last.0))
}

/// One place to a column: the mean of those there are.
fn merge_columns(track: &mut Track) {
    let mut out: Track = Vec::with_capacity(track.len());
    let mut count = 0.0;
    for &(x, y) in track.iter() {
        match out.last_mut() {
            Some(last) if (x - last.0).abs() < 1e-6 => {
                count += 1.0;
                last.1 += (y - last.1) / count;
            }
            _ => {
                out.push((x, y));
                count = 1.0;
            }
        }
    }
    *track = out;
}

/// A track's y at a column, straight between its places, level beyond its ends.
pub(super) fn at(track: &Track, x: f64) -> f64 {
    let i = track.partition_point(|p| p.0 < x).clamp(1, track.len().max(2) - 1);
    match (track.get(i - 1), track.get(i)) {
        (Some(p), Some(q)) => p.1 + (q.1 - p.1) * ((x - p.0) / (q.0 - p.0)).clamp(0.0, 1.0),
        (Some(p), None) => p.1,
        _ => 0.0,
    }
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

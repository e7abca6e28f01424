//! Borders and strips of cast ornaments: one sort repeated at a fixed pitch down a column or along a row.
//!
//! They must be known before lines are looked for: a column of ornaments stands just beside the ends
//! of the lines and would be read as a letter of each, and a row of them has a band as clear as type.

use super::patches::{PatchKind, Rough};
use super::runs::{Component, Pieces};
use crate::Plane;

/// Pieces of ornaments are at least this large and at most that, in x-heights of the main type.
const SMALLEST: f64 = 0.4;
const LARGEST: f64 = 8.0;
/// Impressions of one sort differ in height and width by at most this share of the larger, and a pixel
/// at either edge.
const SIZES: f64 = 0.12;
/// And in ink by at most this factor.
const INKS: f64 = 1.5;
/// The next piece of the same sort begins at most this far on, in sizes of the piece: a sort of several
/// pieces, or two sorts by turns.
const NEXT: f64 = 4.5;
/// It strays from its place by at most this share of the pitch, and two pixels.
const STRAY: f64 = 0.06;
/// So many pieces at one pitch are a chain.
const PIECES: usize = 5;
/// A strip stands apart: on both sides a blank this wide, in x-heights.
const BLANK: f64 = 0.2;
/// Blank is what is inked over at most this share of the length that the strip's middle is: the ends of
/// lines and the corners of cuts come near.
const BARE: f64 = 0.15;
/// A strip is at most this wide, in x-heights.
const WIDEST: f64 = 9.0;
/// So many pieces show how a strip leans beyond its last.
const LEAN: usize = 7;
/// Chains must cover this share of a strip.
const COVERED: f64 = 0.4;
/// Ornaments follow each other at no less than this, in x-heights.
const CLOSEST: f64 = 0.75;
/// The correlation of one length of a strip with the next: in ornaments the median is mostly 0.6 to
/// 0.95, in text over many lengths 0 to 0.3. Over few it strays: this much over the root of their number.
const LIKENESS: f64 = 0.5;
const STRAYS: f64 = 0.4;
/// This share of the likeness is enough in a strip as wide as one that is sure.
const FRAMED: f64 = 0.55;

/// Which way a strip runs.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Run {
    Down,
    Across,
}

/// A component as it lies along a strip.
#[derive(Debug, Clone, Copy)]
struct Spot {
    along: f64,
    across: f64,
    /// Sizes along and across.
    long: f64,
    wide: f64,
    ink: f64,
}

impl Spot {
    fn of(c: &Component, run: Run) -> Self {
        let ((x, y), ink) = (c.middle(), f64::from(c.area));
        match run {
            Run::Down => Self { along: y, across: x, long: c.height(), wide: c.width(), ink },
            Run::Across => Self { along: x, across: y, long: c.width(), wide: c.height(), ink },
        }
    }

    /// Whether both can be impressions of one sort.
    fn is_like(&self, o: &Self) -> bool {
        let alike = |a: f64, b: f64| (a - b).abs() <= SIZES * a.max(b) + 1.0;
        alike(self.long, o.long)
            && alike(self.wide, o.wide)
            && self.ink.max(o.ink) <= INKS * self.ink.min(o.ink)
    }
}

/// A strip of ornaments.
#[derive(Debug, Clone)]
pub(super) struct Strip {
    run: Run,
    /// Its middle as places along and across, in order along.
    middle: Vec<(f64, f64)>,
    /// Across it lies from `middle - before` to `middle + after`.
    before: f64,
    after: f64,
    from: f64,
    to: f64,
    pitch: f64,
}

/// The strips of ornaments among the pieces of a level; `fall` is the rows a line falls for every
/// pixel.
pub(super) fn strips(ink: &Plane<u8>, pieces: &Pieces, x_height: f64, fall: f64) -> Vec<Strip> {
    let mut likely: Vec<(f64, Strip)> = Vec::new();
    for (run, slope) in [(Run::Down, -fall), (Run::Across, fall)] {
        let mut spots: Vec<Spot> = pieces
            .parts
            .iter()
            .map(|c| Spot::of(c, run))
            .filter(|s| s.long.max(s.wide) >= 0.15 * x_height && s.long.max(s.wide) <= LARGEST * x_height)
            .collect();
        spots.sort_by(|a, b| a.along.total_cmp(&b.along).then(a.across.total_cmp(&b.across)));
        let chains = chains(&spots, x_height, slope);
        let found = gathered(&spots, chains, run, x_height, slope);
        let found = found.into_iter().filter(|s| s.pitch >= CLOSEST * x_height);
        likely.extend(found.map(|s| (s.likeness(ink, slope), s)));
    }
    let (sure, doubtful): (Vec<_>, Vec<_>) = likely.into_iter().partition(|(l, _)| *l >= LIKENESS);
    let mut out: Vec<Strip> = sure.into_iter().map(|(_, s)| s).collect();
    // The sides of a frame are alike in width: one that is worn is known by the others.
    let sides = out.len();
    for (_, s) in doubtful.into_iter().filter(|(l, _)| *l >= FRAMED * LIKENESS) {
        if out[..sides].iter().any(|o| (o.width() / s.width()).ln().abs() < 0.25) {
            out.push(s);
        }
    }
    out
}

/// Places of the spots in every chain of like pieces at one pitch.
fn chains(spots: &[Spot], x_height: f64, slope: f64) -> Vec<Vec<usize>> {
    let is_piece = |s: &Spot| s.long.min(s.wide) >= SMALLEST * x_height;
    let near = |at: f64, slack: f64| {
        let from = spots.partition_point(|s| s.along < at - slack);
        let to = spots.partition_point(|s| s.along <= at + slack);
        from..to
    };
    let mut used = vec![false; spots.len()];
    let mut out = Vec::new();
    for i in 0..spots.len() {
        let first = spots[i];
        if used[i] || !is_piece(&first) {
            continue;
        }
        let reach = NEXT * first.long.max(first.wide);
        let begins = near(first.along + 0.5 * reach + 0.4 * first.long, 0.5 * reach - 0.4 * first.long);
        let mut best: Vec<usize> = Vec::new();
        for j in begins {
            let (step, aside) = (spots[j].along - first.along, spots[j].across - first.across);
            if used[j]
                || step < 0.8 * first.long
                || (aside - slope * step).abs() > STRAY * step + 2.0
                || !first.is_like(&spots[j])
            {
                continue;
            }
            let chain = followed(spots, &used, i, j, &near);
            if chain.len() > best.len() {
                best = chain;
            }
        }
        if best.len() >= PIECES {
            for &k in &best {
                used[k] = true;
            }
            out.push(best);
        }
    }
    out
}

/// The chain that begins with two spots; one piece in a row may be missing.
fn followed(
    spots: &[Spot],
    used: &[bool],
    first: usize,
    second: usize,
    near: &impl Fn(f64, f64) -> std::ops::Range<usize>,
) -> Vec<usize> {
    let mut chain = vec![first, second];
    let mut step = (spots[second].along - spots[first].along, spots[second].across - spots[first].across);
    loop {
        let last = spots[chain[chain.len() - 1]];
        let slack = STRAY * step.0 + 2.0;
        let next = [1.0, 2.0].into_iter().find_map(|times| {
            let (along, across) = (last.along + times * step.0, last.across + times * step.1);
            near(along, slack)
                .filter(|&k| !used[k] && (spots[k].across - across).abs() <= slack)
                .filter(|&k| spots[k].is_like(&last) && spots[k].along > last.along)
                .min_by(|&a, &b| {
                    let off = |k: usize| (spots[k].along - along).abs() + (spots[k].across - across).abs();
                    off(a).total_cmp(&off(b))
                })
                .map(|k| (k, times))
        });
        let Some((k, times)) = next else { return chain };
        let new = ((spots[k].along - last.along) / times, (spots[k].across - last.across) / times);
        step = (step.0 + 0.3 * (new.0 - step.0), step.1 + 0.3 * (new.1 - step.1));
        chain.push(k);
    }
}

/// Joins chains that lie in one strip, and finds how wide and how long it is. Chains in what does not
/// stand apart are dropped.
fn gathered(spots: &[Spot], chains: Vec<Vec<usize>>, run: Run, x_height: f64, slope: f64) -> Vec<Strip> {
    let mut left: Vec<Vec<usize>> = chains;
    // The longest first: it shows best where its strip runs.
    left.sort_by_key(|c| std::cmp::Reverse(c.len()));
    let mut out: Vec<Strip> = Vec::new();
    let mut covers: Vec<Vec<(f64, f64)>> = Vec::new();
    for chain in left {
        let places: Vec<(f64, f64)> = chain.iter().map(|&i| (spots[i].along, spots[i].across)).collect();
        let pitch = median(places.windows(2).map(|p| p[1].0 - p[0].0).collect());
        let cover: Vec<(f64, f64)> =
            places.iter().map(|p| (p.0 - 0.55 * pitch, p.0 + 0.55 * pitch)).collect();
        let own = out.iter().position(|s: &Strip| {
            places.iter().filter(|p| s.has(p.0, p.1, slope)).count() * 2 > places.len()
        });
        if let Some(i) = own {
            covers[i].extend(cover);
            continue;
        }
        if let Some(strip) = Strip::about(spots, places, run, x_height, slope, pitch) {
            out.push(strip);
            covers.push(cover);
        }
    }
    let kept = |strip: &Strip, cover: &mut Vec<(f64, f64)>| {
        cover.sort_by(|a, b| a.0.total_cmp(&b.0));
        let (mut sum, mut end) = (0.0, f64::NEG_INFINITY);
        for &(from, to) in cover.iter() {
            sum += (to - from.max(end)).max(0.0);
            end = end.max(to);
        }
        sum >= COVERED * (strip.to - strip.from)
    };
    out.into_iter().zip(covers).filter_map(|(s, mut c)| kept(&s, &mut c).then_some(s)).collect()
}

impl Strip {
    /// The strip about a chain; `None` when it does not stand apart.
    fn about(
        spots: &[Spot],
        middle: Vec<(f64, f64)>,
        run: Run,
        x_height: f64,
        slope: f64,
        pitch: f64,
    ) -> Option<Self> {
        let (from, to) = (middle[0].0 - pitch / 2.0, middle[middle.len() - 1].0 + pitch / 2.0);
        let mut strip = Self { run, middle, before: 0.0, after: 0.0, from, to, pitch };
        // Length inked by the distance from the middle, in eighths of an x-height.
        let (bin, reach) = (0.125 * x_height, (WIDEST + 1.0) * x_height);
        let bins = (2.0 * reach / bin) as usize;
        let mut inked = vec![0.0; bins];
        let window = |from: f64, to: f64| {
            spots.partition_point(|s| s.along < from)..spots.partition_point(|s| s.along <= to)
        };
        for s in &spots[window(from, to)] {
            let off = s.across - strip.at(s.along, slope);
            let place = |v: f64| ((v + reach) / bin).floor();
            // A long piece that leans with the page has a box wider than itself.
            let half = (s.wide - slope.abs() * s.long).max(1.0) / 2.0;
            let (a, b) = (place(off - half), place(off + half - 0.5));
            if b < 0.0 || a >= bins as f64 {
                continue;
            }
            for v in &mut inked[a.max(0.0) as usize..=(b as usize).min(bins - 1)] {
                *v += s.long;
            }
        }
        let blank = (BLANK * x_height / bin).ceil() as usize;
        let (centre, near) = (bins / 2, (0.5 * x_height / bin) as usize);
        let bare = BARE * inked[centre - near..=centre + near].iter().fold(0.0, |a: f64, &b| a.max(b));
        // The first blank on either side that is wide enough.
        let edge = |step: isize| {
            let mut run = 0;
            let mut i = centre as isize;
            while i >= 0 && (i as usize) < bins {
                run = if inked[i as usize] <= bare { run + 1 } else { 0 };
                if run >= blank {
                    return Some((i - step * (blank as isize - 1) - centre as isize).unsigned_abs());
                }
                i += step;
            }
            None
        };
        strip.before = edge(-1)? as f64 * bin;
        strip.after = edge(1)? as f64 * bin;
        if strip.before + strip.after > WIDEST * x_height || strip.before + strip.after < 0.8 * x_height {
            return None;
        }
        strip.lengthen(spots, x_height, slope);
        Some(strip)
    }

    /// Takes in what lies beyond the ends in the same strip.
    fn lengthen(&mut self, spots: &[Spot], x_height: f64, slope: f64) {
        // In a column nothing else can stand; a row may have other things beyond its end.
        let missing = if self.run == Run::Down { 8.0 } else { 3.0 };
        let gap = (missing * self.pitch).max(4.0 * x_height);
        let inside = |s: &&Spot| {
            let off = s.across - self.at(s.along, slope);
            off - s.wide / 2.0 > -self.before - 0.5 * x_height
                && off + s.wide / 2.0 < self.after + 0.5 * x_height
                && s.long.max(s.wide) >= SMALLEST * x_height
        };
        let within: Vec<(f64, f64)> =
            spots.iter().filter(inside).map(|s| (s.along - s.long / 2.0, s.along + s.long / 2.0)).collect();
        for &(from, to) in &within {
            if to > self.to && from < self.to + gap {
                self.to = to;
            }
        }
        for &(from, to) in within.iter().rev() {
            if from < self.from && to > self.from - gap {
                self.from = from;
            }
        }
    }

    /// Its middle across, at a place along.
    fn at(&self, along: f64, slope: f64) -> f64 {
        let (first, last) = (self.middle[0], self.middle[self.middle.len() - 1]);
        if along <= first.0 {
            return first.1 + self.lean(true).unwrap_or(slope) * (along - first.0);
        }
        if along >= last.0 {
            return last.1 + self.lean(false).unwrap_or(slope) * (along - last.0);
        }
        let i = self.middle.partition_point(|p| p.0 < along).max(1);
        let (p, q) = (self.middle[i - 1], self.middle[i]);
        p.1 + (q.1 - p.1) * (along - p.0) / (q.0 - p.0).max(1e-9)
    }

    /// How it leans at its beginning or its end, where enough of its pieces show it.
    fn lean(&self, at_beginning: bool) -> Option<f64> {
        let n = self.middle.len();
        let (p, q) = if at_beginning { (0, LEAN.checked_sub(1)?) } else { (n.checked_sub(LEAN)?, n - 1) };
        let (p, q) = (self.middle[p], *self.middle.get(q)?);
        Some((q.1 - p.1) / (q.0 - p.0))
    }

    fn width(&self) -> f64 {
        self.before + self.after
    }

    fn has(&self, along: f64, across: f64, slope: f64) -> bool {
        let off = across - self.at(along, slope);
        along > self.from && along < self.to && off > -self.before && off < self.after
    }

    /// How like each length of one pitch is to the next, over the whole strip: the median of their
    /// correlations, over those lengths that are inked, less what it may stray by chance; 0 when there are
    /// too few. What all of the strip has at one distance from its middle is taken out first: a line of
    /// type has its band everywhere, an ornament its shape.
    fn likeness(&self, ink: &Plane<u8>, slope: f64) -> f64 {
        let rows = self.straightened(ink, slope);
        let wide = self.width() as usize + 1;
        let (pitch, reach) = (self.pitch.round() as usize, (STRAY * self.pitch).ceil() as usize);
        let length = rows.len() / wide;
        let mut found = Vec::new();
        let mut from = reach;
        while from + 2 * pitch + reach < length {
            let shifts = (from + pitch - reach)..=(from + pitch + reach);
            found.push(
                shifts
                    .map(|to| {
                        let cell = |at: usize| &rows[at * wide..(at + pitch) * wide];
                        correlation(cell(from), cell(to), wide)
                    })
                    .fold((-1.0, 0.0), |a: (f64, f64), b| if b.0 > a.0 { b } else { a }),
            );
            from += pitch;
        }
        let least = 0.3 * median(found.iter().map(|f| f.1).collect());
        let inked: Vec<f64> = found.iter().filter(|f| f.1 >= least).map(|f| f.0).collect();
        let stray = STRAYS / (inked.len() as f64).sqrt();
        if inked.len() < 3 { 0.0 } else { median(inked) - stray }
    }

    /// The strip's ink, place after place along it, less its mean at each distance from the middle.
    fn straightened(&self, ink: &Plane<u8>, slope: f64) -> Vec<f32> {
        let wide = self.width() as usize + 1;
        let mut out = Vec::new();
        let mut mean = vec![0f32; wide];
        self.each(slope, |along, from, _| {
            for (c, m) in mean.iter_mut().enumerate() {
                let (l, c) = (along as isize, from.round() as isize + c as isize);
                let (x, y) = if self.run == Run::Down { (c, l) } else { (l, c) };
                let v = f32::from(ink.at_clamped(x, y));
                *m += v;
                out.push(v);
            }
        });
        let count = (out.len() / wide).max(1) as f32;
        for row in out.chunks_exact_mut(wide) {
            for (v, m) in row.iter_mut().zip(&mean) {
                *v -= m / count;
            }
        }
        out
    }

    /// Calls `f` with the left and the right of the strip, or its top and bottom, at every row or column.
    fn each(&self, slope: f64, mut f: impl FnMut(usize, f64, f64)) {
        for i in self.from.max(0.0).floor() as usize..self.to.max(0.0).ceil() as usize {
            let middle = self.at(i as f64 + 0.5, slope);
            f(i, middle - self.before, middle + self.after);
        }
    }

    /// Makes the level bare where the strip stands.
    pub(super) fn clear(&self, ink: &mut Plane<u8>, fall: f64) {
        let (w, h) = (ink.width(), ink.height());
        let place = |v: f64, end: usize| (v.max(0.0) as usize).min(end);
        match self.run {
            Run::Down => self.each(-fall, |y, from, to| {
                if y < h {
                    ink.row_mut(y)[place(from - 1.0, w)..place(to + 2.0, w)].fill(0);
                }
            }),
            Run::Across => self.each(fall, |x, from, to| {
                if x < w {
                    for y in place(from - 1.0, h)..place(to + 2.0, h) {
                        ink.row_mut(y)[x] = 0;
                    }
                }
            }),
        }
    }

    /// The strip as a patch.
    pub(super) fn patch(&self, fall: f64) -> Rough {
        let slope = if self.run == Run::Down { -fall } else { fall };
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        self.each(slope, |_, from, to| {
            low = low.min(from);
            high = high.max(to);
        });
        let (left, top, right, bottom) = match self.run {
            Run::Down => (low, self.from, high, self.to),
            Run::Across => (self.from, low, self.to, high),
        };
        Rough { kind: PatchKind::Border, left, top, right, bottom, area: 0.0 }
    }
}

/// The correlation of two cells of a strip, the best of shifts across by up to a pixel, and the energy
/// of the fainter.
fn correlation(a: &[f32], b: &[f32], wide: usize) -> (f64, f64) {
    let energy = |v: &[f32]| v.iter().map(|v| v * v).sum::<f32>();
    let (first, second) = (energy(a), energy(b));
    let both = |a: &[f32], b: &[f32]| a.iter().zip(b).map(|(p, q)| p * q).sum::<f32>();
    let aside = |a: &[f32], b: &[f32]| {
        a.chunks_exact(wide)
            .zip(b.chunks_exact(wide))
            .map(|(a, b)| both(&a[1..], &b[..wide - 1]))
            .sum::<f32>()
    };
    let best = both(a, b).max(aside(a, b)).max(aside(b, a));
    (f64::from(best / (first * second).sqrt().max(1.0)), f64::from(first.min(second)))
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::runs::pieces;

    /// A sign of 14 by 14 pixels: a ring, a cross, an upright cross or a Z.
    fn sign(ink: &mut Plane<u8>, left: usize, top: usize, kind: usize) {
        for y in 0..14 {
            for x in 0..14 {
                let (dx, dy) = (x as f64 - 6.5, y as f64 - 6.5);
                let inked = match kind {
                    0 => (5.0..7.0).contains(&dx.hypot(dy)),
                    1 => (dx.abs() - dy.abs()).abs() < 1.5,
                    2 => dx.abs().min(dy.abs()) < 1.0,
                    _ => dy.abs() > 5.0 || (dx + dy).abs() < 1.5,
                };
                if inked {
                    ink.row_mut(top + y)[left + x] = 255;
                }
            }
        }
    }

    fn strips_of(ink: &Plane<u8>) -> Vec<Strip> {
        strips(ink, &pieces(ink, 128), 8.0, 0.0)
    }

    #[test]
    fn one_sort_repeated_is_a_strip_down_and_across() {
        let mut ink = Plane::filled(400, 500, 0u8);
        for i in 0..24 {
            // Two places did not print.
            if i != 5 && i != 6 {
                sign(&mut ink, 30, 60 + 16 * i, 0);
            }
        }
        for i in 0..18 {
            sign(&mut ink, 70 + 16 * i, 20, 3);
        }
        let found = strips_of(&ink);
        assert_eq!(found.iter().map(|s| s.run).collect::<Vec<_>>(), [Run::Down, Run::Across]);
        let patch = found[0].patch(0.0);
        assert!(patch.left > 25.0 && patch.right < 49.0 && patch.top < 62.0 && patch.bottom > 440.0);
        let mut bare = ink.clone();
        for strip in &found {
            strip.clear(&mut bare, 0.0);
        }
        assert!(bare.data().iter().all(|&v| v == 0), "the strips hold all of the ink");
    }

    #[test]
    fn signs_of_one_size_that_differ_are_no_strip() {
        let mut ink = Plane::filled(400, 100, 0u8);
        for (i, kind) in [0, 0, 0, 3, 1, 0, 0, 2, 0, 0, 1, 3, 0, 0, 0, 2, 3, 1, 0, 0].into_iter().enumerate()
        {
            sign(&mut ink, 30 + 16 * i, 40, kind);
        }
        assert!(strips_of(&ink).is_empty());
    }
}

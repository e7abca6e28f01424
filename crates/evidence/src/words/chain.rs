//! Windows that follow each other on both sides: one alone says little, a run of them much.

use super::windows::{Anchor, Band, STRIDE, WIDE};

/// A stretch of text found on both sides; places in steps of the ribbons.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Stretch {
    /// Beginning and end on the first.
    pub(super) a: (usize, usize),
    /// Beginning and end on the second.
    pub(super) b: (usize, usize),
    /// Sum of the weights of its windows, less what was paid for gaps.
    pub(super) score: f32,
    /// Where its windows begin on the first and on the second, in their order.
    pub(super) windows: Vec<(usize, usize)>,
}

/// Furthest from one window of a stretch to the next, in steps: 10 x-heights, one or two words that have
/// not printed.
const REACH: usize = 24;
/// The largest hole that a stretch goes on beyond, in steps: 50 x-heights.
const LARGEST_HOLE: usize = 125;
/// How much farther apart two windows may stand on one side than on the other: so many steps (a word spelt
/// otherwise, a hyphen), and this share of the distance (x-heights measured badly, paper, curl).
const SHIFT: f32 = 3.0;
const STRETCH: f32 = 0.06;
/// What a step of shift costs, and a window that was not found.
const SHIFT_COST: f32 = 0.1;
const SKIP_COST: f32 = 0.4;
/// The least score of a stretch.
const LEAST_SCORE: f32 = 5.0;
/// What it costs to break the order: a column read too early, an ornament between.
const BREAK_COST: f32 = 8.0;
/// Stretches may lie this many steps over each other: the windows at their ends reach beyond what is alike.
const OVERLAP: usize = WIDE + STRIDE;
/// Stretches follow each other at once when at most this many steps lie between them on either side.
const NEXT: usize = 30;
/// Fewest steps, on the first side, of stretches that follow each other at once: 30 x-heights, some seven
/// words. Shorter runs are formulas that any two texts of a kind share.
const SHORTEST_RUN: usize = 75;

/// Both ribbons, for the holes in them.
#[derive(Clone, Copy)]
pub(super) struct Ribbons<'r> {
    pub(super) a: &'r Band,
    pub(super) b: &'r Band,
}

impl Ribbons<'_> {
    /// From one place to the next, `a` and `b` on the two ribbons: how much longer the way is on the one because the
    /// other has a hole there.
    pub(super) fn forgiven(&self, a: (usize, usize), b: (usize, usize)) -> usize {
        let (along_a, along_b) = (a.1.saturating_sub(a.0), b.1.saturating_sub(b.0));
        let holes = |band: &Band, (from, to): (usize, usize)| band.room(from.min(to), from.max(to));
        let room = if along_a > along_b { holes(self.b, b) } else { holes(self.a, a) };
        room.min(along_a.abs_diff(along_b))
    }
}

/// The stretches that both sides have in their order.
pub(super) fn in_common(anchors: &[Anchor], ribbons: Ribbons<'_>) -> Vec<Stretch> {
    let mut all = stretches(anchors, ribbons);
    all.sort_by_key(|s| (s.a.0, s.b.0));
    long_runs(&in_order(&all), ribbons)
}

/// Joins windows into stretches, best first, each window in one at most. Anchors come ordered by `a`.
fn stretches(anchors: &[Anchor], ribbons: Ribbons<'_>) -> Vec<Stretch> {
    let n = anchors.len();
    let mut score: Vec<f32> = anchors.iter().map(|a| a.weight).collect();
    let mut from: Vec<Option<usize>> = vec![None; n];
    let mut first = 0;
    for i in 0..n {
        while anchors[first].a + REACH + WIDE + LARGEST_HOLE < anchors[i].a {
            first += 1;
        }
        for p in first..i {
            if let Some(cost) = cost(&anchors[p], &anchors[i], ribbons) {
                let joined = score[p] - cost + anchors[i].weight;
                if joined > score[i] {
                    (score[i], from[i]) = (joined, Some(p));
                }
            }
        }
    }
    let mut order: Vec<usize> = (0..n).collect();
    order.sort_by(|&i, &j| score[j].total_cmp(&score[i]));
    let mut used = vec![false; n];
    let mut out = Vec::new();
    for end in order {
        if used[end] {
            continue;
        }
        let (mut begin, mut before) = (end, 0.0);
        let mut windows = vec![(anchors[end].a, anchors[end].b)];
        used[end] = true;
        while let Some(p) = from[begin] {
            if used[p] {
                before = score[p];
                break;
            }
            used[p] = true;
            windows.push((anchors[p].a, anchors[p].b));
            begin = p;
        }
        if score[end] - before >= LEAST_SCORE {
            let (p, q) = (anchors[begin], anchors[end]);
            windows.reverse();
            let score = score[end] - before;
            out.push(Stretch { a: (p.a, q.a + WIDE), b: (p.b, q.b + WIDE), score, windows });
        }
    }
    out
}

/// What it costs to let one window follow the other; `None` when it cannot.
fn cost(p: &Anchor, q: &Anchor, ribbons: Ribbons<'_>) -> Option<f32> {
    if q.a <= p.a || q.b <= p.b {
        return None;
    }
    let (along_a, along_b) = (q.a - p.a, q.b - p.b);
    // A hole cannot lie amid a window that was found.
    let beyond = WIDE - STRIDE;
    let forgiven = if along_a.max(along_b) > WIDE {
        ribbons.forgiven((p.a + beyond, q.a + STRIDE), (p.b + beyond, q.b + STRIDE))
    } else {
        0
    };
    let left = if along_a > along_b { along_a - forgiven } else { along_a };
    let reach = if forgiven > 0 { REACH + WIDE } else { REACH };
    let shift = (along_a.abs_diff(along_b) - forgiven) as f32 - STRETCH * along_a.max(along_b) as f32;
    let skipped = left as f32 / STRIDE as f32 - 1.0;
    (left <= reach && shift <= SHIFT).then_some(SHIFT_COST * shift.max(0.0) + SKIP_COST * skipped)
}

/// The stretches that together score most when each begins after the one before on the first side, and
/// breaks of order on the second are paid for. They come ordered by their beginning on the first.
fn in_order(all: &[Stretch]) -> Vec<Stretch> {
    let mut best: Vec<f32> = all.iter().map(|s| s.score).collect();
    let mut from: Vec<Option<usize>> = vec![None; all.len()];
    for i in 0..all.len() {
        for p in 0..i {
            if all[p].a.1 > all[i].a.0 + OVERLAP {
                continue;
            }
            let price = if all[p].b.1 <= all[i].b.0 + OVERLAP { 0.0 } else { BREAK_COST };
            let joined = best[p] - price + all[i].score;
            if joined > best[i] {
                (best[i], from[i]) = (joined, Some(p));
            }
        }
    }
    let mut at = (0..all.len()).max_by(|&i, &j| best[i].total_cmp(&best[j]));
    let mut out = Vec::new();
    while let Some(i) = at {
        out.push(all[i].clone());
        at = from[i];
    }
    out.reverse();
    out
}

/// The stretches that belong to a run long enough.
fn long_runs(ordered: &[Stretch], ribbons: Ribbons<'_>) -> Vec<Stretch> {
    let follows = |p: &Stretch, q: &Stretch| {
        let forgiven = ribbons.forgiven((p.a.1, q.a.0), (p.b.1, q.b.0));
        let far = NEXT + forgiven;
        q.a.0 <= p.a.1 + far && q.b.0.abs_diff(p.b.1) <= far
    };
    ordered
        .chunk_by(follows)
        .filter(|run| run.iter().map(Stretch::long).sum::<usize>() >= SHORTEST_RUN)
        .flatten()
        .cloned()
        .collect()
}

impl Stretch {
    /// Where on the second a place of the first lies, by the nearest of its windows; `None` where none is near.
    pub(super) fn on_b(&self, a: usize) -> Option<usize> {
        let &(from, to) = self.windows.iter().min_by_key(|w| w.0.abs_diff(a))?;
        (from.abs_diff(a) <= WIDE).then(|| (to + a).checked_sub(from)).flatten()
    }

    /// How much of it is in step: windows found that lie one stride after the window before on both sides.
    pub(super) fn in_step(&self) -> usize {
        let step = |pair: &&[(usize, usize)]| {
            let (p, q) = (pair[0], pair[1]);
            q.0 - p.0 == STRIDE && q.1 - p.1 == STRIDE
        };
        STRIDE * self.windows.windows(2).filter(step).count()
    }

    /// How long it is where both sides have print.
    pub(super) fn long(&self) -> usize {
        (self.a.1 - self.a.0).min(self.b.1 - self.b.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Windows one stride apart, from these places.
    fn run(a: usize, b: usize, windows: usize) -> Vec<Anchor> {
        (0..windows).map(|k| Anchor { a: a + k * STRIDE, b: b + k * STRIDE, weight: 1.5 }).collect()
    }

    fn found(anchors: &[Anchor]) -> Vec<Stretch> {
        let whole = Band::default();
        in_common(anchors, Ribbons { a: &whole, b: &whole })
    }

    #[test]
    fn a_run_is_found_among_strays() {
        let mut anchors = run(0, 300, 20);
        anchors.extend([(6, 20), (30, 900), (60, 500), (90, 40)].map(|(a, b)| Anchor { a, b, weight: 2.0 }));
        anchors.sort_by_key(|x| (x.a, x.b));
        let found = found(&anchors);
        assert_eq!(found.len(), 1, "{found:?}");
        assert_eq!((found[0].a.0, found[0].b.0), (0, 300));
        assert_eq!(found[0].a.1, 19 * STRIDE + WIDE);
    }

    #[test]
    fn pieces_that_are_a_little_off_are_not_in_step() {
        let whole = found(&run(0, 300, 20));
        assert_eq!(whole[0].in_step(), 19 * STRIDE);
        let piecemeal: Vec<Anchor> =
            (0..20).map(|k| Anchor { b: 300 + k * STRIDE + k % 2, ..run(0, 0, 20)[k] }).collect();
        let piecemeal = found(&piecemeal);
        assert_eq!((piecemeal[0].long(), piecemeal[0].in_step()), (19 * STRIDE + WIDE, 0));
    }

    #[test]
    fn a_short_run_is_a_formula() {
        assert!(found(&run(0, 300, 6)).is_empty());
    }

    #[test]
    fn a_word_spelt_otherwise_breaks_no_run() {
        let mut anchors = run(0, 0, 10);
        anchors.extend(run(10 * STRIDE, 10 * STRIDE + 2, 10));
        assert_eq!(found(&anchors).len(), 1);
    }

    #[test]
    fn a_run_goes_on_beyond_a_hole() {
        // Where the second has a hole, the first has 60 steps more.
        let mut anchors = run(0, 0, 6);
        anchors.extend(run(6 * STRIDE + 12 + 60, 6 * STRIDE + 12, 6));
        let whole = Band::default();
        let torn = Band::with_hole(6 * STRIDE + 12, 60);
        assert!(in_common(&anchors, Ribbons { a: &whole, b: &whole }).is_empty());
        let found = in_common(&anchors, Ribbons { a: &whole, b: &torn });
        assert_eq!(found.iter().map(Stretch::long).sum::<usize>(), 11 * STRIDE + 12 + WIDE, "{found:?}");
    }

    #[test]
    fn a_column_read_too_late_is_still_found() {
        let mut anchors = run(0, 600, 40);
        anchors.extend(run(400, 0, 40));
        assert_eq!(found(&anchors).len(), 2);
    }
}

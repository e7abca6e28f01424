//! Lines parted at the spaces between columns, and their order of reading.

use super::fit::Fitted;
use super::stretches::Stretch;

/// A space this wide parts a line wherever it is, in x-heights.
const APART: f64 = 5.0;
/// A space at least this wide parts a line when the lines above and below have it too, in x-heights.
const GUTTER: f64 = 0.8;
/// So many lines must have it.
const LINES: usize = 5;

/// A traced line with its inked stretches.
#[derive(Debug, Clone)]
pub(super) struct Inked {
    pub(super) line: Fitted,
    /// Columns its letters lean to the right for every row up.
    pub(super) slant: f64,
    pub(super) stretches: Vec<Stretch>,
    /// In which pass over the sizes it was found; 0 for display lines.
    pub(super) pass: usize,
    /// Whether it was parted from another at a gutter or a wide space.
    pub(super) cut: bool,
}

impl Inked {
    fn middle(&self) -> f64 {
        self.line.baseline(f64::midpoint(self.line.left, self.line.right))
    }

    /// The blank stretch about a column: what lies between its inked neighbours, without end beyond
    /// the last. `None` when the column is inked.
    fn blank_at(&self, x: f64) -> Option<Stretch> {
        let after = self.stretches.partition_point(|s| s.to <= x);
        let from = after.checked_sub(1).map_or(f64::NEG_INFINITY, |i| self.stretches[i].to);
        let to = self.stretches.get(after).map_or(f64::INFINITY, |s| s.from);
        (to > x).then_some(Stretch { from, to })
    }
}

/// Parts lines at wide spaces and at the gutters of columns.
pub(super) fn parted(mut lines: Vec<Inked>) -> Vec<Inked> {
    lines.sort_by(|a, b| a.middle().total_cmp(&b.middle()));
    let cuts: Vec<Vec<usize>> = (0..lines.len()).map(|i| cuts(&lines, i)).collect();
    let mut out = Vec::new();
    for (line, cuts) in lines.into_iter().zip(cuts) {
        let mut from = 0;
        let (slant, cut) = (line.slant, !cuts.is_empty());
        for to in cuts.into_iter().chain([line.stretches.len()]) {
            let stretches = line.stretches[from..to].to_vec();
            from = to;
            if let (Some(first), Some(last)) = (stretches.first(), stretches.last()) {
                let (left, right) = (first.from, last.to);
                let part = line.line.between(left, right);
                out.push(Inked { line: part, slant, stretches, pass: line.pass, cut });
            }
        }
    }
    out
}

/// The stretches of line `i` before which it is parted.
fn cuts(lines: &[Inked], i: usize) -> Vec<usize> {
    let line = &lines[i];
    let size = line.line.x_height;
    (1..line.stretches.len())
        .filter(|&k| {
            let space = Stretch { from: line.stretches[k - 1].to, to: line.stretches[k].from };
            space.width() >= APART * size
                || space.width() >= GUTTER * size && shared_by(lines, i, space, size) >= LINES
        })
        .collect()
}

/// How many lines running, line `i` among them, share a blank as wide as a gutter with `space`.
fn shared_by(lines: &[Inked], i: usize, space: Stretch, size: f64) -> usize {
    let mut count = 1;
    let mut common = space;
    let mut follow = |order: &mut dyn Iterator<Item = usize>| {
        let mut last = lines[i].middle();
        for j in order {
            let (other, x) = (&lines[j], f64::midpoint(common.from, common.to));
            let y = other.line.baseline(x);
            // A line that ends before the space says nothing; one far away belongs to something else.
            if x < other.line.left - size || x > other.line.right + size || (y - last).abs() < size {
                continue;
            }
            if (y - last).abs() > 5.0 * size {
                break;
            }
            let narrower = other.blank_at(x).map(|b| common.shared(b));
            match narrower.filter(|n| n.width() >= GUTTER * size) {
                Some(n) => common = n,
                None => break,
            }
            last = y;
            count += 1;
        }
    };
    follow(&mut (i + 1..lines.len()));
    follow(&mut (0..i).rev());
    count
}

/// The order of reading: a line comes before another below it in the same column, and a column before
/// the one to its right, as long as no line across both lies between (Breuel 2003, *High performance
/// document layout analysis*, the two ordering rules; from memory).
pub(super) fn reading_order(lines: &[Inked]) -> Vec<usize> {
    let n = lines.len();
    let boxes: Vec<(f64, f64, f64)> = lines.iter().map(|l| (l.line.left, l.line.right, l.middle())).collect();
    let meet = |a: usize, b: usize| boxes[a].0 < boxes[b].1 && boxes[b].0 < boxes[a].1;
    let mut down: Vec<usize> = (0..n).collect();
    down.sort_by(|&a, &b| boxes[a].2.total_cmp(&boxes[b].2));
    let before = |a: usize, b: usize| {
        let (la, lb) = (boxes[a], boxes[b]);
        if meet(a, b) {
            return la.2 < lb.2;
        }
        if la.1 > lb.0 {
            return false;
        }
        let (top, bottom) = (la.2.min(lb.2), la.2.max(lb.2));
        let from = down.partition_point(|&c| boxes[c].2 <= top);
        !down[from..].iter().take_while(|&&c| boxes[c].2 < bottom).any(|&c| meet(a, c) && meet(b, c))
    };
    let mut comes_before = vec![false; n * n];
    for (a, b) in (0..n).flat_map(|a| (0..n).map(move |b| (a, b))).filter(|(a, b)| a != b) {
        comes_before[a * n + b] = before(a, b);
    }
    let mut waiting: Vec<usize> =
        (0..n).map(|b| (0..n).filter(|&a| comes_before[a * n + b]).count()).collect();
    let mut order = Vec::with_capacity(n);
    let mut placed = vec![false; n];
    while order.len() < n {
        // The highest line nothing waits for; when the rules run in a circle, the one least waited for.
        let next = (0..n).filter(|&i| !placed[i]).min_by(|&a, &b| {
            waiting[a].cmp(&waiting[b]).then(boxes[a].2.total_cmp(&boxes[b].2)).then(a.cmp(&b))
        });
        let Some(next) = next else { break };
        placed[next] = true;
        order.push(next);
        for b in 0..n {
            if !placed[b] && comes_before[next * n + b] {
                waiting[b] -= 1;
            }
        }
    }
    order
}

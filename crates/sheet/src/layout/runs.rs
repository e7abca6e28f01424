//! Ink as runs, and runs that touch as components.

use crate::Plane;

/// A stretch of ink in one row: columns `from..to`.
#[derive(Debug, Clone, Copy)]
pub(super) struct Run {
    pub(super) y: u32,
    pub(super) from: u32,
    pub(super) to: u32,
    /// Which [`Component`] it belongs to.
    pub(super) part: u32,
}

/// One connected piece of ink (neighbours share an edge or a corner): a letter, a part of one,
/// several that touch, a rule, a piece of a cut.
#[derive(Debug, Clone, Copy)]
pub(super) struct Component {
    pub(super) left: u32,
    pub(super) top: u32,
    /// One beyond the last column.
    pub(super) right: u32,
    /// One beyond the last row.
    pub(super) bottom: u32,
    /// Pixels of ink.
    pub(super) area: u32,
    /// Runs; area / runs is the mean width of its strokes.
    pub(super) runs: u32,
}

impl Component {
    pub(super) fn width(&self) -> f64 {
        f64::from(self.right - self.left)
    }

    pub(super) fn height(&self) -> f64 {
        f64::from(self.bottom - self.top)
    }

    pub(super) fn middle(&self) -> (f64, f64) {
        (f64::from(self.left + self.right) / 2.0, f64::from(self.top + self.bottom) / 2.0)
    }
}

/// The ink of a level, in the two forms the layout is made from.
#[derive(Debug, Clone)]
pub(super) struct Pieces {
    pub(super) width: usize,
    pub(super) height: usize,
    pub(super) runs: Vec<Run>,
    pub(super) parts: Vec<Component>,
}

/// Runs and components of all pixels at least `least` dark.
pub(super) fn pieces(ink: &Plane<u8>, least: u8) -> Pieces {
    let mut runs: Vec<Run> = Vec::new();
    let mut roots: Vec<u32> = Vec::new();
    let mut above = 0..0;
    for y in 0..ink.height() {
        let start = runs.len();
        find_runs(ink.row(y), least, y as u32, &mut runs);
        roots.extend(start as u32..runs.len() as u32);
        join(&runs, &mut roots, above, start..runs.len());
        above = start..runs.len();
    }
    let parts = number(&mut runs, &mut roots);
    Pieces { width: ink.width(), height: ink.height(), runs, parts }
}

/// The runs of one row.
fn find_runs(row: &[u8], least: u8, y: u32, out: &mut Vec<Run>) {
    let mut x = 0;
    while x < row.len() {
        // Most of a page is bare: eight pixels at a time.
        if row[x] < least {
            if row.len() - x >= 8 && row[x..x + 8].iter().all(|&v| v < least) {
                x += 8;
            } else {
                x += 1;
            }
            continue;
        }
        let from = x;
        while x < row.len() && row[x] >= least {
            x += 1;
        }
        out.push(Run { y, from: from as u32, to: x as u32, part: 0 });
    }
}

/// Joins the runs of a row with those of the row above that they touch.
fn join(runs: &[Run], roots: &mut [u32], above: std::ops::Range<usize>, here: std::ops::Range<usize>) {
    let mut i = above.start;
    for j in here {
        while i < above.end && runs[i].to < runs[j].from {
            i += 1;
        }
        let mut k = i;
        while k < above.end && runs[k].from <= runs[j].to {
            let (a, b) = (root(roots, k as u32), root(roots, j as u32));
            roots[a.max(b) as usize] = a.min(b);
            k += 1;
        }
    }
}

/// The first run of a run's component, so far.
fn root(roots: &mut [u32], mut i: u32) -> u32 {
    while roots[i as usize] != i {
        roots[i as usize] = roots[roots[i as usize] as usize];
        i = roots[i as usize];
    }
    i
}

/// Numbers the components in the order of their first runs, and measures them.
fn number(runs: &mut [Run], roots: &mut [u32]) -> Vec<Component> {
    let mut parts: Vec<Component> = Vec::new();
    let mut names = vec![0u32; runs.len()];
    for i in 0..runs.len() {
        let first = root(roots, i as u32) as usize;
        if first == i {
            names[i] = parts.len() as u32;
            let r = runs[i];
            parts.push(Component { left: r.from, top: r.y, right: r.to, bottom: r.y + 1, area: 0, runs: 0 });
        }
        let run = &mut runs[i];
        run.part = names[first];
        let part = &mut parts[run.part as usize];
        part.left = part.left.min(run.from);
        part.right = part.right.max(run.to);
        part.bottom = part.bottom.max(run.y + 1);
        part.area += run.to - run.from;
        part.runs += 1;
    }
    parts
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_u_is_one_piece_and_a_dot_another() {
        let rows = ["X.X..", "X.X.X", "XXX.."];
        let data = rows.iter().flat_map(|r| r.bytes().map(|b| if b == b'X' { 255 } else { 0 })).collect();
        let found = pieces(&Plane::from_vec(5, 3, data).unwrap(), 128);
        let sizes: Vec<_> = found.parts.iter().map(|c| (c.area, c.width(), c.height())).collect();
        assert_eq!(sizes, [(7, 3.0, 3.0), (1, 1.0, 1.0)]);
    }

    proptest! {
        #[test]
        fn components_are_those_of_a_flood(w in 1usize..14, h in 1usize..10, bits in proptest::collection::vec(any::<bool>(), 140)) {
            let data: Vec<u8> = bits[..w * h].iter().map(|&b| if b { 255 } else { 0 }).collect();
            let plane = Plane::from_vec(w, h, data.clone()).unwrap();
            let found = pieces(&plane, 128);
            let mut seen = vec![false; w * h];
            let mut areas = Vec::new();
            for s in 0..w * h {
                if data[s] == 0 || seen[s] { continue; }
                seen[s] = true;
                let mut stack = vec![s];
                let mut area = 0;
                while let Some(i) = stack.pop() {
                    area += 1;
                    for dy in -1..=1isize { for dx in -1..=1isize {
                        let (x, y) = ((i % w) as isize + dx, (i / w) as isize + dy);
                        if x < 0 || y < 0 || x >= w as isize || y >= h as isize { continue; }
                        let j = y as usize * w + x as usize;
                        if data[j] > 0 && !seen[j] { seen[j] = true; stack.push(j); }
                    }}
                }
                areas.push(area);
            }
            let got: Vec<u32> = found.parts.iter().map(|c| c.area).collect();
            prop_assert_eq!(got, areas);
        }
    }
}

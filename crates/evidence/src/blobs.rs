//! Connected places of a small plane.

use sheet::Plane;

/// A connected place: its weight (sum of values), its box (left, top, right, bottom; ends beyond).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Blob {
    pub(crate) weight: u32,
    pub(crate) area: u32,
    pub(crate) bounds: [usize; 4],
}

/// The places of a plane, heaviest first, and which place every sample belongs to (0: none, else the
/// place's number in the list plus one).
#[derive(Debug, Clone)]
pub(crate) struct Blobs {
    pub(crate) all: Vec<Blob>,
    pub(crate) of: Vec<u32>,
}

/// All places of values above `floor` that touch by a side or a corner.
pub(crate) fn blobs(plane: &Plane<u8>, floor: u8) -> Blobs {
    let (w, h) = (plane.width(), plane.height());
    let runs = Runs::of(plane, floor);
    let mut of = vec![0u32; w * h];
    let mut found: Vec<Blob> = Vec::new();
    // The place of every run that stands for its like; the first run of a place does.
    let mut named = vec![0usize; runs.all.len()];
    for (i, run) in runs.all.iter().enumerate() {
        let first = runs.first_of(i);
        if first == i {
            named[i] = found.len();
            found.push(Blob { weight: 0, area: 0, bounds: [w, h, 0, 0] });
        }
        let blob = &mut found[named[first]];
        blob.weight += plane.row(run.y)[run.from..run.to].iter().map(|&v| u32::from(v)).sum::<u32>();
        blob.area += (run.to - run.from) as u32;
        let b = &mut blob.bounds;
        *b = [b[0].min(run.from), b[1].min(run.y), b[2].max(run.to), b[3].max(run.y + 1)];
    }
    let mut order: Vec<usize> = (0..found.len()).collect();
    order.sort_by(|&p, &q| found[q].weight.cmp(&found[p].weight).then(found[p].bounds.cmp(&found[q].bounds)));
    let mut number = vec![0u32; found.len()];
    for (i, &place) in order.iter().enumerate() {
        number[place] = i as u32 + 1;
    }
    for (i, run) in runs.all.iter().enumerate() {
        of[run.y * w..][run.from..run.to].fill(number[named[runs.first_of(i)]]);
    }
    Blobs { all: order.into_iter().map(|i| found[i]).collect(), of }
}

/// Samples side by side in one row, `to` beyond the last.
struct Run {
    y: usize,
    from: usize,
    to: usize,
}

/// The runs of a plane, row by row, and which of them touch.
struct Runs {
    all: Vec<Run>,
    /// For every run an earlier one that it touches, in one step or several; itself where there is none.
    earlier: Vec<usize>,
}

impl Runs {
    fn of(plane: &Plane<u8>, floor: u8) -> Self {
        let mut runs = Self { all: Vec::new(), earlier: Vec::new() };
        // Runs of the row above that may touch one to come.
        let mut above = 0..0;
        for y in 0..plane.height() {
            let begin = runs.all.len();
            let row = plane.row(y);
            let mut from = 0;
            while let Some(next) = row[from..].iter().position(|&v| v > floor) {
                from += next;
                let to = row[from..].iter().position(|&v| v <= floor).map_or(row.len(), |n| from + n);
                runs.push(Run { y, from, to }, &mut above);
                from = to;
            }
            above = begin..runs.all.len();
        }
        runs
    }

    fn push(&mut self, run: Run, above: &mut std::ops::Range<usize>) {
        let own = self.all.len();
        self.earlier.push(own);
        while above.start < above.end && self.all[above.start].to < run.from {
            above.start += 1;
        }
        for other in above.clone().take_while(|&i| self.all[i].from <= run.to) {
            let (p, q) = (self.first_of(other), self.first_of(own));
            self.earlier[p.max(q)] = p.min(q);
        }
        self.all.push(run);
    }

    /// The first run of the place that a run belongs to.
    fn first_of(&self, mut run: usize) -> usize {
        while self.earlier[run] != run {
            run = self.earlier[run];
        }
        run
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Going from sample to sample, as it is said.
    fn by_samples(plane: &Plane<u8>, floor: u8) -> Vec<u32> {
        let (w, h) = (plane.width() as isize, plane.height() as isize);
        let mut of = vec![0u32; plane.data().len()];
        let mut names = 0;
        for start in 0..of.len() {
            if of[start] != 0 || plane.data()[start] <= floor {
                continue;
            }
            names += 1;
            let mut stack = vec![start as isize];
            of[start] = names;
            while let Some(i) = stack.pop() {
                for (x, y) in (-1..=1).flat_map(|j| (-1..=1).map(move |k| (i % w + k, i / w + j))) {
                    let n = (y * w + x) as usize;
                    if (0..w).contains(&x) && (0..h).contains(&y) && of[n] == 0 && plane.data()[n] > floor {
                        of[n] = names;
                        stack.push(n as isize);
                    }
                }
            }
        }
        of
    }

    proptest! {
        #[test]
        fn runs_that_touch_are_samples_that_touch(
            w in 1usize..24, values in proptest::collection::vec(0u8..4, 1..400), floor in 0u8..3
        ) {
            let h = values.len().div_ceil(w);
            let mut values = values;
            values.resize(w * h, 0);
            let plane = Plane::from_vec(w, h, values).unwrap();
            let (found, plain) = (blobs(&plane, floor), by_samples(&plane, floor));
            prop_assert_eq!(found.all.len() as u32, plain.iter().copied().max().unwrap_or(0));
            for (i, (&p, &q)) in found.of.iter().zip(&plain).enumerate() {
                let first = plain.iter().position(|&v| v == q).unwrap();
                prop_assert_eq!(p, found.of[first], "sample {}", i);
                prop_assert_eq!(p == 0, q == 0);
            }
            for (i, blob) in found.all.iter().enumerate() {
                let own = |j: &usize| found.of[*j] == i as u32 + 1;
                let all: Vec<usize> = (0..w * h).filter(own).collect();
                prop_assert_eq!(blob.area as usize, all.len());
                prop_assert_eq!(blob.weight, all.iter().map(|&j| u32::from(plane.data()[j])).sum::<u32>());
                prop_assert_eq!(blob.bounds[1], all[0] / w);
                prop_assert_eq!(blob.bounds[0], all.iter().map(|j| j % w).min().unwrap());
                prop_assert_eq!(blob.bounds[2], all.iter().map(|j| j % w + 1).max().unwrap());
            }
            prop_assert!(found.all.windows(2).all(|p| p[0].weight >= p[1].weight));
        }
    }

    #[test]
    fn corners_join_and_gaps_part() {
        let p = Plane::from_vec(5, 3, vec![9, 0, 0, 0, 4, 0, 9, 0, 0, 0, 0, 0, 0, 7, 0]).unwrap();
        let b = blobs(&p, 0);
        assert_eq!(b.all.iter().map(|b| b.weight).collect::<Vec<_>>(), [18, 7, 4]);
        assert_eq!(b.all[0].bounds, [0, 0, 2, 2]);
        assert_eq!((b.of[0], b.of[6], b.of[13], b.of[4], b.of[1]), (1, 1, 2, 3, 0));
    }
}

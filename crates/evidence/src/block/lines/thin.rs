//! Strokes thinned to lines a pixel wide, and where these end and meet.

use sheet::{Plane, Point, Rect};

/// Ink that is a stroke, of 255.
const INKED: u8 = 115;
/// A line that ends so soon after it has left another, in units of the placement, is a bump in the stroke's edge.
const SPUR: f64 = 0.45;
/// Places nearer to each other than this, in units, are one.
const ONE: f64 = 0.3;

/// Ends and forks, pixels.
pub(super) struct Places {
    pub(super) ends: Vec<Point>,
    pub(super) forks: Vec<Point>,
}

/// Where lines of a cut end and meet.
pub(super) fn places(ink: &Plane<u8>, body: Rect, unit: f64) -> Places {
    let mut grid = Thin::of(ink, body);
    grid.thin();
    grid.without_spurs((SPUR * unit).round().max(2.0) as usize);
    let of = |wanted: &dyn Fn(&Thin, usize) -> bool| {
        let mut out: Vec<Point> = Vec::new();
        for i in (0..grid.set.len()).filter(|&i| grid.set[i] && wanted(&grid, i)) {
            let p = Point::new((i % grid.width) as f64 + 0.5, (i / grid.width) as f64 + 0.5);
            // Places come row by row, so that only the latest can be near.
            let near = |q: &Point| q.distance(p) < ONE * unit;
            if !out.iter().rev().take_while(|q| p.y - q.y < ONE * unit).any(near) {
                out.push(p);
            }
        }
        out
    };
    Places { ends: of(&|g, i| g.neighbours(i).count() == 1), forks: of(&|g, i| transitions(g.about(i)) >= 3) }
}

/// Pixels that are set, a margin of one bare pixel about them.
struct Thin {
    width: usize,
    set: Vec<bool>,
}

impl Thin {
    fn of(ink: &Plane<u8>, body: Rect) -> Self {
        let (width, height) = (ink.width(), ink.height());
        let mut set = vec![false; width * height];
        for y in 1..height.saturating_sub(1) {
            for (x, &v) in ink.row(y).iter().enumerate().take(width.saturating_sub(1)).skip(1) {
                set[y * width + x] = v > INKED && body.holds(Point::new(x as f64 + 0.5, y as f64 + 0.5));
            }
        }
        Self { width, set }
    }

    /// The eight neighbours, clockwise from above.
    fn around(&self, i: usize) -> [usize; 8] {
        let w = self.width;
        [i - w, i - w + 1, i + 1, i + w + 1, i + w, i + w - 1, i - 1, i - w - 1]
    }

    fn about(&self, i: usize) -> [bool; 8] {
        self.around(i).map(|j| self.set[j])
    }

    fn neighbours(&self, i: usize) -> impl Iterator<Item = usize> + '_ {
        self.around(i).into_iter().filter(|&j| self.set[j])
    }

    /// Takes the edges of strokes away until lines are left (Zhang and Suen, *Comm. ACM* 27, 1984, pp. 236-239; from
    /// memory).
    fn thin(&mut self) {
        let mut left: Vec<usize> = (0..self.set.len()).filter(|&i| self.set[i]).collect();
        loop {
            let before = left.len();
            for first in [true, false] {
                let gone: Vec<usize> = left.iter().copied().filter(|&i| self.may_go(i, first)).collect();
                for &i in &gone {
                    self.set[i] = false;
                }
                left.retain(|&i| self.set[i]);
            }
            if left.len() == before {
                return;
            }
        }
    }

    fn may_go(&self, i: usize, first: bool) -> bool {
        let p = self.about(i);
        let [above, _, right, _, below, _, beside, _] = p;
        let set = p.iter().filter(|v| **v).count();
        let sides = if first {
            !(right && below && (above || beside))
        } else {
            !(above && beside && (right || below))
        };
        sides && (2..=6).contains(&set) && transitions(p) == 1
    }

    /// Takes lines away that end within so many pixels of where they leave another.
    fn without_spurs(&mut self, long: usize) {
        let ends: Vec<usize> =
            (0..self.set.len()).filter(|&i| self.set[i] && self.neighbours(i).count() == 1).collect();
        for end in ends {
            let (mut path, mut at) = (vec![end], end);
            let is_spur = loop {
                let next: Vec<usize> = self.neighbours(at).filter(|j| !path.contains(j)).collect();
                match next[..] {
                    [one] if transitions(self.about(one)) < 3 && path.len() <= long => {
                        path.push(one);
                        at = one;
                    }
                    [] => break false,
                    // A fork, or pixels beside one.
                    _ => break path.len() <= long,
                }
            };
            if is_spur {
                for i in path {
                    self.set[i] = false;
                }
            }
        }
    }
}

/// How often, going once around, bare is followed by set.
fn transitions(p: [bool; 8]) -> usize {
    (0..8).filter(|&k| !p[k] && p[(k + 1) % 8]).count()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_thick_t_has_three_ends_and_one_fork() {
        let mut ink = Plane::filled(100, 100, 0u8);
        for y in 20..80 {
            for x in 20..80 {
                if y < 25 || (48..53).contains(&x) {
                    ink.row_mut(y)[x] = 255;
                }
            }
        }
        let found = places(&ink, Rect::new(0.0, 0.0, 100.0, 100.0), 10.0);
        assert_eq!((found.ends.len(), found.forks.len()), (3, 1));
        assert!(found.forks[0].distance(Point::new(50.5, 22.5)) < 3.0, "{:?}", found.forks);
    }

    #[test]
    fn a_ring_has_neither_and_bare_paper_has_nothing() {
        let mut ink = Plane::filled(80, 80, 0u8);
        for y in 0..80usize {
            for x in 0..80usize {
                let far = (x as f64 - 40.0).hypot(y as f64 - 40.0);
                ink.row_mut(y)[x] = if (22.0..27.0).contains(&far) { 255 } else { 0 };
            }
        }
        let body = Rect::new(0.0, 0.0, 80.0, 80.0);
        let found = places(&ink, body, 8.0);
        assert_eq!((found.ends.len(), found.forks.len()), (0, 0));
        let bare = places(&Plane::filled(80, 80, 0), body, 8.0);
        assert!(bare.ends.is_empty() && bare.forks.is_empty());
    }
}

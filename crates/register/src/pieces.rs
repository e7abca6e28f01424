//! What a crease cuts lies in pieces, and each is laid by its own print.
//!
//! The paper's motion beside a crease is told by what print there is on that side of it, and a line of type along which
//! a crease runs has hardly any other than itself.

use crate::crease::side_of;
use crate::{Laid, Pyramid};
use sheet::{Point, Rect, StraightMap};

/// A box of A in pieces, one for each part of the paper that it lies on.
#[derive(Debug, Clone)]
pub struct Pieces {
    /// The sides of the creases that a piece lies on, and its displacement by itself, pixels of A.
    own: Vec<(usize, Point)>,
    /// So much beside the strip that a crease hides is hidden too, pixels of A.
    margin: f64,
}

/// A piece holds print enough to be laid by it if its solid ink would fill this share of the square of the reach.
const LEAST_INK: f64 = 1.0;
/// Correlation below which what was found is not the same print.
const LEAST_SCORE: f64 = 0.6;
/// Of places that fit alike the nearer is taken: as much as this in correlation is given for one at the end of the reach.
const NEARER: f64 = 0.04;
/// Samples of the reach, at most.
const MOST_SAMPLES: usize = 8;

/// Lays each piece of a box by its own print, where it has enough, no further than `reach` (pixels of A) from where the
/// paper's motion puts it. `level` is of A's pyramid.
pub fn pieces(
    a: &Pyramid,
    b: &Pyramid,
    laid: &Laid,
    bounds: Rect,
    level: usize,
    (reach, margin): (f64, f64),
) -> Pieces {
    let unit = 2f64.powi(level as i32);
    let ink = a.level(level);
    let limit = |v: f64, end: usize| ((v / unit).max(0.0) as usize).min(end);
    let (x0, x1) = (limit(bounds.x, ink.width()), limit(bounds.right() + unit, ink.width()));
    let (y0, y1) = (limit(bounds.y, ink.height()), limit(bounds.bottom() + unit, ink.height()));
    let paper = &laid.map.paper;
    let mut of_sides: Vec<(usize, Piece)> = Vec::new();
    for (x, y) in (y0..y1).flat_map(|y| (x0..x1).map(move |x| (x, y))) {
        let p = Point::new(x as f64 + 0.5, y as f64 + 0.5) * unit;
        if paper.in_crease(p, margin) {
            continue;
        }
        let sides = side_of(paper.creases(), p);
        let piece = of_sides.iter().position(|(s, _)| *s == sides).unwrap_or_else(|| {
            of_sides.push((sides, Piece::default()));
            of_sides.len() - 1
        });
        of_sides[piece].1.push(x, y, ink.row(y)[x]);
    }
    let reach = ((reach / unit).ceil().max(1.0) as usize).min(MOST_SAMPLES);
    let own =
        of_sides.into_iter().map(|(sides, piece)| (sides, own(&piece, b, laid, level, reach))).collect();
    Pieces { own, margin }
}

impl Pieces {
    /// Where a place of the box lies on B; `None` where a crease hides it.
    pub fn to_b(&self, laid: &Laid, p: Point) -> Option<Point> {
        let map = &laid.map;
        if map.paper.in_crease(p, self.margin) {
            return None;
        }
        let sides = side_of(map.paper.creases(), p);
        let own = self.own.iter().find(|(s, _)| *s == sides).map_or(Point::new(0.0, 0.0), |piece| piece.1);
        Some(map.view.map(p + map.paper.at(p).0 + own))
    }
}

/// A piece: its samples of A's level, row by row.
#[derive(Debug, Default)]
struct Piece {
    runs: Vec<Run>,
}

/// Samples next to each other in a row, and their ink, of 255.
#[derive(Debug)]
struct Run {
    x: usize,
    y: usize,
    inks: Vec<u8>,
}

impl Piece {
    /// Adds a sample; samples come row by row.
    fn push(&mut self, x: usize, y: usize, ink: u8) {
        match self.runs.last_mut() {
            Some(run) if run.y == y && run.x + run.inks.len() == x => run.inks.push(ink),
            _ => self.runs.push(Run { x, y, inks: vec![ink] }),
        }
    }

    fn samples(&self) -> usize {
        self.runs.iter().map(|r| r.inks.len()).sum()
    }

    /// The sum of a function of each sample's ink.
    fn sum(&self, of: impl Fn(u64) -> u64) -> f64 {
        self.runs.iter().flat_map(|r| &r.inks).map(|&ink| of(ink.into())).sum::<u64>() as f64
    }
}

/// How far a piece lies from where the paper's motion puts it, pixels of A; nothing where its print does not tell.
fn own(piece: &Piece, b: &Pyramid, laid: &Laid, level: usize, reach: usize) -> Point {
    let still = Point::new(0.0, 0.0);
    let all = piece.sum(|ink| ink);
    if all / 255.0 < LEAST_INK * (reach * reach) as f64 {
        return still;
    }
    let unit = 2f64.powi(level as i32);
    let of_run = |run: &Run| {
        let along =
            run.inks.iter().zip(run.x..).fold(0.0, |s, (&ink, x)| s + f64::from(ink) * (x as f64 + 0.5));
        let ink: f64 = run.inks.iter().map(|&ink| f64::from(ink)).sum();
        Point::new(along, ink * (run.y as f64 + 0.5))
    };
    let middle = piece.runs.iter().fold(still, |m, run| m + of_run(run) * (1.0 / all));
    let (there, slope) = laid.map.to_b_with_slope(middle * unit);
    let level_b = laid.level_of_b(level);
    let (plane, down) = (b.level(level_b), 2f64.powi(-(level_b as i32)));
    // B's ink about the piece, on A's samples: the piece's own side of the crease goes on beyond it.
    let least = piece.runs.iter().fold([usize::MAX; 2], |[x, y], r| [x.min(r.x), y.min(r.y)]);
    let beyond = piece.runs.iter().fold([0; 2], |[x, y], r| [x.max(r.x + r.inks.len()), y.max(r.y + 1)]);
    let [w, h] = [0, 1].map(|k| beyond[k] - least[k] + 2 * reach);
    let corner = Point::new(least[0] as f64 - reach as f64, least[1] as f64 - reach as f64);
    let d = (corner + Point::new(w as f64 / 2.0, h as f64 / 2.0) - middle) * unit;
    let to_b = StraightMap { centre: there, slope };
    let about = StraightMap { centre: to_b.to(d.x, d.y), slope };
    let beside = plane.through(&about.between_levels(unit, down), w, h);
    let n = piece.samples() as f64;
    let spread = piece.sum(|ink| ink * ink) - all * all / n;
    let side = 2 * reach + 1;
    let fits: Vec<f64> = (0..side * side)
        .map(|k| {
            let (dx, dy) = (k % side, k / side);
            let mut sums = [0u64; 3];
            for run in &piece.runs {
                let of_b = &beside.row(run.y - least[1] + dy)[run.x - least[0] + dx..];
                // A row of a word is far from so long that these whole numbers would not hold it.
                let mut row = [0u32; 3];
                for (&v, &ink) in of_b.iter().zip(&run.inks) {
                    let (v, ink) = (u32::from(v), u32::from(ink));
                    row[0] += v;
                    row[1] += v * v;
                    row[2] += v * ink;
                }
                sums.iter_mut().zip(row).for_each(|(sum, row)| *sum += u64::from(row));
            }
            let [of_b, squares, products] = sums.map(|sum| sum as f64);
            (products - all * of_b / n) / (spread * (squares - of_b * of_b / n)).sqrt().max(n)
        })
        .collect();
    let off = |k: usize| k as f64 - reach as f64;
    let far = |k: usize| off(k % side).hypot(off(k / side)) / reach as f64;
    let rather = |k: &usize| fits[*k] - NEARER * far(*k).powi(2);
    let best = (0..fits.len()).max_by(|p, q| rather(p).total_cmp(&rather(q))).unwrap_or(0);
    let (x, y) = (best % side, best / side);
    if fits[best] < LEAST_SCORE || [x, y].into_iter().any(|v| v == 0 || v + 1 == side) {
        return still;
    }
    // The top of a parabola through three neighbours.
    let between = |step: usize| {
        let (low, mid, high) = (fits[best - step], fits[best], fits[best + step]);
        let bend = low - 2.0 * mid + high;
        if bend < 0.0 { ((low - high) / (2.0 * bend)).clamp(-0.5, 0.5) } else { 0.0 }
    };
    Point::new(off(x) + between(1), off(y) + between(side)) * unit
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::crease::Crease;
    use crate::{Field, PaperMap};
    use sheet::{Homography, Plane};

    /// Strokes of many heights and breadths.
    fn print() -> Plane<u8> {
        let mut plane = Plane::filled(240, 120, 0u8);
        for y in 0..120 {
            for x in 0..240 {
                if (x * 7 + (y / 9) * 31) % 23 < 8 && (y + (x / 13) * 5) % 17 < 11 {
                    plane.row_mut(y)[x] = 220;
                }
            }
        }
        plane
    }

    /// The paper lies still but for a crease across it, beyond which it is thought to jump by 4 pixels down.
    fn laid() -> Laid {
        let crease = Crease::straight(Point::new(120.0, 60.0), Point::new(0.0, 1.0), 4.0);
        let nodes = |y: f64| vec![Point::new(0.0, y); 4];
        let paper = Field::cut((2, 2), 200.0, &[crease], vec![(0, nodes(0.0)), (1, nodes(4.0))]).unwrap();
        Laid {
            map: PaperMap { view: Homography::identity(), paper },
            patches: Vec::new(),
            patch_side: 30.0,
            unit: 1.0,
            scale: 1.0,
            agreeing: 0,
            found_share: 1.0,
        }
    }

    #[test]
    fn each_piece_is_laid_by_its_own_print() {
        let a = print();
        // Above the crease it lies where it is thought to, below 2 pixels right and 1 down of that.
        let mut b = Plane::filled(240, 120, 0u8);
        for y in 0..120 {
            for x in 0..240 {
                let (dx, dy) = if y < 60 { (0, 0) } else { (2, 5) };
                if x >= dx && y >= dy {
                    b.row_mut(y)[x] = a.row(y - dy)[x - dx];
                }
            }
        }
        let (laid, a, b) = (laid(), Pyramid::new(a), Pyramid::new(b));
        let found = pieces(&a, &b, &laid, Rect::new(60.0, 30.0, 120.0, 60.0), 0, (5.0, 1.0));
        let above = found.to_b(&laid, Point::new(100.0, 40.0)).unwrap();
        let below = found.to_b(&laid, Point::new(100.0, 80.0)).unwrap();
        assert!(above.distance(Point::new(100.0, 40.0)) < 0.1, "{above:?}");
        assert!(below.distance(Point::new(102.0, 85.0)) < 0.1, "{below:?}");
        assert_eq!(found.to_b(&laid, Point::new(100.0, 62.0)), None);
    }

    #[test]
    fn a_piece_without_its_like_stays_where_the_paper_puts_it() {
        let (laid, a) = (laid(), Pyramid::new(print()));
        let blank = Pyramid::new(Plane::filled(240, 120, 0u8));
        let found = pieces(&a, &blank, &laid, Rect::new(60.0, 30.0, 120.0, 60.0), 0, (5.0, 1.0));
        assert_eq!(found.to_b(&laid, Point::new(100.0, 80.0)), Some(Point::new(100.0, 84.0)));
    }
}

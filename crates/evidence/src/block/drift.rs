//! How far strokes lie beside each other, measured across them.
//!
//! A window of a line cut holds a stroke or two, and along a stroke nothing tells where it lies. Across it a small shift shows
//! as more ink on one side and less on the other, which a heavier impression, fatter on both sides, does not. So the shift
//! is solved for from the slopes of the ink (the normal equations of Lucas and Kanade, *Proc. 7th IJCAI*, 1981, pp.
//! 674-679; from memory), the smooth motion that the ink about the window tells in the same way is taken from it, and what is
//! left is measured along the direction in which the window holds best.

use super::signs::STROKES;
use super::slopes::{Cells, Sums};
use sheet::{Plane, Point, Rect};

/// A cell is so many units of the placement wide, and a window two cells.
const CELL: f64 = 1.5;
const WINDOW: usize = 2;
/// Side of a window, in units of the placement.
pub(super) const SIDE: f64 = CELL * WINDOW as f64;
/// Cells about a window, to every side, that tell the smooth motion: three windows by three.
const ABOUT: usize = 2;
/// Correlation below which a window shows no stroke that both have.
const ALIKE: f64 = 0.5;
/// Fewest windows that tell anything.
const FEWEST: usize = 15;
/// Squared slope of ink that a shift is held to nothing by, where there is none to tell it.
const HELD: f64 = 0.5;

/// What a window in which both show strokes tells of how they lie on each other. Pixels of the planes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Beside {
    /// Its middle.
    pub(super) at: Point,
    /// Where its column and row are on the grid of cells.
    pub(super) cell: (usize, usize),
    /// How far the strokes of the second lie beside those of the first, across them, after the smooth motion about them.
    pub(super) across: f64,
    /// Standard deviation of that, by what of the difference no shift explains, were every pixel's its own.
    pub(super) sd: f64,
    /// How much its slopes tell: the squared slope along the direction in which it holds best.
    pub(super) steepest: f64,
    /// Squared slope along the strokes by that across them, 0 to 1.
    pub(super) round: f64,
    /// By how much each edge of the first's strokes stands farther out than the second's; and less the same about the window.
    pub(super) bolder: [f64; 2],
    /// Correlation of both in the window, and about it.
    pub(super) likeness: [f64; 2],
    /// Contrast of both, 0 to 1.
    pub(super) contrast: [f64; 2],
    /// Ink of both, 0 to 1.
    pub(super) ink: [f64; 2],
}

/// All windows of two planes of ink in which both show strokes.
pub(super) fn beside(cells: &Cells) -> Vec<Beside> {
    let (across, down) = (cells.across, cells.down);
    let last = |n: usize| (n + 1).saturating_sub(WINDOW);
    let places = (0..last(down)).flat_map(|y| (0..last(across)).map(move |x| (x, y)));
    places
        .filter_map(|(x, y)| {
            let window = cells.sum(x..x + WINDOW, y..y + WINDOW);
            if window.contrast().iter().any(|&c| c <= STROKES) {
                return None;
            }
            let about = cells.sum(
                x.saturating_sub(ABOUT)..(x + WINDOW + ABOUT).min(across),
                y.saturating_sub(ABOUT)..(y + WINDOW + ABOUT).min(down),
            );
            let middle = |corner: usize, cell: usize| {
                corner as f64 + (cell as f64 + WINDOW as f64 / 2.0) * cells.side as f64
            };
            let at = Point::new(middle(cells.corner.0, x), middle(cells.corner.1, y));
            Some(Beside::of(&window, &about.and(&window, -1.0), at, (x, y)))
        })
        .collect()
}

/// The cells over two planes of ink on one frame, 0 to 255; `body` is the cut on them, `unit` pixels the unit of the placement.
/// `None` where they are too few.
pub(super) fn cells(a: &Plane<u8>, b: &Plane<u8>, body: Rect, unit: f64) -> Option<Cells> {
    Cells::over(a, b, body, ((CELL * unit).round() as usize).max(4))
}

/// How far strokes lie beside each other: the median over windows that show strokes which both have, each counted as much as
/// its slopes tell; `None` of few.
pub(super) fn drift(all: &[Beside]) -> Option<f64> {
    let found: Vec<(f64, f64)> =
        all.iter().filter(|w| w.is_shared()).map(|w| (w.across.abs(), w.steepest)).collect();
    (found.len() >= FEWEST).then(|| weighted_median(found))
}

impl Beside {
    /// Whether it shows a stroke that both have.
    pub(super) fn is_shared(&self) -> bool {
        self.likeness[0] > ALIKE
    }

    fn of(window: &Sums, about: &Sums, at: Point, cell: (usize, usize)) -> Self {
        let (xx, yy) = (about.xx + HELD, about.yy + HELD);
        let all = (xx * yy - about.xy * about.xy).max(1e-9);
        let (dx, dy) =
            ((yy * about.xd - about.xy * about.yd) / all, (xx * about.yd - about.xy * about.xd) / all);
        let left = (window.xd - window.xx * dx - window.xy * dy, window.yd - window.xy * dx - window.yy * dy);
        // The direction in which the slopes of the window are steepest.
        let (half, off) = ((window.xx - window.yy) / 2.0, window.xy);
        let middle = f64::midpoint(window.xx, window.yy);
        let steepest = (middle + half.hypot(off)).max(1e-9);
        let turn = 0.5 * off.atan2(half);
        let held = turn.cos() * left.0 + turn.sin() * left.1;
        // What is left of the squared difference when the smooth motion and the shift across are taken out.
        let smooth = dx * (2.0 * window.xd - window.xx * dx - window.xy * dy)
            + dy * (2.0 * window.yd - window.xy * dx - window.yy * dy);
        let rest = (window.dd() - smooth - held * held / steepest).max(0.0);
        let n = window.n;
        Self {
            at,
            cell,
            across: held / steepest,
            sd: (rest / n / steepest).sqrt(),
            steepest,
            round: ((middle - half.hypot(off)) / steepest).clamp(0.0, 1.0),
            bolder: [window.bolder(), window.bolder() - if about.n > 0.0 { about.bolder() } else { 0.0 }],
            likeness: [window.likeness(), if about.n > 0.0 { about.likeness() } else { 0.0 }],
            contrast: window.contrast(),
            ink: [window.a / n, window.b / n],
        }
    }
}

fn weighted_median(mut found: Vec<(f64, f64)>) -> f64 {
    found.sort_by(|p, q| p.0.total_cmp(&q.0));
    let half = found.iter().map(|f| f.1).sum::<f64>() / 2.0;
    let mut so_far = 0.0;
    for &(value, weight) in &found {
        so_far += weight;
        if so_far >= half {
            return value;
        }
    }
    found.last().map_or(0.0, |f| f.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Strokes level and upright, each moved by its own `shift` and so wide, drawn with soft edges.
    fn strokes(shift: impl Fn(usize) -> f64, wide: f64) -> Plane<u8> {
        let mut ink = Plane::filled(300, 300, 0u8);
        for y in 0..300 {
            for (x, v) in ink.row_mut(y).iter_mut().enumerate() {
                let (along, k) = if (x / 60 + y / 60) % 2 == 0 { (x, x / 15) } else { (y, y / 15) };
                let middle = k as f64 * 15.0 + 7.5 + shift(7 * k + x / 60 * 3 + y / 60);
                let inside = wide / 2.0 - (along as f64 + 0.5 - middle).abs();
                *v = (255.0 * (inside + 0.5).clamp(0.0, 1.0)) as u8;
            }
        }
        ink
    }

    fn all(a: &Plane<u8>, b: &Plane<u8>) -> Vec<Beside> {
        cells(a, b, Rect::new(0.0, 0.0, 300.0, 300.0), 10.0).map_or_else(Vec::new, |c| beside(&c))
    }

    fn told(b: &Plane<u8>) -> f64 {
        drift(&all(&strokes(|_| 0.0, 4.0), b)).unwrap()
    }

    #[test]
    fn a_common_shift_and_a_heavier_impression_are_no_drift() {
        assert!(told(&strokes(|_| 0.4, 4.0)) < 0.06);
        assert!(told(&strokes(|_| 0.0, 5.5)) < 0.06);
    }

    #[test]
    fn strokes_that_wander_each_by_itself_drift() {
        let wander = |k: usize| if (k * 2_654_435_761) % 97 < 48 { -0.6 } else { 0.6 };
        let told = told(&strokes(wander, 4.0));
        assert!((0.2..0.8).contains(&told), "{told}");
    }

    #[test]
    fn bare_paper_tells_nothing() {
        let bare = Plane::filled(300, 300, 0u8);
        let told = all(&bare, &bare);
        assert_eq!((told.len(), drift(&told)), (0, None));
    }
}

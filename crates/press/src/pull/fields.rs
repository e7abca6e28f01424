//! Slow changes over the sheet: where the balls brought much ink or none.

use sheet::{Point, Rect};

use crate::ink::Ink;
use crate::noise::Noise;

/// How the forme was beaten, as fields over the forme (mm).
#[derive(Debug, Clone)]
pub(crate) struct Beating {
    uneven: Noise,
    unevenness: f64,
    dabs: Noise,
    dabbed: f64,
    missed: Patches,
    overinked: Patches,
    /// The side of the page that the frisket masked: everything beyond this line.
    bite: Option<(f64, bool)>,
}

/// How far apart dabs of the ink balls tell, in mm.
const DAB: f64 = 5.0;

/// Patches of a noise field that take up a given share of a page.
#[derive(Debug, Clone)]
struct Patches {
    noise: Noise,
    above: f64,
    share: f64,
}

impl Patches {
    fn new(seed: u64, purpose: &str, grain: f64, share: f64, page: Rect) -> Self {
        let noise = Noise::new(seed, purpose, grain);
        let side = 60;
        let mut values: Vec<f64> = (0..side * side)
            .map(|i| {
                let (u, v) = (f64::from(i % side) / f64::from(side), f64::from(i / side) / f64::from(side));
                noise.rough(page.x + u * page.w, page.y + v * page.h)
            })
            .collect();
        values.sort_by(f64::total_cmp);
        let rank = ((1.0 - share) * values.len() as f64) as usize;
        Self { noise, above: values.get(rank).copied().unwrap_or(f64::MAX), share }
    }

    /// 0 outside, 1 well inside, a soft edge between.
    fn at(&self, p: Point) -> f64 {
        if self.share <= 0.0 {
            return 0.0;
        }
        let t = ((self.noise.rough(p.x, p.y) - self.above) / 0.24 + 0.5).clamp(0.0, 1.0);
        t * t * (3.0 - 2.0 * t)
    }
}

impl Beating {
    pub(crate) fn new(ink: &Ink, page: Rect, seed: u64) -> Self {
        let bite = (ink.bite.0 > 0.0).then(|| {
            let right = seed.is_multiple_of(2);
            (if right { page.right() - ink.bite.0 } else { page.x + ink.bite.0 }, right)
        });
        Self {
            uneven: Noise::new(seed, "beating", 34.0),
            unevenness: ink.unevenness,
            dabs: Noise::new(seed, "dabs", DAB),
            dabbed: ink.on_wood.dabbed,
            missed: Patches::new(seed, "friars", 26.0, ink.missed.clamp(0.0, 0.9), page),
            overinked: Patches::new(seed, "monks", 24.0, ink.overinked.clamp(0.0, 0.9), page),
            bite,
        }
    }

    /// Ink on the type at a place, 1 being the usual.
    pub(crate) fn load(&self, p: Point) -> f64 {
        let bitten = self.bite.is_some_and(|(line, right)| (p.x > line) == right);
        let missed = if bitten { 1.0 } else { self.missed.at(p) };
        (1.0 + 0.35 * self.unevenness * self.uneven.rough(p.x, p.y) + 0.25 * self.overinked.at(p))
            * (1.0 - 0.88 * missed)
            * self.dab(p)
    }

    /// Between two dabs of the balls there is less ink than under them.
    fn dab(&self, p: Point) -> f64 {
        if self.dabbed <= 0.0 {
            return 1.0;
        }
        let between = (0.5 + 0.9 * self.dabs.rough(p.x, p.y)).clamp(0.0, 1.0);
        1.0 - 0.6 * self.dabbed * between * between
    }

    /// How far ink spreads beyond the type beyond the usual, in mm.
    pub(crate) fn gain(&self, p: Point) -> f64 {
        0.012 * self.unevenness * self.uneven.rough(p.x, p.y) + 0.05 * self.overinked.at(p)
    }

    /// How far counters fill, 0..1.
    pub(crate) fn filling(&self, p: Point) -> f64 {
        self.overinked.at(p)
    }

    /// Whether a place got next to no ink.
    pub(crate) fn is_missed(&self, p: Point) -> bool {
        self.load(p) < 0.4
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_share_that_was_missed_is_the_share_asked_for() {
        let page = Rect::new(0.0, 0.0, 120.0, 180.0);
        for share in [0.0, 0.1, 0.25] {
            let ink = Ink { missed: share, unevenness: 0.0, ..Ink::good() };
            let beating = Beating::new(&ink, page, 5);
            let missed = (0..10_000).filter(|i| {
                beating.is_missed(Point::new(f64::from(i % 100) * 1.2, f64::from(i / 100) * 1.8))
            });
            let got = missed.count() as f64 / 10_000.0;
            assert!((got - share).abs() < 0.06, "{got} for {share}");
        }
    }
}

//! Ink at full size, half, a quarter, and so on: most of the answer is found small.

use sheet::Plane;

/// A plane of ink and its halvings, largest first.
///
/// Level `k` is reduced by 2^k; a point (x, y) of the photograph stands at (x, y) / 2^k in it.
#[derive(Debug, Clone)]
pub struct Pyramid {
    levels: Vec<Plane<u8>>,
}

/// No level is made with a shorter side below this: nothing can be matched in it.
const SMALLEST_SIDE: usize = 24;

impl Pyramid {
    /// Halves `ink` until its shorter side would fall below 24 samples.
    pub fn new(ink: Plane<u8>) -> Self {
        let mut levels = vec![ink];
        while let Some(last) = levels.last() {
            if last.width().min(last.height()) / 2 < SMALLEST_SIDE {
                break;
            }
            let half = last.halved();
            levels.push(half);
        }
        Self { levels }
    }

    /// Number of levels; at least one.
    pub fn depth(&self) -> usize {
        self.levels.len()
    }

    /// Level `k`, or the smallest there is.
    pub fn level(&self, k: usize) -> &Plane<u8> {
        &self.levels[k.min(self.levels.len() - 1)]
    }

    /// The photograph's own size.
    pub fn full(&self) -> &Plane<u8> {
        &self.levels[0]
    }

    /// The largest level whose longer side is at most `longest` samples.
    pub fn level_within(&self, longest: usize) -> usize {
        (0..self.levels.len())
            .find(|&k| self.levels[k].width().max(self.levels[k].height()) <= longest)
            .unwrap_or(self.levels.len() - 1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn levels_halve_and_stop() {
        let p = Pyramid::new(Plane::filled(400, 200, 7u8));
        assert_eq!(p.depth(), 4);
        assert_eq!((p.level(3).width(), p.level(3).height()), (50, 25));
        assert_eq!(p.level_within(200), 1);
        assert_eq!(p.level(9).width(), 50);
    }
}

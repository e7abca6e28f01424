//! Smooth random fields over the plane, for ink, paper and light.

use crate::chance::mixed;

/// Value noise: random values on a lattice, joined by a smooth curve (after Perlin 2002's fade curve).
///
/// A pure function of place and seed, so that any part of a sheet can be computed on its own.
#[derive(Debug, Clone, Copy)]
pub struct Noise {
    seed: u32,
    per_mm: f64,
}

impl Noise {
    /// A field whose features are about `grain` millimetres across; fields of one seed and different purposes are not alike.
    pub fn new(seed: u64, purpose: &str, grain: f64) -> Self {
        let folded = mixed(seed, purpose);
        Self { seed: (folded ^ (folded >> 32)) as u32, per_mm: 1.0 / grain }
    }

    /// The field at a place given in millimetres: from -1 to 1, standard deviation about 0.4.
    pub fn at(&self, x: f64, y: f64) -> f64 {
        let (x, y) = (x * self.per_mm, y * self.per_mm);
        let (fx, fy) = (x.floor(), y.floor());
        let (ix, iy) = (fx as i32, fy as i32);
        let (u, v) = (fade(x - fx), fade(y - fy));
        let knot = |dx: i32, dy: i32| lattice(self.seed, ix.wrapping_add(dx), iy.wrapping_add(dy));
        let top = knot(0, 0) + u * (knot(1, 0) - knot(0, 0));
        let low = knot(0, 1) + u * (knot(1, 1) - knot(0, 1));
        top + v * (low - top)
    }

    /// Two octaves: the field with finer detail upon it, about -1 to 1.
    pub fn rough(&self, x: f64, y: f64) -> f64 {
        let finer = Self { seed: self.seed ^ 0x9e37_79b9, per_mm: self.per_mm * 2.3 };
        0.68 * self.at(x, y) + 0.32 * finer.at(x, y)
    }
}

/// 6t^5 - 15t^4 + 10t^3: flat at both ends.
fn fade(t: f64) -> f64 {
    t * t * t * (t * (t * 6.0 - 15.0) + 10.0)
}

/// A number from -1 to 1 for a lattice point.
fn lattice(seed: u32, x: i32, y: i32) -> f64 {
    f64::from(scrambled(seed, x, y)) / f64::from(u32::MAX) * 2.0 - 1.0
}

/// A well-mixed number for a lattice point (the finaliser of MurmurHash3, Appleby, public domain).
pub(crate) fn scrambled(seed: u32, x: i32, y: i32) -> u32 {
    let mut h = seed ^ (x as u32).wrapping_mul(0x85eb_ca6b) ^ (y as u32).wrapping_mul(0xc2b2_ae35);
    h ^= h >> 16;
    h = h.wrapping_mul(0x85eb_ca6b);
    h ^= h >> 13;
    h = h.wrapping_mul(0xc2b2_ae35);
    h ^ (h >> 16)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_field_is_smooth_and_bounded() {
        let noise = Noise::new(3, "test", 5.0);
        for i in 0..2000 {
            let x = f64::from(i) * 0.137 - 90.0;
            let (a, b) = (noise.at(x, 4.2), noise.at(x + 1e-4, 4.2));
            assert!(a.abs() <= 1.0 && (a - b).abs() < 2e-4);
        }
    }
}

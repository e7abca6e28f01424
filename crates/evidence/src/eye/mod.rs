//! Small pictures seen by convolutions (LeCun et al., *Proceedings of the IEEE* 86 (1998), 2278-2324): three layers, each followed by
//! the greatest of four neighbours. What is seen of them is fitted elsewhere (`changes::view`, `block::damage::view`).

mod seer;

pub(crate) use seer::{SIDE, Seer};

/// Taps of a convolution: three by three.
pub(crate) const TAPS: usize = 9;

/// Three layers of convolutions that a picture of `I` planes goes through.
#[derive(Debug)]
pub(crate) struct Eye<const I: usize, const C1: usize, const C2: usize, const C3: usize> {
    first: Layer<I, C1>,
    second: Layer<C1, C2>,
    third: Layer<C2, C3>,
}

/// Convolution of `I` planes to `O`.
#[derive(Debug)]
struct Layer<const I: usize, const O: usize> {
    taps: [[[f32; O]; I]; TAPS],
    bias: [f32; O],
}

/// Single-precision numbers, least significant byte first, one after the other; 0 when there are no more.
pub(crate) fn numbers(of: &[u8]) -> impl FnMut() -> f32 {
    let mut rest = of.as_chunks::<4>().0.iter().map(|b| f32::from_le_bytes(*b));
    move || rest.next().unwrap_or(0.0)
}

impl<const I: usize, const C1: usize, const C2: usize, const C3: usize> Eye<I, C1, C2, C3> {
    /// How many numbers it is made of.
    #[cfg(test)]
    pub(crate) const NUMBERS: usize = TAPS * (I * C1 + C1 * C2 + C2 * C3) + C1 + C2 + C3;

    /// From its fitted weights, layer by layer: first the weights by tap, by plane that goes in, by plane that comes out; then one
    /// for each that comes out.
    pub(crate) fn read(read: &mut impl FnMut() -> f32) -> Self {
        Self { first: Layer::read(read), second: Layer::read(read), third: Layer::read(read) }
    }

    /// What comes out of a picture of `side` by `side` samples (by rows, of each its planes, 0 to 1): an eighth of the side by as
    /// much, by rows, of each so many planes.
    pub(crate) fn sees(&self, picture: &[[f32; I]], side: usize) -> Vec<[f32; C3]> {
        self.sees_strip(picture, side, side)
    }

    /// The same of a picture that is no square; both sides multiples of eight.
    pub(crate) fn sees_strip(&self, picture: &[[f32; I]], wide: usize, high: usize) -> Vec<[f32; C3]> {
        let first = self.first.through(picture, wide, high);
        let second = self.second.through(&first, wide / 2, high / 2);
        self.third.through(&second, wide / 4, high / 4)
    }
}

impl<const I: usize, const O: usize> Layer<I, O> {
    fn read(read: &mut impl FnMut() -> f32) -> Self {
        let taps = std::array::from_fn(|_| std::array::from_fn(|_| std::array::from_fn(|_| read())));
        Self { taps, bias: std::array::from_fn(|_| read()) }
    }

    /// A picture of `wide` by `high` samples through the layer, what is below nothing set to nothing, and of four
    /// neighbours the greatest. Beyond the picture nothing stands.
    fn through(&self, picture: &[[f32; I]], wide: usize, high: usize) -> Vec<[f32; O]> {
        let half = wide / 2;
        let mut out = vec![[0.0f32; O]; half * (high / 2)];
        for y in 0..high {
            for x in 0..wide {
                let mut sum = self.bias;
                for (k, tap) in self.taps.iter().enumerate() {
                    let (u, v) = (x + k % 3, y + k / 3);
                    if u == 0 || v == 0 || u > wide || v > high {
                        continue;
                    }
                    for (value, weights) in picture[(v - 1) * wide + u - 1].iter().zip(tap) {
                        for (s, w) in sum.iter_mut().zip(weights) {
                            *s += value * w;
                        }
                    }
                }
                for (o, s) in out[y / 2 * half + x / 2].iter_mut().zip(sum) {
                    *o = o.max(s);
                }
            }
        }
        out
    }
}

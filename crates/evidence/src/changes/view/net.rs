//! The network that looks at a view: of each of its two pictures three layers of convolutions, each followed by the
//! greatest of four neighbours, and of both together two full layers.

use std::sync::LazyLock;

use super::picture::SIDE;
use crate::eye::{Eye, numbers};

/// Planes after each layer of convolutions, close by and of what stands about; and values between the full layers.
const CLOSE: [usize; 3] = [24, 48, 64];
const ABOUT: [usize; 3] = [16, 24, 32];
const HIDDEN: usize = 64;
/// Samples of a side that come out of the convolutions.
const LAST: usize = SIDE / 8;

/// The fitted weights, as single-precision numbers, least significant byte first: layer by layer, first the weights by
/// tap, by plane that goes in, by plane that comes out; then one for each that comes out. Close by before what stands about.
static FITTED: &[u8] = include_bytes!("net.f32");

#[derive(Debug)]
struct Net {
    close: Eye<2, { CLOSE[0] }, { CLOSE[1] }, { CLOSE[2] }>,
    about: Eye<2, { ABOUT[0] }, { ABOUT[1] }, { ABOUT[2] }>,
    /// By sample and plane that comes out of the convolutions.
    full: Vec<[f32; HIDDEN]>,
    full_bias: [f32; HIDDEN],
    last: [f32; HIDDEN],
    last_bias: f32,
}

static NET: LazyLock<Net> = LazyLock::new(|| {
    let mut read = numbers(FITTED);
    Net {
        close: Eye::read(&mut read),
        about: Eye::read(&mut read),
        full: (0..LAST * LAST * (CLOSE[2] + ABOUT[2])).map(|_| std::array::from_fn(|_| read())).collect(),
        full_bias: std::array::from_fn(|_| read()),
        last: std::array::from_fn(|_| read()),
        last_bias: read(),
    }
});

/// Log odds of a change; ink of both impressions close by, and of what stands about, by rows, of 255.
pub(super) fn log_odds(close: [&[u8]; 2], about: [&[u8]; 2]) -> f32 {
    let net = &*NET;
    let (close, about) = (net.close.sees(&together(close), SIDE), net.about.sees(&together(about), SIDE));
    let mut hidden = net.full_bias;
    for (v, weights) in close.as_flattened().iter().chain(about.as_flattened()).zip(&net.full) {
        for (h, w) in hidden.iter_mut().zip(weights) {
            *h += v * w;
        }
    }
    hidden.iter().zip(&net.last).fold(net.last_bias, |sum, (h, w)| sum + h.max(0.0) * w)
}

/// Both impressions, sample by sample.
fn together(ink: [&[u8]; 2]) -> Vec<[f32; 2]> {
    let of_1 = |v: &u8| f32::from(*v) / 255.0;
    ink[0].iter().zip(ink[1]).map(|(p, q)| [of_1(p), of_1(q)]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_weights_fill_the_net() {
        type Close = Eye<2, { CLOSE[0] }, { CLOSE[1] }, { CLOSE[2] }>;
        type About = Eye<2, { ABOUT[0] }, { ABOUT[1] }, { ABOUT[2] }>;
        let full = LAST * LAST * (CLOSE[2] + ABOUT[2]) * HIDDEN + HIDDEN + HIDDEN + 1;
        assert_eq!(FITTED.len(), 4 * (Close::NUMBERS + About::NUMBERS + full));
    }

    /// Against PyTorch 2.15 (torch.nn.functional.conv2d, max_pool2d, linear) with the same weights: two chequers, and
    /// nothing at all.
    #[test]
    fn it_gives_what_pytorch_gives() {
        let picture = |of: fn(usize, usize) -> usize| -> Vec<u8> {
            (0..SIDE * SIDE).map(|i| of(i % SIDE, i / SIDE) as u8).collect()
        };
        let made_up = [picture(|x, y| (x / 6 + y / 9) % 2 * 220), picture(|x, y| (x / 7 + y / 5) % 2 * 180)];
        let made_up = [made_up[0].as_slice(), &made_up[1]];
        let blank = picture(|_, _| 0);
        let blank = [blank.as_slice(); 2];
        let exchanged = [made_up[1], made_up[0]];
        for ((close, about), wanted) in [(made_up, exchanged), (blank, blank)].into_iter().zip(PYTORCH) {
            let given = log_odds(close, about);
            assert!((given - wanted).abs() < 1e-3, "{given} {wanted}");
        }
    }
    const PYTORCH: [f32; 2] = [-1.017_447, -7.708_56];
}

//! Both impressions of a place and of what stands about it, as small pictures of a fixed size, and what they alone say.

mod net;
mod picture;

pub(super) use picture::Picture;

/// Log odds so low that the other way round is not asked for: nearly all places are not changed.
const LITTLE: f32 = -5.0;

/// Both impressions of a place, close by, and of what stands about it.
#[derive(Debug, Clone, PartialEq)]
pub struct View {
    close: Picture,
    about: Picture,
}

impl View {
    pub(super) fn new(close: Picture, about: Picture) -> Self {
        Self { close, about }
    }

    /// The samples, of 255: 2 · 32 · 32 close by, as many of what stands about it; of each, by rows, the first
    /// impression's before the second's.
    pub fn samples(&self) -> [&[u8]; 2] {
        [self.close.samples(), self.about.samples()]
    }

    /// Log odds, by these pictures alone, that the type in their middle was changed; the two taken either way round,
    /// unless one way leaves hardly a chance.
    ///
    /// A small network of convolutions (LeCun et al., *Proceedings of the IEEE* 86 (1998), 2278-2324), fitted to places
    /// of simulated pairs that were corrected in many places (`cargo xtask bench fit view`). It knows nothing of the
    /// page beyond: what is usual there the regressions put beside it.
    pub(super) fn log_odds(&self) -> f64 {
        let (close, about) = (self.close.both(), self.about.both());
        let told = net::log_odds(close, about);
        if told <= LITTLE {
            return f64::from(told);
        }
        let exchanged = |[first, second]: [_; 2]| [second, first];
        f64::from(told + net::log_odds(exchanged(close), exchanged(about))) / 2.0
    }
}

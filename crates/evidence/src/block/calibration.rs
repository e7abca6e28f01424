//! Fitted by `cargo xtask bench fit blocks`. Not to be edited by hand.

/// What each sign adds to the weight (log10), in the order of `weight::told`; and what is added to all.
pub(super) const SLOPES: [f64; 7] = [0.6085, -0.4742, -0.0927, -0.6295, -1.6934, 4.0161, -1.6801];
pub(super) const OFFSET: f64 = -4.5650;
/// Simulated pairs that it was fitted to, and those of them that are of the rarer kind.
pub(super) const PAIRS: usize = 286;
pub(super) const OF_THE_RARER_KIND: usize = 115;

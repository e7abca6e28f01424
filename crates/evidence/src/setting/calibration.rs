//! Fitted by `cargo xtask bench fit weight`. Not to be edited by hand.

/// Weight (log10) = `SLOPE` * asinh(raw sum of the lines) + `OFFSET`.
pub(super) const SLOPE: f64 = 2.427;
pub(super) const OFFSET: f64 = -3.574;
/// Simulated pairs that it was fitted to, and those of them that are of the rarer kind.
pub(super) const PAIRS: usize = 450;
pub(super) const OF_THE_RARER_KIND: usize = 150;
/// Lines that tell, from which a weight is given whole; it was fitted to pairs that have so many.
pub(super) const TELLING_LINES: f64 = 5.0;

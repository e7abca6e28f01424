//! Fitted by `cargo xtask bench fit weight`. Not to be edited by hand.

/// Weight (log10) = `SLOPE` * asinh(raw sum of the lines) + `OFFSET`.
pub(super) const SLOPE: f64 = 0.988;
pub(super) const OFFSET: f64 = -0.120;
/// Share of lines that look set again in one setting, and that look as if they stood where all were.
pub(super) const LIKE_SET_AGAIN: f64 = 0.03;
pub(super) const LIKE_STANDING: f64 = 0.01;
/// Simulated pairs that it was fitted to, and those of them that are of the rarer kind.
pub(super) const PAIRS: usize = 450;
pub(super) const OF_THE_RARER_KIND: usize = 150;
/// Lines that tell, from which a weight is given whole; it was fitted to pairs that have so many.
pub(super) const TELLING_LINES: f64 = 5.0;

//! Numbers that look drawn by chance, the same on every machine; for tests.

/// One for each `i`, evenly spread from 0 to 1. SplitMix64 (Steele, Lea and Flood, OOPSLA 2014; from memory): numbers in a row must not
/// make stripes.
pub(crate) fn noise(i: usize) -> f64 {
    let mut z = (i as u64 + 1).wrapping_mul(0x9E37_79B9_7F4A_7C15);
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    ((z ^ (z >> 31)) >> 40) as f64 / 2f64.powi(24)
}

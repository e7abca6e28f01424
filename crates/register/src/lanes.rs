//! Eight values at once, in single precision.

use wide::f32x8;

pub(crate) const LANES: usize = 8;

/// What `value` says of each, eight to a row; what is beyond the last is 0.
pub(crate) fn column<T>(of: &[T], value: impl Fn(&T) -> f64) -> Vec<f32x8> {
    of.chunks(LANES).map(|row| row_of(row, &value)).collect()
}

/// The same of up to eight.
pub(crate) fn row_of<T>(of: &[T], value: impl Fn(&T) -> f64) -> f32x8 {
    let mut lanes = [0.0f32; LANES];
    for (lane, item) in lanes.iter_mut().zip(of) {
        *lane = value(item) as f32;
    }
    f32x8::new(lanes)
}

/// One after the other: in which order a processor adds its own lanes differs from one to the next.
pub(crate) fn sum(lanes: f32x8) -> f64 {
    lanes.to_array().iter().map(|&lane| f64::from(lane)).sum()
}

/// The value of rank `n` (from 0) among the first `len`, to a 65,000th of their range: halved so many times, the part
/// kept in which it lies. Counting eight at once is quicker than sorting, where nothing hangs on the last digits.
pub(crate) fn ranked(values: &[f32x8], len: usize, n: usize) -> f64 {
    const HALVINGS: usize = 16;
    let (full, rest) = values.split_at(len / LANES);
    // What fills the last row up is above all.
    let last = rest.first().map(|lanes| {
        let mut lanes = lanes.to_array();
        lanes[len % LANES..].fill(f32::INFINITY);
        f32x8::new(lanes)
    });
    let rows = || full.iter().copied().chain(last);
    let all = rows().flat_map(f32x8::to_array).take(len);
    let (mut low, mut high) =
        all.fold((f32::INFINITY, f32::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)));
    for _ in 0..HALVINGS {
        let middle = f32::midpoint(low, high);
        let below = rows().map(|lanes| lanes.simd_le(f32x8::splat(middle)) & f32x8::ONE);
        if sum(below.fold(f32x8::ZERO, |sum, one| sum + one)) as usize > n {
            high = middle;
        } else {
            low = middle;
        }
    }
    f64::from(f32::midpoint(low, high))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_value_of_a_rank_is_that_of_sorting() {
        for len in [1, 7, 8, 9, 64, 150] {
            let value = |i: &usize| ((*i as f64 * 12.9898).sin() * 43758.547).fract() * 40.0;
            let all: Vec<usize> = (0..len).collect();
            let mut sorted: Vec<f64> = all.iter().map(value).collect();
            sorted.sort_by(f64::total_cmp);
            for n in [0, len / 3, len / 2, len - 1] {
                let found = ranked(&column(&all, value), len, n);
                assert!((found - sorted[n]).abs() < 0.002, "{n} of {len}: {found} {}", sorted[n]);
            }
        }
    }
}

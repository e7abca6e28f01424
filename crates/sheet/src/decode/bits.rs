//! Samples of fewer than eight bits, packed into bytes, the first in the highest bits.

/// The first `count` samples of a row of `bits`-bit samples (1, 2, 4 or 8), as they are.
pub(super) fn unpacked(row: &[u8], bits: u8, count: usize) -> Vec<u8> {
    let mask = u8::MAX >> (8 - bits);
    let a_byte = usize::from(8 / bits);
    let shifts = (0..a_byte).map(|i| 8 - bits * (i as u8 + 1)).collect::<Vec<_>>();
    row.iter().flat_map(|&byte| shifts.iter().map(move |&s| byte >> s & mask)).take(count).collect()
}

/// The factor that spreads `bits`-bit samples (1, 2, 4 or 8) over 0 to 255.
pub(super) fn spread(bits: u8) -> u8 {
    u8::MAX / (u8::MAX >> (8 - bits))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn samples_come_out_from_the_highest_bits_down() {
        assert_eq!(unpacked(&[0b1010_0000, 0xFF], 1, 9), [1, 0, 1, 0, 0, 0, 0, 0, 1]);
        assert_eq!(unpacked(&[0b11_10_01_00], 2, 4), [3, 2, 1, 0]);
        assert_eq!(unpacked(&[0xA5], 4, 2), [10, 5]);
        assert_eq!(unpacked(&[7, 9], 8, 2), [7, 9]);
        assert_eq!([1, 2, 4, 8].map(spread), [255, 85, 17, 1]);
    }
}

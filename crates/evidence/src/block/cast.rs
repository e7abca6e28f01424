//! Whether the second of two impressions of one design may be of a cast in metal.

/// A cast is smaller than what it was cast from by so much, as a share: metal shrinks as it sets by about a half to one percent
/// (from memory), to which a tenth and a half are added for what a photograph's scale and the paper leave unsure.
const SMALLER: std::ops::RangeInclusive<f64> = 0.004..=0.015;
/// Both ways alike to this: paper and wood give one way by more (common practice, no source).
const ALIKE: f64 = 0.0025;

/// What to say of a second impression with this width and height by those of the first, in millimetres; `None` where nothing
/// speaks for a cast.
pub(super) fn perhaps_a_cast([across, down]: [f64; 2]) -> Option<String> {
    let is_cast =
        [across, down].iter().all(|r| SMALLER.contains(&(1.0 - r))) && (across - down).abs() <= ALIKE;
    is_cast.then(|| {
        format!(
            "The second is smaller by {:.1} percent across and {:.1} percent down: wood shrinks across the grain alone, and a \
             cast of the block in metal both ways alike; so it may be of a cast, or on paper that dried otherwise.",
            100.0 * (1.0 - across),
            100.0 * (1.0 - down)
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_smaller_both_ways_alike_may_be_a_cast() {
        let said = perhaps_a_cast([0.992, 0.9925]).unwrap();
        assert!(said.contains("0.8 percent across"), "{said}");
        // Wood, a copy of another size, and the same size.
        for ratio in [[0.990, 0.999], [0.97, 0.97], [1.0, 1.0], [1.008, 1.008]] {
            assert_eq!(perhaps_a_cast(ratio), None);
        }
    }
}

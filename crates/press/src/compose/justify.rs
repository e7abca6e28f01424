//! Justifying: filling a line out to the measure with the spaces that a fount has.

use crate::chance::Chance;

/// How evenly a compositor spaces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Care {
    /// Thick and thin spaces as they come to hand.
    Careless,
    /// As even as whole spaces allow.
    Ordinary,
    /// Follows printed copy, its spaces as well as its words, a tenth of a millimetre off here and there.
    Careful,
    /// The same, so well that the eye sees nothing.
    VeryCareful,
}

impl Care {
    /// Every degree, the least careful first.
    pub const ALL: [Self; 4] = [Self::Careless, Self::Ordinary, Self::Careful, Self::VeryCareful];
}

/// The thinnest space or lead that is put between words, as a part of the body.
const HAIR: f64 = 1.0 / 12.0;
/// The narrowest white that still parts two words, as a part of the body (a thin space is 1/5).
pub(crate) const THIN: f64 = 0.18;
/// The white a compositor puts between words before he justifies, as a part of the body (a thick space).
pub(crate) const THICK: f64 = 1.0 / 3.0;

/// Makes up `total` mm of white between words out of spaces on a body: whole hair-widths for the most
/// part, with slips of paper for the rest. `after_point` says where more white is usual.
///
/// The gaps sum to `total` exactly. Mixing thick, middle and thin spaces leaves gaps that differ by one
/// or several hair-widths; a careless man leaves more of that.
pub(crate) fn spaces(
    total: f64,
    after_point: &[bool],
    body: f64,
    care: Care,
    chance: &mut Chance,
) -> Vec<f64> {
    let n = after_point.len();
    if n == 0 {
        return Vec::new();
    }
    let hair = HAIR * body;
    let base = (total / n as f64 / hair).floor() * hair;
    let mut gaps = vec![base; n];
    let mut order: Vec<usize> = (0..n).collect();
    chance.shuffle(&mut order);
    // Where a point stands, the extra space goes first.
    order.sort_by_key(|&i| !after_point[i]);
    let mut left = total - base * n as f64;
    for &i in order.iter().cycle() {
        if left < hair {
            break;
        }
        gaps[i] += hair;
        left -= hair;
    }
    gaps[chance.below(n)] += left;
    let swaps = if care == Care::Careless { n } else { n / 4 };
    for _ in 0..swaps {
        let (from, to) = (chance.below(n), chance.below(n));
        let moved = hair * chance.between(0.6, 1.4);
        if from != to && gaps[from] - moved >= THIN * body {
            gaps[from] -= moved;
            gaps[to] += moved;
        }
    }
    gaps
}

/// The spaces of printed copy, followed as well as `care` allows, and justified to `total` mm again.
pub(crate) fn copied(copy: &[f64], total: f64, body: f64, care: Care, chance: &mut Chance) -> Vec<f64> {
    let n = copy.len();
    if n == 0 {
        return Vec::new();
    }
    let spread = if care == Care::VeryCareful { 0.02 } else { 0.04 } * body;
    let wanted: Vec<f64> = copy.iter().map(|g| (g + chance.normal(spread)).max(THIN * body)).collect();
    let over = (total - wanted.iter().sum::<f64>()) / n as f64;
    wanted.into_iter().map(|g| g + over).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_line_is_always_full(n in 1usize..15, each in 0.2f64..1.2, body in 3.0f64..7.0, seed: u64) {
            let mut chance = Chance::new(seed, "test");
            let total = each * body * n as f64;
            for care in [Care::Careless, Care::Ordinary] {
                let gaps = spaces(total, &vec![false; n], body, care, &mut chance);
                prop_assert!((gaps.iter().sum::<f64>() - total).abs() < 1e-9);
                prop_assert!(gaps.iter().all(|g| *g > 0.1 * body));
            }
        }

        #[test]
        fn a_careful_man_drifts_and_comes_back(seed: u64) {
            let mut chance = Chance::new(seed, "test");
            let copy = vec![1.5; 10];
            let gaps = copied(&copy, 15.0, 4.2, Care::VeryCareful, &mut chance);
            prop_assert!((gaps.iter().sum::<f64>() - 15.0).abs() < 1e-9);
            prop_assert!(gaps.iter().any(|g| (g - 1.5).abs() > 0.005));
            prop_assert!(gaps.iter().all(|g| (g - 1.5).abs() < 0.6));
        }
    }
}

//! Where the numbers of damages stand beside a picture of their block.

use super::DamageModel;

/// The margin on either side, as a share of the width of the picture.
pub(crate) const MARGIN: f64 = 0.075;
/// Numbers in the margin stand so far apart at least, as a share of the height of the picture, where there is room.
const APART: f64 = 0.045;

#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Side {
    Left,
    Right,
}

/// Where the number of a damage stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Label {
    pub(crate) side: Side,
    /// How far down, as a share of the picture's height.
    pub(crate) down: f64,
}

/// Numbers in the nearer margin, each beside its damage as far as there is room.
pub(crate) fn labels(damages: &[DamageModel]) -> Vec<Label> {
    let middle = |i: usize| damages[i].frame.x + damages[i].frame.w / 2.0;
    let down = |i: usize| (damages[i].frame.y + damages[i].frame.h / 2.0).clamp(0.0, 1.0);
    let mut by_x: Vec<usize> = (0..damages.len()).collect();
    by_x.sort_by(|&a, &b| middle(a).total_cmp(&middle(b)));
    // Where one margin would hold far more than the other, those of the middle go across.
    let least = damages.len() / 3;
    let split = by_x.partition_point(|&i| middle(i) < 0.5).clamp(least, damages.len() - least);
    let mut out = vec![Label { side: Side::Left, down: 0.0 }; damages.len()];
    let (left, right) = by_x.split_at(split);
    for (some, side) in [(left, Side::Left), (right, Side::Right)] {
        let mut some = some.to_vec();
        some.sort_by(|&a, &b| down(a).total_cmp(&down(b)).then(a.cmp(&b)));
        let wanted: Vec<f64> = some.iter().map(|&i| down(i)).collect();
        for (&i, down) in some.iter().zip(apart(&wanted)) {
            out[i] = Label { side, down };
        }
    }
    out
}

/// Places from 0 to 1, in order, moved no farther than needed to stand apart.
fn apart(wanted: &[f64]) -> Vec<f64> {
    let gap = APART.min(1.0 / wanted.len().max(1) as f64);
    let (low, high) = (gap / 2.0, 1.0 - gap / 2.0);
    let mut out: Vec<f64> = wanted.iter().map(|w| w.clamp(low, high)).collect();
    for i in 1..out.len() {
        out[i] = out[i].max(out[i - 1] + gap);
    }
    let mut next = high + gap;
    for at in out.iter_mut().rev() {
        *at = at.min(next - gap);
        next = *at;
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_that_would_lie_on_each_other_are_moved_apart_and_keep_their_order() {
        let placed = apart(&[0.5, 0.5, 0.505, 0.99, 1.0]);
        for pair in placed.windows(2) {
            assert!(pair[1] - pair[0] > APART - 1e-9, "{placed:?}");
        }
        assert!(placed[0] <= 0.5 && placed[4] <= 1.0 - APART / 2.0 + 1e-9);
        assert_eq!(apart(&[0.3]), [0.3]);
        // More than there is room for stand as far apart as they can.
        let many = apart(&[0.5; 40]);
        assert!(many.windows(2).all(|p| (p[1] - p[0] - 1.0 / 40.0).abs() < 1e-9));
    }
}

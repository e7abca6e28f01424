//! How large the second of two impressions is by the first, and whether one block on two sheets has room for that.

use super::{Cut, LaidCut};
use sheet::Point;
use trade::bodies::SHRINKAGE;
use trade::wood;

/// Standard deviations by which both scales together may be off.
const SDS: f64 = 2.0;

/// The second's width and height by those of the first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Size {
    /// Across and down.
    pub(super) ratio: [f64; 2],
    /// Standard deviation of both by what is not known of the scales, as a share; `None` where a photograph has none, and the ratio
    /// is of pixels.
    pub(super) scale_sd: Option<f64>,
}

impl Size {
    /// Of two that are laid.
    pub(super) fn of(a: &Cut, b: &Cut, laid: &LaidCut) -> Self {
        let middle = a.body.centre();
        let half = Point::new(a.body.w / 4.0, a.body.h / 4.0);
        let to = |x: f64, y: f64| laid.laid.map.to_b(middle + Point::new(x, y));
        let across = to(half.x, 0.0).distance(to(-half.x, 0.0)) / (2.0 * half.x);
        let down = to(0.0, half.y).distance(to(0.0, -half.y)) / (2.0 * half.y);
        let scales = a.scale.as_ref().zip(b.scale.as_ref());
        let k = scales.map_or(1.0, |(a, b)| a.ppi.px_per_mm() / b.ppi.px_per_mm());
        Self {
            ratio: [across * k, down * k],
            scale_sd: scales.map(|(a, b)| a.relative_sd.hypot(b.relative_sd)),
        }
    }

    /// What it is, in words.
    pub(super) fn words(&self) -> String {
        let [across, down] = self.ratio.map(|r| 100.0 * r);
        if self.scale_sd.is_some() {
            format!(
                "The second is {across:.1} percent as wide and {down:.1} percent as high as the first, in millimetres."
            )
        } else {
            format!(
                "Against its height the second is {:.1} percent as wide as the first; how large either is, is not known.",
                100.0 * across / down
            )
        }
    }

    /// Why the size speaks against one block: it is more than wood and paper leave room for. The wood gives across its grain, which
    /// may run either way, and hardly along it: half as much is allowed there, for a block whose grain runs aslant. Each sheet shrank as
    /// it dried, more across its chain-lines than along them.
    pub(super) fn doubt(&self) -> Option<String> {
        let [wood_across, wood_along] = wood::gives();
        let paper = SHRINKAGE[1] - SHRINKAGE[0];
        let off = self.ratio.map(|r| r.ln().abs());
        let is_beyond = match self.scale_sd {
            Some(sd) => {
                let [less, more] = if off[0] < off[1] { off } else { [off[1], off[0]] };
                let room = |wood: f64| paper + wood + SDS * sd;
                more > room(wood_across) || less > room(wood_along.max(0.5 * wood_across))
            }
            // Of proportions: one sheet may have shrunk one way and the other the other.
            None => (self.ratio[0] / self.ratio[1]).ln().abs() > paper + wood_across,
        };
        is_beyond.then(|| {
            format!(
                "The sizes differ by more than one block on two sheets has room for: wood gives up to {:.1} percent across its \
                 grain and hardly any along it, paper up to {:.1} percent. Either a photograph was taken aslant, or its scale \
                 is wrong, or these are of two blocks.",
                100.0 * wood_across,
                100.0 * paper
            )
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn size(across: f64, down: f64, scale_sd: Option<f64>) -> Size {
        Size { ratio: [across, down], scale_sd }
    }

    /// Wood: a hundredth across the grain (cherry, four points of moisture); paper: "generally" one percent, "occasionally" two and
    /// a half (Gaskell, *A New Introduction to Bibliography*, p. 13).
    #[test]
    fn what_wood_and_paper_do_is_no_doubt() {
        for sd in [Some(0.0), Some(0.02)] {
            assert_eq!(size(0.99, 1.0, sd).doubt(), None);
            assert_eq!(size(0.966, 0.976, sd).doubt(), None);
            assert_eq!(size(1.025, 1.01, sd).doubt(), None);
        }
        assert_eq!(size(1.9, 1.87, None).doubt(), None);
    }

    #[test]
    fn a_copy_of_another_size_is_and_a_scale_that_is_unsure_leaves_more_room() {
        assert!(size(0.93, 0.94, Some(0.005)).doubt().is_some());
        assert_eq!(size(0.93, 0.94, Some(0.02)).doubt(), None);
        assert!(size(1.0, 1.06, Some(0.0)).doubt().unwrap().contains("1.6 percent across its grain"));
        assert!(size(1.9, 1.7, None).doubt().is_some());
    }
}

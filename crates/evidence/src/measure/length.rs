//! A length with its doubt.

use crate::rank::median;
use crate::record::to_thousandths;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use sheet::scale::Scale;

/// A length that was measured, in pixels or in millimetres as the field says that holds it.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Length {
    /// The length.
    pub value: f64,
    /// Its standard deviation.
    pub sd: f64,
}

/// From the median absolute deviation to the standard deviation of a normal distribution; and how much more a median strays than a mean
/// (Huber and Ronchetti, *Robust Statistics*, 2nd edn 2009, sections 1.2 and 5.1; from memory).
const MAD: f64 = 1.4826;
const OF_A_MEDIAN: f64 = 1.2533;

impl Length {
    /// The median of lengths, of which there is one at least, and how far it may be off by what they stray.
    pub(super) fn median(of: &[f64]) -> Self {
        let value = median(of.to_vec());
        let off = median(of.iter().map(|v| (v - value).abs()).collect());
        Self { value, sd: OF_A_MEDIAN * MAD * off / (of.len() as f64).sqrt() }
    }

    /// So many times as long.
    #[must_use]
    pub fn times(self, n: f64) -> Self {
        Self { value: n * self.value, sd: n.abs() * self.sd }
    }

    /// Both together, measured each by itself.
    #[must_use]
    pub fn plus(self, o: Self) -> Self {
        Self { value: self.value + o.value, sd: self.sd.hypot(o.sd) }
    }

    /// As it is written to a record: to a thousandth.
    #[must_use]
    pub(super) fn rounded(self) -> Self {
        Self { value: to_thousandths(self.value), sd: to_thousandths(self.sd) }
    }

    /// A length in pixels in millimetres: the doubt of the scale is added to its own.
    #[must_use]
    pub fn in_mm(self, scale: &Scale) -> Self {
        let per_mm = scale.ppi.px_per_mm();
        let value = self.value / per_mm;
        Self { value, sd: (self.sd / per_mm).hypot(value * scale.relative_sd) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use sheet::Ppi;
    use sheet::scale::ScaleSource;

    #[test]
    fn the_doubt_of_the_scale_is_added_to_that_of_the_length() {
        let scale = Scale { ppi: Ppi(254.0), relative_sd: 0.01, source: ScaleSource::StatedPpi };
        let mm = Length { value: 40.0, sd: 0.3 }.times(20.0).in_mm(&scale);
        assert!((mm.value - 80.0).abs() < 1e-9);
        assert!((mm.sd - 0.6f64.hypot(0.8)).abs() < 1e-9, "{mm:?}");
    }
}

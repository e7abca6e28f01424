//! How fast a shop works: the numbers that are least known, as ranges.

use schemars::JsonSchema;
use serde::Serialize;

use super::Spread;

/// What a shop does in an hour, and how long things wait.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Rates {
    /// Ens of type in a sheet, both sides (of a sheet printed on one side: on that side); null where type stands ready and
    /// composing is left out.
    pub ens_per_sheet: Option<Spread>,
    /// Ens a compositor sets in an hour, distribution counted in.
    pub ens_per_hour: Spread,
    /// Correcting, as a share of the time that composing took.
    pub correction: Spread,
    /// Impressions of a full press (two men) in an hour.
    pub impressions_per_hour: Spread,
    /// Hours to make a forme ready.
    pub make_ready: Spread,
    /// Hours by the clock that a heap lies after its first side before the second can be printed.
    pub between_sides: Spread,
    /// Hours by the clock that sheets hang to dry after the last side, before they can go out.
    pub drying: Spread,
}

impl Default for Rates {
    fn default() -> Self {
        Self {
            ens_per_sheet: None,
            // 1,000 an hour is the ceiling handbooks give; records of shops come to less once distribution is counted: from
            // memory, a range of 500 to 1,200.
            ens_per_hour: Spread::about(500.0, 1000.0, 1200.0),
            // A sixth of the charge for composing: common practice, no source.
            correction: Spread::exactly(1.0 / 6.0),
            // About 200 an hour as a sober average, about 240 in the Frankfurt ordinance of 1573 (Moran, Printing Presses,
            // 1973, p. 32, as quoted online); day's tasks of Paris about 1575 come to 189 to 221 an hour (Hamilton, Brief
            // History of Printing II); 250 for common book work (Savage 1841).
            impressions_per_hour: Spread::about(150.0, 200.0, 250.0),
            // Common practice, no source; friskets were kept cut, and there was no long make-ready as later.
            make_ready: Spread::about(0.5, 1.0, 1.5),
            // The second side within a day, while the paper is damp: common practice, no source.
            between_sides: Spread::between(0.0, 4.0),
            // A night to two days on the poles: common practice, no source.
            drying: Spread::between(12.0, 48.0),
        }
    }
}

/// Every rate with one value: a shop as it happens to be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drawn {
    /// Ens in a sheet; 0 where composing is left out.
    pub ens_per_sheet: f64,
    /// Ens an hour.
    pub ens_per_hour: f64,
    /// Correcting as a share of composing.
    pub correction: f64,
    /// Impressions an hour of a full press.
    pub impressions_per_hour: f64,
    /// Hours to make ready.
    pub make_ready: f64,
    /// Hours between the sides.
    pub between_sides: f64,
    /// Hours of drying.
    pub drying: f64,
}

/// One of a range.
type Pick = fn(&Spread) -> f64;

impl Rates {
    /// Every rate at its middle.
    pub fn middle(&self) -> Drawn {
        self.each(Spread::middle, Spread::middle)
    }

    /// Every rate at its slow end: the shop at its worst.
    pub fn slow(&self) -> Drawn {
        self.each(|s| s.low, |s| s.high)
    }

    /// Every rate at its quick end: the shop at its best.
    pub fn quick(&self) -> Drawn {
        self.each(|s| s.high, |s| s.low)
    }

    /// `speed` for what is the quicker the more it is, `length` for what takes the longer.
    fn each(&self, speed: Pick, length: Pick) -> Drawn {
        Drawn {
            ens_per_sheet: self.ens_per_sheet.as_ref().map_or(0.0, length),
            ens_per_hour: speed(&self.ens_per_hour),
            correction: length(&self.correction),
            impressions_per_hour: speed(&self.impressions_per_hour),
            make_ready: length(&self.make_ready),
            between_sides: length(&self.between_sides),
            drying: length(&self.drying),
        }
    }

    /// Every rate drawn, each from its own range and independently of the others.
    pub(super) fn draw(&self, mut share: impl FnMut() -> f64) -> Drawn {
        // Always seven draws in this order, so that one seed means one shop whatever is known of it.
        let mut next = |s: &Spread| s.at(share());
        let none = Spread::exactly(0.0);
        Drawn {
            ens_per_sheet: next(self.ens_per_sheet.as_ref().unwrap_or(&none)),
            ens_per_hour: next(&self.ens_per_hour),
            correction: next(&self.correction),
            impressions_per_hour: next(&self.impressions_per_hour),
            make_ready: next(&self.make_ready),
            between_sides: next(&self.between_sides),
            drying: next(&self.drying),
        }
    }
}

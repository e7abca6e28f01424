//! The plan that is reckoned: the usual shop, with what was said put in.

use super::file::{PlaceFile, PlanFile, Range};
use anyhow::{Result, bail};
use trade::presswork::{Day, Paper, Pence, Plan, Prices, Rates, Spread};

impl PlanFile {
    /// The plan.
    ///
    /// # Errors
    /// What is wanting, and how to give it.
    pub(super) fn plan(&self) -> Result<Plan> {
        let Some(copies) = self.copies else {
            bail!(
                "how many copies? Give --copies N, or copies = N in a plan; `reglet presswork --example-plan` prints one"
            )
        };
        if self.sheets.is_none() && self.half_sheets.is_none() {
            bail!(
                "how many sheets of paper are in one copy? Give --sheets N, or --half-sheets N; a broadside is --sheets 1 --one-side"
            );
        }
        let usual = Plan::new(copies, self.sheets.unwrap_or(0));
        let presses = self.presses.unwrap_or(1);
        let rates = &self.rates;
        let or = |range: &Option<Range>, usual: Spread| range.map_or(usual, |r| r.0);
        let mut places = self.typed_places.clone();
        places.extend(self.places.iter().map(PlaceFile::place));
        Ok(Plan {
            half_sheets: self.half_sheets.unwrap_or(0),
            sides: self.sides.map_or(usual.sides, |s| s.0),
            settings: self.settings.unwrap_or(1),
            compositors: self.compositors.unwrap_or(1),
            presses,
            crews: self.crews.unwrap_or(presses),
            crew: self.crew.map_or(usual.crew, |c| c.0),
            set_by: self.set_by.map_or(usual.set_by, |s| s.0),
            rates: Rates {
                ens_per_sheet: rates.ens.map(|r| r.0),
                ens_per_hour: or(&rates.ens_an_hour, usual.rates.ens_per_hour),
                correction: or(&rates.correction, usual.rates.correction),
                impressions_per_hour: or(&rates.impressions, usual.rates.impressions_per_hour),
                make_ready: or(&rates.make_ready, usual.rates.make_ready),
                between_sides: or(&rates.between, usual.rates.between_sides),
                drying: or(&rates.drying, usual.rates.drying),
            },
            day: Day {
                hours: self.day.hours.unwrap_or(usual.day.hours),
                begins: self.day.begins.unwrap_or(usual.day.begins),
                days_a_week: self.day.days_a_week.unwrap_or(usual.day.days_a_week),
            },
            paper: Paper {
                waste: self.paper.waste.unwrap_or(usual.paper.waste),
                ream: self.paper.ream.unwrap_or(usual.paper.ream),
            },
            token: self.token.unwrap_or(usual.token),
            prices: self.prices()?,
            places,
            ..usual
        })
    }

    fn prices(&self) -> Result<Option<Prices>> {
        let p = &self.prices;
        match (p.ream, p.composing, p.token) {
            (Some(ream), Some(composing), Some(token)) => Ok(Some(Prices {
                ream: ream.0,
                composing: composing.0,
                token: token.0,
                // A sixth, and half of all labour: common practice, no source; London masters used no one scale (Maslen, Studies
                // in Bibliography 24).
                correction: p.correction.unwrap_or(1.0 / 6.0),
                overhead: p.overhead.unwrap_or(0.5),
            })),
            (None, None, None) if p.correction.is_none() && p.overhead.is_none() => Ok(None),
            // The price of a ream alone is enough to turn a paper bill into reams.
            (Some(_), None, None) => Ok(None),
            _ => bail!(
                "a bill needs three prices: of a ream, of composing a sheet, of a token; give --ream-price, --composing-price and \
                 --token-price (or [prices] ream, composing, token)"
            ),
        }
    }

    /// The price of a ream, if it was said.
    pub(super) fn ream_price(&self) -> Option<Pence> {
        self.prices.ream.map(|m| m.0)
    }
}

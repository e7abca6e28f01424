//! Whether a plan can be reckoned with, and what is wrong with one that cannot.

use super::plan::{MOST_COPIES, MOST_FORMES, MOST_MEN, MOST_PLACES, MOST_PRESSES, MOST_SETTINGS};
use super::{Pence, Plan, Spread, SpreadError};

/// Why a plan is not taken.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PlanError {
    /// A number is outside what is taken.
    #[error("{what}: {found} is not between {least} and {most}; {remedy}")]
    Outside {
        /// Which number.
        what: &'static str,
        /// What was given.
        found: f64,
        /// The least.
        least: f64,
        /// The most.
        most: f64,
        /// What to do.
        remedy: &'static str,
    },
    /// Nothing to print.
    #[error("a copy has no sheet and no half-sheet; give how many sheets of paper go into one copy")]
    NoSheets,
    /// More formes than are taken.
    #[error(
        "{found} formes are more than the {MOST_FORMES} that are taken; plan a volume at a time, or fewer settings"
    )]
    TooManyFormes {
        /// Formes.
        found: u32,
    },
    /// More copies are sent out than are printed.
    #[error("the places are to have {sent} copies, but {copies} are printed; print more or send fewer")]
    TooManySent {
        /// Copies to be sent.
        sent: u64,
        /// Copies printed.
        copies: u32,
    },
    /// More places than are taken.
    #[error("{found} places are more than the {MOST_PLACES} that are taken; put those on one road together")]
    TooManyPlaces {
        /// Places.
        found: usize,
    },
    /// A range is none.
    #[error("{what}: {error}")]
    Range {
        /// Which.
        what: &'static str,
        /// Why.
        error: SpreadError,
    },
    /// The day is longer than it is.
    #[error(
        "work that begins at hour {begins} and takes {hours} hours ends after midnight; begin earlier, or work less"
    )]
    LongDay {
        /// When work begins.
        begins: f64,
        /// How long it is.
        hours: f64,
    },
}

impl Plan {
    /// The same plan, if it can be reckoned with.
    ///
    /// # Errors
    /// What is wrong first, and what to do.
    pub fn checked(self) -> Result<Self, PlanError> {
        let within = |what, found: f64, least: f64, most: f64, remedy| {
            // Written so that what is no number is outside.
            if found >= least && found <= most {
                Ok(())
            } else {
                Err(PlanError::Outside { what, found, least, most, remedy })
            }
        };
        let whole = |what, found: u32, most: u32, remedy| {
            within(what, f64::from(found), 1.0, f64::from(most), remedy)
        };
        whole("copies", self.copies, MOST_COPIES, "give how many copies are wanted")?;
        let most = MOST_SETTINGS.min(self.copies);
        whole(
            "settings",
            self.settings,
            most,
            "1 is the text set once, 2 twice; each prints a copy at least",
        )?;
        whole("compositors", self.compositors, MOST_MEN, "at least one man sets")?;
        whole("presses", self.presses, MOST_PRESSES, "at least one press prints")?;
        whole("crews", self.crews, MOST_PRESSES, "at least one press has its men")?;
        whole("token", self.token, 10_000, "a token is 240, 250 or 258 impressions")?;
        whole("sheets to the ream", self.paper.ream, 10_000, "a ream is 480, 500 or 516 sheets")?;
        within("waste", self.paper.waste, 0.0, 1.0, "it is a share: 0.03 for three sheets in a hundred")?;
        if self.sheets == 0 && self.half_sheets == 0 {
            return Err(PlanError::NoSheets);
        }
        // No overflow: each is looked at before they are multiplied.
        within("sheets", f64::from(self.sheets), 0.0, f64::from(MOST_FORMES), "plan a volume at a time")?;
        within(
            "half-sheets",
            f64::from(self.half_sheets),
            0.0,
            f64::from(MOST_FORMES),
            "plan a volume at a time",
        )?;
        let found = self.formes() * self.settings;
        if found > MOST_FORMES {
            return Err(PlanError::TooManyFormes { found });
        }
        self.check_rates()?;
        within("hours in a day", self.day.hours, 0.5, 24.0, "ten or twelve are usual")?;
        within("the hour work begins", self.day.begins, 0.0, 23.5, "5 or 6 is usual")?;
        if self.day.begins + self.day.hours > 24.0 {
            return Err(PlanError::LongDay { begins: self.day.begins, hours: self.day.hours });
        }
        within("days a week", f64::from(self.day.days_a_week), 1.0, 7.0, "six are usual")?;
        if let Some(prices) = &self.prices {
            for (what, Pence(found)) in [
                ("price of a ream", prices.ream),
                ("price of composing", prices.composing),
                ("price of a token", prices.token),
            ] {
                within(what, found, 0.0, 1e9, "give a sum as in 10s 6d")?;
            }
            within(
                "price of correction",
                prices.correction,
                0.0,
                10.0,
                "it is a share of composing: 0.17 for a sixth",
            )?;
            within("overhead", prices.overhead, 0.0, 10.0, "it is a share of all labour: 0.5 for half")?;
        }
        if self.places.len() > MOST_PLACES {
            return Err(PlanError::TooManyPlaces { found: self.places.len() });
        }
        let sent: u64 = self.places.iter().map(|p| u64::from(p.copies)).sum();
        if sent > u64::from(self.copies) {
            return Err(PlanError::TooManySent { sent, copies: self.copies });
        }
        Ok(self)
    }

    fn check_rates(&self) -> Result<(), PlanError> {
        let r = &self.rates;
        let range =
            |what, spread: &Spread| spread.checked().map_err(|error| PlanError::Range { what, error });
        let within = |what, spread: &Spread, least: f64, most: f64, remedy| {
            range(what, spread)?;
            let found = if spread.low < least { spread.low } else { spread.high };
            if spread.low >= least && spread.high <= most {
                Ok(())
            } else {
                Err(PlanError::Outside { what, found, least, most, remedy })
            }
        };
        if let Some(ens) = &r.ens_per_sheet {
            within(
                "ens in a sheet",
                ens,
                1.0,
                1e7,
                "an octavo sheet of 16 pages of 36 lines of 44 ens has 25,344",
            )?;
        }
        within("ens an hour", &r.ens_per_hour, 1.0, 1e5, "500 to 1,200 is usual")?;
        within("correction", &r.correction, 0.0, 10.0, "it is a share of composing: 0.17 for a sixth")?;
        within(
            "impressions an hour",
            &r.impressions_per_hour,
            1.0,
            1e4,
            "150 to 250 is usual for two men at a press",
        )?;
        within("make-ready", &r.make_ready, 0.0, 100.0, "it is hours for each forme: 0.5 to 1.5 is usual")?;
        within(
            "hours between the sides",
            &r.between_sides,
            0.0,
            2000.0,
            "the second side usually followed within a day",
        )?;
        within("drying", &r.drying, 0.0, 2000.0, "it is hours: a day or two is usual")?;
        for place in &self.places {
            within(
                "days of carriage",
                &place.days,
                0.0,
                2000.0,
                "give days on the road, 2..3 if it is not sure",
            )?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::presswork::Place;

    #[test]
    fn a_plan_that_cannot_be_is_refused_with_the_remedy() {
        let told = |change: &dyn Fn(&mut Plan)| {
            let mut plan = Plan::new(500, 10);
            change(&mut plan);
            plan.checked().unwrap_err().to_string()
        };
        assert!(Plan::new(500, 10).checked().is_ok());
        assert!(told(&|p| p.copies = 0).starts_with("copies: 0 is not between 1 and"));
        assert!(told(&|p| p.sheets = 0).contains("no sheet"));
        assert!(told(&|p| p.sheets = u32::MAX).contains("sheets"));
        assert!(told(&|p| (p.sheets, p.settings) = (2000, 2)).contains("8000 formes"));
        assert!(told(&|p| p.day.begins = 20.0).contains("after midnight"));
        assert!(told(&|p| p.paper.waste = f64::NAN).contains("waste"));
        assert!(told(&|p| p.rates.impressions_per_hour = Spread::exactly(0.0)).contains("150 to 250"));
        assert!(told(&|p| p.rates.drying = Spread::between(3.0, 2.0)).contains("rise"));
        let far = Place { name: "Merrin".into(), copies: 501, days: Spread::exactly(2.0) };
        assert!(told(&|p| p.places.push(far.clone())).contains("to have 501 copies, but 500"));
    }
}

//! Where copies are to go, and when they are there.

use schemars::JsonSchema;
use serde::Serialize;

use super::shop::{Run, Shop};
use super::{Moment, Plan, Spread};

/// A place that is sent copies.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Place {
    /// Its name.
    pub name: String,
    /// Copies.
    pub copies: u32,
    /// Days of carriage.
    pub days: Spread,
}

/// When a place has its copies.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Arrival {
    /// The place.
    pub place: String,
    /// Its copies.
    pub copies: u32,
    /// When its copies, and those of the places before it, are printed and dry.
    pub leaves: Moment,
    /// When they arrive.
    pub arrives: Moment,
}

/// When each place has its copies, with every rate and every carriage at its middle. Parcels go as soon as they are whole,
/// in the order of the list.
pub fn arrivals(plan: &Plan, rates: &super::Drawn) -> Vec<Arrival> {
    let shop = Shop::new(plan);
    let mut run = Run::default();
    shop.run(rates, &mut run);
    let mut sent = 0.0;
    plan.places
        .iter()
        .map(|place| {
            let leaves = leaves(&shop, &run, &mut sent, place);
            let day = plan.day;
            Arrival {
                place: place.name.clone(),
                copies: place.copies,
                leaves: day.at_clock(leaves),
                arrives: day.at_clock(leaves + 24.0 * place.days.middle()),
            }
        })
        .collect()
}

/// The clock when a place's parcel is whole, after `sent` copies have gone to others.
pub(super) fn leaves(shop: &Shop, run: &Run, sent: &mut f64, place: &Place) -> f64 {
    *sent += f64::from(place.copies);
    shop.dry(shop.time_of(*sent, run), run)
}

//! Order and date of the impressions of one woodblock, from its wear and from dates that are known.
//!
//! Start at [`order()`]: a [`Table`] of damages by impressions in, an [`Order`] out. [`dates()`] goes on from there, where years are asked
//! for.

mod by_order;
mod by_rate;
mod chains;
mod chance;
mod contradictions;
mod convergence;
mod dates;
pub mod history;
mod order;
mod quantile;
mod regression;
mod relation;
mod table;
mod tau;
mod wear;

pub use contradictions::{Contradictions, OddCell, PerhapsRepaired, TwoBlocks};
pub use convergence::Convergence;
pub use dates::{
    Bound, Bounds, Checks, DateWarning, Dates, DatesOptions, HeldOut, ImpressionDate, PlainLine, RateTold,
    YearTold, dates,
};
pub use order::{Arrangement, ErrorRate, Odd, Order, OrderMethod, PlacedDamage, PlacedImpression, order};
pub use regression::{InversePrediction, Line, line};
pub use relation::{Pair, Relation, relations};
pub use table::{Damage, Dated, Impression, MOST_DAMAGES, MOST_IMPRESSIONS, Sighting, Table, TableError};
pub use tau::tau_b;

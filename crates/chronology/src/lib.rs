//! Order and date of the impressions of one woodblock, from its wear and from dates that are known.
//!
//! Start at [`order`]: a [`Table`] of damages by impressions in, an [`Order`] out.

mod by_order;
mod by_rate;
mod chains;
mod chance;
mod contradictions;
mod convergence;
mod order;
mod quantile;
mod regression;
mod relation;
mod table;
mod tau;
mod wear;

pub use contradictions::{Contradictions, OddCell, PerhapsRepaired, TwoBlocks};
pub use convergence::Convergence;
pub use order::{Arrangement, ErrorRate, Odd, Order, OrderMethod, PlacedDamage, PlacedImpression, order};
pub use regression::{InversePrediction, Line, line};
pub use relation::{Pair, Relation, relations};
pub use table::{Damage, Dated, Impression, MOST_DAMAGES, MOST_IMPRESSIONS, Sighting, Table, TableError};
pub use tau::tau_b;

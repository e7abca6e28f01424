//! The measures of the benchmark: values in, values out.

mod calibration;
mod changes;
mod confusion;
mod lines;
mod placement;
mod quantile;

pub(crate) use calibration::{Weighed, cllr, cllr_min, pooled};
pub(crate) use changes::{ChangeCount, Place, Planted, count_changes, meets};
pub(crate) use confusion::Confusion;
pub(crate) use lines::{lying_on, recovered};
pub(crate) use placement::PlacementGrid;
pub(crate) use quantile::{median, quantile};

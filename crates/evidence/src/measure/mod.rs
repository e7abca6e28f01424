//! What is measured of one side by itself.
//!
//! Start at [`Side`], a photograph made ready, and [`measures`], which tells all that is measured of it. [`finely`] takes a layout and gives the
//! same with its lines to a part of a pixel; from that [`type_sizes`] tells the sizes of type, each with how far twenty lines of it measure,
//! and [`skew`] how the lines lie.

mod edges;
mod extents;
mod incidents;
mod ink;
mod length;
mod lies;
mod lying;
mod pitch;
mod record;
mod side;
mod sizes;
mod told;

pub use incidents::{STRIP_CELL, STRIP_ROWS, Strip, strips};
pub use length::Length;
pub use lying::{finely, skew};
pub use pitch::Pitch;
pub use record::{Incident, IncidentClass, InkMap, InkMeasures, Lies, LineMeasures, Measures, TypeMeasures};
pub use side::Side;
pub use sizes::{TypeSize, type_sizes};
pub use told::measures;

//! What is measured of one side by itself.
//!
//! Start at [`finely`]: a layout in, the same with its lines to a part of a pixel out. From that [`type_sizes`] tells the sizes of type, each
//! with how far twenty lines of it measure, and [`skew`] how the lines lie.

mod edges;
mod length;
mod lying;
mod pitch;
mod sizes;

pub use length::Length;
pub use lying::{finely, skew};
pub use pitch::Pitch;
pub use sizes::{TypeSize, type_sizes};

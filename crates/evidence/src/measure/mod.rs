//! What is measured of one side by itself.
//!
//! Start at [`type_sizes`]: the lines of a side in, its sizes of type out, each with how far twenty lines of it measure.

mod edges;
mod length;
mod pitch;
mod sizes;

pub use length::Length;
pub use pitch::Pitch;
pub use sizes::{TypeSize, type_sizes};

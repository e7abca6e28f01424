//! Bodies of type: what twenty lines measure, and which names fit a measured figure.
//!
//! A name is a band, not a number: founders differed, and paper shrank. [`fitting()`] never gives one name where two fit.

mod cautions;
mod fitting;
mod leads;
mod table;

pub use cautions::cautions;
pub use fitting::{
    BodyError, DOUBT, Fit, Fits, MOST_TWENTY_LINES, Measured, SHRINKAGE, USUAL_SHRINKAGE, fitting, gap_says,
    twenty_of_lines, twenty_of_proctor,
};
pub use leads::{LEADS, Lead, Leaded};
pub use table::{Body, FOURNIER_POINT, Founder, Tongue, bodies};

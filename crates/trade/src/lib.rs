//! What the trade knows, and what can be reckoned from it: values in, values out.
//!
//! Start at [`presswork::Plan`] (how long, how much, how many men), [`figures::Table`] (who worked which forme), or
//! [`survival::Counts`] (how much is lost).

pub mod figures;
pub mod presswork;
pub mod survival;

mod drawing;

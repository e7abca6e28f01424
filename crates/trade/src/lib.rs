//! What the trade knows, and what can be reckoned from it: values in, values out. It reads no files, looks at no clock and prints
//! nothing.
//!
//! *Dates*: [`numerals`] reads a year as it is printed, [`calendar`] counts days, [`reigns`] counts the years of kings and queens,
//! [`clause`] reads a dating clause, and [`reckoning`] holds all the dates of one sheet against each other.
//!
//! *Press work*: start at [`presswork::Plan`] (how long, how much, how many men), [`figures::Table`] (who worked which forme), or
//! [`survival::Counts`] (how much is lost).

pub mod calendar;
pub mod clause;
pub mod figures;
pub mod numerals;
pub mod presswork;
pub mod reckoning;
pub mod reigns;
pub mod survival;

mod drawing;

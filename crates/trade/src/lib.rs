//! What the trade knows, as values in and values out: it reads no files, looks at no clock and prints nothing.
//!
//! Of dates: [`numerals`] reads a year as it is printed, [`calendar`] counts days, [`reigns`] counts the years of kings and
//! queens, [`clause`] reads a dating clause, and [`reckoning`] holds all the dates of one sheet against each other.

pub mod calendar;
pub mod clause;
pub mod numerals;
pub mod reckoning;
pub mod reigns;

//! What the trade knows, and what can be reckoned from it: values in, values out. It reads no files, looks at no clock and prints
//! nothing. Each figure names the published source that it comes from, or says that it has none.
//!
//! *Dates*: [`numerals`] reads a year as it is printed, [`calendar`] counts days, [`reigns`] counts the years of kings and queens,
//! [`clause`] reads a dating clause, and [`reckoning`] holds all the dates of one sheet against each other.
//!
//! *The book*: [`bodies`] of type, [`paper`], [`format`](mod@format)s, [`gatherings`] and how their pages lie on the stone
//! ([`imposition`]); the [`wood`] that blocks are cut of.
//!
//! *The shop*: start at [`presswork::Plan`] (how long, how much, how many men), [`figures::Table`] (who worked which forme), or
//! [`survival::Counts`] (how much is lost).

pub mod bodies;
pub mod calendar;
pub mod clause;
pub mod figures;
pub mod format;
pub mod gatherings;
pub mod imposition;
pub mod lengths;
pub mod numerals;
pub mod paper;
pub mod presswork;
pub mod reckoning;
pub mod reigns;
pub mod survival;
pub mod wood;

mod drawing;

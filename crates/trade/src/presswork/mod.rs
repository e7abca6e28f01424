//! Press work: how long it takes to set and print so many copies, with how many men, how much paper, and at what cost.
//!
//! Start at [`report()`]: a [`Plan`] in, a [`Report`] out. Step by step: [`sums`] counts impressions, tokens and reams;
//! [`cost`] prices them; [`schedule()`] puts every forme through composition, correction, presses, the wait between its sides
//! and drying; [`many`] does that as often as asked with rates drawn from their ranges; [`questions`] turns the reckoning
//! round. [`gantt()`] draws a schedule.
//!
//! All rates are the user's to set. What holds by default is a model of a shop, not a fact about one: shops worked several
//! jobs at once (McKenzie, *Studies in Bibliography* 22, 1969), so real books took far longer than their hours of work.

mod chance;
mod checked;
pub mod cost;
mod day;
mod gantt;
pub mod many;
mod money;
mod places;
mod plan;
pub mod questions;
mod rates;
mod ready;
mod report;
mod schedule;
mod shop;
mod spread;
pub mod sums;

pub use checked::PlanError;
pub use day::{Day, Moment};
pub use gantt::gantt;
pub use money::{MoneyError, Pence};
pub use places::{Arrival, Place, arrivals};
pub use plan::{
    Crew, MOST_COPIES, MOST_FORMES, MOST_MEN, MOST_PLACES, MOST_PRESSES, MOST_SETTINGS, Paper, Plan, Prices,
    SetBy, Sides,
};
pub use rates::{Drawn, Rates};
pub use report::{Asked, Report, report};
pub use schedule::{Bar, Row, Schedule, Stage, schedule};
pub use spread::{Spread, SpreadError};

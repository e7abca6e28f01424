//! Dating clauses: a day, a feast, a term, a weekday, a year in any style, a year of a reign, in English or Latin.
//!
//! [`parse()`] reads a clause into its [`Element`]s; [`days()`] says which days satisfy them all, under each [`Reckoning`] that was
//! asked for.

mod answer;
mod element;
mod error;
mod feast;
mod grammar;
mod latin;
mod lexicon;
mod names;
mod numbers;
mod parts;
mod reign;
mod republic;
mod set;
mod style;
mod tokens;
mod year;

pub use answer::{Answer, ReadingOfDays, days};
pub(crate) use answer::{countings_of, days_of_shifted, names_january, reckonings_of};
pub use element::{Anchor, Element, Placed, Shift, Side, Written};
pub use error::ClauseError;
pub use grammar::{Clause, parse};
pub use set::{DaySet, FIRST_YEAR_READ, LAST_YEAR_READ};
pub use style::{Place, Reckoning, YearStart, reckonings};
pub use tokens::MOST_CHARACTERS;

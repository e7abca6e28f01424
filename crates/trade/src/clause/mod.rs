//! Dating clauses: a day, a feast, a term, a weekday, a year in any style, a year of a reign, in English or Latin.
//!
//! [`parse()`] reads a clause into its [`Element`]s; [`days()`] says which days satisfy them all, under each [`Reckoning`] that was
//! asked for.

mod answer;
mod both;
mod days_of;
mod element;
mod error;
mod feast;
mod freedom;
mod grammar;
mod latin;
mod lexicon;
mod month_day;
mod names;
mod number_words;
mod numbers;
mod parts;
mod place;
mod refused;
mod reign;
mod republic;
mod set;
mod style;
mod tokens;
mod unread;
mod weekday;
mod year;

pub use answer::{Answer, ReadingOfDays, days};
pub(crate) use answer::{countings_of, names_both_styles, names_january, reckonings_of};
pub(crate) use days_of::days_of_shifted;
pub use element::{Anchor, Element, Placed, Shift, Side, Written};
pub use error::ClauseError;
pub use grammar::{Clause, parse};
pub use place::{Place, reckonings};
pub use set::{DaySet, FIRST_YEAR_READ, LAST_YEAR_READ};
pub use style::{Reckoning, YearStart};
pub use tokens::MOST_CHARACTERS;

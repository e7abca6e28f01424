//! Days, counted; the Julian and the Gregorian calendar; Easter, feasts, terms; the calendar of the French Republic; and when
//! each country took the New Style.
//!
//! A [`Day`] is a day of history whatever it was called. A [`Calendar`] gives it a name, [`Date`], and reads one back.

mod adoption;
mod date;
mod day;
mod easter;
mod feasts;
mod plain;
mod republican;
mod terms;

pub use adoption::{ADOPTIONS, Adoption, adoption};
pub use date::{Calendar, CalendarError, Date, FIRST_YEAR, LAST_YEAR, month_by_number, year_name};
pub use day::{Day, DayRange};
pub use easter::{advent, easter};
pub use feasts::{FEASTS, Falls, Feast, Kind};
pub use julian::{Month, Weekday};
pub use plain::{PlainDateError, plain_date};
pub use republican::{FIRST_REPUBLICAN_YEAR, LAST_REPUBLICAN_YEAR, RepublicanDate, RepublicanMonth};
pub use terms::{Term, TermDays};

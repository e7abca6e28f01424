//! A date as cataloguers write it: as it stands, and then what it is.

use super::statement::Statement;
use crate::clause::{DaySet, Element, Reckoning};

/// The historical year, from 1 January, of days, if it is one for all of them.
pub fn historical_year(days: &DaySet, reckoning: &Reckoning) -> Option<i32> {
    let (first, last) = (days.first()?, days.last()?);
    let year = |day| reckoning.calendar.date(day).year;
    (year(first) == year(last)).then(|| year(first))
}

/// A date as it is transcribed, with the year that it is: "MDDCI [that is, 1701]", "1690/1 [that is, 1691]"; with a query where it
/// is not sure. *Descriptive Cataloging of Rare Materials*, 5.23.31.4 and .5; day and month are not changed.
pub fn that_is(text: &str, year: i32, is_sure: bool) -> String {
    let query = if is_sure { "" } else { "?" };
    format!("{} [that is, {year}{query}]", text.trim())
}

/// How a statement is catalogued when the sheet was printed on these days; `None` where the year that stands there is the
/// historical year, so that nothing need be added, or where it has no year of the Lord, or the days lie in more than one.
pub fn catalogued(
    statement: &Statement,
    days: &DaySet,
    reckoning: &Reckoning,
    is_sure: bool,
) -> Option<String> {
    if !statement.role.is_of_printing() {
        return None;
    }
    let year = historical_year(days, reckoning)?;
    let stands = statement.elements.iter().find_map(|p| match p.element {
        Element::Year { year, .. } => Some(year),
        // A double year is two, so that the one is always added.
        Element::DoubleYear { .. } => Some(i32::MIN),
        _ => None,
    })?;
    (stands != year).then(|| that_is(&statement.text, year, is_sure))
}

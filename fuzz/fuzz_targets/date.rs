//! Any text is answered as a numeral, a chronogram, a plain date, a dating clause and the date of a sheet, or refused with an
//! error that says why; places of what was read lie in the text.
#![no_main]

use libfuzzer_sys::fuzz_target;
use trade::calendar::plain_date;
use trade::clause::{Place, days, parse};
use trade::numerals::{Counting, Prior, chronogram, meant, read};
use trade::reckoning::{Request, Role, reconcile, statement};

fuzz_target!(|text: &str| {
    if let Ok(numeral) = read(text) {
        meant(&numeral, &Prior::default());
    }
    chronogram(text, Counting { double_v: true, y_as_two: true }).ok();
    plain_date(text).ok();
    if let Ok(clause) = parse(text) {
        let characters = text.chars().count();
        assert!(clause.elements.iter().all(|p| p.span.start < p.span.end && p.span.end <= characters));
        let place = Place::ALL[characters % Place::ALL.len()];
        assert!(days(&clause, place).readings.iter().all(|r| !r.days.is_empty()));
    }
    if let Ok(one) = statement(Role::Text, text) {
        reconcile(&[one], &Request::default()).ok();
    }
});

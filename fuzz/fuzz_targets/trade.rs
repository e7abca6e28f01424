//! Whatever text is given for counts, figures, ranges, money or times, there is an answer or an error; and what is read can be
//! reckoned with and drawn.
#![no_main]

use libfuzzer_sys::fuzz_target;
use trade::presswork::questions::Deadline;
use trade::presswork::{Pence, Spread};
use trade::survival::{Counts, Options, study};
use trade::{figures, survival};

fuzz_target!(|bytes: &[u8]| {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    if let Ok(spread) = Spread::parse(text) {
        assert_eq!(Spread::parse(&spread.to_string()), Ok(spread));
    }
    Pence::parse(text).map(|p| p.to_string()).ok();
    Deadline::parse(text).ok();
    for counts in [Counts::parse(text).ok(), Counts::from_csv(text).ok()].into_iter().flatten() {
        // What is long to reckon is no other code.
        if counts.each().count() < 6 {
            survival::picture(&study(&counts, &Options::default()));
        }
    }
    if let Ok(table) = figures::Table::from_csv(text) {
        figures::picture(&figures::read(&table));
    }
});

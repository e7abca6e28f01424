//! Any text is answered with a formula or an error whose place is in the text; what is read is written and read back.
#![no_main]

use libfuzzer_sys::fuzz_target;
use trade::gatherings::{collate, read};

fuzz_target!(|text: &str| {
    match read(text) {
        Ok(formula) => {
            assert!(read(&formula.to_string()).is_ok_and(|again| again == formula));
            assert!(read(&formula.plainly()).is_ok_and(|again| again == formula));
            let found = collate(&formula);
            assert_eq!(found.leaves as usize, found.book.leaves.len());
        }
        Err(e) => assert!(e.at.first <= e.at.end && e.at.end <= text.chars().count().max(1)),
    }
});

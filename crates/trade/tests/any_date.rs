//! Whatever is typed as a date, there is an answer or an error with a place in the text, and no panic.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use proptest::prelude::*;
use trade::calendar::{Calendar, Day, plain_date};
use trade::clause::{Place, days, parse};
use trade::numerals::{Counting, Prior, arabic_meant, chronogram, meant, read};
use trade::reckoning::{Request, Role, reconcile, statement};

/// Text of the words and signs that dates are made of, in any order.
fn datish() -> impl Strategy<Value = String> {
    let word = prop_oneof![
        Just("8"),
        Just("19th"),
        Just("XIX"),
        Just("M.DC."),
        Just("MDDCI"),
        Just("CI)"),
        Just("Ↄ"),
        Just("1648/9"),
        Just("1648-7"),
        Just("10/20"),
        Just("/"),
        Just("28 June/8 July"),
        Just("of freedome"),
        Just("Martii"),
        Just("February"),
        Just("Kal."),
        Just("Ian."),
        Just("pridie"),
        Just("ultimo"),
        Just("the"),
        Just("day of"),
        Just("five and"),
        Just("twentieth"),
        Just("year of our reign"),
        Just("anno regni"),
        Just("Georgii"),
        Just("Car. 2"),
        Just("&"),
        Just("P. & M."),
        Just("2 & 3"),
        Just("feast of"),
        Just("St"),
        Just("eve of"),
        Just("Michaelmas"),
        Just("term"),
        Just("next after"),
        Just("Monday"),
        Just("feria"),
        Just("die"),
        Just("an VII"),
        Just("thermidor"),
        Just("O.S."),
        Just("N. S."),
        Just("thousand"),
        Just("hundred"),
        Just("millesimo"),
        Just("decimoquarto"),
        Just("99999999999"),
        Just("."),
        Just("[/"),
        Just("(I)"),
    ];
    proptest::collection::vec(word, 0..14).prop_map(|words| words.join(" "))
}

fn ask_everything(text: &str) -> Result<(), TestCaseError> {
    let characters = text.chars().count();
    if let Ok(numeral) = read(text) {
        let all = meant(&numeral, &Prior::default());
        prop_assert!(all.iter().all(|m| (0.0..=1.0).contains(&m.plausibility)));
    }
    arabic_meant(text, &Prior::default());
    if let Ok(told) = chronogram(text, Counting::default()) {
        prop_assert_eq!(told.letters.iter().map(|l| l.value).sum::<u32>(), told.year);
    }
    if let Ok(date) = plain_date(text) {
        Calendar::GREGORIAN.day(date.year, date.month, date.day).ok();
    }
    match parse(text) {
        Ok(clause) => {
            for part in &clause.elements {
                prop_assert!(part.span.start < part.span.end && part.span.end <= characters);
            }
            for reading in days(&clause, Place::England).readings {
                prop_assert!(!reading.days.is_empty() && !reading.reckonings.is_empty());
            }
        }
        Err(error) => prop_assert!(!error.to_string().is_empty()),
    }
    if let Ok(one) = statement(Role::Text, text) {
        reconcile(&[one], &Request::default()).ok();
    }
    Ok(())
}

/// What fuzzing found worth keeping (`fuzz/README.md`), on the stable compiler.
#[test]
#[allow(clippy::disallowed_methods, reason = "a test on a corpus must read it")]
fn every_text_of_the_corpus_is_answered() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../fuzz/corpus/date");
    let mut texts = 0;
    for entry in std::fs::read_dir(folder).unwrap() {
        let text = String::from_utf8(std::fs::read(entry.unwrap().path()).unwrap()).unwrap();
        ask_everything(&text).unwrap();
        texts += 1;
    }
    assert!(texts >= 12, "{texts}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn words_of_dates_in_any_order_are_answered(text in datish()) {
        ask_everything(&text)?;
    }

    #[test]
    fn any_text_is_answered(text in any::<String>()) {
        ask_everything(&text)?;
    }

    #[test]
    fn any_numeral_is_answered(text in "[IVXLCDMivxlcdmjuↃ)(.,Z7 ^∞ↀ]{0,40}") {
        ask_everything(&text)?;
    }

    /// A day of history written out is read back as that day, in whatever way it is written.
    #[test]
    fn a_day_comes_back(number in 2_268_993_i32..2_360_000, way in 0..6_usize) {
        let day = Day::from_number(number).unwrap();
        let date = Calendar::JULIAN.date(day);
        let (d, m, y) = (date.day, date.month.name(), date.year);
        let roman = trade::numerals::spell(y as u32).unwrap();
        let text = match way {
            0 => format!("{d} {m} {y} O.S."),
            1 => format!("the {d}th day of {m}, {roman}. O.S."),
            2 => format!("{m} the {d}, {y}. Old Style, {}", day.weekday().name()),
            3 => format!("{} {d}. {m} {roman} stilo veteri", day.weekday().name()),
            4 => {
                let new = Calendar::GREGORIAN.date(day);
                format!("{d} {m}/{} {} {y} O.S.", new.day, new.month.name())
            }
            _ => format!("Anno {roman}. {d} {m} O.S."),
        };
        let told = days(&parse(&text).unwrap(), Place::OldStyle);
        prop_assert!(told.readings.iter().any(|r| r.days.contains(day) && r.days.days() == 1), "{text}");
    }
}

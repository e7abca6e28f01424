//! Replays on the stable compiler what fuzzing found worth keeping (`fuzz/README.md`).
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not be")]
#![allow(clippy::disallowed_methods, reason = "a test on a corpus must read it")]

use trade::gatherings::{collate, read};

#[test]
fn every_text_of_the_corpus_is_answered_and_read_back() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../fuzz/corpus/formula");
    let (mut texts, mut formulas) = (0, 0);
    for entry in std::fs::read_dir(folder).unwrap() {
        let bytes = std::fs::read(entry.unwrap().path()).unwrap();
        let text = String::from_utf8_lossy(&bytes);
        texts += 1;
        match read(&text) {
            Ok(formula) => {
                formulas += 1;
                assert_eq!(read(&formula.to_string()).unwrap(), formula, "{text}");
                assert_eq!(read(&formula.plainly()).unwrap(), formula, "{text}");
                assert_eq!(collate(&formula).leaves as usize, collate(&formula).book.leaves.len());
            }
            Err(e) => assert!(e.at.end <= text.chars().count().max(1), "{text}: {e}"),
        }
    }
    println!("{texts} texts, {formulas} of them formulas");
    assert!(formulas > 50);
}

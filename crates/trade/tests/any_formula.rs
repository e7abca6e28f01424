//! Whatever is typed, there is an answer or an error with a place in the text; and what is read is written and read back.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use proptest::prelude::*;
use trade::gatherings::{collate, read};

/// A gathering or run with what may stand beside it, mostly well formed.
fn item() -> impl Strategy<Value = String> {
    let signature = prop_oneof![
        "[A-HK-M]",
        "[2-4][A-M]",
        "\\[[A-M]\\]",
        "[a-m]",
        Just("π".to_owned()),
        Just("χ".to_owned()),
        Just("*".to_owned()),
        Just("§".to_owned()),
        Just("[dagger]".to_owned()),
        Just("²B".to_owned()),
        Just("χ2C".to_owned()),
        "[1-9]",
    ];
    let leaves =
        prop_oneof![Just("²"), Just("⁴"), Just("^6"), Just("⁸"), Just("¹²"), Just("⁸/⁴"), Just("^1")];
    let beside = prop_oneof![
        6 => Just(String::new()),
        1 => "\\(−?±?[A-M][1-8]\\)",
        1 => "\\(±[A-M]\\)",
        1 => "\\([A-M][1-4]\\+χ[1²]\\)",
        1 => "\\([A-M][1-4]\\+[B-D]⁴\\)",
    ];
    (signature, leaves, beside).prop_map(|(s, l, b)| format!("{s}{l}{b}"))
}

fn runs() -> impl Strategy<Value = String> {
    prop_oneof![
        4 => item(),
        2 => ("[A-H]", "[K-Z]", "[⁴⁸]").prop_map(|(a, b, n)| format!("{a}-{b}{n}")),
        1 => ("[A-H]", "[2-5]", "[A-Z]", "[⁴⁸]").prop_map(|(a, m, b, n)| format!("{a}-{m}{b}{n}")),
        1 => (1..40_u16, 1..40_u16).prop_map(|(a, b)| format!("{a}-{}⁸", a + b)),
    ]
}

fn formulas() -> impl Strategy<Value = String> {
    let ahead = prop_oneof![Just(""), Just("8°: "), Just("12mo: "), Just("2° in 6s: ")];
    let behind = prop_oneof![
        4 => Just(String::new()),
        1 => (1..400_u32).prop_map(|n| format!("; {n} leaves")),
        1 => (1..20_u32, 1..400_u32).prop_map(|(a, b)| format!("; pp. [{a}] 1-{b} [2]")),
        1 => (1..6_u32).prop_map(|n| format!("; ${n} signed")),
    ];
    (ahead, proptest::collection::vec(runs(), 1..8), behind)
        .prop_map(|(a, items, b)| format!("{a}{}{b}", items.join(" ")))
}

/// An answer that holds together, or an error whose place is in the text.
fn answered(text: &str) {
    match read(text) {
        Ok(formula) => {
            let published = formula.to_string();
            let again = read(&published).unwrap_or_else(|e| panic!("{text} -> {published}: {e}"));
            assert_eq!(again, formula, "{text} -> {published}");
            let plain = formula.plainly();
            let again = read(&plain).unwrap_or_else(|e| panic!("{text} -> {plain}: {e}"));
            assert_eq!(again, formula, "{text} -> {plain}");
            let found = collate(&formula);
            assert_eq!(found.leaves as usize, found.book.leaves.len());
            assert!(found.book.leaves.iter().all(|l| l.gathering < found.book.gatherings.len()));
        }
        Err(e) => {
            let characters = text.chars().count();
            assert!(e.at.first <= e.at.end && e.at.end <= characters.max(1), "{text:?}: {:?}", e.at);
            assert!(!e.to_string().is_empty() && e.pointed(text).contains('^'));
        }
    }
}

/// So that the test below is of formulas, and not of errors alone.
#[test]
fn a_good_part_of_the_formulas_made_up_here_is_sound() {
    use proptest::strategy::ValueTree as _;
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    let sound =
        (0..400).filter(|_| read(&formulas().new_tree(&mut runner).unwrap().current()).is_ok()).count();
    assert!(sound > 120, "{sound} of 400");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 3000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn formulas_are_answered(text in formulas()) {
        answered(&text);
    }

    #[test]
    fn characters_of_formulas_are_answered(
        text in "[A-Ca-cπχαβ*§ \\[\\]()0-9²⁴⁸^/_,.;:$+=±−'-]{0,40}"
    ) {
        answered(&text);
    }

    #[test]
    fn any_characters_are_answered(text in "\\PC{0,60}") {
        answered(&text);
    }
}

/// The slowest texts that can be thought of: brackets in brackets, long runs, long lists. None may take long.
#[test]
fn texts_made_to_be_slow_are_answered_soon() {
    let long = [
        "(".repeat(50_000),
        "[".repeat(50_000),
        format!("A⁴({}", "A1+A⁴(".repeat(10_000)),
        format!("A⁸(−A1{})", ",2".repeat(20_000)),
        "A⁴ ".repeat(30_000),
        format!("A⁴; pp. {}", "[1] ".repeat(20_000)),
        format!("A⁴; $1(−A1{})", ",A1".repeat(20_000)),
        "1".repeat(99_999),
        "^".repeat(99_999),
        "A-9999Z⁸".to_owned(),
        "1-20000⁴".to_owned(),
        format!("{}⁴", "*".repeat(90_000)),
        "x".repeat(1_000_000),
        format!("1-12000⁸(−1_1{})", (2..12_000).map(|n| format!(", −{n}_1")).collect::<Vec<_>>().concat()),
        format!("1-12000⁸; $2(−1_1{})", ",2".repeat(30_000)),
        format!("1-12000⁸; $2(−1_1{})", (2..500).map(|n| format!(",{n}_1")).collect::<Vec<_>>().concat()),
        format!("A⁴(A1+χ1{})", "+χ1".repeat(20_000)),
    ];
    for text in long {
        answered(&text);
    }
}

//! Numerals as they are printed: published strings, and thousands made here.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use trade::numerals::{
    Counting, Prior, Slip, System, chronogram, meant, read, spell, spell_additive, spell_apostrophus,
};

/// Where a string was seen.
const RARE: &str = "Descriptive Cataloging of Rare Materials, 5.23.31";
const LIST: &str = "a cataloguers' list posting of 21 March 2001, draft rules";
const SPOFFORD: &str = "A. R. Spofford, A Book for All Readers";
const VALUER: &str = "a Spanish valuer's list of early imprint dates";
const ESSAY: &str = "an essay on Roman numerals in imprints";
const OWN: &str = "composed here after a known habit";

/// Text, sum of all signs, value by the ordinary rule, where it was seen. 0 where a sum or a rule does not apply.
const CASES: [(&str, u32, u32, &str); 58] = [
    ("MDCXIV", 1616, 1614, RARE),
    ("MCCCCLXXXII", 1482, 1482, RARE),
    ("M.D.CC.XLIV", 1766, 1744, RARE),
    ("MDC.LXXVIII", 1678, 1678, RARE),
    ("MDCLXXXVII", 1687, 1687, RARE),
    ("M.DCC.LXXV", 1775, 1775, RARE),
    ("M,DCC,LI", 1751, 1751, RARE),
    ("M,DCC,LXXXIX", 1791, 1789, RARE),
    ("M,DCC,XCII", 1812, 1792, RARE),
    ("M.DC.XCIV", 1716, 1694, RARE),
    ("M.DCCI", 1701, 1701, RARE),
    ("M.D.XXI", 1521, 1521, RARE),
    ("MDCCLXXVI", 1776, 1776, RARE),
    ("M.DC.XXV", 1625, 1625, RARE),
    ("MDCXIII", 1613, 1613, RARE),
    ("MCCCCCXXIX", 1531, 1529, RARE),
    ("MDLII", 1552, 1552, RARE),
    ("DMLII", 1552, 552, LIST),
    ("MDCLVI", 1656, 1656, LIST),
    ("MDCVC", 1705, 1695, SPOFFORD),
    ("MDXLIIX", 1572, 1548, SPOFFORD),
    ("CIↃ IↃ CX", 1610, 1610, SPOFFORD),
    ("CIↃ IↃ C XXVI", 1626, 1626, SPOFFORD),
    ("CIↃ.IↃ.CC.XLIII", 1763, 1743, VALUER),
    ("CIↃ.IↃ.CC.XX.viij", 1728, 1728, VALUER),
    ("M.IↃ", 1500, 1500, VALUER),
    ("M.IↃ.L", 1550, 1550, VALUER),
    ("M.D.L.", 1550, 1550, VALUER),
    ("M.D.C.II", 1602, 1602, VALUER),
    ("M.CCCC.XC.viij", 1518, 1498, VALUER),
    ("M.C.D.X.C.V", 1715, 1495, VALUER),
    ("M.C.D.X.C.IX", 1721, 1499, VALUER),
    ("M.CCCC.X.C.Viiij", 1519, 1499, VALUER),
    ("M jjj D", 1503, 1497, VALUER),
    ("M.I.D.", 1501, 1499, VALUER),
    ("M.CCCC.XX.C", 1520, 1480, VALUER),
    ("M iiii c iiii xx V iij", 0, 0, VALUER),
    ("M.CCCC.7.Z", 1472, 1472, VALUER),
    ("MCCCC.L.XX.Z", 1472, 1472, VALUER),
    ("M. DC. LXXIX.", 1681, 1679, OWN),
    ("mdlxxxviij", 1588, 1588, OWN),
    ("MDCCI", 1701, 1701, OWN),
    ("MDDCI", 2101, 2101, OWN),
    ("MDCLXXXXII", 1692, 1692, OWN),
    ("M.DC.XXXXVIIII", 1649, 1649, OWN),
    ("M.D.XCVIIII", 1619, 1599, OWN),
    ("cIↃ.IↃ.LXXXIIX", 1592, 1588, OWN),
    ("CIↃ IↃC XLIX", 1671, 1649, OWN),
    ("ↀ IↃ LXXIV", 1576, 1574, OWN),
    ("MDIIC", 1602, 1598, OWN),
    ("MDIC", 1601, 1599, ESSAY),
    ("MDXXC", 1620, 1580, OWN),
    ("MVD", 1505, 1495, OWN),
    ("MCDXCIIII", 1714, 1494, OWN),
    ("MDCLXLIII", 1713, 1693, OWN),
    ("MDCCXXLV", 1775, 1735, OWN),
    ("MDCCIM", 2701, 2699, OWN),
    ("VIX", 16, 14, ESSAY),
];

#[test]
fn every_worked_case_adds_up_and_is_read_by_the_rule() {
    for (text, sum, rule, source) in CASES {
        let numeral = read(text).unwrap_or_else(|e| panic!("{text} ({source}): {e}"));
        if sum > 0 {
            assert_eq!(numeral.by_addition(), Some(sum), "{text} ({source})");
            assert_eq!(numeral.by_rule(), Some(rule), "{text} ({source})");
            assert_eq!(numeral.strict(), rule, "{text} ({source})");
        }
    }
}

/// What the sources say was meant, where that is not what the rule reads; with the kind of slip that explains it.
#[test]
fn what_was_meant_is_among_the_readings() {
    let cases: [(&str, i32, Option<&str>); 9] = [
        ("MDCXIII", 1693, Some("dropped")),
        ("MCCCCCXXIX", 1539, Some("dropped")),
        ("MDLII", 1652, Some("dropped")),
        ("DMLII", 1552, Some("transposed")),
        ("M iiii c iiii xx V iij", 1488, None),
        ("MDDCI", 1701, Some("foul case")),
        ("MDDCI", 1601, Some("doubled")),
        ("MDCLXLIII", 1643, Some("doubled")),
        ("MDCCXXLV", 1745, Some("doubled")),
    ];
    for (text, year, kind) in cases {
        let all = meant(&read(text).unwrap(), &Prior::default());
        let found =
            all.iter().find(|m| m.year == year).unwrap_or_else(|| panic!("{text}: no {year} in {all:?}"));
        assert_eq!(found.slip.map(Slip::kind), kind, "{text}");
    }
}

#[test]
fn what_no_hand_press_sheet_can_bear_is_ranked() {
    let years = |text: &str| -> Vec<i32> {
        meant(&read(text).unwrap(), &Prior::default()).iter().map(|m| m.year).collect()
    };
    assert_eq!(years("MDDCI")[..2], [1701, 1601]);
    assert_eq!(years("DMLII")[0], 1552);
    assert_eq!(years("M iiii c iiii xx V iij")[0], 1488);
    // Two readings that are both to be told, the strict one first.
    assert_eq!(years("MDCLXLIII")[0], 1693);
    assert_eq!(years("MDCCXXLV")[0], 1735);
    // Undecidable: none has half the belief.
    let guesses = meant(&read("MDCCIM").unwrap(), &Prior::default());
    assert!(guesses.iter().any(|m| m.year == 1701) && guesses.iter().any(|m| m.year == 1704));
    assert!(guesses[0].plausibility < 0.5, "{guesses:?}");
    // VIX for sixteen is on record (an essay on Roman numerals in imprints): both are told.
    let both: Vec<_> = read("VIX").unwrap().readings.iter().map(|r| (r.value, r.system)).collect();
    assert_eq!(both, [(14, System::Subtraction), (16, System::Addition)]);
}

/// Every number from 1 to 3999, as PyPI's `roman` writes it, and as it is written out here: the same text, the same number.
#[test]
fn every_number_as_the_package_roman_writes_it() {
    let Some(python) = outside::python_with("roman") else { return };
    let answer = outside::script(&python, "dates.py", &["roman".to_owned()], b"");
    let answer = String::from_utf8(answer).unwrap();
    let mut lines = 0;
    for (number, line) in (1..).zip(answer.lines()) {
        assert_eq!(spell(number).as_deref(), Some(line));
        assert_eq!(read(line).unwrap().strict(), number, "{line}");
        lines += 1;
    }
    assert_eq!(lines, 3999);
}

#[test]
fn every_year_of_the_hand_press_comes_back_from_every_way_of_writing() {
    for year in 1450..=1830 {
        let regular = spell(year).unwrap();
        let pointed: String = regular.chars().flat_map(|c| [c, '.', ' ']).collect();
        let final_j = regular.to_lowercase().strip_suffix('i').map(|s| format!("{s}j"));
        let brackets = spell_apostrophus(year).unwrap().replace('Ↄ', ")");
        let all = [
            Some(regular.clone()),
            Some(regular.to_lowercase()),
            Some(regular.replace('V', "U")),
            Some(pointed),
            final_j,
            spell_additive(year),
            spell_apostrophus(year),
            Some(brackets),
            Some(regular.replacen('M', "ↀ", 1)),
        ];
        for text in all.into_iter().flatten() {
            let numeral = read(&text).unwrap_or_else(|e| panic!("{text}: {e}"));
            assert_eq!(numeral.strict(), year, "{text}");
            let likeliest = meant(&numeral, &Prior::default());
            assert_eq!((likeliest[0].year, likeliest[0].slip), (year as i32, None), "{text}");
        }
    }
}

/// One sort of a sound numeral is exchanged, left out, doubled or moved: the year is among what may have been meant.
#[test]
fn a_planted_slip_is_found_again() {
    for year in (1450..=1830).step_by(7) {
        let sound: Vec<char> = spell(year).unwrap().chars().collect();
        for at in 0..sound.len() {
            let mut dropped = sound.clone();
            dropped.remove(at);
            let mut doubled = sound.clone();
            doubled.insert(at, sound[at]);
            let mut wrong = sound.clone();
            wrong[at] = if sound[at] == 'D' { 'C' } else { 'D' };
            let mut swapped = sound.clone();
            swapped.swap(at, (at + 1) % sound.len());
            let slips = if at + 1 < sound.len() {
                vec![dropped, doubled, wrong, swapped]
            } else {
                vec![dropped, doubled, wrong]
            };
            for slip in slips {
                let text: String = slip.into_iter().collect();
                let all = meant(&read(&text).unwrap(), &Prior::default());
                assert!(all.iter().any(|m| m.year == year as i32), "{year} set as {text}: {all:?}");
            }
        }
    }
}

#[test]
fn what_is_no_numeral_is_refused_with_its_place() {
    let told = |text: &str| read(text).unwrap_err().to_string();
    assert!(
        told("MDGCI").starts_with("'G' at character 3 is no part of a numeral; expected"),
        "{}",
        told("MDGCI")
    );
    assert!(told("MD)CI").contains("the reversed C at character 3 closes nothing"), "{}", told("MD)CI"));
    assert!(told("  ").contains("no numeral here"));
    assert!(told("14XX").contains("figures come before the letters"));
    assert!(told(&"M".repeat(500)).contains("500 characters"));
    assert!(chronogram("nothing here", Counting::default()).is_err());
    assert!(read("99999999999999999999").is_err());
}

//! Dates of one sheet held against each other.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use trade::calendar::Calendar;
use trade::clause::Place;
use trade::reckoning::{
    ReckoningError, Reconciled, Request, Role, catalogued, reconcile, statement, that_is,
};

fn sheet(dates: &[(Role, &str)]) -> (Vec<trade::reckoning::Statement>, Reconciled) {
    let all: Vec<_> = dates.iter().map(|(role, text)| statement(*role, text).unwrap()).collect();
    let told = reconcile(&all, &Request::default()).unwrap();
    (all, told)
}

fn first_day(days: &trade::clause::DaySet) -> String {
    Calendar::british().date(days.first().unwrap()).to_string()
}

/// How Descriptive Cataloging of Rare Materials, 5.23.31, writes dates that are not what they say.
#[test]
fn published_forms() {
    let (all, told) = sheet(&[(Role::Imprint, "M.DC.XXV"), (Role::Text, "17 January, 1 Car. 1")]);
    let [reading] = &told.agreement[..] else { panic!("{told:?}") };
    assert_eq!(first_day(&reading.days), "17 January 1626");
    let form = catalogued(&all[0], &reading.days, &reading.reckonings[0], true);
    assert_eq!(form.as_deref(), Some("M.DC.XXV [that is, 1626]"));

    let (all, told) = sheet(&[(Role::Imprint, "20 February 1743"), (Role::Text, "17 Geo. 2")]);
    let reading = &told.agreement[0];
    assert_eq!(
        catalogued(&all[0], &reading.days, &reading.reckonings[0], true).as_deref(),
        Some("20 February 1743 [that is, 1744]")
    );

    let (all, told) = sheet(&[(Role::Imprint, "3 March 1690/1")]);
    let reading = &told.agreement[0];
    assert_eq!(
        catalogued(&all[0], &reading.days, &reading.reckonings[0], true).as_deref(),
        Some("3 March 1690/1 [that is, 1691]")
    );
    // MDCXIII for 1693, MCCCCCXXIX for 1539, MDLII for 1652: one sort left out, which a date in the text tells.
    for (imprint, text, year) in
        [("MDCXIII", "June 1693", 1693), ("MCCCCCXXIX", "June 1539", 1539), ("MDLII", "June 1652", 1652)]
    {
        let (all, told) = sheet(&[(Role::Imprint, imprint), (Role::Text, text)]);
        assert!(told.agreement.is_empty());
        let remedy = told.remedies.iter().find(|r| r.slips[0].part == 0).unwrap();
        assert!(remedy.slips[0].reason.starts_with("dropped"), "{remedy:?}");
        let form = catalogued(&all[0], &remedy.days, &remedy.reckonings[0], true);
        assert_eq!(form, Some(that_is(imprint, year, true)));
    }
}

#[test]
fn an_impossible_imprint_is_mended_by_the_rest_of_the_sheet() {
    let (all, told) = sheet(&[
        (Role::Imprint, "MDDCI"),
        (Role::Text, "Given at Our Court at Merrin, Thursday the nineteenth day of February 1701"),
        (Role::Text, "in the fourteenth year of our reign"),
        (Role::Event, "12 January 1701"),
    ]);
    assert!(told.agreement.is_empty());
    assert!(told.conflicts.iter().any(|c| c.parts == [0]), "{:?}", told.conflicts);
    let best = &told.remedies[0];
    assert_eq!(best.slips.len(), 1);
    assert_eq!((best.slips[0].set.as_str(), best.slips[0].meant.as_str()), ("MDDCI", "MDCCI (1701)"));
    assert!(best.slips[0].reason.starts_with("foul case"));
    // The fourteenth of William, and 19 February a Thursday: the legal year 1701, which is 1702.
    assert_eq!(first_day(&best.days), "19 February 1702");
    assert_eq!(
        catalogued(&all[0], &best.days, &best.reckonings[0], true).as_deref(),
        Some("MDDCI [that is, 1702]")
    );
}

#[test]
fn agreement_and_contradiction() {
    let (_, told) = sheet(&[(Role::Text, "Tuesday 30 January 1648/9"), (Role::Imprint, "1648")]);
    assert_eq!(told.agreement.len(), 1);
    assert!(told.agreement[0].reckonings[0].name.contains("legal year"));
    // A weekday that does not fit: the smallest conflict is of three parts, and one slip mends it.
    let (_, told) = sheet(&[(Role::Text, "Monday 30 January 1648/9")]);
    assert_eq!(told.conflicts.len(), 1);
    assert_eq!(told.conflicts[0].parts, [0, 1, 2]);
    assert!(told.remedies.iter().any(|r| r.slips[0].meant == "Tuesday"));
    assert!(told.remedies.iter().all(|r| r.slips.len() == 1));
    assert!((told.remedies.iter().map(|r| r.plausibility).sum::<f64>() - 1.0).abs() < 0.2);
}

#[test]
fn licences_and_events_come_first() {
    let (_, told) = sheet(&[(Role::Licence, "3 May 1680"), (Role::Imprint, "1680")]);
    assert_eq!(first_day(&told.agreement[0].days), "3 May 1680");
    let (_, told) = sheet(&[(Role::Licence, "3 May 1681"), (Role::Imprint, "1680")]);
    assert!(told.agreement.is_empty());
    assert_eq!(told.conflicts.len(), 1, "{told:?}");
    // Either year may be the wrong one.
    let meant: Vec<_> = told.remedies.iter().map(|r| (r.slips[0].part, r.slips[0].meant.as_str())).collect();
    assert!(meant.contains(&(2, "1681")) && meant.contains(&(1, "1680")), "{meant:?}");
    let (_, told) =
        sheet(&[(Role::Imprint, "1680"), (Role::NotAfter, "1 June 1680"), (Role::Event, "2 April 1680")]);
    assert_eq!((told.agreement[0].days.days(), told.agreement.len()), (61, 1));
}

#[test]
fn a_window_decides_between_kings() {
    let all = [statement(Role::Text, "19 February in the five and twentieth year of our reign").unwrap()];
    let request = Request { place: Place::England, between: Some(1640..=1720) };
    let told = reconcile(&all, &request).unwrap();
    assert!(told.agreement.iter().any(|r| first_day(&r.days) == "19 February 1673"), "{told:?}");
    assert!(told.agreement.iter().all(|r| !first_day(&r.days).ends_with("1785")));
    let narrow = Request { place: Place::England, between: Some(1600..=1610) };
    let told = reconcile(&all, &narrow).unwrap();
    assert!(told.outside_window && told.agreement.is_empty());
}

#[test]
fn what_no_slip_explains_is_left_out() {
    let (_, told) =
        sheet(&[(Role::Imprint, "1680"), (Role::Text, "an II"), (Role::Text, "Trinity term 1680")]);
    assert!(told.remedies.is_empty(), "{:?}", told.remedies);
    assert_eq!(told.left_out, [1]);
}

#[test]
fn bad_requests_are_refused() {
    assert_eq!(reconcile(&[], &Request::default()), Err(ReckoningError::None));
    let one = statement(Role::Imprint, "1680").unwrap();
    let many = vec![one.clone(); 40];
    assert!(matches!(reconcile(&many, &Request::default()), Err(ReckoningError::TooMany { .. })));
    let backwards =
        Request { place: Place::England, between: Some(std::ops::RangeInclusive::new(1700, 1600)) };
    let told = reconcile(&[one], &backwards).unwrap_err().to_string();
    assert!(told.contains("the earlier year first"), "{told}");
    assert!(statement(Role::Imprint, "MDGCI").is_err());
}

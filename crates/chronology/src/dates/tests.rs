use super::*;
use crate::order::order;
use crate::table::Dated;
use crate::table::tests::dated;

/// A row that is absent on the first `gap` of `n` impressions.
fn row(n: usize, gap: usize) -> String {
    "0".repeat(gap) + &"1".repeat(n - gap)
}

/// Impressions of these years, the damage growing by two a year from the first; an undated one is given its true year apart.
fn worn(years: &[Dated], truth: &[i32]) -> Table {
    let rows: Vec<String> = (truth[0]..*truth.last().unwrap())
        .flat_map(|y| {
            let gap = truth.iter().filter(|&&t| t <= y).count();
            vec![row(truth.len(), gap); 2]
        })
        .collect();
    let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
    dated(&rows, years)
}

fn exactly(year: i32) -> Dated {
    Dated::Exactly { year }
}

fn told(table: &Table) -> Dates {
    dates(table, &order(table, 1), &DatesOptions::default())
}

#[test]
fn an_undated_sheet_is_dated_between_its_neighbours() {
    let years = [exactly(1590), exactly(1600), exactly(1610), Dated::Unknown, exactly(1620), exactly(1630)];
    let told = told(&worn(&years, &[1590, 1600, 1610, 1615, 1620, 1630]));
    let [date] = &told.impressions[..] else { panic!("{:?}", told.impressions) };
    let (before, after) = (date.bounds.not_before.unwrap(), date.bounds.not_after.unwrap());
    assert_eq!((before.year, before.impression, after.year, after.impression), (1610, 2, 1620, 4));
    let by_order = date.by_order.as_ref().unwrap();
    // Even between the neighbours: no more is known.
    assert!((by_order.median_year - 1615.0).abs() < 0.6, "{by_order:?}");
    let [from, to] = by_order.interval_95_year;
    assert!(from < 1611.0 && to > 1619.0);
    let with_rate = date.with_rate.as_ref().unwrap();
    let [from, to] = with_rate.interval_95_year;
    assert!((with_rate.median_year - 1615.0).abs() < 0.6 && to - from < 7.0, "{with_rate:?}");
    let line = date.plain_line.unwrap();
    assert!((line.prediction.year - 1615.0).abs() < 0.3 && line.judged == 80);
    let RateTold::Found { per_year, interval_95_per_year: [low, high], dated: 5, convergence, .. } =
        told.rate
    else {
        panic!("{:?}", told.rate)
    };
    assert!(convergence.is_reached && low < 2.0 && 2.0 < high && (1.6..2.5).contains(&per_year));
    let checks = told.checks.unwrap();
    assert_eq!(checks.held_out.len(), 5);
    assert!(checks.within_95.unwrap() > 0.7);
    assert!(told.warnings.is_empty(), "{:?}", told.warnings);
}

#[test]
fn one_dated_sheet_gives_a_bound_and_no_rate() {
    let told = told(&worn(&[exactly(1600), Dated::Unknown, Dated::Unknown], &[1600, 1610, 1620]));
    assert!(matches!(&told.rate, RateTold::None { dated: 1, reason } if reason.contains("needs two")));
    assert!(told.impressions.iter().all(|d| d.with_rate.is_none() && d.plain_line.is_none()));
    assert_eq!(told.impressions[0].bounds.not_before.unwrap().year, 1600);
    assert!(told.impressions[1].by_order.as_ref().unwrap().rests_on_window);
    assert!(told.warnings.contains(&DateWarning::FewDated { dated: 1, enough: 4 }));
}

#[test]
fn without_a_year_nothing_is_dated() {
    let told = told(&worn(&[Dated::Unknown, Dated::Unknown], &[1600, 1610]));
    assert!(told.by_order.is_none() && told.impressions.iter().all(|d| d.by_order.is_none()));
    assert!(matches!(told.rate, RateTold::None { dated: 0, .. }));
}

#[test]
fn a_sheet_beyond_the_dated_ones_is_said_to_be_so() {
    let years = [exactly(1600), exactly(1610), exactly(1620), exactly(1630), Dated::NotAfter { year: 1700 }];
    let told = told(&worn(&years, &[1600, 1610, 1620, 1630, 1642]));
    let with_rate = told.impressions[0].with_rate.as_ref().unwrap();
    assert!((with_rate.median_year - 1642.0).abs() < 4.0 && with_rate.beyond_dated > 0.9, "{with_rate:?}");
    let sentences: Vec<String> = told.warnings.iter().map(DateWarning::sentence).collect();
    assert!(sentences.iter().any(|s| s.starts_with("E lies beyond the dated impressions")), "{sentences:?}");
}

#[test]
fn dates_that_contradict_the_wear_are_named() {
    let told = told(&worn(&[exactly(1620), exactly(1610), exactly(1600)], &[1600, 1610, 1620]));
    let against = told.warnings.iter().filter(|w| matches!(w, DateWarning::DatesAgainstWear { .. }));
    assert_eq!(against.count(), 3);
    let sentences: Vec<String> = told.warnings.iter().map(DateWarning::sentence).collect();
    assert!(
        sentences[0].starts_with(
            "B is dated earlier than A, but its wear makes it the later (100 percent): it shows 1, 2"
        ),
        "{sentences:?}"
    );
}

#[test]
fn all_of_it_goes_to_json_and_back() {
    let table = worn(&[exactly(1600), Dated::Unknown, exactly(1620)], &[1600, 1610, 1620]);
    let told = dates(&table, &order(&table, 1), &DatesOptions { hold_out: 0, ..DatesOptions::default() });
    let text = serde_json::to_string(&told).unwrap();
    let read: Dates = serde_json::from_str(&text).unwrap();
    assert_eq!((read.impressions.len(), read.warnings), (1, told.warnings));
    assert!(text.contains(r#""rate":{"is":"found","per_year":"#));
    let schema = serde_json::to_string(&schemars::schema_for!(Dates)).unwrap();
    assert!(schema.contains("interval_95_year"));
}

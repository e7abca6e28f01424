//! Whatever a table holds, there is an answer in numbers, and no panic.

use chronology::{Damage, Dated, DatesOptions, Impression, Sighting, Table, dates, order};
use proptest::prelude::*;

fn sighting() -> impl Strategy<Value = Sighting> {
    prop_oneof![Just(Sighting::Present), Just(Sighting::Absent), Just(Sighting::Unclear)]
}

fn dated() -> impl Strategy<Value = Dated> {
    prop_oneof![
        Just(Dated::Unknown),
        (1590..1640).prop_map(|year| Dated::Exactly { year }),
        (1590..1600, 0..40).prop_map(|(from, more)| Dated::Between { from, to: from + more }),
        (1..9999).prop_map(|year| Dated::NotBefore { year }),
        (1590..1640).prop_map(|year| Dated::NotAfter { year }),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 16, failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn any_table_is_answered(
        years in proptest::collection::vec(dated(), 2..6),
        cells in proptest::collection::vec(sighting(), 48),
        damages in 1..8_usize,
    ) {
        let n = years.len();
        let impressions = years.iter().enumerate().map(|(i, &dated)| Impression { name: format!("copy {i}"), dated });
        let rows = (0..damages).map(|d| Damage { name: format!("damage {d}"), seen: cells[d * n..][..n].to_vec() });
        let table = Table::new(impressions.collect(), rows.collect()).unwrap();
        let order = order(&table, 1);
        for (a, row) in order.before.iter().enumerate() {
            for (b, chance) in row.iter().enumerate() {
                prop_assert!((0.0..=1.0).contains(chance));
                prop_assert!((chance + order.before[b][a] - 1.0).abs() < 1e-9);
            }
        }
        prop_assert_eq!(order.arrangement.impressions.len(), n);
        prop_assert!(order.contradictions.fewest_possible <= order.contradictions.cells.len());
        let options = DatesOptions { hold_out: 1, beyond_years: f64::NAN, ..DatesOptions::default() };
        let told = dates(&table, &order, &options);
        for date in &told.impressions {
            for year in [&date.by_order, &date.with_rate].into_iter().flatten() {
                prop_assert!(year.quantiles_year.windows(2).all(|w| w[0] <= w[1]));
                let (from, to) = (year.quantiles_year[0], year.quantiles_year[40]);
                prop_assert!(from.is_finite() && to.is_finite());
                let (first, last) = match years[date.impression] {
                    Dated::Between { from, to } => (f64::from(from) - 0.5, f64::from(to) + 0.5),
                    Dated::NotBefore { year } => (f64::from(year) - 0.5, f64::MAX),
                    Dated::NotAfter { year } => (f64::MIN, f64::from(year) + 0.5),
                    _ => (f64::MIN, f64::MAX),
                };
                prop_assert!(first <= from && to <= last, "{from} to {to} in {first} to {last}");
            }
        }
    }
}

//! Whatever is read, there is an answer or an error, in numbers and well-formed pictures, and no panic.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use proptest::prelude::*;
use trade::presswork::questions::Deadline;
use trade::presswork::{
    Asked, Crew, Day, Paper, Pence, Place, Plan, PlanError, Rates, SetBy, Sides, Spread, gantt, report,
};
use trade::survival::{Counts, Options, study};
use trade::{figures, survival};

fn any_plan() -> impl Strategy<Value = Plan> {
    let spread = |most: f64| (0.0..most, 0.0..most).prop_map(|(a, b)| Spread::between(a.min(b), a.max(b)));
    let numbers = (1..3000_u32, 0..6_u32, 0..3_u32, 1..4_u32, 1..5_u32, 1..6_u32, 0..6_u32);
    let switches = (any::<bool>(), any::<bool>(), any::<bool>(), proptest::option::of(spread(30_000.0)));
    let rates = (spread(2000.0), spread(1.0), spread(400.0), spread(3.0), spread(30.0), spread(60.0));
    let day = (0.0..26.0, 0.0..24.0, 0..9_u32);
    (numbers, switches, rates, day).prop_map(|(n, s, r, d)| Plan {
        half_sheets: n.2,
        sides: if s.0 { Sides::One } else { Sides::Both },
        settings: n.3,
        compositors: n.4,
        presses: n.5,
        crews: n.6,
        crew: if s.1 { Crew::Half } else { Crew::Full },
        set_by: if s.2 { SetBy::Formes } else { SetBy::Pages },
        rates: Rates {
            ens_per_sheet: s.3,
            ens_per_hour: r.0,
            correction: r.1,
            impressions_per_hour: r.2,
            make_ready: r.3,
            between_sides: r.4,
            drying: r.5,
        },
        day: Day { hours: d.0, begins: d.1, days_a_week: d.2 },
        paper: Paper { waste: 0.03, ream: 500 },
        places: vec![Place {
            name: "<Merrin & Overby>".into(),
            copies: n.0 / 2,
            days: Spread::between(1.0, 3.0),
        }],
        ..Plan::new(n.0, n.1)
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_plan_is_reckoned_or_refused(plan in any_plan()) {
        let asked = Asked { runs: 40, by: Some(Deadline::Days(6.0)), ..Asked::default() };
        match report(plan.clone(), &asked) {
            Err(error) => {
                let told = error.to_string();
                prop_assert!(!told.is_empty());
                let is_sound = plan.sheets + plan.half_sheets > 0 && plan.crews > 0;
                prop_assert!(!(is_sound && matches!(error, PlanError::NoSheets)));
            }
            Ok(told) => {
                let formes = plan.formes() * plan.settings;
                let at_press = told.schedule.bars.iter().filter(|b| matches!(b.by, trade::presswork::Row::Press(_)));
                prop_assert_eq!(at_press.count() as u32, formes);
                let m = &told.many.out;
                prop_assert!(m.percent_5 <= m.percent_50 && m.percent_50 <= m.percent_95);
                // No press does two things at once, and nothing is printed before it is corrected.
                let mut bars = told.schedule.bars.clone();
                bars.sort_by(|a, b| a.by.cmp(&b.by).then(a.from.work_hours.total_cmp(&b.from.work_hours)));
                for two in bars.windows(2).filter(|w| w[0].by == w[1].by && w[0].by != trade::presswork::Row::Nobody) {
                    prop_assert!(two[0].to.work_hours <= two[1].from.work_hours + 1e-9);
                }
                let last = told.arrivals.last().unwrap();
                prop_assert!(last.leaves.clock_hours <= told.schedule.out.clock_hours + 1e-6);
                prop_assert!(told.schedule.printed.work_hours >= told.sums.press_hours / f64::from(plan.working_presses()) - 1e-6);
                roxmltree::Document::parse(&gantt(&told)).unwrap();
            }
        }
    }

    #[test]
    fn any_counts_are_studied(of in proptest::collection::vec((0..400_u32, 0..3000_u64), 1..12), size in 0..500_u32) {
        let counts = Counts::new(of.into_iter().map(|(copies, items)| survival::CountOf { copies, items }));
        if let Ok(counts) = counts {
            let told = study(&counts, &Options { edition_size: Some(size), further: vec![0.5, 2.0, f64::NAN] });
            let known = told.items as f64;
            let chao = told.chao1.interval_95;
            prop_assert!(told.chao1.total.unwrap() >= known - 1e-9 && chao.low >= known - 1e-9);
            for law in &told.laws {
                if let Some(total) = law.estimate.total {
                    prop_assert!(total >= known - 1e-6 && total.is_finite(), "{law:?}");
                }
                let interval = law.estimate.interval_95;
                prop_assert!(interval.low >= known - 1e-6 && interval.high.is_none_or(|h| h >= interval.low), "{law:?}");
            }
            roxmltree::Document::parse(&survival::picture(&told)).unwrap();
        }
    }

    #[test]
    fn any_text_is_read_or_refused(text in "\\PC{0,60}", lines in "((o|i|[a-c,\"]|\n|outer){0,40})") {
        Spread::parse(&text).ok();
        Pence::parse(&text).ok();
        Deadline::parse(&text).ok();
        Counts::parse(&text).ok();
        Counts::from_csv(&format!("item,copies\n{lines}")).ok();
        Counts::from_csv(&text).ok();
        if let Ok(table) = figures::Table::from_csv(&format!("copy,sheet,forme,figure\n{lines}")) {
            roxmltree::Document::parse(&figures::picture(&figures::read(&table))).unwrap();
        }
    }

    #[test]
    fn any_table_of_figures_is_read(cells in proptest::collection::vec((0..3_u8, 0..9_u8, any::<bool>(), "[1-4*]?"), 1..60)) {
        let mut lines = String::from("copy,sheet,forme,figure\n");
        for (copy, sheet, outer, figure) in cells {
            let forme = if outer { "o" } else { "i" };
            lines.push_str(&[copy.to_string(), sheet.to_string(), forme.to_owned(), figure].join(","));
            lines.push('\n');
        }
        if let Ok(table) = figures::Table::from_csv(&lines) {
            let told = figures::read(&table);
            let shares: f64 = told.work.iter().map(|w| w.share).sum();
            // A forme of which most copies show none counts for nobody.
            prop_assert!(told.work.is_empty() || (shares - 1.0).abs() < 1e-9, "{shares}");
            roxmltree::Document::parse(&figures::picture(&told)).unwrap();
        }
    }
}

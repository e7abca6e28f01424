//! Press work, against worked examples.
//!
//! The arithmetic of each was done by hand and by a script of its own from the rates that stand beside it with their sources;
//! the jobs themselves are invented, but for the last.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use trade::presswork::cost::cost;
use trade::presswork::questions::{Deadline, Known, edition, most_copies, needed, twice};
use trade::presswork::sums::{impressions, sums};
use trade::presswork::{
    Asked, Crew, Day, Paper, Pence, Place, Plan, Prices, Rates, SetBy, Sides, Spread, arrivals, report,
    schedule,
};

/// A plan with one rate at press, nothing that waits, and no waste.
fn plain(copies: u32, sheets: u32, an_hour: f64, make_ready: f64) -> Plan {
    let mut plan = Plan::new(copies, sheets);
    plan.paper.waste = 0.0;
    plan.rates = Rates {
        ens_per_sheet: None,
        impressions_per_hour: Spread::exactly(an_hour),
        make_ready: Spread::exactly(make_ready),
        between_sides: Spread::exactly(0.0),
        drying: Spread::exactly(0.0),
        ..Rates::default()
    };
    plan
}

#[track_caller]
fn near(got: f64, wanted: f64, within: f64) {
    assert!((got - wanted).abs() <= within, "{got} for {wanted}");
}

#[test]
fn a_broadside_of_a_thousand() {
    // 250 an hour: Savage 1841, common book work; 200: the sober average of Moran 1973.
    for (an_hour, hours) in [(250.0, 5.0), (200.0, 6.0)] {
        let plan = Plan { sides: Sides::One, ..plain(1000, 1, an_hour, 1.0) };
        let told = sums(&plan, &plan.rates.middle());
        near(told.press_hours, hours, 1e-12);
        near(told.tokens, 4.0, 1e-12);
        near(told.reams, 2.0, 1e-12);
        near(schedule(&plan, &plan.rates.middle()).printed.work_hours, hours, 1e-12);
        // 2 reams 40 sheets of 480, and 40 quires of 25.
        near(told.sheets, 2.0 * 480.0 + 40.0, 1e-12);
        near(told.sheets, 40.0 * 25.0, 1e-12);
    }
}

#[test]
fn an_octavo_of_thirteen_sheets_and_a_half() {
    // 8vo: A4 B-O8, 750 copies.
    let plan = Plan { half_sheets: 1, ..plain(750, 13, 200.0, 1.0) };
    let told = sums(&plan, &plan.rates.middle());
    assert_eq!((told.impressions, told.formes), (20_250, 27));
    near(told.tokens, 81.0, 1e-12);
    near(told.press_hours, 128.25, 1e-12);
    near(told.sheets, 10_125.0, 1e-12);
    near(told.reams, 20.25, 1e-12);
    let of_480 = Plan { paper: Paper { waste: 0.0, ream: 480 }, ..plan.clone() };
    near(sums(&of_480, &of_480.rates.middle()).reams, 21.09, 5e-3);
    near(schedule(&plan, &plan.rates.middle()).printed.work_hours / 10.0, 12.825, 1e-9);
}

#[test]
fn a_folio_in_sixes_of_a_thousand() {
    for (an_hour, one_press, two) in [(250.0, 46.0, 23.0), (200.0, 57.5, 28.75)] {
        let mut plan = plain(1000, 69, an_hour, 0.0);
        plan.day = Day { hours: 12.0, ..Day::default() };
        let told = sums(&plan, &plan.rates.middle());
        assert_eq!((told.formes, told.impressions), (138, 138_000));
        near(told.tokens, 552.0, 1e-12);
        near(told.reams, 138.0, 1e-12);
        near(schedule(&plan, &plan.rates.middle()).printed.work_hours / 12.0, one_press, 1e-9);
        (plan.presses, plan.crews) = (2, 2);
        let days = schedule(&plan, &plan.rates.middle()).printed.work_hours / 12.0;
        // 69 sheets on two presses: the last forme is printed on one of them alone, so a forme's time more at most.
        assert!(days >= two - 1e-9 && days <= two + 1000.0 / an_hour / 12.0, "{days}");
    }
}

#[test]
fn composing_an_octavo_sheet() {
    // 36 lines of 44 ens, 16 pages; 1,000 ens an hour is the ceiling that handbooks give (from memory).
    let mut plan = plain(750, 1, 200.0, 0.0);
    plan.rates.ens_per_sheet = Some(Spread::exactly(36.0 * 44.0 * 16.0));
    plan.rates.ens_per_hour = Spread::exactly(1000.0);
    let told = sums(&plan, &plan.rates.middle());
    near(told.composing_hours, 25.344, 1e-9);
    near(told.press_hours, 7.5, 1e-9);
    near(told.compositors_to_a_press.unwrap(), 3.38, 5e-3);
    near(told.edition_in_balance.unwrap(), 2534.0, 0.5);
}

#[test]
fn days_tasks_as_rates() {
    // Hamilton, Brief History of Printing II, §§ 16-17: a day's task of 2,650 sheets at Paris about 1575, 3,350 at Lyons; a
    // press that does so much in a day of so many hours has these rates, and prints the task in just that day.
    for (task, hours, an_hour) in [(2650, 12.0, 220.8), (2650, 14.0, 189.3), (3350, 14.0, 239.3)] {
        near(f64::from(task) / hours, an_hour, 0.05);
        let mut plan = Plan { sides: Sides::One, ..plain(task, 1, f64::from(task) / hours, 0.0) };
        plan.day = Day { hours, begins: 5.0, days_a_week: 6 };
        let out = schedule(&plan, &plan.rates.middle()).out;
        assert_eq!(out.day(), 1);
        near(out.hour(), 5.0 + hours, 1e-9);
    }
}

#[test]
fn a_half_press() {
    // One man: 5 quires an hour to 10 (Moxon, as quoted by Savage 1841). A half-sheet pamphlet of 500: 250 sheets, 500 pulls.
    let plan = Plan { half_sheets: 1, crew: Crew::Half, ..plain(500, 0, 250.0, 0.0) };
    let told = sums(&plan, &plan.rates.middle());
    near(told.sheets, 250.0, 1e-12);
    assert_eq!((told.impressions, told.pressmen), (500, 1));
    near(told.press_hours, 4.0, 1e-12);
    near(schedule(&plan, &plan.rates.middle()).printed.work_hours, 4.0, 1e-12);
}

#[test]
fn a_bill() {
    // Invented prices: paper 10s a ream of 500, composing 8s a sheet, 14d a token, correcting a sixth, overhead half of labour.
    let prices = Prices {
        ream: Pence::parse("10s").unwrap(),
        composing: Pence::parse("8s").unwrap(),
        token: Pence::parse("14d").unwrap(),
        correction: 1.0 / 6.0,
        overhead: 0.5,
    };
    let shillings = |p: Pence| p.0 / 12.0;
    for (copies, total, copy, share) in [(500, 310.0, "7.44d", 0.32), (1500, 650.0, "5.2d", 0.46)] {
        let plan = plain(copies, 10, 200.0, 0.0);
        let told = cost(&plan, &sums(&plan, &plan.rates.middle()), &prices);
        near(shillings(told.total), total, 1e-9);
        assert_eq!(told.per_copy.to_string(), copy);
        near(told.paper_share, share, 5e-3);
        near(shillings(told.correcting), 13.33, 5e-3);
    }
    let plan = plain(500, 10, 200.0, 0.0);
    let told = cost(&plan, &sums(&plan, &plan.rates.middle()), &prices);
    near(shillings(told.presswork), 46.67, 5e-3);
    near(shillings(told.overhead), 70.0, 1e-9);
}

#[test]
fn an_urgent_sheet_is_to_be_set_twice() {
    // 3,000 copies of one side in twelve hours, an hour to make ready, 200 an hour.
    let plan = Plan {
        sides: Sides::One,
        day: Day { hours: 12.0, begins: 6.0, days_a_week: 6 },
        ..plain(3000, 1, 200.0, 1.0)
    };
    let by = Deadline::parse("12 hours").unwrap();
    assert_eq!(most_copies(&plan, by, &plan.rates.middle()), 2200, "one press: (12 - 1) 200");
    let told = needed(&plan, by);
    // One setting is one forme: no second press helps.
    assert_eq!((told[0].settings, told[0].presses), (1, None));
    assert_eq!((told[1].settings, told[1].presses), (2, Some(2)));
    near(told[1].out.unwrap().work_hours, 8.5, 1e-9);
    let two = Plan { presses: 2, crews: 2, ..plan.clone() };
    let told = twice(&two).unwrap();
    near(told.once.work_hours, 16.0, 1e-9);
    near(told.twice.work_hours, 8.5, 1e-9);
    assert_eq!(twice(&plan).unwrap().pays_from, None, "with one press it never does");
}

#[test]
fn setting_twice_pays_where_half_the_run_outlasts_a_second_composing() {
    // One compositor, C hours for the side: once C + k + E/r, twice 2C + k + E/2r, so from E = 2Cr on. C = 5, r = 200: 2,000.
    let mut plan = Plan { sides: Sides::One, presses: 2, crews: 2, ..plain(1000, 1, 200.0, 1.0) };
    plan.rates.ens_per_sheet = Some(Spread::exactly(5000.0));
    plan.rates.ens_per_hour = Spread::exactly(1000.0);
    plan.rates.correction = Spread::exactly(0.0);
    // An odd edition leaves one more for the first setting, which is begun first: a copy or two about 2,000.
    let from = twice(&plan).unwrap().pays_from.unwrap();
    assert!(from.abs_diff(2000) <= 2, "{from}");
    // Two compositors set both at once: it pays as soon as half a run is shorter than a run.
    plan.compositors = 2;
    assert_eq!(twice(&plan).unwrap().pays_from, Some(2));
}

#[test]
fn savages_day() {
    // Savage, Dictionary of the Art of Printing (1841), s.v. Hours: a token of 258, twelve to a day; fine work three to four.
    for (tokens, wanted) in [(12, 3096), (3, 774), (4, 1032)] {
        let plan = Plan { sides: Sides::One, token: 258, ..plain(258 * tokens, 1, 258.0, 0.0) };
        let told = sums(&plan, &plan.rates.middle());
        assert_eq!(told.impressions, u64::from(wanted as u32));
        near(told.tokens, f64::from(tokens), 1e-12);
    }
}

#[test]
fn oxford_1734() {
    // 500 copies of a book of 116 pages took 34 working days (a query on turnaround of a printing-history association, 2014).
    // If it was an octavo: 7 1/4 sheets, 7,250 impressions, under four days at press. Press work did not hold it up.
    near(impressions(116.0 / 16.0, 500), 7250.0, 1e-9);
    near(impressions(116.0 / 16.0, 500) / 200.0, 36.25, 1e-9);
    // As whole sheets and a half it cannot be told more narrowly than between 7 and 7 1/2; either is under four days of ten.
    for half_sheets in [0, 1] {
        let plan = Plan { half_sheets, ..plain(500, 7, 200.0, 0.0) };
        assert!(schedule(&plan, &plan.rates.middle()).printed.work_hours < 40.0);
    }
}

#[test]
fn an_edition_from_its_paper_and_its_time() {
    // 20 1/4 reams of 500 in 13 1/2 sheets are 750 copies: the octavo above, turned round.
    let plan = Plan { half_sheets: 1, ..plain(1, 13, 200.0, 1.0) };
    let known = Known { time: Some(Deadline::Hours(128.25)), reams: Some(Spread::exactly(20.25)) };
    let told = edition(&plan, &known);
    assert_eq!(told.by_paper, Some([750, 750]));
    assert_eq!(told.by_time, Some([750; 3]));
    assert_eq!(told.by_both, Some([750, 750]));
    let hurried = Known { time: Some(Deadline::Hours(100.0)), ..known };
    assert_eq!(edition(&plan, &hurried).by_both, None, "so much paper was not printed in so short a time");
}

#[test]
fn places_have_their_copies_as_these_come_off() {
    let mut plan = Plan { sides: Sides::One, ..plain(1000, 1, 200.0, 1.0) };
    let to = |name: &str, copies, days| Place { name: name.into(), copies, days: Spread::exactly(days) };
    plan.places = vec![to("Hallow", 400, 1.0), to("Merrin", 600, 2.5)];
    let told = arrivals(&plan, &plan.rates.middle());
    // An hour to make ready, then 400 in two hours and the rest in three more.
    near(told[0].leaves.work_hours, 3.0, 1e-3);
    near(told[1].leaves.work_hours, 6.0, 1e-3);
    near(told[1].arrives.clock_hours - told[1].leaves.clock_hours, 60.0, 1e-6);
    // Both sides: 400 whole copies are there when the second side has come so far.
    plan.sides = Sides::Both;
    near(arrivals(&plan, &plan.rates.middle())[0].leaves.work_hours, 6.0 + 3.0, 1e-3);
    // A half-sheet by work and turn: 500 pulls of one side, then two copies at each pull.
    (plan.sheets, plan.half_sheets) = (0, 1);
    near(
        arrivals(&plan, &plan.rates.middle())[0].leaves.work_hours,
        1.0 + 500.0 / 200.0 + 200.0 / 200.0,
        1e-3,
    );
    // Two settings on two presses run side by side.
    (plan.sides, plan.settings, plan.presses, plan.crews) = (Sides::One, 2, 2, 2);
    near(arrivals(&plan, &plan.rates.middle())[0].leaves.work_hours, 2.0, 1e-3);
}

#[test]
fn set_by_formes_the_press_begins_sooner() {
    let mut plan = plain(500, 2, 250.0, 1.0);
    plan.rates.ens_per_sheet = Some(Spread::exactly(10_000.0));
    plan.rates.ens_per_hour = Spread::exactly(1000.0);
    plan.rates.correction = Spread::exactly(0.1);
    // By pages: 10 + 1 hours, then 10 + 1 for the second; 3 + 3 hours at press after it.
    near(schedule(&plan, &plan.rates.middle()).printed.work_hours, 22.0 + 6.0, 1e-9);
    plan.set_by = SetBy::Formes;
    // By formes: 5.5 hours each; the last forme comes at 22, and only its own 3 hours follow.
    near(schedule(&plan, &plan.rates.middle()).printed.work_hours, 22.0 + 3.0, 1e-9);
}

#[test]
fn many_shops_agree_with_what_can_be_reckoned() {
    // One side, one press, the rate alone unknown: out when 1 + E/r hours are over. So the quantiles are those of the rate.
    let mut plan = Plan { sides: Sides::One, ..plain(1500, 1, 200.0, 1.0) };
    plan.rates.impressions_per_hour = Spread::about(150.0, 200.0, 250.0);
    let asked = Asked { runs: 40_000, by: Some(Deadline::Hours(8.5)), ..Asked::default() };
    let told = report(plan.clone(), &asked).unwrap().many;
    // The triangle is symmetric: half the shops do 200 an hour or more, and an eighth 225 or more.
    near(told.out.percent_50.work_hours, 8.5, 0.02);
    near(told.out_in_time.unwrap(), 0.5, 0.01);
    let by = Deadline::Hours(1.0 + 1500.0 / 225.0);
    let eighth =
        report(plan.clone(), &Asked { by: Some(by), ..asked.clone() }).unwrap().many.out_in_time.unwrap();
    near(eighth, 0.125, 0.01);
    // One seed, one answer.
    assert_eq!(report(plan.clone(), &asked).unwrap().many, told);
    let one_thread = rayon::ThreadPoolBuilder::new().num_threads(1).build().unwrap();
    assert_eq!(one_thread.install(|| report(plan, &asked)).unwrap().many, told);
}

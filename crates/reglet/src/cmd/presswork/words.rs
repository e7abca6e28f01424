//! Press work, in words.

use super::super::told::{of, tenth, whole};
use crate::say::list;
use trade::presswork::questions::Deadline;
use trade::presswork::{Crew, Moment, Report, Sides};

/// Everything a reader at a terminal is told.
pub(super) fn of_report(report: &Report) -> String {
    let mut out = Vec::new();
    the_job(&mut out, report);
    the_time(&mut out, report);
    money(&mut out, report);
    places(&mut out, report);
    in_time(&mut out, report);
    twice(&mut out, report);
    edition(&mut out, report);
    list(&mut out, "Mind:", &report.warnings);
    list(&mut out, "Why this could be wrong:", &report.cautions);
    out.join("\n")
}

fn the_job(out: &mut Vec<String>, report: &Report) {
    let (plan, sums) = (&report.plan, &report.sums);
    let mut made = Vec::new();
    if plan.sheets > 0 {
        made.push(of(plan.sheets, "sheet", "sheets"));
    }
    if plan.half_sheets > 0 {
        made.push(of(plan.half_sheets, "half-sheet", "half-sheets"));
    }
    let sides = match plan.sides {
        Sides::One => "printed on one side",
        Sides::Both => "printed on both sides",
    };
    let set =
        if plan.settings > 1 { format!(", the text set {} times", plan.settings) } else { String::new() };
    out.push(format!("{}, each of {}, {sides}{set}.", of(plan.copies, "copy", "copies"), made.join(" and ")));
    out.push(String::new());
    out.push(format!(
        "Press work   {} in {}: {} tokens of {}",
        of(sums.impressions.min(u64::from(u32::MAX)) as u32, "impression", "impressions"),
        of(sums.formes, "forme", "formes"),
        tenth(sums.tokens),
        plan.token
    ));
    out.push(format!(
        "Paper        {} reams of {}, {:.0} in 100 of it over for waste",
        tenth(sums.reams),
        plan.paper.ream,
        plan.paper.waste * 100.0
    ));
    let men = match plan.crew {
        Crew::Full => "two to a press",
        Crew::Half => "one to a press",
    };
    out.push(format!(
        "Men          {}, {} ({men})",
        of(sums.compositors, "compositor", "compositors"),
        of(sums.pressmen, "pressman", "pressmen")
    ));
    let composing = if sums.composing_hours > 0.0 {
        format!("{} composing, {} correcting, ", tenth(sums.composing_hours), tenth(sums.correcting_hours))
    } else {
        String::new()
    };
    out.push(format!(
        "Hours        {composing}{} at press, making ready counted in",
        tenth(sums.press_hours)
    ));
    if let (Some(men), Some(edition)) = (sums.compositors_to_a_press, sums.edition_in_balance) {
        out.push(format!(
            "Balance      one press keeps up with {} compositors; one with one, in an edition of {}",
            tenth(men),
            whole(edition)
        ));
    }
}

/// Day and hour, as "day 3, 14:30".
fn at(moment: &Moment) -> String {
    let minutes = (moment.hour() * 60.0).round() as u32;
    format!("day {}, {}:{:02}", moment.day(), minutes / 60, minutes % 60)
}

fn the_time(out: &mut Vec<String>, report: &Report) {
    let (told, many) = (&report.schedule, &report.many);
    out.push(String::new());
    out.push("When they are out (days by the calendar; day 1 is the first of the work)".to_owned());
    out.push(format!(
        "  with every rate at its middle: printed {}; dry and out {}",
        at(&told.printed),
        at(&told.out)
    ));
    out.push(format!(
        "  with rates drawn from their ranges, {} times: half are out by day {}, nine of ten between day {} and day {}",
        whole(f64::from(many.runs)),
        many.out.percent_50.day(),
        many.out.percent_5.day(),
        many.out.percent_95.day()
    ));
    if report.sums.composing_hours > 0.0 {
        out.push(format!(
            "  compositors have work for {:.0} percent of the time until the last sheet, presses for {:.0}",
            told.compositors_busy * 100.0,
            told.presses_busy * 100.0
        ));
    }
}

fn money(out: &mut Vec<String>, report: &Report) {
    let Some(cost) = &report.cost else { return };
    out.push(String::new());
    out.push(format!("The bill: {}, that is {} a copy", cost.total, cost.per_copy));
    out.push(format!(
        "  paper {} ({:.0} in 100), composing {}, press work {}, correcting {}, the master's share {}",
        cost.paper,
        cost.paper_share * 100.0,
        cost.composing,
        cost.presswork,
        cost.correcting,
        cost.overhead
    ));
}

fn places(out: &mut Vec<String>, report: &Report) {
    if report.arrivals.is_empty() {
        return;
    }
    out.push(String::new());
    out.push("Where they go, in this order".to_owned());
    let wide = report.arrivals.iter().map(|a| a.place.chars().count()).max().unwrap_or(0);
    for (one, many) in report.arrivals.iter().zip(&report.many.arrivals) {
        let name = format!("{}{}", one.place, " ".repeat(wide - one.place.chars().count()));
        out.push(format!(
            "  {name}  {:>6} copies: ready {}; there on day {} (nine of ten: day {} to {})",
            whole(f64::from(one.copies)),
            at(&one.leaves),
            one.arrives.day(),
            many.percent_5.day(),
            many.percent_95.day()
        ));
    }
}

fn said(by: Deadline) -> String {
    match by {
        Deadline::Days(n) => format!("the end of day {}", tenth(n)),
        Deadline::Hours(n) => format!("the end of {} hours of work", tenth(n)),
    }
}

fn in_time(out: &mut Vec<String>, report: &Report) {
    let (Some(by), Some(needed)) = (report.by, &report.needed) else { return };
    out.push(String::new());
    let share = report.many.out_in_time.unwrap_or(0.0);
    out.push(format!("Out by {}? In {:.0} of 100 draws of the rates.", said(by), share * 100.0));
    out.push("What it takes, with every rate at its middle:".to_owned());
    for n in needed {
        let times = match n.settings {
            1 => "set once   ".to_owned(),
            2 => "set twice  ".to_owned(),
            k => format!("set {k} times"),
        };
        out.push(match (n.presses, &n.out) {
            (Some(presses), Some(done)) => format!(
                "  {times}  {} and {}: out {}",
                of(presses, "press", "presses"),
                of(n.compositors, "compositor", "compositors"),
                at(done)
            ),
            _ => format!("  {times}  not in time, even with 24 presses and 24 compositors"),
        });
    }
}

fn twice(out: &mut Vec<String>, report: &Report) {
    let Some(twice) = &report.twice else { return };
    out.push(String::new());
    let costs = twice.costs_more.map_or_else(String::new, |c| format!("; the second setting costs {c}"));
    out.push(match twice.pays_from {
        None if report.plan.working_presses() < 2 => {
            "Setting the text twice saves no time: with one press, only one forme prints at a time.".to_owned()
        }
        None => "Setting the text twice saves no time here, whatever the number of copies.".to_owned(),
        Some(from) => format!(
            "Setting the text twice, with these men, is quicker from about {} copies on.\n  This edition: last sheet {} set once, \
             {} set twice{costs}",
            whole(f64::from(from)),
            at(&twice.once),
            at(&twice.twice)
        ),
    });
}

fn edition(out: &mut Vec<String>, report: &Report) {
    let Some(edition) = &report.edition else { return };
    out.push(String::new());
    out.push("What edition fits what is known".to_owned());
    if let Some([slow, middle, quick]) = edition.by_time {
        out.push(format!(
            "  the time: at most {} copies; {} if all went slowly, {} if all went quickly",
            whole(f64::from(middle)),
            whole(f64::from(slow)),
            whole(f64::from(quick))
        ));
    }
    if let Some([fewest, most]) = edition.by_paper {
        out.push(if fewest == most {
            format!("  the paper: {} copies", whole(f64::from(most)))
        } else {
            format!("  the paper: {} to {} copies", whole(f64::from(fewest)), whole(f64::from(most)))
        });
    }
    if edition.by_time.is_some() && edition.by_paper.is_some() {
        out.push(match edition.by_both {
            Some([a, b]) if a == b => format!("  both: {} copies", whole(f64::from(a))),
            Some([a, b]) => format!("  both: {} to {} copies", whole(f64::from(a)), whole(f64::from(b))),
            None => "  both: none; so much paper was not printed in that time by this shop. Was it more presses, or other work's paper?"
                .to_owned(),
        });
    }
    out.push(
        "  A time bounds an edition from above only: a shop with other work takes longer than the work."
            .to_owned(),
    );
}

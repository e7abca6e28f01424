//! What is told of the studies.

use super::Outcome;
use super::score::Counts;
use crate::bench::report::table::{Table, number, rate, share};
use crate::bench::set::Set;

/// A line on the terminal for a study that is done.
pub(super) fn line(o: &Outcome) -> String {
    let c = &o.counts;
    let of = |s: crate::bench::report::Share| format!("{}/{}", s.some, s.of);
    format!(
        "{:>3} {:<34} settings wrong {} parted {} joined {} found {} false {} astray {} two readings {} unclear {} {:.1} s",
        o.number,
        o.name,
        of(c.wrong_setting),
        of(c.parted),
        of(c.joined),
        of(c.found),
        of(c.false_places),
        of(c.astray),
        of(c.two_readings),
        of(c.unclear),
        o.seconds
    )
}

/// The tables of a set.
pub(super) fn tables(set: Set, outcomes: &[Outcome], made_by: &str) -> String {
    let mut all = Counts::default();
    for outcome in outcomes {
        all.add(&outcome.counts);
    }
    let copies = all.unplaced.of;
    let mut text = format!(
        "### Studies: {}\n\n{} studies, {copies} copies; {made_by}.\n\n",
        set.label(),
        outcomes.len()
    );
    let mut figures = Table::new(["", ""]);
    figures.row([
        "pairs of copies joined that are of two settings, or parted that are of one",
        &share(all.wrong_setting),
    ]);
    figures.row(["copies without a setting", &share(all.unplaced)]);
    figures.row(["pairs of one state said to differ", &share(all.parted)]);
    figures.row(["pairs of two states said to agree, which differ where both show it", &share(all.joined)]);
    figures.row(["places that copies of both readings show, found", &rate(all.found)]);
    figures.row(["places found where nothing differs", &share(all.false_places)]);
    figures.row(["copies at a place with another reading than most of their list", &share(all.astray)]);
    figures.row(["pairs of copies of one reading that were given two", &share(all.two_readings)]);
    figures.row(["copies that show a place, said not to be clear", &share(all.unclear)]);
    text += &figures.markdown();
    let mut classes = Table::new(["what was done", "found"]);
    for (class, found) in &all.found_by_class {
        classes.row([class.clone(), rate(*found)]);
    }
    text += &classes.markdown();
    let mut each = Table::new([
        "study",
        "parted",
        "joined",
        "found",
        "false",
        "astray",
        "two readings",
        "not clear",
        "s",
        "MB",
    ]);
    for o in outcomes {
        let c = &o.counts;
        let of = |s: crate::bench::report::Share| format!("{} of {}", s.some, s.of);
        each.row([
            format!("{}: {}", o.number, o.name),
            of(c.parted),
            of(c.joined),
            of(c.found),
            of(c.false_places),
            of(c.astray),
            of(c.two_readings),
            of(c.unclear),
            number(Some(o.seconds), 1),
            number(o.peak_bytes.map(|b| b as f64 / 1e6), 0),
        ]);
    }
    text += &each.markdown();
    text
}

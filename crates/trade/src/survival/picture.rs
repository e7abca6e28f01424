//! A study drawn: the counts with what the laws expect, and the estimates with their intervals.

use super::{Interval, Survival};
use crate::drawing::{Anchor, Drawing, WIDTH};

const LEFT: f64 = 40.0;
const RIGHT: f64 = WIDTH - 14.0;
const HIGH: f64 = 150.0;
/// Where the axis of the estimates begins, right of their names.
const NAMES: f64 = 122.0;
/// Counts that have a bar of their own; what lies beyond is told in words.
const MOST_BARS: u32 = 20;

/// The picture, as SVG.
pub fn picture(told: &Survival) -> String {
    let mut d = Drawing::new();
    d.text(8.0, 20.0, Anchor::Start, "title", "What is left, and what is lost", WIDTH - 16.0);
    let about = format!("{} items are known, in {} copies.", told.items, told.copies);
    let y = d.paragraph(8.0, 38.0, "small soft", &about);
    let y = counts(&mut d, y + 8.0, told);
    let y = estimates(&mut d, y + 22.0, told);
    let y = d.paragraph(
        8.0,
        y + 16.0,
        "small soft",
        "Estimates of what the counts allow, each on its own assumptions; not a finding of any lost edition.",
    );
    d.finish(y, "What is left, and what is lost", &about)
}

/// Items by their copies, with what each law expects.
fn counts(d: &mut Drawing, y: f64, told: &Survival) -> f64 {
    d.text(8.0, y, Anchor::Start, "", "Items known in so many copies", 300.0);
    let last = told.counts.last().map_or(1, |c| c.copies).min(MOST_BARS);
    let highest = told.counts.iter().map(|c| c.items).max().unwrap_or(1) as f64;
    let marks: [(&str, &str); 3] =
        [("Poisson", "dash"), ("Negative binomial", "ring"), ("Binomial", "point")];
    let mut top = y + 10.0;
    d.text(8.0, top + 8.0, Anchor::Start, "small soft", "expected by", 80.0);
    let mut x = 78.0;
    for (name, class) in marks {
        if told.laws.iter().any(|l| l.law == name && !l.expected.is_empty()) {
            mark(d, x + 5.0, top + 4.0, class);
            d.text(x + 15.0, top + 8.0, Anchor::Start, "small", name, 150.0);
            x += 34.0 + 6.0 * name.len() as f64;
        }
    }
    top += 24.0;
    let foot = top + HIGH;
    let wide = (RIGHT - LEFT) / f64::from(last);
    let height = |items: f64| HIGH * (items / highest).min(1.0);
    for share in [0.5, 1.0] {
        let at = foot - HIGH * share;
        d.line([LEFT, at, RIGHT, at], "rule");
        d.text(LEFT - 4.0, at + 4.0, Anchor::End, "small soft", &format!("{:.0}", highest * share), LEFT);
    }
    for (i, c) in told.counts.iter().enumerate().filter(|(_, c)| c.copies <= last) {
        let x = LEFT + wide * f64::from(c.copies - 1);
        let high = height(c.items as f64);
        let what = format!("{} items in {} copies", c.items, c.copies);
        d.rect([x + wide * 0.15, foot - high, wide * 0.7, high], "light", &what);
        for (name, class) in marks {
            let expected = told.laws.iter().find(|l| l.law == name).and_then(|l| l.expected.get(i));
            if let Some(&expected) = expected {
                mark(d, x + wide / 2.0, foot - height(expected), class);
            }
        }
    }
    d.line([LEFT, foot, RIGHT, foot], "axis");
    for copies in 1..=last {
        let x = LEFT + wide * (f64::from(copies) - 0.5);
        d.text(x, foot + 13.0, Anchor::Middle, "small soft", &copies.to_string(), 40.0);
    }
    d.text(RIGHT, foot + 27.0, Anchor::End, "small soft", "copies of one item", 200.0);
    let beyond: u64 = told.counts.iter().filter(|c| c.copies > last).map(|c| c.items).sum();
    if beyond > 0 {
        let text = format!("{beyond} more items in over {last} copies");
        d.text(LEFT, foot + 27.0, Anchor::Start, "small soft", &text, 260.0);
    }
    foot + 30.0
}

fn mark(d: &mut Drawing, x: f64, y: f64, class: &str) {
    match class {
        "dash" => d.line([x - 6.0, y, x + 6.0, y], "mark"),
        "ring" => d.dot(x, y, 3.2, "ring", ""),
        _ => d.dot(x, y, 1.8, "point", ""),
    }
}

/// Each estimate on one line: its interval, and where it stands.
fn estimates(d: &mut Drawing, y: f64, told: &Survival) -> f64 {
    let mut rows: Vec<(&str, Option<f64>, Interval)> =
        vec![("Chao's lower bound", told.chao1.total, told.chao1.interval_95)];
    if let Some(z) = &told.zelterman {
        rows.push(("Zelterman", z.total, z.interval_95));
    }
    rows.extend(told.laws.iter().map(|l| (l.law, l.estimate.total, l.estimate.interval_95)));
    d.text(8.0, y, Anchor::Start, "", "How many there were, lost ones counted in (95 percent)", 400.0);
    let known = told.items as f64;
    // As far as the estimates reach that are within three times Chao's bound, and their intervals; one that runs far beyond
    // would press all others together.
    let near = 3.0 * told.chao1.total.unwrap_or(known);
    let far = rows.iter().filter_map(|r| r.1).filter(|&t| t <= near).fold(known, f64::max);
    let most = rows.iter().filter_map(|r| r.2.high).fold(far, f64::max).min(far * 3.0).min(near) * 1.04;
    let x = |n: f64| NAMES + (RIGHT - NAMES) * (n / most).min(1.0);
    let top = y + 26.0;
    let foot = top + 24.0 * rows.len() as f64;
    d.line([x(known), top - 6.0, x(known), foot], "dash");
    d.text(x(known), top - 10.0, Anchor::Middle, "small soft", &format!("known: {known}"), 120.0);
    for (i, (name, total, interval)) in rows.iter().enumerate() {
        let middle = top + 24.0 * i as f64 + 10.0;
        d.text(NAMES - 6.0, middle + 4.0, Anchor::End, "small", name, NAMES - 12.0);
        let (low, high) = (interval.low, interval.high.unwrap_or(f64::INFINITY));
        let beyond = if high > most { " →" } else { "" };
        d.line([x(low), middle, x(high), middle], "mark");
        for (end, is_seen) in [(low, low <= most), (high, high <= most)] {
            if is_seen {
                d.line([x(end), middle - 4.0, x(end), middle + 4.0], "mark");
            }
        }
        match total {
            Some(t) if *t <= most => {
                // What stands by the edge of the page is told left of its point.
                let anchor = if x(*t) > RIGHT - 24.0 { Anchor::End } else { Anchor::Middle };
                d.dot(x(*t), middle, 3.6, "point", &format!("{name}: {t:.0}"));
                d.text(x(*t), middle - 6.0, anchor, "small halo", &format!("{t:.0}"), 60.0);
                if high > most && x(*t) < RIGHT - 90.0 {
                    d.text(RIGHT, middle - 4.0, Anchor::End, "small soft", "and beyond →", 90.0);
                }
            }
            Some(t) => {
                d.text(RIGHT, middle - 4.0, Anchor::End, "small halo", &format!("{t:.0}{beyond}"), 120.0);
            }
            None => {
                d.text(RIGHT, middle - 4.0, Anchor::End, "small soft", &format!("no number{beyond}"), 120.0);
            }
        }
    }
    d.line([NAMES, foot, RIGHT, foot], "axis");
    d.text(NAMES, foot + 13.0, Anchor::Middle, "small soft", "0", 40.0);
    d.text(RIGHT, foot + 13.0, Anchor::End, "small soft", &format!("{most:.0}"), 80.0);
    foot + 14.0
}

//! A schedule drawn: who does what when, and how each sheet goes through the shop.

use super::{Bar, Day, Report, Row, Stage};
use crate::drawing::{Anchor, Drawing, WIDTH};

const LEFT: f64 = 94.0;
const RIGHT: f64 = WIDTH - 12.0;
const ROW: f64 = 20.0;
/// Sheets that have a row of their own, counted by setting.
const MOST_SHEETS: usize = 80;

/// The schedule of a report as SVG, along the hours of work: nights and days of rest have no width. Days are told by the
/// calendar.
pub fn gantt(report: &Report) -> String {
    let (plan, told) = (&report.plan, &report.schedule);
    let mut d = Drawing::new();
    d.text(8.0, 20.0, Anchor::Start, "title", "The work, day by day", WIDTH - 16.0);
    let about = format!(
        "{} copies, {}; every rate at its middle. Printed on day {}, dry and out on day {}.",
        plan.copies,
        made_of(plan.sheets, plan.half_sheets),
        told.printed.day(),
        told.out.day()
    );
    let y = d.paragraph(8.0, 38.0, "small soft", &about);
    let y = legend(&mut d, y + 2.0, &told.bars);
    let scale = Scale { hours: told.printed.work_hours.max(1e-9), day: plan.day };
    let y = hands(&mut d, y + 12.0, &told.bars, &scale);
    let y = sheets(&mut d, y + 18.0, report, &scale);
    let many = &report.many;
    let y = d.paragraph(
        8.0,
        y + 12.0,
        "small soft",
        &format!(
            "With rates drawn from their ranges: half are out by day {}, nine of ten between day {} and day {}. A \
             model of the work, not a record of a shop.",
            many.out.percent_50.day(),
            many.out.percent_5.day(),
            many.out.percent_95.day()
        ),
    );
    d.finish(y, "The work, day by day", &about)
}

fn made_of(sheets: u32, half_sheets: u32) -> String {
    let of = |n: u32, what: &str| format!("{n} {what}{}", if n == 1 { "" } else { "s" });
    match (sheets, half_sheets) {
        (s, 0) => of(s, "sheet"),
        (0, h) => of(h, "half-sheet"),
        (s, h) => format!("{} and {}", of(s, "sheet"), of(h, "half-sheet")),
    }
}

/// Hours of work along the page.
struct Scale {
    hours: f64,
    day: Day,
}

impl Scale {
    fn x(&self, work: f64) -> f64 {
        LEFT + (RIGHT - LEFT) * (work / self.hours).clamp(0.0, 1.0)
    }

    /// The rules between working days, and names for as many as there is room for.
    fn draw(&self, d: &mut Drawing, top: f64, foot: f64) {
        let days = (self.hours / self.day.hours).ceil().max(1.0) as usize;
        let every =
            [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000].into_iter().find(|e| days / e <= 9).unwrap_or(5000);
        for day in (0..days).step_by(every) {
            let x = self.x(day as f64 * self.day.hours);
            d.line([x, top, x, foot], "rule");
            let room = self.x((day + every) as f64 * self.day.hours) - x;
            if room > 14.0 || day == 0 {
                // The day by the calendar: a day of rest is left out of the page and of nothing else.
                let calendar = self.day.onward(day as f64 * self.day.hours).day();
                d.text(x + 2.0, top - 4.0, Anchor::Start, "small soft", &calendar.to_string(), 60.0);
            }
        }
        d.text(LEFT - 6.0, top - 4.0, Anchor::End, "small soft", "day", LEFT);
    }
}

/// How a stage is drawn, and what it is called.
fn look(stage: Stage) -> (&'static str, &'static str) {
    match stage {
        Stage::Composing => ("light", "composing"),
        Stage::Correcting => ("hatch", "correcting"),
        Stage::WhitePaper => ("open", "white paper (first side)"),
        Stage::Perfecting => ("dark", "perfecting (second side)"),
        Stage::WorkAndTurn => ("mid", "half-sheet, both sides"),
        Stage::OneSide => ("dark", "printing"),
        Stage::Between => ("dots", "heap lies between its sides"),
        Stage::Drying => ("dots", "drying"),
    }
}

fn legend(d: &mut Drawing, mut y: f64, bars: &[Bar]) -> f64 {
    let mut stages: Vec<Stage> = bars.iter().map(|b| b.stage).filter(|s| *s != Stage::Drying).collect();
    stages.sort_unstable();
    stages.dedup();
    let wide = (WIDTH - 16.0) / 2.0;
    for (i, stage) in stages.iter().enumerate() {
        let x = 8.0 + wide * (i % 2) as f64;
        let (class, name) = look(*stage);
        d.rect([x, y, 16.0, 9.0], class, "");
        d.text(x + 21.0, y + 8.5, Anchor::Start, "small", name, wide - 24.0);
        if i % 2 == 1 || i + 1 == stages.len() {
            y += 15.0;
        }
    }
    y
}

fn told_of(bar: &Bar) -> String {
    let (_, what) = look(bar.stage);
    format!(
        "sheet {}, setting {}: {what}, day {} to day {}, {:.1} hours of work",
        bar.sheet,
        bar.setting,
        bar.from.day(),
        bar.to.day(),
        (bar.to.work_hours - bar.from.work_hours).max(0.0)
    )
}

/// A row for each compositor and each press.
fn hands(d: &mut Drawing, y: f64, bars: &[Bar], scale: &Scale) -> f64 {
    let mut rows: Vec<Row> = bars.iter().map(|b| b.by).filter(|r| *r != Row::Nobody).collect();
    rows.sort_unstable();
    rows.dedup();
    d.text(8.0, y, Anchor::Start, "", "Who does what", 200.0);
    let top = y + 24.0;
    let foot = top + ROW * rows.len() as f64;
    scale.draw(d, top, foot);
    for (i, row) in rows.iter().enumerate() {
        let y = top + ROW * i as f64;
        let name = match row {
            Row::Compositor(n) => format!("Compositor {n}"),
            Row::Press(n) => format!("Press {n}"),
            Row::Nobody => String::new(),
        };
        d.text(LEFT - 6.0, y + 14.0, Anchor::End, "small", &name, LEFT - 12.0);
        for bar in bars.iter().filter(|b| b.by == *row) {
            draw(d, bar, y, scale, true);
        }
    }
    d.line([LEFT, foot, RIGHT, foot], "axis");
    foot
}

/// A row for each sheet of each setting.
fn sheets(d: &mut Drawing, y: f64, report: &Report, scale: &Scale) -> f64 {
    let (plan, bars) = (&report.plan, &report.schedule.bars);
    let mut rows: Vec<(u32, u32)> = bars.iter().map(|b| (b.sheet, b.setting)).collect();
    rows.dedup();
    let all = rows.len();
    rows.truncate(MOST_SHEETS);
    d.text(8.0, y, Anchor::Start, "", "How each sheet goes through the shop", 300.0);
    let top = y + 24.0;
    let foot = top + ROW * rows.len() as f64;
    scale.draw(d, top, foot);
    for (i, row) in rows.iter().enumerate() {
        let y = top + ROW * i as f64;
        let name = match row.0.checked_sub(plan.sheets).filter(|&half| half > 0) {
            Some(half) if plan.settings > 1 => format!("Half-sheet {half}/{}", row.1),
            Some(half) => format!("Half-sheet {half}"),
            None if plan.settings > 1 => format!("{}, setting {}", row.0, row.1),
            None => format!("Sheet {}", row.0),
        };
        d.text(LEFT - 6.0, y + 14.0, Anchor::End, "small", &name, LEFT - 10.0);
        for bar in bars.iter().filter(|b| (b.sheet, b.setting) == *row && b.stage != Stage::Drying) {
            draw(d, bar, y, scale, false);
        }
    }
    d.line([LEFT, foot, RIGHT, foot], "axis");
    if all > rows.len() {
        return d.paragraph(
            8.0,
            foot + 14.0,
            "small soft",
            &format!("The first {} of {all} rows are drawn.", rows.len()),
        );
    }
    foot
}

fn draw(d: &mut Drawing, bar: &Bar, y: f64, scale: &Scale, is_named: bool) {
    let (from, to) = (scale.x(bar.from.work_hours), scale.x(bar.to.work_hours));
    // What takes no hour of work has no width.
    if to - from <= 0.0 {
        return;
    }
    let class = look(bar.stage).0;
    let inset = if bar.stage == Stage::Between { 8.0 } else { 3.0 };
    d.rect([from, y + inset, to - from, ROW - 2.0 * inset], class, &told_of(bar));
    let name = bar.sheet.to_string();
    let needs = 7.0 * name.chars().count() as f64 + 4.0;
    if is_named && to - from > needs && class != "hatch" {
        let on = if class == "dark" { "small on" } else { "small" };
        d.text(f64::midpoint(from, to), y + 13.8, Anchor::Middle, on, &name, to - from);
    }
}

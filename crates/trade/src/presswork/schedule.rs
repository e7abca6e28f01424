//! When every forme was composed, corrected, printed and dry.

use schemars::JsonSchema;
use serde::Serialize;

use super::shop::{Kind, Run, Shop};
use super::{Drawn, Moment, Plan};

/// What is done with a portion or a forme.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Stage {
    /// Composing.
    Composing,
    /// Correcting.
    Correcting,
    /// Printing the first side, on white paper.
    WhitePaper,
    /// The heap lies before its second side.
    Between,
    /// Printing the second side (perfecting, reiteration).
    Perfecting,
    /// Printing both sides of a half-sheet, by work and turn.
    WorkAndTurn,
    /// Printing the only side.
    OneSide,
    /// Drying.
    Drying,
}

/// Who does it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(tag = "who", content = "number", rename_all = "kebab-case")]
pub enum Row {
    /// A compositor, from 1.
    Compositor(u32),
    /// A press, from 1.
    Press(u32),
    /// Nobody: paper lies or hangs.
    Nobody,
}

/// One stretch of work or waiting.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Bar {
    /// The sheet, from 1, half-sheets after whole ones.
    pub sheet: u32,
    /// The setting, from 1.
    pub setting: u32,
    /// What is done.
    pub stage: Stage,
    /// By whom.
    pub by: Row,
    /// From when.
    pub from: Moment,
    /// Until when.
    pub to: Moment,
}

/// A plan carried through at one set of rates.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Schedule {
    /// Everything that is done, by sheet, setting and time.
    pub bars: Vec<Bar>,
    /// When the last sheet comes off the press.
    pub printed: Moment,
    /// When all copies are printed and dry.
    pub out: Moment,
    /// The share of the time until the last sheet in which the compositors have work; 0 to 1.
    pub compositors_busy: f64,
    /// The same of the presses that have a crew.
    pub presses_busy: f64,
}

/// Carries a plan through.
pub fn schedule(plan: &Plan, rates: &Drawn) -> Schedule {
    let shop = Shop::new(plan);
    let mut run = Run::default();
    shop.run(rates, &mut run);
    let day = plan.day;
    let mut bars = Vec::new();
    let (mut set_hours, mut press_hours) = (0.0, 0.0);
    let from = |work: f64| day.onward(work);
    let has_composing = rates.ens_per_sheet > 0.0;
    for (at, portion) in shop.portions.iter().enumerate().filter(|_| has_composing) {
        let [begun, composed, taken_up, corrected] = run.set[at];
        let stretches = [
            (Stage::Composing, run.set_by[at], begun, composed),
            (Stage::Correcting, run.corrected_by[at], taken_up, corrected),
        ];
        for (stage, man, start, end) in stretches {
            set_hours += end - start;
            let (sheet, setting) = (portion.sheet + 1, portion.setting + 1);
            bars.push(Bar {
                sheet,
                setting,
                stage,
                by: Row::Compositor(man + 1),
                from: from(start),
                to: day.moment(end),
            });
        }
    }
    for (at, forme) in shop.formes.iter().enumerate() {
        let (sheet, setting) = (forme.sheet + 1, forme.setting + 1);
        let (start, end) = (run.began[at], run.ended[at]);
        press_hours += end - start;
        let stage = match forme.kind {
            Kind::White => Stage::WhitePaper,
            Kind::Second => Stage::Perfecting,
            Kind::Turned => Stage::WorkAndTurn,
            Kind::Only => Stage::OneSide,
        };
        let by = Row::Press(run.press[at] + 1);
        bars.push(Bar { sheet, setting, stage, by, from: from(start), to: day.moment(end) });
        let lies = if forme.kind == Kind::White {
            (Stage::Between, from(run.began[at + 1]))
        } else {
            (Stage::Drying, day.at_clock(shop.dry(end, &run)))
        };
        bars.push(Bar { sheet, setting, stage: lies.0, by: Row::Nobody, from: day.moment(end), to: lies.1 });
    }
    bars.sort_by(|a, b| {
        let key = |b: &Bar| (b.sheet, b.setting);
        key(a).cmp(&key(b)).then(a.from.work_hours.total_cmp(&b.from.work_hours)).then(a.stage.cmp(&b.stage))
    });
    let busy = |hours: f64, hands: u32| {
        let all = run.finished * f64::from(hands);
        if all > 0.0 { (hours / all).min(1.0) } else { 0.0 }
    };
    Schedule {
        bars,
        printed: day.moment(run.finished),
        out: day.at_clock(shop.out(&run)),
        compositors_busy: busy(set_hours, plan.compositors),
        presses_busy: busy(press_hours, plan.working_presses()),
    }
}

//! The shop at work: a small simulation of events, made to be run a hundred thousand times.
//!
//! Time is told in hours of work. A compositor who is free corrects what was composed first, and else composes the next portion;
//! a press that is free perfects a heap that lies ready, because its paper is damp, and else begins the next forme. Among
//! equals the earlier sheet goes first, and among settings of one sheet the lower number. What is begun is finished.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::{Crew, Day, Drawn, Plan, SetBy, Sides};

/// What a forme is to its sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// The first side of a sheet that has two.
    White,
    /// The second.
    Second,
    /// Both sides of a half-sheet, one after the other.
    Turned,
    /// The only side.
    Only,
}

/// A forme.
#[derive(Debug, Clone, Copy)]
pub(super) struct Forme {
    pub(super) sheet: u32,
    pub(super) setting: u32,
    pub(super) kind: Kind,
    pub(super) copies: f64,
}

/// What one compositor sets in one go.
#[derive(Debug, Clone, Copy)]
pub(super) struct Portion {
    pub(super) sheet: u32,
    pub(super) setting: u32,
    /// Share of a whole sheet.
    share: f64,
    /// The formes it makes whole: `first..end`.
    first: u32,
    end: u32,
}

/// A plan, laid out in formes and portions in the order in which they are taken up.
#[derive(Debug, Clone)]
pub(super) struct Shop {
    pub(super) formes: Vec<Forme>,
    pub(super) portions: Vec<Portion>,
    pub(super) settings: u32,
    compositors: u32,
    presses: u32,
    is_half: bool,
    pub(super) day: Day,
}

/// When everything was done; used again for every run.
#[derive(Debug, Default)]
pub(super) struct Run {
    /// Of each forme: when its press began to make ready, when the last sheet came off, and which press.
    pub(super) began: Vec<f64>,
    pub(super) ended: Vec<f64>,
    pub(super) press: Vec<u32>,
    /// Of each forme: when it could first be printed.
    pub(super) could: Vec<f64>,
    /// Of each portion: when it was begun, composed, taken up for correction, corrected; and by whom.
    pub(super) set: Vec<[f64; 4]>,
    pub(super) set_by: Vec<u32>,
    pub(super) corrected_by: Vec<u32>,
    waits_for: Vec<u8>,
    white: BinaryHeap<Reverse<u32>>,
    second: BinaryHeap<Reverse<u32>>,
    correct: BinaryHeap<Reverse<u32>>,
    events: BinaryHeap<Reverse<(u64, Event)>>,
    /// The hour of work at which the last sheet came off.
    pub(super) finished: f64,
    pub(super) make_ready: f64,
    pub(super) rate: f64,
    pub(super) drying: f64,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Event {
    Composed(u32),
    Corrected(u32),
    Printed(u32),
    Lain(u32),
}

impl Shop {
    pub(super) fn new(plan: &Plan) -> Self {
        let mut shop = Self {
            formes: Vec::new(),
            portions: Vec::new(),
            settings: plan.settings,
            compositors: plan.compositors,
            presses: plan.working_presses(),
            is_half: plan.crew == Crew::Half,
            day: plan.day,
        };
        for sheet in 0..plan.sheets + plan.half_sheets {
            let is_whole = sheet < plan.sheets;
            let kinds: &[Kind] = match (plan.sides, is_whole) {
                (Sides::One, _) => &[Kind::Only],
                (Sides::Both, true) => &[Kind::White, Kind::Second],
                (Sides::Both, false) => &[Kind::Turned],
            };
            let share = if is_whole { 1.0 } else { 0.5 };
            for setting in 0..plan.settings {
                let first = shop.formes.len() as u32;
                let extra = u32::from(setting < plan.copies % plan.settings);
                let copies = f64::from(plan.copies / plan.settings + extra);
                shop.formes.extend(kinds.iter().map(|&kind| Forme { sheet, setting, kind, copies }));
                let end = shop.formes.len() as u32;
                if plan.set_by == SetBy::Formes && kinds.len() > 1 {
                    let half = share / kinds.len() as f64;
                    shop.portions.extend((first..end).map(|f| Portion {
                        sheet,
                        setting,
                        share: half,
                        first: f,
                        end: f + 1,
                    }));
                } else {
                    shop.portions.push(Portion { sheet, setting, share, first, end });
                }
            }
        }
        shop
    }

    /// Carries everything through at these rates.
    pub(super) fn run(&self, rates: &Drawn, run: &mut Run) {
        run.reset(self, rates);
        let compose = rates.ens_per_sheet / rates.ens_per_hour;
        let mut next = 0;
        if compose <= 0.0 {
            next = self.portions.len();
            for f in 0..self.formes.len() as u32 {
                self.one_less(f, 0.0, run);
            }
        }
        let mut free_men = all(self.compositors);
        let mut free_presses = all(self.presses);
        let mut now = 0.0_f64;
        loop {
            while free_men != 0 {
                let man = free_men.trailing_zeros();
                if let Some(Reverse(p)) = run.correct.pop() {
                    let at = p as usize;
                    run.set[at][2] = now;
                    run.corrected_by[at] = man;
                    run.event(
                        now + self.portions[at].share * compose * rates.correction,
                        Event::Corrected(p),
                    );
                } else if next < self.portions.len() {
                    run.set[next][0] = now;
                    run.set_by[next] = man;
                    run.event(now + self.portions[next].share * compose, Event::Composed(next as u32));
                    next += 1;
                } else {
                    break;
                }
                free_men &= free_men - 1;
            }
            while free_presses != 0 {
                let Some(Reverse(f)) = run.second.pop().or_else(|| run.white.pop()) else { break };
                let (at, press) = (f as usize, free_presses.trailing_zeros());
                run.began[at] = now;
                run.press[at] = press;
                run.event(now + run.make_ready + self.formes[at].copies / run.rate, Event::Printed(f));
                free_presses &= free_presses - 1;
            }
            let Some(Reverse((bits, _))) = run.events.peek().copied() else { break };
            now = f64::from_bits(bits);
            while let Some(&Reverse((also, event))) = run.events.peek() {
                if also != bits {
                    break;
                }
                run.events.pop();
                match event {
                    Event::Composed(p) => {
                        run.set[p as usize][1] = now;
                        free_men |= 1 << run.set_by[p as usize];
                        run.correct.push(Reverse(p));
                    }
                    Event::Corrected(p) => {
                        let portion = self.portions[p as usize];
                        run.set[p as usize][3] = now;
                        free_men |= 1 << run.corrected_by[p as usize];
                        for f in portion.first..portion.end {
                            self.one_less(f, now, run);
                        }
                    }
                    Event::Printed(f) => {
                        run.ended[f as usize] = now;
                        run.finished = run.finished.max(now);
                        free_presses |= 1 << run.press[f as usize];
                        if self.formes[f as usize].kind == Kind::White {
                            let until = if rates.between_sides > 0.0 {
                                self.day.work(self.day.clock(now) + rates.between_sides).max(now)
                            } else {
                                now
                            };
                            run.event(until, Event::Lain(f));
                        }
                    }
                    // The second forme of a sheet stands behind its first.
                    Event::Lain(f) => self.one_less(f + 1, now, run),
                }
            }
        }
    }

    /// A forme waits for one thing less; where for none, it can be printed.
    fn one_less(&self, f: u32, now: f64, run: &mut Run) {
        let at = f as usize;
        run.waits_for[at] -= 1;
        if run.waits_for[at] == 0 {
            run.could[at] = now;
            let line = if self.formes[at].kind == Kind::Second { &mut run.second } else { &mut run.white };
            line.push(Reverse(f));
        }
    }
}

impl Run {
    fn reset(&mut self, shop: &Shop, rates: &Drawn) {
        let (formes, portions) = (shop.formes.len(), shop.portions.len());
        for list in [&mut self.began, &mut self.ended, &mut self.could] {
            list.clear();
            list.resize(formes, 0.0);
        }
        self.press.resize(formes, 0);
        self.set.resize(portions, [0.0; 4]);
        self.set_by.resize(portions, 0);
        self.corrected_by.resize(portions, 0);
        self.waits_for.clear();
        self.waits_for.extend(shop.formes.iter().map(|f| if f.kind == Kind::Second { 2 } else { 1 }));
        self.finished = 0.0;
        self.make_ready = rates.make_ready;
        self.rate = if shop.is_half { rates.impressions_per_hour / 2.0 } else { rates.impressions_per_hour };
        self.drying = rates.drying;
    }

    fn event(&mut self, at: f64, event: Event) {
        // The bits of numbers of 0 and more stand in their order.
        self.events.push(Reverse((at.max(0.0).to_bits(), event)));
    }
}

/// The first `n` places free, of at most 100.
fn all(n: u32) -> u128 {
    if n >= 128 { u128::MAX } else { (1 << n) - 1 }
}

//! Ink, paper and camera for the two copies of a pair, by level of difficulty.

use sheet::{Degrees, Mm, Ppi};

use super::{Scenario, ScenarioKind};
use crate::camera::{Camera, Detail};
use crate::chance::Chance;
use crate::ink::Ink;
use crate::paper::{CreaseWish, Paper};
use crate::pull::Conditions;
use crate::warp::Fold;

/// Trouble at each level.
pub(crate) const TROUBLE: [f64; 5] = [0.0, 0.2, 0.42, 0.65, 0.9];

/// Conditions for both copies. Each `mildness` above 0 takes away what may hide too much.
pub(super) fn of_pair(scenario: &Scenario, level: u8, mildness: u8, seed: u64) -> [Conditions; 2] {
    let mut chance = Chance::new(seed, "conditions");
    let mut a = of_one(scenario.ppi_a, level, &mut chance);
    let mut b = of_one(scenario.ppi_b, level, &mut chance);
    if level >= 2 && chance.happens(0.3) {
        b.camera.detail = Some(detail(&mut chance, 0.5, 0.8));
    }
    if level >= 3 && chance.happens(0.3) {
        b.camera.turn = Degrees(b.camera.turn.0 + *chance.pick(&[180.0, 180.0, 90.0, 270.0]));
    }
    if scenario.kind == ScenarioKind::TooLittleShared {
        let small = detail(&mut chance, 0.07, 0.12);
        let left = if small.left > 0.5 { small.left - 0.4 } else { small.left + 0.4 };
        a.camera.detail = Some(small);
        b.camera.detail = Some(Detail { left, ..small });
        return [a, b];
    }
    if scenario.kind == ScenarioKind::OneCopy {
        b.ink = a.ink.clone();
        b.paper = a.paper.clone();
        // How a page curls is drawn with its copy: both photographs must have been taken of it bound, or loose.
        b.camera.curl = if a.camera.curl.0 > 0.0 { Degrees(b.camera.curl.0.max(8.0)) } else { Degrees(0.0) };
    }
    for copy in [&mut a, &mut b] {
        if mildness > 0 {
            copy.camera.detail = None;
            copy.ink.missed *= 0.5;
            copy.ink.bite = Mm(0.0);
        }
        if mildness > 1 {
            copy.ink.missed = 0.0;
            copy.camera.surround = Mm(copy.camera.surround.0.max(2.0));
            copy.ink.strength = copy.ink.strength.max(0.95);
        }
    }
    [a, b]
}

/// Conditions for one photograph.
pub(crate) fn of_one(ppi: Ppi, level: u8, chance: &mut Chance) -> Conditions {
    let trouble = TROUBLE[usize::from(level)];
    let mut ink = Ink::drawn(trouble, chance.seed());
    let mut paper = Paper::drawn(trouble, chance.seed());
    let camera = Camera::drawn(ppi, trouble, chance.seed());
    if level == 4 {
        // The foot of the ladder always has some of its worst.
        if chance.happens(0.6) {
            ink.missed = chance.between(0.1, 0.25);
        }
        if paper.creases.is_empty() && chance.happens(0.6) {
            paper.creases.push(CreaseWish { jump: Mm(chance.between(0.4, 1.3)), fold: Fold::AfterPrinting });
        }
    }
    Conditions { ink, paper, camera }
}

/// A part of the sheet, its sides between these shares of the sheet's.
fn detail(chance: &mut Chance, least: f64, most: f64) -> Detail {
    let (width, height) = (chance.between(least, most), chance.between(least, most));
    Detail { left: chance.unit() * (1.0 - width), top: chance.unit() * (1.0 - height), width, height }
}

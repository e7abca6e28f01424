//! Ink, paper and camera of an impression of a block, by level of difficulty.

use sheet::Ppi;

use crate::camera::TwoTone;
use crate::chance::Chance;
use crate::ink::OnWood;
use crate::pull::Conditions;
use crate::scenario::conditions;

/// Share of photographs that were saved in black and white with little between: of the real ones at hand about a third of the
/// cuts under 20 mm are.
const TWO_TONE: f64 = 0.15;

/// Conditions of one impression: those of any sheet, with the ink of wood; `level` from 0 to 4.
pub(super) fn of_impression(ppi: Ppi, level: u8, chance: &mut Chance) -> Conditions {
    let level = level.min(4);
    let mut conditions = conditions::of_one(ppi, level, chance);
    conditions.ink.on_wood = OnWood::drawn(conditions::TROUBLE[usize::from(level)], chance.seed());
    if chance.happens(TWO_TONE) {
        let (from, steep) = (chance.between(0.35, 0.62), chance.between(3.0, 10.0));
        conditions.camera.two_tone = Some(TwoTone { from, steep });
    }
    conditions
}

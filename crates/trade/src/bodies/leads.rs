//! Leads between lines, and the smaller bodies that reach a figure with them.

use super::fitting::shrunk;
use super::table::{Body, Tongue};
use crate::lengths::{Band, MM_PER_FOOT, Mm};
use schemars::JsonSchema;
use serde::Serialize;

/// A lead between lines.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Lead {
    /// Its name: "six to pica".
    pub name: &'static str,
    /// Its thickness, millimetres, of a pica of 72 to the foot.
    pub thick_mm: Mm,
}

const fn lead(name: &'static str, to_pica: f64) -> Lead {
    Lead { name, thick_mm: Mm(MM_PER_FOOT / 72.0 / to_pica) }
}

/// The leads that are tried: the names "four to pica", "six to pica": Savage, *Dictionary of the Art of Printing* (1841),
/// seen; three and eight to pica: common practice, no source.
pub const LEADS: [Lead; 4] = [
    lead("eight to pica", 8.0),
    lead("six to pica", 6.0),
    lead("four to pica", 4.0),
    lead("three to pica", 3.0),
];

/// A smaller body that fits with leads between its lines.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Leaded {
    /// The body.
    pub name: &'static str,
    /// The lead.
    pub lead: Lead,
    /// What twenty such lines measure today.
    pub today: Band,
    /// How far the figure lies from the middle of that band, millimetres.
    pub from_middle_mm: Mm,
}

/// English bodies that reach the figure with leads, the nearest first.
pub(super) fn with_leads(all: &[Body], mm: Mm, doubt: Mm) -> Vec<Leaded> {
    let mut found = Vec::new();
    for body in all.iter().filter(|b| b.tongue == Tongue::English) {
        for lead in LEADS {
            let add = 20.0 * lead.thick_mm.0;
            let Band { least_mm, most_mm } = body.twenty_lines;
            let today = shrunk(Band::new(least_mm.0 + add, most_mm.0 + add));
            if today.outside(mm).0.abs() <= doubt.0 {
                let from_middle_mm = Mm(mm.0 - today.middle().0);
                found.push(Leaded { name: body.name, lead, today, from_middle_mm });
            }
        }
    }
    found.sort_by(|a, b| a.from_middle_mm.0.abs().total_cmp(&b.from_middle_mm.0.abs()));
    found
}

//! How what was found on a sheet stands against what is there.

use serde::{Deserialize, Serialize};
use sheet::{FoundCut, Rect};

use super::make::SheetTruth;
use super::plan::Planned;

/// Shared area by united area from which on a cut is found, and from which on it is found well.
pub(super) const FOUND: [f64; 2] = [0.5, 0.8];

/// A cut that is on a sheet, and what was found of it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(super) struct Sought {
    /// What it is.
    pub(super) kind: String,
    /// Its larger side, mm.
    pub(super) size: f64,
    /// Its place, pixels of the photograph.
    pub(super) place: Rect,
    /// Shared by united area with the best that was found; 0 with nothing.
    pub(super) alike: f64,
    /// What that was said to be; `None` where less than half is alike.
    pub(super) said: Option<String>,
    /// Distance of each side of its box from that of the ink, pixels: left, top, right, bottom; outwards is positive.
    pub(super) off: Option<[f64; 4]>,
    /// Whether the letter of type in its hole lies in what was told to be the hole; `None` of what has no such letter.
    pub(super) letter: Option<bool>,
}

/// Something found that is no cut.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(super) struct False {
    /// What it was said to be.
    pub(super) said: String,
    /// Where, pixels of the photograph.
    pub(super) place: Rect,
    /// What is there.
    pub(super) on: On,
}

/// What is where no cut is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum On {
    /// A part of a cut, or a cut with much beside it.
    Cut,
    /// Ornaments of type.
    Ornaments,
    /// Type.
    Type,
    /// None of these: dirt, a rule, the table.
    Other,
}

impl On {
    /// Every one.
    pub(super) const ALL: [Self; 4] = [Self::Cut, Self::Ornaments, Self::Type, Self::Other];

    /// Its name in the tables.
    pub(super) fn name(self) -> &'static str {
        match self {
            Self::Cut => "part of a cut, or more than it",
            Self::Ornaments => "ornaments of type",
            Self::Type => "type",
            Self::Other => "other ink",
        }
    }
}

/// What was found on a sheet, held against the truth.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(super) struct Outcome {
    /// The sheet.
    pub(super) planned: Planned,
    /// Every cut that is there.
    pub(super) sought: Vec<Sought>,
    /// Everything found that is none.
    pub(super) wrong: Vec<False>,
    /// How many were found.
    pub(super) told: usize,
    /// Seconds that laying out took.
    pub(super) seconds: f64,
}

/// Shared area by united area.
pub(super) fn alike(a: Rect, b: Rect) -> f64 {
    let shared = a.shared(b).map_or(0.0, Rect::area);
    shared / (a.area() + b.area() - shared).max(1e-9)
}

/// A kind's word, as it is written in the record.
pub(super) fn word(cut: &FoundCut) -> String {
    serde_json::to_value(cut.kind).ok().and_then(|v| v.as_str().map(str::to_owned)).unwrap_or_default()
}

/// Holds what was found against the truth. Each cut takes the found one most alike, and none is taken twice.
pub(super) fn score(planned: &Planned, truth: &SheetTruth, found: &[FoundCut], seconds: f64) -> Outcome {
    let mut pairs: Vec<(f64, usize, usize)> = Vec::new();
    for (i, cut) in truth.cuts.iter().enumerate() {
        pairs.extend(found.iter().enumerate().map(|(j, f)| {
            // A block's box and that of its ink are both right.
            (alike(cut.block, f.bounds).max(alike(cut.inked, f.bounds)), i, j)
        }));
    }
    pairs.sort_by(|p, q| q.0.total_cmp(&p.0));
    let (mut of_cut, mut taken) = (vec![None; truth.cuts.len()], vec![false; found.len()]);
    for (alike, i, j) in pairs.into_iter().filter(|p| p.0 > 0.0) {
        if of_cut[i].is_none() && !taken[j] {
            of_cut[i] = Some((alike, j));
            taken[j] = alike >= FOUND[0];
        }
    }
    let sought = truth.cuts.iter().zip(&of_cut).map(|(cut, of)| {
        let best = of.filter(|o| o.0 >= FOUND[0]).map(|o| &found[o.1]);
        Sought {
            kind: cut.kind.clone(),
            size: cut.size,
            place: cut.inked,
            alike: of.map_or(0.0, |o| o.0),
            said: best.map(word),
            off: best.map(|f| sides(f.bounds, cut.inked)),
            letter: cut.letter.map(|l| {
                best.and_then(|f| f.hole)
                    .is_some_and(|h| h.shared(l).is_some_and(|s| s.area() >= IN_HOLE * l.area()))
            }),
        }
    });
    let wrong = found.iter().zip(&taken).filter(|(_, taken)| !**taken).map(|(f, _)| False {
        said: word(f),
        place: f.bounds,
        on: on(f.bounds, truth),
    });
    Outcome {
        planned: *planned,
        sought: sought.collect(),
        wrong: wrong.collect(),
        told: found.len(),
        seconds,
    }
}

/// Share of a letter that lies in a hole that holds it.
const IN_HOLE: f64 = 0.9;
/// Share of a place that what is there must cover.
const COVERS: f64 = 0.3;

fn on(place: Rect, truth: &SheetTruth) -> On {
    let shared = |r: &Rect| r.shared(place).map_or(0.0, Rect::area);
    let covered = |all: &[Rect]| all.iter().map(shared).sum::<f64>() >= COVERS * place.area();
    let cuts: Vec<Rect> = truth.cuts.iter().map(|c| c.block).collect();
    match () {
        () if covered(&cuts) => On::Cut,
        () if covered(&truth.ornaments) => On::Ornaments,
        () if covered(&truth.lines) => On::Type,
        () => On::Other,
    }
}

fn sides(found: Rect, truth: Rect) -> [f64; 4] {
    [truth.x - found.x, truth.y - found.y, found.right() - truth.right(), found.bottom() - truth.bottom()]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bench::finder::make::TrueCut;
    use crate::bench::finder::plan::plan;
    use crate::bench::set::Set;
    use sheet::CutKind;

    #[test]
    fn a_cut_found_twice_is_found_once_and_wrong_once() {
        let place = Rect::new(100.0, 100.0, 200.0, 100.0);
        let truth = SheetTruth {
            cuts: vec![TrueCut {
                kind: "picture".to_owned(),
                block: place,
                inked: place,
                size: 20.0,
                letter: None,
            }],
            ornaments: vec![Rect::new(0.0, 0.0, 400.0, 20.0)],
            ..SheetTruth::default()
        };
        let found = |bounds: Rect| FoundCut { kind: CutKind::Picture, bounds, hole: None };
        let told = [
            found(Rect::new(98.0, 100.0, 202.0, 100.0)),
            found(Rect::new(100.0, 100.0, 200.0, 60.0)),
            found(Rect::new(0.0, 0.0, 400.0, 22.0)),
        ];
        let outcome = score(&plan(Set::Dev, 1)[0], &truth, &told, 0.0);
        assert_eq!(outcome.sought[0].said.as_deref(), Some("picture"));
        assert_eq!(outcome.sought[0].off, Some([2.0, 0.0, 0.0, 0.0]));
        assert_eq!(outcome.wrong.iter().map(|w| w.on).collect::<Vec<_>>(), [On::Cut, On::Ornaments]);
    }
}

//! Incidents that were told, against those that befell the sheet.

use super::creases;
use evidence::measure::{Incident, IncidentClass, Side};
use press::{IncidentKind, Truth};
use serde::{Deserialize, Serialize};
use sheet::Rect;

/// An incident that was told: its score, and whether it is one.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub(super) struct Told {
    pub(super) score: f64,
    pub(super) is_true: bool,
}

/// What was told of one class on one sheet.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(super) struct OfClass {
    /// Its name.
    pub(super) class: String,
    /// Incidents that can be seen.
    pub(super) there: usize,
    /// Those told.
    pub(super) told: Vec<Told>,
    /// Boxes that were missed, x, y, w, h, pixels of the photograph; and boxes told that are none.
    pub(super) missed: Vec<Rect>,
    pub(super) wrong: Vec<Rect>,
}

/// Classes that are scored, and what the press calls them.
const CLASSES: [(IncidentClass, IncidentKind, &str); 1] =
    [(IncidentClass::RisenSpace, IncidentKind::RisenSpace, "risen spaces and quads")];

/// Mean ink, of 255, of a place at which something printed.
pub(super) const PRINTED: f64 = 60.0;
/// A place told and a true one are one if this share of the smaller lies in the larger, which is no more than so many times as large.
const SHARED: f64 = 0.5;
const LARGER: f64 = 3.0;

/// Scores the incidents of a sheet.
pub(super) fn against(truth: &Truth, side: &Side, found: &[Incident]) -> Vec<OfClass> {
    let boxed = CLASSES.iter().map(|(class, kind, name)| of_class(truth, side, found, *class, *kind, name));
    boxed.chain([creases::against(truth, found)]).collect()
}

fn of_class(
    truth: &Truth,
    side: &Side,
    found: &[Incident],
    class: IncidentClass,
    kind: IncidentKind,
    name: &str,
) -> OfClass {
    let picture = Rect::new(0.0, 0.0, f64::from(truth.width), f64::from(truth.height));
    let places = truth.incidents.iter().filter(|i| i.kind == kind).filter_map(|i| i.box_px.shared(picture));
    // What cannot be seen is neither to be told nor wrong where it is.
    let (there, unseen): (Vec<Rect>, Vec<Rect>) = places.partition(|r| printed(side, *r) >= PRINTED);
    let mut is_found = vec![false; there.len()];
    let (mut told, mut wrong) = (Vec::new(), Vec::new());
    for one in found.iter().filter(|i| i.class == class) {
        let [x, y, w, h] = one.box_px;
        let place = Rect::new(x, y, w, h);
        let hit = (0..there.len()).find(|&k| !is_found[k] && is_one(there[k], place));
        if let Some(k) = hit {
            is_found[k] = true;
        } else if unseen.iter().chain(&there).any(|r| r.shared(place).is_some()) {
            continue;
        } else {
            wrong.push(place);
        }
        told.push(Told { score: one.score, is_true: hit.is_some() });
    }
    let missed = there.iter().zip(&is_found).filter(|(_, found)| !**found).map(|(r, _)| *r).collect();
    OfClass { class: name.to_owned(), there: there.len(), told, missed, wrong }
}

fn is_one(p: Rect, q: Rect) -> bool {
    let (small, large) = (p.area().min(q.area()), p.area().max(q.area()));
    large <= LARGER * small && p.shared(q).is_some_and(|s| s.area() >= SHARED * small)
}

/// Mean ink in a box of the photograph.
pub(super) fn printed(side: &Side, place: Rect) -> f64 {
    let ink = side.ink.full();
    let r = side.turned.upright_box(place);
    let (mut sum, mut count) = (0.0, 0.0);
    for y in r.y.max(0.0) as usize..(r.bottom().max(0.0) as usize).min(ink.height()) {
        for x in r.x.max(0.0) as usize..(r.right().max(0.0) as usize).min(ink.width()) {
            (sum, count) = (sum + f64::from(ink.at(x, y)), count + 1.0);
        }
    }
    if count > 0.0 { sum / count } else { 0.0 }
}

/// How well a class is told over all sheets at one least score: precision and recall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct At {
    pub(super) least: f64,
    pub(super) precision: f64,
    pub(super) recall: f64,
}

/// The curve of precision and recall, from the surest on; one point for each score that was told.
pub(super) fn curve<'o>(sheets: impl Iterator<Item = &'o OfClass>) -> (usize, Vec<At>) {
    let (mut there, mut told): (usize, Vec<Told>) = (0, Vec::new());
    for sheet in sheets {
        there += sheet.there;
        told.extend(&sheet.told);
    }
    told.sort_by(|p, q| q.score.total_cmp(&p.score));
    let mut out: Vec<At> = Vec::new();
    let mut right = 0;
    for (i, one) in told.iter().enumerate() {
        right += usize::from(one.is_true);
        let last = told.get(i + 1).is_none_or(|next| next.score < one.score);
        if last {
            let share = |of: usize| right as f64 / of.max(1) as f64;
            out.push(At { least: one.score, precision: share(i + 1), recall: share(there) });
        }
    }
    (there, out)
}

/// The best recall at which precision is no less than so much.
pub(super) fn recall_at(curve: &[At], precision: f64) -> Option<At> {
    curve.iter().copied().filter(|a| a.precision >= precision).max_by(|p, q| p.recall.total_cmp(&q.recall))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_curve_counts_what_is_true_from_the_surest_on() {
        let told = |score: f64, is_true: bool| Told { score, is_true };
        let sheet = OfClass {
            class: "x".into(),
            there: 4,
            told: vec![told(0.9, true), told(0.8, true), told(0.8, false), told(0.5, true)],
            missed: Vec::new(),
            wrong: Vec::new(),
        };
        let (there, curve) = curve([&sheet].into_iter());
        assert_eq!((there, curve.len()), (4, 3));
        assert_eq!(curve[1], At { least: 0.8, precision: 2.0 / 3.0, recall: 0.5 });
        assert!((recall_at(&curve, 0.7).unwrap().recall - 0.75).abs() < 1e-9);
        assert!(recall_at(&curve, 0.9).unwrap().recall < 0.3);
    }
}

//! What the press knows of a pair, in pixels of both photographs.

use std::collections::BTreeMap;

use evidence::Verdict;
use press::scenario::{PrintedPair, ScenarioKind};
use press::{ChangeClass, Sort, Word};
use sheet::Point;

use crate::bench::pair::{TrueChange, TrueLine, Truth};
use crate::bench::printed::{moved_along, on_photograph, place};

/// Sealed points of a pair, at most.
const POINTS: usize = 300;
/// A word holds sealed points, and counts for the ink of a photograph, when this share of it is seen.
const SEEN: f32 = 0.6;
/// The least mean ink of the words on a sound photograph (DESIGN §5).
const SOUND_INK: f64 = 0.7;
/// The least resolution of a sound photograph (DESIGN §5).
const SOUND_PPI: f64 = 200.0;

/// The truth of a pair.
pub(super) fn truth(pair: &PrintedPair) -> Truth {
    Truth { changes: changes(pair), lines: lines(pair), points: points(pair) }
}

/// What must be told of a pair: the verdict it is counted under, and all that are right.
pub(super) fn verdicts(pair: &PrintedPair, truth: &Truth) -> (Verdict, Vec<Verdict>) {
    use Verdict::{
        DifferentSetting, DifferentText, PartlyReset, SameSetting, SameSettingWithDifferences, Undetermined,
    };
    let seen = truth.changes.iter().any(|c| c.judgeable);
    match pair.truth.kind {
        ScenarioKind::SameSetting | ScenarioKind::OneCopy => (SameSetting, vec![SameSetting]),
        // Where nothing that differs can be judged, nobody can be asked to say that it does.
        ScenarioKind::SameSettingWithDifferences | ScenarioKind::MuchCorrected if seen => {
            (SameSettingWithDifferences, vec![SameSettingWithDifferences])
        }
        ScenarioKind::SameSettingWithDifferences | ScenarioKind::MuchCorrected => {
            (SameSettingWithDifferences, vec![SameSetting, SameSettingWithDifferences])
        }
        ScenarioKind::PartlyReset => (PartlyReset, vec![PartlyReset]),
        ScenarioKind::DifferentSetting | ScenarioKind::OtherLineEnds => {
            (DifferentSetting, vec![DifferentSetting])
        }
        ScenarioKind::DifferentText => (DifferentText, vec![DifferentText]),
        // What little there is may by luck be told rightly; that is no error.
        ScenarioKind::TooLittleShared if pair.a.truth.setting.id == pair.b.truth.setting.id => {
            (Undetermined, vec![Undetermined, SameSetting])
        }
        ScenarioKind::TooLittleShared => (Undetermined, vec![Undetermined, DifferentSetting]),
    }
}

/// Whether both photographs are sound: resolution and ink. The press blurs its worst photographs by
/// 1.15 px at most, a little more than a sound one has; those count as sound here.
pub(super) fn sound(pair: &PrintedPair) -> bool {
    [&pair.a.truth, &pair.b.truth].into_iter().all(|t| {
        let words = t.setting.lines.iter().zip(&t.legible).flat_map(|(l, inks)| l.words.iter().zip(inks));
        let framed = words.filter(|(w, _)| w.bounds().is_some_and(|b| t.frames(b)));
        let inks: Vec<f64> = framed.map(|(_, &ink)| f64::from(ink)).collect();
        let mean = inks.iter().sum::<f64>() / inks.len().max(1) as f64;
        t.ppi.0 >= SOUND_PPI && mean >= SOUND_INK
    })
}

/// Changes at the level of printed words, and the words that moved along with them. These moved by
/// 0.02 mm or more, which is a difference if it is seen and nothing missed if it is not.
fn changes(pair: &PrintedPair) -> Vec<TrueChange> {
    let (a, b) = (&pair.a.truth, &pair.b.truth);
    let mut out = Vec::new();
    for change in &pair.truth.changes {
        out.push(TrueChange {
            class: class(change.class).to_owned(),
            box_a_px: on_photograph(a, place(&a.setting, change, change.before)),
            box_b_px: on_photograph(b, place(&b.setting, change, change.after)),
            own_a_px: on_photograph(a, change.before),
            own_b_px: on_photograph(b, change.after),
            judgeable: change.judgeable,
        });
        for moved in &change.moved {
            out.push(TrueChange {
                class: "moved along".to_owned(),
                box_a_px: on_photograph(a, moved_along(&a.setting, change, moved)),
                box_b_px: on_photograph(b, moved_along(&b.setting, change, moved)),
                own_a_px: None,
                own_b_px: None,
                judgeable: false,
            });
        }
    }
    out
}

/// The press's word for a change.
fn class(class: ChangeClass) -> &'static str {
    match class {
        ChangeClass::LetterChanged => "letter changed",
        ChangeClass::LetterTurned => "letter turned",
        ChangeClass::WordChanged => "word changed",
        ChangeClass::WordMoved => "word moved",
        ChangeClass::PointAdded => "point added",
        ChangeClass::PointRemoved => "point removed",
        ChangeClass::SortLost => "sort lost",
        ChangeClass::SortShifted => "sort shifted",
        ChangeClass::LineMoved => "line moved",
        ChangeClass::LineReset => "line reset",
    }
}

/// The lines of the first photograph that are wholly on it.
fn lines(pair: &PrintedPair) -> Vec<TrueLine> {
    let (a, b) = (&pair.a.truth, &pair.b.truth);
    let reset =
        |i: usize| pair.truth.changes.iter().any(|c| c.line == i && c.class == ChangeClass::LineReset);
    let respaced =
        |i: usize| pair.truth.changes.iter().any(|c| c.line == i && !c.moved.is_empty() && c.judgeable);
    let mut out = Vec::new();
    for (i, line) in a.setting.lines.iter().enumerate() {
        let Some(bounds) = line.bounds().filter(|b| a.frames(*b)) else { continue };
        let place = a.box_px(bounds);
        let drift_px = match b.setting.lines.get(i) {
            Some(other) if respaced(i) => drift(&line.words, &other.words, |p| a.to_photograph(p)),
            _ => Vec::new(),
        };
        out.push(TrueLine { box_a_px: [place.x, place.y, place.w, place.h], reset: reset(i), drift_px });
    }
    out
}

/// Words that stand in both states of a line: place and drift along x on the first photograph, pixels.
fn drift(was: &[Word], is: &[Word], onto: impl Fn(Point) -> Point) -> Vec<[f64; 2]> {
    let other: BTreeMap<(u32, u8), &Word> = is.iter().map(|w| ((w.token, w.part), w)).collect();
    was.iter()
        .filter_map(|word| {
            let now = other.get(&(word.token, word.part)).filter(|n| n.text == word.text)?.bounds()?;
            let then = word.bounds()?;
            let (from, to) = (then.centre(), Point::new(now.centre().x, then.centre().y));
            Some([onto(from).x, onto(to).x - onto(from).x])
        })
        .collect()
}

/// Middles of sorts that stand in one place of both formes and are seen on both photographs.
fn points(pair: &PrintedPair) -> Vec<[f64; 4]> {
    let (a, b) = (&pair.a.truth, &pair.b.truth);
    if a.setting.id != b.setting.id {
        // Of two settings no more than the skeleton stands, and that does not hold the paper.
        return Vec::new();
    }
    let there: BTreeMap<u32, Point> = b.setting.sorts().map(|(_, _, s)| (s.id, s.at)).collect();
    let seen = |t: &press::Truth, l: usize, w: usize| {
        t.legible.get(l).and_then(|l| l.get(w)).is_some_and(|&i| i >= SEEN)
    };
    let stands = |s: &Sort| there.get(&s.id).is_some_and(|at| at.distance(s.at) < 1e-6);
    let all: Vec<[f64; 4]> = a
        .setting
        .sorts()
        .filter(|&(l, w, s)| stands(s) && seen(a, l, w) && seen(b, l, w))
        .filter_map(|(_, _, s)| {
            // The middle of the small letters: half their width along, a fifth of the body up.
            let p = Point::new(s.at.x + 0.5 * s.width.0, s.at.y - 0.2 * s.body.0);
            let (p, q) = (a.shows(p).then(|| a.to_photograph(p))?, b.shows(p).then(|| b.to_photograph(p))?);
            Some([p.x, p.y, q.x, q.y])
        })
        .collect();
    let every = all.len().div_ceil(POINTS).max(1);
    all.into_iter().step_by(every).collect()
}

//! What the press has of the lines that were found.

use evidence::measure::{Length, Measures, Side, TypeMeasures, TypeSize, skew};
use press::{Founts, Truth};
use sheet::{Line, Point};
use trade::bodies::{Body, Tongue, bodies};

/// How the lines of a side were measured, against the press.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub(super) struct Lines {
    /// Twenty lines of the text: off by so many millimetres, and the standard deviation told.
    pub(super) twenty_off_mm: Option<[f64; 2]>,
    /// Most lines that follow each other.
    pub(super) longest_run: usize,
    /// Height of capitals and of ascenders of the text: off by so many millimetres.
    pub(super) capitals_off_mm: Option<f64>,
    pub(super) ascenders_off_mm: Option<f64>,
    /// Angle of the lines: off by so many degrees.
    pub(super) skew_off_degrees: Option<f64>,
    /// Whether the body that was set is among those that fit; of a text with leads among those with such leads.
    pub(super) body_is_right: Option<bool>,
    /// Whether the text was set solid.
    pub(super) is_solid: bool,
    /// How many bodies with leads are told of it.
    pub(super) with_leads: usize,
}

/// Places along a line at which it is asked where the press has it.
const PLACES: usize = 9;

/// Compares what was measured with what was set.
pub(super) fn against(
    truth: &Truth,
    side: &Side,
    sizes: &[TypeSize],
    measures: &Measures,
    founts: &Founts,
) -> Lines {
    let feet: Vec<f64> =
        truth.setting.lines.iter().filter_map(|l| Some(l.words.first()?.sorts.first()?.at.y)).collect();
    let as_set = |l: &Line| -> Option<Line> {
        let place = |p: &Point| {
            let there = truth.to_forme(side.turned.on_photograph(*p))?;
            let foot = feet.iter().min_by(|a, b| (*a - there.y).abs().total_cmp(&(*b - there.y).abs()))?;
            Some(side.turned.upright(truth.to_photograph(Point::new(there.x, *foot))))
        };
        Some(Line { baseline: l.baseline.iter().map(place).collect::<Option<_>>()?, ..l.clone() })
    };
    let set: Vec<Option<Line>> = side.layout.lines.iter().map(as_set).collect();
    let all: Option<Vec<Line>> = set.iter().cloned().collect();
    let told = skew(&side.layout.lines);
    let skew_off = all.as_ref().and_then(|set| Some(told?.value - skew(set)?.value));
    let size = sizes.iter().find(|s| s.pitch.is_some());
    let twenty_off_mm = size.zip(all).and_then(|(size, set)| {
        let pitch = size.pitch.as_ref()?;
        let truly = true_pitch(&set, &pitch.runs)? * side.layout.skew.radians().cos();
        let per_mm = truth.ppi.px_per_mm();
        Some([20.0 * (pitch.px.value - truly) / per_mm, 20.0 * pitch.px.sd / per_mm])
    });
    let longest_run = size.map_or(0, TypeSize::longest_run);
    let k = sizes.iter().position(|s| s.pitch.is_some());
    let text = k.and_then(|k| measures.types.get(k));
    let off = |told: Option<Length>, glyph: char| Some(told?.value - height(truth, founts, glyph)?);
    let capitals_off_mm = text.and_then(|t| off(t.capitals_mm, 'H'));
    let ascenders_off_mm = text.and_then(|t| off(t.ascenders_mm, 'h'));
    Lines {
        twenty_off_mm,
        longest_run,
        capitals_off_mm,
        ascenders_off_mm,
        skew_off_degrees: skew_off,
        body_is_right: text.and_then(|t| body(truth, t)),
        is_solid: truth.setting.layout.lead.0 == 0.0,
        with_leads: text.map_or(0, |t| t.bodies_with_leads.len()),
    }
}

/// From baseline to baseline as the press has them, pixels: the slope of places by numbers, all runs together.
fn true_pitch(set: &[Line], runs: &[Vec<usize>]) -> Option<f64> {
    let (mut sum, mut weights) = (0.0, 0.0);
    for run in runs {
        let ends = |i: usize| Some((set[i].baseline.first()?.x, set[i].baseline.last()?.x));
        let ends: Vec<(f64, f64)> = run.iter().map(|&i| ends(i)).collect::<Option<_>>()?;
        let from = ends.iter().map(|e| e.0).fold(f64::MIN, f64::max);
        let to = ends.iter().map(|e| e.1).fold(f64::MAX, f64::min);
        let at = |k: usize| from + (to - from) * (k as f64 + 0.5) / PLACES as f64;
        let places: Vec<f64> = run
            .iter()
            .map(|&i| (0..PLACES).map(|k| y_at(&set[i].baseline, at(k))).sum::<f64>() / PLACES as f64)
            .collect();
        let n = places.len() as f64;
        let mean = places.iter().sum::<f64>() / n;
        for (i, y) in places.iter().enumerate() {
            let off = i as f64 - (n - 1.0) / 2.0;
            (sum, weights) = (sum + off * (y - mean), weights + off * off);
        }
    }
    (weights > 0.0).then(|| sum / weights)
}

/// Height of a line at a place along it; its baseline has two points at least.
fn y_at(baseline: &[Point], x: f64) -> f64 {
    let k = baseline.partition_point(|p| p.x < x).clamp(1, baseline.len().max(2) - 1);
    let [p, q] = [&baseline[k - 1], &baseline[k]];
    p.y + (q.y - p.y) * (x - p.x) / (q.x - p.x).max(1e-9)
}

/// How high a letter of the text stands on the dry sheet, mm; the ink squeezed out about its face is not in it.
fn height(truth: &Truth, founts: &Founts, glyph: char) -> Option<f64> {
    let layout = &truth.setting.layout;
    let face = founts.cast(layout.face, glyph)?.outline.bounds()?;
    // Outlines are in ems, y down, the baseline at 0.
    Some(-face.y * layout.body.0 * (1.0 - truth.warp.shrinkage[1]))
}

/// Whether the body of the text is among those told: set solid, or with leads within a tenth of a millimetre of those that were set.
fn body(truth: &Truth, text: &TypeMeasures) -> Option<bool> {
    let layout = &truth.setting.layout;
    let set = 20.0 * layout.body.0;
    let far = |b: &Body| (b.twenty_lines.middle().0 - set).abs();
    let english = bodies().into_iter().filter(|b| b.tongue == Tongue::English);
    let name = english.min_by(|p, q| far(p).total_cmp(&far(q)))?.name;
    text.twenty_lines_mm?;
    Some(if layout.lead.0 > 0.0 {
        let like = |thick: f64| (thick - layout.lead.0).abs() <= 0.1;
        text.bodies_with_leads.iter().any(|l| l.name == name && like(l.lead.thick_mm.0))
    } else {
        text.bodies.iter().any(|f| f.fits && f.name == name)
    })
}

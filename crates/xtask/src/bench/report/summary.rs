//! The figures of one tool over some pairs.

use evidence::{Standing, Verdict};
use sheet::{MM_PER_INCH, Rect};

use crate::bench::answer::{Answer, Outcome, Reported};
use crate::bench::pair::{Pair, Truth};
use crate::bench::score::{
    ChangeCount, Confusion, Place, Planted, Weighed, cllr, cllr_min, count_changes, lying_on, median,
    quantile, recovered,
};

/// One tool's answer on one pair, with all that is known.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Scored<'a> {
    /// The pair.
    pub pair: &'a Pair,
    /// The answer.
    pub answer: &'a Answer,
    /// The truth of a simulated pair.
    pub truth: Option<&'a Truth>,
    /// Both tools and the decoding.
    pub outcome: &'a Outcome,
}

/// From this resolution on differences must be found (DESIGN §5).
pub(crate) const CHANGES_PPI: f64 = 250.0;
/// The resolution for which a residual in millimetres is asked (DESIGN §5).
const RESIDUAL_PPI: f64 = 300.0;
/// The smallest respacing that is asked to be recovered, millimetres. DESIGN §5 asks it of 0.15 mm.
const RESPACING_MM: f64 = 0.1;
/// Two photographs of 8 megapixels, roughly: the time is asked for them (DESIGN §5).
const EIGHT_MEGAPIXELS: std::ops::RangeInclusive<f64> = 6e6..=10.5e6;

/// A count of a count.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(crate) struct Share {
    /// Those that are so.
    pub some: usize,
    /// All that were asked.
    pub of: usize,
}

impl Share {
    /// Counts one more.
    pub(crate) fn count(&mut self, so: bool) {
        self.some += usize::from(so);
        self.of += 1;
    }

    /// Adds another count of the same.
    pub(crate) fn add(&mut self, other: Self) {
        self.some += other.some;
        self.of += other.of;
    }
}

/// The figures.
#[derive(Debug, Clone, Default)]
pub(crate) struct Summary {
    /// Verdicts told over verdicts true.
    pub confusion: Confusion,
    /// Verdicts that contradict the truth, *with* and *without differences* counted as one.
    pub wrong: Share,
    /// Numbers of the pairs that were wrong.
    pub wrong_pairs: Vec<usize>,
    /// Pairs without an answer.
    pub failed: usize,
    /// *Undetermined* (or no answer) where both photographs are sound and there is a verdict to give.
    pub undetermined: Share,
    /// Of pairs in one setting and told so: *with* said for *without differences* or the reverse.
    pub differences_wrong: Share,
    /// Calibration cost, its least value, and over how many pairs; a pair without a weight counts as 0.
    pub cllr: Option<f64>,
    /// The cost left after the best recalibration.
    pub cllr_min: Option<f64>,
    /// Whether the weights are likelihood ratios; else they only order the pairs and have no cost.
    pub has_weights: bool,
    /// The weights behind the cost.
    pub weights: Vec<Weighed>,
    /// Placement errors at the sealed points, pixels of the first photograph.
    pub placement_px: Vec<f64>,
    /// Sealed points with a placement.
    pub placed: Share,
    /// Median residuals of pairs in one setting at 300 ppi and more, millimetres.
    pub residuals_mm: Vec<f64>,
    /// Shares of planted respacings that were seen, line by line.
    pub recovered: Vec<f64>,
    /// Respaced lines with a drift to compare, of those planted.
    pub respaced: Share,
    /// True changes that can be judged and were found, at 250 ppi and more.
    pub changes: Share,
    /// The same with the doubtful places counted as found.
    pub changes_or_doubtful: Share,
    /// False places on sides in one setting, at 250 ppi and more; `of` counts the sides.
    pub false_places: Share,
    /// Sides with a false place.
    pub sides_with_false: Share,
    /// Lines set again that were found.
    pub reset_lines: Share,
    /// Lines that stood but were said to be set again, of all that stood.
    pub false_resets: Share,
    /// Wall seconds.
    pub seconds: Vec<f64>,
    /// Processor seconds.
    pub cpu_seconds: Vec<f64>,
    /// Wall seconds over those of the bare decoding.
    pub over_decoding: Vec<f64>,
    /// Wall seconds of pairs of two photographs of about 8 megapixels.
    pub seconds_8_mp: Vec<f64>,
    /// The same over the bare decoding.
    pub over_decoding_8_mp: Vec<f64>,
    /// Largest resident memory over the pixels of the larger photograph.
    pub bytes_a_pixel: Vec<f64>,
}

/// The figures over these answers.
pub(crate) fn summary(all: &[Scored<'_>]) -> Summary {
    let mut s = Summary::default();
    for one in all {
        s.count_verdict(one);
        s.count_weight(one);
        s.count_cost(one);
        if let Some(truth) = one.truth {
            s.count_placement(one, truth);
            s.count_changes(one, truth);
            s.count_lines(one, truth);
        }
    }
    s.cllr = cllr(&s.weights);
    s.cllr_min = cllr_min(&s.weights);
    s
}

impl Summary {
    /// Median and 95th percentile of the placement errors.
    pub(crate) fn placement(&self) -> Option<(f64, f64)> {
        Some((median(&self.placement_px)?, quantile(&self.placement_px, 0.95)?))
    }

    fn count_verdict(&mut self, one: &Scored<'_>) {
        let (pair, told) = (one.pair, one.answer.verdict);
        self.confusion.count(pair.verdict, told);
        self.failed += usize::from(told.is_none());
        let wrong = told.is_some_and(|v| pair.is_wrong(v) && !(pair.one_setting() && v.is_one_setting()));
        self.wrong.count(wrong);
        if wrong {
            self.wrong_pairs.push(pair.number);
        }
        if pair.sound == Some(true) && pair.verdict != Verdict::Undetermined {
            self.undetermined.count(told.is_none_or(|v| v == Verdict::Undetermined));
        }
        // Where nobody knows whether there are differences, both are right.
        if pair.one_setting() && pair.right.len() == 1 && told.is_some_and(Verdict::is_one_setting) {
            self.differences_wrong.count(told.is_some_and(|v| !pair.right.contains(&v)));
        }
        if pair.one_setting() && pair.ppi_a.is_some_and(|p| p >= RESIDUAL_PPI) {
            // From pixels and the true scale, for a tag may lie.
            let mm = |px: f64| Some(px * MM_PER_INCH / pair.ppi_a?);
            self.residuals_mm.extend(one.answer.residual_px.and_then(mm));
        }
    }

    fn count_weight(&mut self, one: &Scored<'_>) {
        if one.pair.one_setting() || one.pair.verdict == Verdict::DifferentSetting {
            self.has_weights |= one.answer.weight_log10.is_some();
            let log10 = one.answer.weight_log10.or(one.answer.score).unwrap_or(0.0);
            self.weights.push(Weighed { log10, same: one.pair.one_setting() });
        }
    }

    fn count_cost(&mut self, one: &Scored<'_>) {
        let pixels = one.outcome.larger_pixels as f64;
        self.seconds.push(one.answer.seconds);
        self.cpu_seconds.push(one.answer.cpu_seconds);
        self.over_decoding.push(one.answer.seconds / one.outcome.decode_seconds);
        if EIGHT_MEGAPIXELS.contains(&pixels)
            && EIGHT_MEGAPIXELS.contains(&(one.outcome.smaller_pixels as f64))
        {
            self.seconds_8_mp.push(one.answer.seconds);
            self.over_decoding_8_mp.push(one.answer.seconds / one.outcome.decode_seconds);
        }
        self.bytes_a_pixel.extend(one.answer.peak_bytes.map(|b| b as f64 / pixels));
    }

    fn count_placement(&mut self, one: &Scored<'_>, truth: &Truth) {
        let (Some(ppi_a), Some(ppi_b)) = (one.pair.ppi_a, one.pair.ppi_b) else { return };
        if !one.pair.one_setting() {
            return;
        }
        for (i, p) in truth.points.iter().enumerate() {
            let told = one.answer.points.get(i).copied().flatten();
            self.placed.count(told.is_some());
            if let Some(q) = told {
                let off = (q[0] - p[2]).hypot(q[1] - p[3]);
                self.placement_px.push(off * ppi_a / ppi_b);
            }
        }
    }

    fn count_changes(&mut self, one: &Scored<'_>, truth: &Truth) {
        if !one.pair.one_setting() || one.pair.lower_ppi().is_none_or(|p| p < CHANGES_PPI) {
            return;
        }
        let planted = planted(truth);
        let count = |reported: &[Reported]| count_changes(&planted, &places(reported));
        let ChangeCount { judgeable, found, false_places } = count(&one.answer.changes);
        let doubtful = [one.answer.changes.as_slice(), &one.answer.doubtful].concat();
        self.changes.some += found;
        self.changes.of += judgeable;
        self.changes_or_doubtful.some += count(&doubtful).found;
        self.changes_or_doubtful.of += judgeable;
        self.false_places.some += false_places;
        self.false_places.of += 1;
        self.sides_with_false.count(false_places > 0);
    }

    fn count_lines(&mut self, one: &Scored<'_>, truth: &Truth) {
        let boxes: Vec<Rect> = one.answer.lines.iter().map(|l| rect(l.box_a_px)).collect();
        let partly = one.pair.verdict == Verdict::PartlyReset;
        for line in &truth.lines {
            let told = lying_on(rect(line.box_a_px), &boxes).map(|i| &one.answer.lines[i]);
            let reset = told.is_some_and(|l| l.standing == Standing::Reset);
            if line.reset && partly {
                self.reset_lines.count(reset);
            } else if partly || one.pair.one_setting() {
                self.false_resets.count(reset && line.drift_px.is_empty());
            }
            let most = line.drift_px.iter().map(|d| d[1].abs()).fold(0.0, f64::max);
            let least = one.pair.ppi_a.map(|p| RESPACING_MM * p / MM_PER_INCH);
            if one.pair.one_setting() && !line.reset && least.is_some_and(|l| most >= l) {
                let seen = told.and_then(|l| recovered(&line.drift_px, &l.drift_px));
                self.respaced.count(seen.is_some());
                self.recovered.extend(seen);
            }
        }
    }
}

/// A box of a record.
pub(crate) fn rect([x, y, w, h]: [f64; 4]) -> Rect {
    Rect::new(x, y, w, h)
}

/// The true changes as boxes.
fn planted(truth: &Truth) -> Vec<Planted> {
    let one = |c: &crate::bench::pair::TrueChange| Planted {
        a: c.box_a_px.map(rect),
        b: c.box_b_px.map(rect),
        judgeable: c.judgeable,
    };
    truth.changes.iter().map(one).collect()
}

/// The reported places as boxes.
fn places(reported: &[Reported]) -> Vec<Place> {
    reported.iter().map(|r| Place { a: rect(r.box_a_px), b: rect(r.box_b_px) }).collect()
}

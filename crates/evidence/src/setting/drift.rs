//! How far each word of each line lies from where the paper's own motion puts it.

use crate::rank::median;
use crate::standing::{Placing, SAME_WORD};
use rayon::prelude::*;
use register::{Followed, Laid, Motion, Pyramid, Reach, follow};
use sheet::{Point, Rect};

/// A line of type on the first photograph, as far as drift is concerned. Pixels.
#[derive(Debug, Clone)]
pub(super) struct Line {
    /// Each word's box, and the height of its baseline.
    pub(super) words: Vec<(Rect, f64)>,
    pub(super) bounds: Rect,
    pub(super) x_height: f64,
    /// Direction of the line, radians clockwise from the x axis.
    pub(super) turn: f64,
}

impl Line {
    /// A word's box with a little white about it: its edges place it.
    pub(super) fn boxed(&self, word: Rect) -> Rect {
        word.grown(MARGIN * self.x_height)
    }

    /// How far along the line a word was found from where the map puts it, pixels.
    pub(super) fn along(&self, found: &Followed, laid: &Laid) -> f64 {
        let (sin, cos) = self.turn.sin_cos();
        let d = found.shift - laid.map.paper.at(found.at).0;
        d.x * cos + d.y * sin
    }
}

/// A word that was looked for on the second photograph.
#[derive(Debug, Clone, Copy)]
pub(super) struct Word {
    pub(super) bounds: Rect,
    pub(super) found: Option<Followed>,
    /// A crease runs through it: it lies in two places, or is partly hidden.
    pub(super) astride: bool,
    /// Drift along and across the line against the paper's motion; `None` where that is not known.
    pub(super) drift: Option<Drift>,
}

/// A word's displacement less the paper's, turned into the line's own directions. Pixels of A.
#[derive(Debug, Clone, Copy)]
pub(super) struct Drift {
    pub(super) along: f64,
    pub(super) across: f64,
    /// Standard deviation of `along` by the match alone.
    pub(super) sd: f64,
    /// Standard deviation of the paper's motion there.
    pub(super) paper: f64,
}

impl Drift {
    /// Standard deviation of the drift: of the match, and of the paper's motion.
    pub(super) fn error(&self) -> f64 {
        self.sd.hypot(self.paper)
    }
}

impl Word {
    /// Whether the same word was found.
    pub(super) fn is_found(&self) -> bool {
        self.found.is_some_and(|f| f.score >= SAME_WORD && !f.on_edge)
    }

    /// Whether it was found in one place, and no other would do: a row of like ornaments fits one further along
    /// nearly as well.
    pub(super) fn is_placed(&self) -> bool {
        !self.astride && self.is_found() && self.found.is_some_and(|f| f.score - f.rival > CLEAR_LEAD)
    }
}

/// How much better a word must fit where it was found than anywhere else in reach.
const CLEAR_LEAD: f32 = 0.08;
/// How far a word is looked for, in x-heights, along the line and across it. A line set again
/// drifts 1 to 3 mm in its middle (common practice, no source).
const REACH_ALONG: f64 = 2.0;
pub(super) const REACH_ACROSS: f64 = 0.6;
/// White taken along with a word, in x-heights.
const MARGIN: f64 = 0.25;
/// Print this near to a word, above or below, as a share of the way to the next line, is its own line and may
/// not say where the paper is.
const OWN_LINE: f64 = 0.75;
/// A patch reaches about so far about its middle, in x-heights.
const HALF_A_PATCH: f64 = 0.8;
/// Width of the neighbourhood that says where the paper is, in line pitches: two or three lines above
/// and below. A wider one cannot follow a page that curls.
const NEIGHBOURHOOD: f64 = 1.4;

/// Follows every word of every line.
pub(super) fn followed(a: &Pyramid, b: &Pyramid, laid: &Laid, lines: &[Line]) -> Vec<Vec<Word>> {
    lines
        .par_iter()
        .map(|line| {
            let boxes: Vec<Rect> = line.words.iter().map(|w| line.boxed(w.0)).collect();
            let reach = Reach::of_lines(REACH_ALONG * line.x_height, REACH_ACROSS * line.x_height, line.turn);
            follow(a, b, laid, &boxes, reach)
                .into_iter()
                .zip(&line.words)
                .map(|(found, &(bounds, _))| {
                    let astride = laid.map.paper.cuts(bounds, 0.0);
                    Word { bounds, found, astride, drift: None }
                })
                .collect()
        })
        .collect()
}

/// Takes the paper's motion, as the lines trusted by `trust` (their index) and all print that is no text
/// tell it, from every word that was found.
///
/// Words and patches tell it together. A patch may hold pieces of two lines: beside a line that is not
/// trusted only words are heard.
pub(super) fn against_paper(
    words: &mut [Vec<Word>],
    lines: &[Line],
    laid: &Laid,
    pitch: f64,
    trust: impl Fn(usize) -> bool,
) {
    let trusted = (0..lines.len()).filter(|&i| trust(i)).flat_map(|i| &words[i]);
    let loose: Vec<Rect> = (0..lines.len())
        .filter(|&i| !trust(i))
        .map(|i| lines[i].bounds.grown(HALF_A_PATCH * lines[i].x_height))
        .collect();
    let half = laid.patch_side / 2.0;
    let patches = laid.patches.iter().filter(|p| {
        p.is_sound() && !laid.map.paper.in_crease(p.at, half) && !loose.iter().any(|t| t.holds(p.at))
    });
    let prints = trusted
        .filter(|w| w.is_placed())
        .filter_map(|w| w.found.map(|f| (f.at, f.shift, f.sd)))
        .chain(patches.map(|p| (p.at, p.shift, p.sd)));
    let motion = Motion::of_prints(prints, laid.map.paper.creases(), NEIGHBOURHOOD * pitch);
    let line_of: Vec<usize> =
        words.iter().enumerate().flat_map(|(i, of_line)| std::iter::repeat_n(i, of_line.len())).collect();
    // Sine and cosine of its direction, and how near to a word print is its own line's.
    let own: Vec<(f64, f64, f64)> = (0..lines.len())
        .map(|i| {
            let (sin, cos) = lines[i].turn.sin_cos();
            (sin, cos, OWN_LINE * to_next(lines, i, pitch))
        })
        .collect();
    let prints: Vec<(Point, Point)> = words
        .iter()
        .flatten()
        .map(|w| w.found.map_or((w.bounds.centre(), Point::new(0.0, 0.0)), |f| (f.at, f.shift)))
        .collect();
    let expected = motion.expected(&prints, |k, print| {
        let (sin, cos, own) = own[line_of[k]];
        let d = print - prints[k].0;
        (-d.x * sin + d.y * cos).abs() > own
    });
    for ((word, expected), &line) in words.iter_mut().flatten().zip(expected).zip(&line_of) {
        let (sin, cos, _) = own[line];
        word.drift = word.found.filter(|_| word.is_placed()).zip(expected).map(|(f, e)| {
            let d = f.shift - e.shift;
            Drift {
                along: d.x * cos + d.y * sin,
                across: -d.x * sin + d.y * cos,
                sd: (f.sd[0] * cos).hypot(f.sd[1] * sin),
                paper: e.sd,
            }
        });
    }
}

/// From a line to the nearest one above or below it, pixels; at most one pitch.
fn to_next(lines: &[Line], i: usize, pitch: f64) -> f64 {
    let middle = |l: &Line| l.words.iter().map(|w| w.1).sum::<f64>() / l.words.len().max(1) as f64;
    let own = &lines[i];
    lines
        .iter()
        .filter(|l| l.bounds.x < own.bounds.right() && own.bounds.x < l.bounds.right())
        .map(|l| (middle(l) - middle(own)).abs())
        .filter(|d| *d > LEAST_TO_NEXT * own.x_height)
        .fold(pitch, f64::min)
}

/// Lines nearer than this, in x-heights, are pieces of one.
const LEAST_TO_NEXT: f64 = 1.0;

/// How exactly words are placed on this pair: bodies and leading hold a line at its height whoever sets
/// it, so what words wander *across* their lines is paper and measuring.
///
/// What one word differs by from the next is the error of single words (never below the first, nor above the
/// second of the two bounds: other pieces of type stand off their line otherwise, so that a resetting too
/// makes words wander across it); what more they wander within a line is shared by neighbours. Along the line the paper may wander more (a
/// page curls into the gutter that way): up to [`MORE_ALONG`] times as much is granted where most
/// lines show it.
pub(super) fn error_of_placing(words: &[Vec<Word>], [least, most]: [f64; 2], pitch: f64) -> Placing {
    let white = (scatter_between(words, |d| d.across) / std::f64::consts::SQRT_2).clamp(least, most);
    let across = scatter_within(words, |d| d.across);
    let along = scatter_within(words, |d| d.along);
    let total = along.clamp(across, MORE_ALONG * across);
    let smooth = (total * total - white * white).max(0.0).sqrt().clamp(LEAST_SMOOTH * white, most);
    Placing { white, smooth, reach: SHARED_OVER * pitch }
}

/// How much more a word may wander along its line than across it without having been set again.
const MORE_ALONG: f64 = 1.5;
/// Some error is always shared, in errors of single words.
const LEAST_SMOOTH: f64 = 0.5;
/// Neighbours share the paper's error over about this many line pitches: the breadth of the
/// neighbourhoods that it was told from.
const SHARED_OVER: f64 = 3.0;

/// Standard deviation within lines, from the median absolute deviation (a line may stand higher or
/// further along as a whole; only what varies within it counts).
fn scatter_within(words: &[Vec<Word>], pick: fn(&Drift) -> f64) -> f64 {
    let mut within: Vec<f64> = Vec::new();
    for line in words {
        let values: Vec<f64> = line.iter().filter_map(|w| w.drift.as_ref().map(pick)).collect();
        if values.len() >= 3 {
            let middle = median(values.clone());
            within.extend(values.iter().map(|v| (v - middle).abs()));
        }
    }
    FROM_MEDIAN_DEVIATION * median(within)
}

/// Standard deviation of the difference of two neighbouring words.
fn scatter_between(words: &[Vec<Word>], pick: fn(&Drift) -> f64) -> f64 {
    let between = words.iter().flat_map(|line| {
        line.windows(2).filter_map(|p| Some((pick(p[0].drift.as_ref()?) - pick(p[1].drift.as_ref()?)).abs()))
    });
    FROM_MEDIAN_DEVIATION * median(between.collect())
}

/// From the median absolute deviation of a normal error to its standard deviation.
pub(super) const FROM_MEDIAN_DEVIATION: f64 = 1.4826;

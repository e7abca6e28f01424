//! What is seen of all words, and what is usual on these two photographs.

use super::LineOfWords;
use super::aligned::{Aligned, Places};
use super::around::{InkGrid, Surroundings};
use super::letters::{Letter, Usual};
use super::signs::Like;
use super::word::{self, DifferingPlace, WordDifference};
use crate::rank::{median, quantile};
use crate::reading::Reading;
use rayon::prelude::*;
use register::{Crease, Laid};
use sheet::{Fold, Point, Rect};

/// What is seen of all words, and what is usual on these two photographs.
#[derive(Debug)]
pub(super) struct PageOfWords {
    pub(super) differences: Vec<Vec<Option<WordDifference>>>,
    pub(super) grid: InkGrid,
    /// Median likeness of the words of lines that stand.
    pub(super) likeness: f64,
    /// Median of the least likeness of a letter's breadth.
    pub(super) least_part: f64,
    /// Differing ink below which the heaviest place of nine words in ten stays, square x-heights.
    noise: f64,
    /// The same of three words in four.
    quiet: f64,
    /// What is usual of the letters of lines that stand.
    pub(super) letters: Option<Usual>,
    places: Places,
    creases: Vec<Crease>,
    /// Of the first photograph, and of the second.
    folds: [Vec<Fold>; 2],
}

/// What nine words in ten stay below is noise of ink and lens; changes are rarer.
const NOISE_SHARE: f64 = 0.9;
const QUIET_SHARE: f64 = 0.75;
/// A little mass, square x-heights, so that none has a logarithm.
const LITTLE: f64 = 0.01;
/// Mass from which a place may be a letter or a point, square x-heights, and the least share of the place's box that
/// it fills if the place is it.
const LIGHTEST_SIGN: f64 = 0.02;
const PART_OF_PLACE: f64 = 0.3;
/// What a fold does is seen as far as this beside it, x-heights.
const BY_A_FOLD: f64 = 0.7;
/// How far about a place the middle of the letter or point may lie that it is, x-heights.
const ABOUT_A_PLACE: f64 = 0.1;

impl PageOfWords {
    pub(super) fn of(a: &Reading, b: &Reading, laid: &Laid, lines: &[LineOfWords], x_height: f64) -> Self {
        let size = a.ink.full();
        let mut grid = InkGrid::new(size.width() as f64, size.height() as f64, x_height);
        let differences: Vec<Vec<Option<WordDifference>>> = lines
            .par_iter()
            .map(|l| {
                (0..l.words.len())
                    .map(|k| {
                        let w = &l.words[k];
                        w.found?;
                        let white = with_white(l, k);
                        word::difference(&a.ink, &b.ink, laid, white, w.placed(), l.x_height, &grid)
                    })
                    .collect()
            })
            .collect();
        differences.iter().flatten().flatten().for_each(|d| grid.add(&d.cells));
        let mut places = Places::default();
        for (d, number) in differences.iter().flatten().zip(0..) {
            if let Some(d) = d {
                places.add(number, d);
            }
        }
        let standing = || standing(&differences, lines);
        let heaviest = |d: &WordDifference| d.places_of_ink().next().map_or(0.0, |p| p.lost.max(p.gained));
        let quantile = |share: f64, pick: fn(&WordDifference) -> f64| {
            quantile(standing().map(pick).collect(), share).unwrap_or(0.0)
        };
        Self {
            likeness: quantile(0.5, |d| d.likeness),
            least_part: quantile(0.5, |d| d.least_part),
            noise: quantile(NOISE_SHARE, heaviest),
            quiet: quantile(QUIET_SHARE, heaviest),
            letters: Usual::of(standing().map(|d| d.letters.as_slice())),
            grid,
            places,
            creases: laid.map.paper.creases().to_vec(),
            folds: [a.folds.clone(), b.folds.clone()],
            differences,
        }
    }

    /// The letters of lines that stand.
    pub(super) fn letters_that_stand<'p>(&'p self, lines: &'p [LineOfWords]) -> Vec<&'p Letter> {
        standing(&self.differences, lines).flat_map(|d| &d.letters).collect()
    }

    /// How the ink fares about a place.
    pub(super) fn around(&self, place: Rect, x_height: f64) -> Surroundings {
        self.grid.about(place, x_height, x_height * x_height)
    }

    /// How a place of word `word` of line `line` stands in line with those of other words.
    pub(super) fn aligned(&self, place: Rect, [line, word]: [usize; 2], x_height: f64) -> Aligned {
        let before: usize = self.differences[..line].iter().map(Vec::len).sum();
        self.places.through(place, before + word, x_height)
    }

    /// Logarithm of the mass below which the heaviest place of nine words in ten stays.
    pub(super) fn noise_on_log(&self) -> f64 {
        (self.noise + LITTLE).ln()
    }

    /// The same of three words in four.
    pub(super) fn quiet_on_log(&self) -> f64 {
        (self.quiet + LITTLE).ln()
    }

    /// From a point to the nearest crease, x-heights.
    pub(super) fn to_crease(&self, at: Point, x_height: f64) -> f64 {
        self.creases.iter().map(|c| c.beyond(at).abs() / x_height).fold(f64::INFINITY, f64::min)
    }

    /// From a place, which lies `there` on the second, to the nearest fold of either photograph, x-heights.
    pub(super) fn to_fold(&self, place: Rect, there: Rect, x_height: f64) -> f64 {
        // x-height on the second: places keep their shape.
        let on_second = x_height * ((there.w + there.h) / (place.w + place.h));
        let [a, b] = &self.folds;
        (Fold::nearest(a, place.centre()) / x_height).min(Fold::nearest(b, there.centre()) / on_second)
    }

    /// Whether a fold of either photograph runs through a box or near it; `there` is the box on the second.
    pub(super) fn is_folded(&self, here: Rect, there: Rect, x_height: f64) -> bool {
        let [a, b] = &self.folds;
        let near = BY_A_FOLD * x_height;
        a.iter().any(|f| f.crosses(here.grown(near)))
            || b.iter().any(|f| f.crosses(there.grown(near * (there.h / here.h))))
    }

    /// Whether what stands in a place, in the impression that has more ink there, has its like on the page.
    pub(super) fn like(&self, place: &DifferingPlace, seen: &WordDifference, x_height: f64) -> Like {
        if place.lost + place.gained < LIGHTEST_SIGN {
            return Like::Unasked;
        }
        let side = usize::from(place.gained > place.lost);
        let here = place.bounds.grown(ABOUT_A_PLACE * x_height);
        let there = seen.signs[side].iter().filter(|s| here.holds(s.bounds.centre()));
        let Some(sign) = there.max_by(|p, q| p.bounds.area().total_cmp(&q.bounds.area())) else {
            return Like::Nothing;
        };
        if sign.bounds.area() < PART_OF_PLACE * place.bounds.area() {
            return Like::Part;
        }
        let all = self.differences.iter().flatten().flatten().flat_map(|d| &d.signs[side]);
        Like::To(sign.best_likeness(&all.filter(|s| s.bounds.shared(sign.bounds).is_none())))
    }

    /// How like the words of each line are, laid on themselves, less what is usual in the lines that
    /// stand: other pieces of type never print quite alike. `None` of a line without words to compare.
    pub(super) fn likeness_of_lines(&self) -> Vec<Option<f64>> {
        (0..self.differences.len()).map(|i| self.likeness_of(i)).collect()
    }

    /// The same of one line.
    pub(super) fn likeness_of(&self, line: usize) -> Option<f64> {
        let all: Vec<f64> = self.differences[line].iter().flatten().map(|d| d.likeness).collect();
        (!all.is_empty()).then(|| median(all) - self.likeness)
    }
}

/// The words of lines that stand.
fn standing<'d>(
    differences: &'d [Vec<Option<WordDifference>>],
    lines: &'d [LineOfWords],
) -> impl Iterator<Item = &'d WordDifference> {
    differences.iter().zip(lines).filter(|(_, l)| l.stands()).flat_map(|(d, _)| d.iter().flatten())
}

/// How far the white about a word is looked at, in x-heights, if no other word comes before: a point may
/// have been added there.
const BEYOND_THE_END: f64 = 0.8;
/// The widest space that is looked at whole from both sides, in x-heights.
const WHOLE_SPACE: f64 = 2.0;

/// The box looked at for word `k`: with the white on either side, whole, so that a risen space is not cut.
fn with_white(line: &LineOfWords, k: usize) -> Rect {
    let r = line.words[k].bounds;
    let (end, most) = (BEYOND_THE_END * line.x_height, WHOLE_SPACE * line.x_height);
    let room = |gap: Option<f64>| gap.map_or(end, |g| g.clamp(0.1 * line.x_height, most));
    let left = room(k.checked_sub(1).map(|j| r.x - line.words[j].bounds.right()));
    let right = room(line.words.get(k + 1).map(|n| n.bounds.x - r.right()));
    Rect::new(r.x - left, r.y, r.w + left + right, r.h)
}

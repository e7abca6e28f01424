//! How each sort stands off its line on the second photograph, against the first.
//!
//! Whoever sets a line again takes other pieces of type, and each piece stands a little above or below its fellows, as its
//! matrix was justified and as it was cast (common practice, no source). Of the same pieces every letter stands off its line
//! alike in every copy. How well letters are seen on a pair of photographs their halves tell: a piece that stands higher is
//! higher in both halves, while ink and grain move each for itself.

use super::drift::{FROM_MEDIAN_DEVIATION, Line, Word};
use super::lines::parted;
use crate::changes::letter_boxes;
use crate::rank::median;
use crate::standing::{BySorts, SortOff, weigh_sorts};
use rayon::prelude::*;
use register::{Followed, Laid, Pyramid, follow_near};
use sheet::{Fold, Point, Rect};

/// White taken along with a word in which letters are looked for, and with a letter, in x-heights.
const ABOUT_A_WORD: f64 = 0.25;
const ABOUT_A_LETTER: f64 = 0.08;
/// Correlation from which a letter, and a half of one, is the same print.
const SAME_LETTER: f32 = 0.7;
const SAME_HALF: f32 = 0.5;
/// Of so many letters one is looked at by halves.
const BY_HALVES: usize = 3;
/// Halves that must be found before anything is said of the sorts, and letters of a line.
const FEWEST_HALVES: usize = 20;
const FEWEST_LETTERS: usize = 4;
/// No half is placed better than this, in x-heights.
const LEAST_ERROR: f64 = 0.002;
/// Letters tell each other's height over about so far along the line, in x-heights (standard deviation of a Gaussian), less
/// where paper bends much; and a slope there is held down as by so much more weight a square x-height away.
const NEIGHBOURHOODS: [f64; 2] = [5.0, 2.5];
const LEVEL: f64 = 2.0;
/// Weight of the neighbours below which nothing is told, and that from which a letter counts in their median.
const FEWEST_NEIGHBOURS: f64 = 0.5;
const COUNTED: f64 = 0.05;
/// A neighbour that lies so many times the median deviation off counts half.
const OUTLYING: f64 = 3.0;

/// A letter that was followed: x-heights of its line.
#[derive(Debug, Clone, Copy)]
struct Letter {
    along: f64,
    /// How far across the line it was displaced, down: as it was found, and against the paper as the placement has it. Beside
    /// a line that was raised or lowered that paper bends as none does; where paper cockles, letters apart do not foretell
    /// each other without it.
    across: [f64; 2],
    /// Which of the parts that creases and folds make of the side it stands in.
    part: u32,
    sd: f64,
    /// What its halves differ by, in standard deviations by their matches, if it was looked at so.
    halves: Option<f64>,
}

/// What the sorts of each line say.
pub(super) fn weighed(
    words: &[Vec<Word>],
    lines: &[Line],
    (a, b, laid): (&Pyramid, &Pyramid, &Laid),
    folds: &[Fold],
) -> Vec<BySorts> {
    let letters: Vec<Vec<Letter>> =
        words.par_iter().zip(lines).map(|(words, line)| followed(words, line, (a, b, laid), folds)).collect();
    let halves: Vec<f64> = letters.iter().flatten().filter_map(|l| l.halves).collect();
    if halves.len() < FEWEST_HALVES {
        return vec![BySorts::NOTHING; lines.len()];
    }
    let times = FROM_MEDIAN_DEVIATION * median(halves);
    letters
        .par_iter()
        .map(|of_line| {
            let sorts: Vec<SortOff> = offs(of_line)
                .into_iter()
                .zip(of_line)
                .filter_map(|(off, l)| Some(SortOff { off: off?, error: times * l.sd.hypot(LEAST_ERROR) }))
                .collect();
            if sorts.len() < FEWEST_LETTERS { BySorts::NOTHING } else { weigh_sorts(&sorts) }
        })
        .collect()
}

/// Follows the letters of a line's words that were placed.
fn followed(
    words: &[Word],
    line: &Line,
    (a, b, laid): (&Pyramid, &Pyramid, &Laid),
    folds: &[Fold],
) -> Vec<Letter> {
    let (sin, cos) = line.turn.sin_cos();
    let off = |f: &Followed| f.shift - laid.map.paper.at(f.at).0;
    let across = |d: Point| (-d.x * sin + d.y * cos) / line.x_height;
    let sd = |f: &Followed| (f.sd[0] * sin).hypot(f.sd[1] * cos) / line.x_height;
    let placed = words.iter().filter_map(|w| w.found.filter(|_| w.is_placed()).map(|f| (w.bounds, off(&f))));
    let boxes: Vec<(Rect, Point)> = placed
        .flat_map(|(word, drift)| {
            letters_of(a, laid, word, line.x_height).into_iter().map(move |letter| (letter, drift))
        })
        .collect();
    let is_letter = |f: &Followed, least: f32| f.score >= least && !f.on_edge;
    let halved: Vec<(Rect, Point)> = boxes
        .iter()
        .step_by(BY_HALVES)
        .flat_map(|&(r, drift)| {
            let half = r.w / 2.0;
            [r.x, r.x + half].map(|x| (Rect::new(x, r.y, half, r.h), drift))
        })
        .collect();
    let halves = follow_near(a, b, laid, &halved);
    let halves = halves.chunks_exact(2).map(|pair| {
        let [Some(left), Some(right)] = [pair[0], pair[1]].map(|h| h.filter(|h| is_letter(h, SAME_HALF)))
        else {
            return None;
        };
        let error = sd(&left).hypot(sd(&right)).hypot(std::f64::consts::SQRT_2 * LEAST_ERROR);
        Some((across(off(&left)) - across(off(&right))).abs() / error)
    });
    let mut by_halves: Vec<Option<f64>> = vec![None; boxes.len()];
    for (to, halves) in by_halves.iter_mut().step_by(BY_HALVES).zip(halves) {
        *to = halves;
    }
    follow_near(a, b, laid, &boxes)
        .into_iter()
        .zip(by_halves)
        .filter_map(|(found, halves)| {
            let f = found.filter(|f| is_letter(f, SAME_LETTER))?;
            let along = (f.at.x * cos + f.at.y * sin) / line.x_height;
            let creases = laid.map.paper.creases().iter().map(|c| c.beyond(f.at) > 0.0);
            let part = creases.fold(parted(folds, f.at), |part, beyond| part << 1 | u32::from(beyond));
            Some(Letter { along, across: [f.shift, off(&f)].map(across), part, sd: sd(&f), halves })
        })
        .collect()
}

/// The boxes of a word's letters, pixels of A.
fn letters_of(a: &Pyramid, laid: &Laid, word: Rect, x_height: f64) -> Vec<Rect> {
    let unit = laid.unit;
    let plane = a.level(unit.log2().round() as usize);
    let about = word.grown(ABOUT_A_WORD * x_height).scaled(unit.recip());
    let whole = |v: f64, most: usize| (v.max(0.0) as usize).min(most);
    let [x0, x1] = [about.x, about.right()].map(|v| whole(v, plane.width()));
    let [y0, y1] = [about.y, about.bottom()].map(|v| whole(v, plane.height()));
    if x1 <= x0 || y1 <= y0 {
        return Vec::new();
    }
    let corner = Point::new(x0 as f64, y0 as f64) * unit;
    letter_boxes(&plane.crop(x0, y0, x1 - x0, y1 - y0), x_height / unit)
        .into_iter()
        .map(|r| r.scaled(unit).moved(corner).grown(ABOUT_A_LETTER * x_height))
        .collect()
}

/// How far each letter stands off the height that its neighbours on the line give it; `None` where there are too few.
/// With or without the paper of the placement, and by neighbours near or nearer, whichever lets them lie closest: pieces
/// that stand each for itself do so in any case.
fn offs(letters: &[Letter]) -> Vec<Option<f64>> {
    let scatter = |offs: &[Option<f64>]| median(offs.iter().filter_map(|o| o.map(f64::abs)).collect());
    let tried = NEIGHBOURHOODS.into_iter().flat_map(|near| [0, 1].map(|paper| (near, paper)));
    let told = tried.map(|(near, paper)| -> Vec<Option<f64>> {
        (0..letters.len()).map(|i| off_its_neighbours(letters, i, near, |l| l.across[paper])).collect()
    });
    let closest = told.map(|offs| (scatter(&offs), offs)).min_by(|p, q| p.0.total_cmp(&q.0));
    closest.map_or_else(Vec::new, |c| c.1)
}

/// How far one letter stands off its neighbours over about `near` x-heights.
fn off_its_neighbours(
    letters: &[Letter],
    i: usize,
    near: f64,
    across: impl Fn(&Letter) -> f64,
) -> Option<f64> {
    let own = letters[i];
    let weights: Vec<f64> = letters
        .iter()
        .enumerate()
        .map(|(k, l)| {
            let apart = (l.along - own.along) / near;
            if k == i || l.part != own.part { 0.0 } else { (-0.5 * apart * apart).exp() }
        })
        .collect();
    if weights.iter().sum::<f64>() < FEWEST_NEIGHBOURS {
        return None;
    }
    let places: Vec<[f64; 2]> = letters.iter().map(|l| [l.along - own.along, across(l)]).collect();
    let (height, slope) = fitted(&places, &weights)?;
    // Once more, with what lies off counting less.
    let left = |[x, y]: [f64; 2]| y - height - slope * x;
    let counted = places.iter().zip(&weights).filter(|(_, w)| **w > COUNTED);
    let deviation = median(counted.map(|(p, _)| left(*p).abs()).collect());
    let outlying = (OUTLYING * deviation).max(1e-9);
    let weights: Vec<f64> =
        places.iter().zip(&weights).map(|(p, w)| w / (1.0 + (left(*p) / outlying).powi(2))).collect();
    fitted(&places, &weights).map(|(height, _)| across(&own) - height)
}

/// Height at 0 and slope of a line through places, by least squares.
fn fitted(places: &[[f64; 2]], weights: &[f64]) -> Option<(f64, f64)> {
    let (mut n, mut x, mut xx, mut y, mut xy) = (0.0, 0.0, LEVEL, 0.0, 0.0);
    for ([d, across], w) in places.iter().zip(weights) {
        n += w;
        x += w * d;
        xx += w * d * d;
        y += w * across;
        xy += w * d * across;
    }
    let determinant = n * xx - x * x;
    (determinant > 1e-12).then(|| ((xx * y - x * xy) / determinant, (n * xy - x * y) / determinant))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(across: impl Fn(usize) -> f64) -> Vec<Letter> {
        (0..20)
            .map(|i| Letter {
                along: i as f64 * 0.9,
                across: [across(i); 2],
                part: 0,
                sd: 0.003,
                halves: None,
            })
            .collect()
    }

    #[test]
    fn a_line_that_slopes_and_bows_stands_and_one_sort_that_is_higher_does_not() {
        let bowed = |i: usize| 0.3 + 0.01 * i as f64 + 0.0003 * (i as f64 - 9.0).powi(2);
        let letters = line(|i| bowed(i) - if i == 12 { 0.05 } else { 0.0 });
        let told: Vec<f64> = offs(&letters).into_iter().map(Option::unwrap).collect();
        assert!((told[12] + 0.05).abs() < 0.008, "{told:?}");
        assert!(told.iter().enumerate().all(|(i, v)| i == 12 || v.abs() < 0.015), "{told:?}");
    }

    #[test]
    fn beyond_a_fold_letters_tell_each_other_nothing() {
        let mut letters = line(|i| if i < 10 { 0.0 } else { 0.3 });
        letters[10..].iter_mut().for_each(|l| l.part = 1);
        assert!(offs(&letters).iter().all(|off| off.unwrap().abs() < 1e-9));
    }

    #[test]
    fn paper_that_the_placement_bends_about_a_moved_line_is_left_aside() {
        let mut letters = line(|_| 0.2);
        (0..20).for_each(|i| letters[i].across[1] = if i % 2 == 0 { 0.1 } else { -0.1 });
        assert!(offs(&letters).iter().all(|off| off.unwrap().abs() < 1e-9));
    }

    #[test]
    fn a_letter_alone_has_no_height() {
        assert!(offs(&line(|_| 0.0)[..1]).iter().all(Option::is_none));
    }
}

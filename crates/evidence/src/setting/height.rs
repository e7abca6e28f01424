//! Does a line stand at the height its neighbours give it?
//!
//! A lead taken out or put in moves all that follows, and that is the forme's motion and the paper's; one line
//! alone, off the height that its neighbours give it, was moved. It also misleads its neighbours about the paper,
//! so that they seem to have gone the other way: what seems off its height is not asked in the next round.

use super::drift::{FROM_MEDIAN_DEVIATION, Line, Word};
use super::lines::LineWeight;
use crate::rank::median;
use crate::standing::Standing;

/// Words needed to say that a line was moved up or down, and how far it must have gone: in x-heights (a card
/// between two lines is about a seventh of one; common practice, no source), in standard deviations of the lines'
/// heights, and in those of what is known of the paper at one word.
const FEWEST_RAISED: usize = 3;
const RAISED: Least = Least { x_heights: 0.1, usual: 8.0, doubt: 4.0 };
/// A line that keeps its neighbours has no more room than this, in x-heights.
const RAISED_AT_MOST: f64 = 0.5;
/// So many of its words must have gone as far as the line, to within this share of it.
const MOST_OF_A_LINE: f64 = 0.7;
const AS_ONE: f64 = 0.35;
/// No line about it went the other way by more than this share of how far it went: at a fold that was not found the
/// lines on either side do.
const AT_REST: f64 = 0.3;
/// How far off its height a line seems that is not asked about the paper: of a line moved by as little as
/// [`RAISED`] its neighbours, told by it too, hide a part.
const SUSPECT: Least = Least { x_heights: 0.06, usual: 5.0, doubt: 3.0 };

/// How far off a line must be at least: in x-heights, and in standard deviations.
struct Least {
    x_heights: f64,
    usual: f64,
    doubt: f64,
}

/// Marks lines that stand along but were moved up or down as a whole, and those that may not tell where the
/// paper is.
pub(super) fn judge(weights: &mut [LineWeight], words: &[Vec<Word>], lines: &[Line]) {
    let heights: Vec<Option<Height>> = words.iter().map(|line| Height::of(line)).collect();
    let all = heights.iter().flatten().map(|h| h.across.abs()).collect();
    let usual = FROM_MEDIAN_DEVIATION * median(all);
    let across = |i: usize| heights[i].as_ref().map_or(0.0, |h| h.across);
    let as_one = |i: usize| heights[i].as_ref().is_some_and(|h| h.as_one >= MOST_OF_A_LINE);
    for (i, w) in weights.iter_mut().enumerate() {
        let Some(h) = &heights[i] else { continue };
        let (x_height, far) = (lines[i].x_height, h.across.abs());
        let least = |l: &Least| (l.x_heights * x_height).max(l.usual * usual).max(l.doubt * h.doubt);
        w.off_height = far > least(&SUSPECT) && beside(lines, i).all(|j| across(j).abs() <= far);
        let other_way = |j: usize| -across(j) * h.across.signum();
        let moved = (least(&RAISED)..RAISED_AT_MOST * x_height).contains(&far)
            && as_one(i)
            && beside(lines, i).filter(|&j| as_one(j)).all(|j| other_way(j) < AT_REST * far);
        if moved && w.standing == Standing::Same {
            w.standing = Standing::Moved;
        }
    }
}

/// The lines next above and below line `i`, and those beside it.
fn beside(lines: &[Line], i: usize) -> impl Iterator<Item = usize> {
    let own = lines[i].bounds;
    let near = own.grown(0.5 * own.h);
    (0..lines.len()).filter(move |&j| j != i && near.shared(lines[j].bounds).is_some())
}

/// How much higher or lower than the paper puts it a line stands.
struct Height {
    across: f64,
    /// Standard deviation of what is known of the paper.
    doubt: f64,
    /// Share of its words that stand as high: a line goes up or down as one, and where its words go
    /// different ways it is paper that bends.
    as_one: f64,
}

impl Height {
    fn of(line: &[Word]) -> Option<Self> {
        let drifts: Vec<_> = line.iter().filter_map(|w| w.drift).collect();
        if drifts.len() < FEWEST_RAISED {
            return None;
        }
        let across = median(drifts.iter().map(|d| d.across).collect());
        let doubt = median(drifts.iter().map(|d| d.paper).collect());
        let as_one = drifts.iter().filter(|d| (d.across - across).abs() < AS_ONE * across.abs()).count();
        Some(Self { across, doubt, as_one: as_one as f64 / drifts.len() as f64 })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setting::drift::Drift;
    use sheet::Rect;

    /// Seven lines of five words, x-height 20 pixels, each line off its height by so many pixels.
    fn judged(across: [f64; 7]) -> Vec<LineWeight> {
        let line_at = |i: usize| Rect::new(0.0, 50.0 * i as f64, 600.0, 40.0);
        let lines: Vec<Line> = (0..7)
            .map(|i| Line { words: Vec::new(), bounds: line_at(i), x_height: 20.0, turn: 0.0 })
            .collect();
        let words: Vec<Vec<Word>> = (0..7)
            .map(|i| {
                let word = |k: usize| Word {
                    bounds: Rect::new(120.0 * k as f64, 50.0 * i as f64, 100.0, 40.0),
                    found: None,
                    astride: false,
                    // Words of a line wander a little.
                    drift: Some(Drift {
                        along: 0.0,
                        across: across[i] + 0.02 * k as f64,
                        sd: 0.1,
                        paper: 0.1,
                    }),
                };
                (0..5).map(word).collect()
            })
            .collect();
        let weight = LineWeight {
            standing: Standing::Same,
            likelihoods: None,
            log10: None,
            log10_by_manner: None,
            spaced_log10: 0.0,
            found: 5,
            tried: 5,
            error: 0.1,
            off_height: false,
            by_all_print: Standing::Same,
            sorts: None,
        };
        let mut weights = vec![weight; 7];
        judge(&mut weights, &words, &lines);
        weights
    }

    #[test]
    fn a_raised_line_is_moved_and_two_together_are_too() {
        let one = judged([0.0, 0.05, 0.0, 3.0, 0.0, 0.05, 0.0]);
        let moved = |w: &[LineWeight]| -> Vec<usize> {
            (0..7).filter(|&i| w[i].standing == Standing::Moved).collect()
        };
        assert_eq!(moved(&one), [3]);
        let two = judged([0.0, 0.0, 0.0, 3.2, 3.0, 0.0, 0.05]);
        assert_eq!(moved(&two), [3, 4]);
    }

    #[test]
    fn a_raised_line_that_misleads_its_neighbours_is_not_asked_and_they_are() {
        let w = judged([0.0, 0.0, -1.0, 2.0, -1.0, 0.0, 0.0]);
        let asked: Vec<bool> = w.iter().map(|w| !w.off_height).collect();
        assert_eq!(asked, [true, true, true, false, true, true, true]);
        assert!(w.iter().all(|w| w.standing == Standing::Same));
    }

    #[test]
    fn lines_on_either_side_of_a_fold_are_not_moved() {
        let w = judged([0.0, 0.0, -3.0, 3.0, 0.0, 0.0, 0.0]);
        assert!(w.iter().all(|w| w.standing == Standing::Same));
    }
}

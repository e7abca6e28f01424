//! How evenly a side is inked: where words took little ink, they cannot be told from other words.

use crate::reading::Reading;
use crate::words::on_baseline;
use register::Pyramid;
use sheet::{Line, Rect};

/// A line of fewer words is at times ornament, and heads are set in larger type than the text.
const FEWEST_IN_LINE: usize = 3;
/// Words needed to tell.
const FEWEST: usize = 20;
/// The word that has more ink for its size than this share of all took as much as type gives.
const WELL_INKED: f64 = 0.8;
/// Least evenness of a side whose words can be told from other words. Simulated sides of which at least 0.7 of the ink
/// is there have 0.82 and more, nearly all more than 0.84; such as are inked worse mostly have less (120 pairs of two
/// texts and of one text with other line-ends).
const EVEN: f64 = 0.84;

/// Longer side at which the share of ink in a box is looked at, samples.
const LOOKED_AT: usize = 2000;
/// Ink that is print, of 255.
const DARK: u8 = 90;

/// Whether enough of the words took ink to say that they are other words; so it is of a side of few words as well.
pub(crate) fn is_even(side: &Reading) -> bool {
    of_lines(&side.ink, &side.layout.lines).is_none_or(|evenness| evenness >= EVEN)
}

/// How evenly the words of lines took ink, 0 to 1; `None` of too few.
pub(crate) fn of_lines(ink: &Pyramid, lines: &[Line]) -> Option<f64> {
    let words = lines.iter().filter(|l| l.words.len() >= FEWEST_IN_LINE);
    evenness(&words.flat_map(|line| word_inks(ink, line)).collect::<Vec<f64>>())
}

/// Share of ink where letters without ascenders stand, of each word of a line.
pub(crate) fn word_inks(ink: &Pyramid, line: &Line) -> impl Iterator<Item = f64> {
    line.words.iter().map(move |word| {
        let foot = on_baseline(&line.baseline, word.bounds.centre().x);
        ink_share(ink, Rect::new(word.bounds.x, foot - line.x_height.0, word.bounds.w, line.x_height.0))
    })
}

/// Share of a box that ink covers, 0 to 1; the box in pixels of the full size.
pub(crate) fn ink_share(ink: &Pyramid, place: Rect) -> f64 {
    let plane = ink.level(ink.level_within(LOOKED_AT));
    let r = place.scaled(plane.width() as f64 / ink.full().width() as f64);
    let within = |from: f64, to: f64, most: usize| from.max(0.0) as usize..(to.max(0.0) as usize).min(most);
    let (across, down) = (within(r.x, r.right(), plane.width()), within(r.y, r.bottom(), plane.height()));
    let all = across.len() * down.len();
    if all == 0 {
        return 0.0;
    }
    let dark = down.flat_map(|y| &plane.row(y)[across.clone()]).filter(|&&v| v > DARK).count();
    dark as f64 / all as f64
}

/// The ink of a word that took as much as type gives: more than that of most.
pub(crate) fn well_inked(inks: &[f64]) -> f64 {
    let mut in_order = inks.to_vec();
    in_order.sort_by(f64::total_cmp);
    in_order.get((WELL_INKED * inks.len() as f64) as usize).copied().unwrap_or(0.0)
}

/// Mean ink of the words against that of well inked ones, none counted as more than those, 0 to 1; `None` of too few.
fn evenness(inks: &[f64]) -> Option<f64> {
    if inks.len() < FEWEST {
        return None;
    }
    let well = well_inked(inks);
    let mean = inks.iter().map(|ink| (ink / well).min(1.0)).sum::<f64>() / inks.len() as f64;
    (well > 0.0).then_some(mean)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_that_took_no_ink_make_a_side_uneven() {
        let well: Vec<f64> = (0..40).map(|k| 0.3 + 0.001 * f64::from(k)).collect();
        assert!(evenness(&well).is_some_and(|e| e > 0.9));
        let patch: Vec<f64> = well.iter().enumerate().map(|(k, v)| if k < 12 { 0.0 } else { *v }).collect();
        assert!(evenness(&patch).is_some_and(|e| e < 0.72));
        // Pale all over is not uneven.
        let pale: Vec<f64> = well.iter().map(|v| 0.3 * v).collect();
        assert!((evenness(&pale).unwrap() - evenness(&well).unwrap()).abs() < 1e-9);
    }

    #[test]
    fn of_few_words_or_of_blank_ones_it_cannot_be_said() {
        assert_eq!(evenness(&[0.3; FEWEST - 1]), None);
        assert_eq!(evenness(&[0.0; FEWEST]), None);
    }
}

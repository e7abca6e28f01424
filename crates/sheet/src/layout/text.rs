//! What of the lines is text, and of which size.

use super::Line;
use crate::Px;

/// Lines of one size are measured to differ from its middle by at most this factor; the next larger body
/// of a fount differs by as much or more (pica and English, say, by 1.14).
const ONE_SIZE: f64 = 1.12;
/// Lines of fewer words are headings and ornaments more often than text.
const WORDS: usize = 3;

/// Lines of at least so many words run on.
const RUNNING: usize = 4;
/// Lengths of words are told only from so many x-heights of lines that run on.
const LEAST_RUNNING: f64 = 60.0;
/// From this on lines are text: see [`legibility`].
pub(super) const LEGIBLE: f64 = 2.0;

/// The mean length of the words of lines that run on, in x-heights with their space, times the share of all
/// lines that run on; 0 where too few do.
///
/// Where lines of type run up the side, or there is but grain, what is traced is stems and specks, parted every
/// two x-heights, and mostly short. Measured: of 340 simulated and 174 real sides the text has 3 to 5, title-pages
/// and tables mostly 1.5 to 3, and the same sides turned by a quarter 0.3 to 1.6.
pub(super) fn legibility(lines: &[Line]) -> f64 {
    let length = |l: &Line| l.bounds.w / l.x_height.0;
    let running = || lines.iter().filter(|l| l.words.len() >= RUNNING);
    let run: f64 = running().map(length).sum();
    if run < LEAST_RUNNING {
        return 0.0;
    }
    let words: usize = running().map(|l| l.words.len()).sum();
    run / words as f64 * (run / lines.iter().map(length).sum::<f64>())
}

/// The x-height in which most letters stand; `None` without lines.
///
/// A line counts by its length in its own x-heights, about twice its letters, and every size gathers what
/// lies within [`ONE_SIZE`] of it. So a heading has no say however large it is. The mean over the lines of
/// the size that gathers most, for one line is measured in steps of a pixel.
pub(super) fn x_height(lines: &[Line]) -> Option<Px> {
    let sizes = |least: usize| -> Vec<(f64, f64)> {
        let text = lines.iter().filter(|l| l.words.len() >= least);
        text.map(|l| (l.x_height.0.ln(), l.bounds.w / l.x_height.0)).collect()
    };
    let mut sizes_of_text = sizes(WORDS);
    if sizes_of_text.is_empty() {
        sizes_of_text = sizes(0);
    }
    let near = |at: f64| {
        let one = sizes_of_text.iter().filter(move |s| (s.0 - at).abs() <= ONE_SIZE.ln());
        one.fold((0.0, 0.0), |sum, s| (sum.0 + s.1, sum.1 + s.1 * s.0))
    };
    let gathered = sizes_of_text.iter().map(|s| near(s.0));
    let (length, sum) = gathered.max_by(|a, b| a.0.total_cmp(&b.0))?;
    (length > 0.0).then(|| Px((sum / length).exp()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::Word;
    use crate::{Point, Rect};

    fn line(width: f64, x_height: f64, words: usize) -> Line {
        let bounds = Rect::new(0.0, 0.0, width, 2.0 * x_height);
        Line {
            baseline: vec![Point::new(0.0, 0.0), Point::new(width, 0.0)],
            x_height: Px(x_height),
            contrast: 0.5,
            bounds,
            words: vec![Word { bounds }; words],
        }
    }

    #[test]
    fn the_size_is_that_of_the_text_and_not_of_its_headings() {
        let mut lines = vec![line(500.0, 22.0, 8), line(500.0, 21.5, 7), line(480.0, 40.0, 2)];
        lines.extend([10.0, 10.5, 9.5, 10.0].map(|x| line(500.0, x, 14)));
        let found = x_height(&lines).unwrap().0;
        assert!((found - 10.0).abs() < 0.05, "{found}");
    }

    #[test]
    fn words_of_letters_are_text_and_stems_are_not() {
        let text: Vec<Line> = (0..5).map(|_| line(400.0, 10.0, 9)).collect();
        assert!(legibility(&text) > LEGIBLE);
        let stems: Vec<Line> = (0..30).map(|i| line(90.0, 10.0, 2 + i % 4)).collect();
        assert!(legibility(&stems) < LEGIBLE);
        assert!(legibility(&text[..1]) < LEGIBLE, "one line alone says little");
    }

    #[test]
    fn a_single_word_has_a_size_and_a_bare_side_none() {
        assert!((x_height(&[line(90.0, 30.0, 1)]).unwrap().0 - 30.0).abs() < 1e-9);
        assert_eq!(x_height(&[]), None);
    }
}

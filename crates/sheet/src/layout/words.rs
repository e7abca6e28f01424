//! Words, from the spaces between inked stretches.

use super::stretches::Stretch;

/// The space that parts words from letters lies between these, in x-heights.
const NARROW: f64 = 0.12;
const WIDE: f64 = 0.9;
/// What it mostly is, in x-heights, and by how much its logarithm strays. Common practice, no source: thin
/// space a fifth of the body, word space a third of it, body twice the x-height.
const USUAL: f64 = 0.42;
const USUAL_STRAYS: f64 = 0.35;
/// From one word to the next it is mostly so many x-heights, and its logarithm strays by this much: four
/// to six letters with their space, in English, French, German and Latin.
const WORD: f64 = 4.6;
const WORD_STRAYS: f64 = 0.2;
/// Spaces of one kind stray by at least this much in logarithm.
const LEAST_SPREAD: f64 = 0.15;
/// What is known beforehand counts as much as this many spaces do.
const KNOWN: f64 = 30.0;
/// A line's own parting counts this much against the page's, per space of the line, up to a half.
const OWN: f64 = 0.01;

/// The space that parts words from letters, in x-heights, for all the spaces of a page (or a line), which
/// is `length` x-heights long.
///
/// Two classes of log-normal width, parted where the spaces are likeliest (Kittler & Illingworth 1986,
/// *Minimum error thresholding*: it does not ask, as the least spread within classes does, that both have
/// like numbers), with what is known of spaces and words before.
pub(super) fn parting(spaces: &[f64], length: f64) -> Option<f64> {
    let mut logs: Vec<f64> = spaces.iter().filter(|&&s| s > 0.02).map(|s| s.clamp(0.05, 1.5).ln()).collect();
    if logs.len() < 12 {
        return None;
    }
    logs.sort_by(f64::total_cmp);
    let n = logs.len() as f64;
    let mut sums = vec![(0.0, 0.0)];
    for v in &logs {
        let last = sums[sums.len() - 1];
        sums.push((last.0 + v, last.1 + v * v));
    }
    // The cost of calling so many the one kind, in nats.
    let class = |from: usize, to: usize| {
        let k = (to - from) as f64;
        if to == from {
            return 0.0;
        }
        let (sum, squares) = (sums[to].0 - sums[from].0, sums[to].1 - sums[from].1);
        let spread = (squares / k - (sum / k).powi(2)).max(0.0) + LEAST_SPREAD * LEAST_SPREAD;
        k * (0.5 * spread.ln() - (k / n).ln())
    };
    let mut best = (f64::INFINITY, USUAL);
    let steps = 60;
    for i in 0..=steps {
        let at = NARROW.ln() + (WIDE / NARROW).ln() * f64::from(i) / f64::from(steps);
        let low = logs.partition_point(|&v| v < at);
        let words = n - low as f64;
        let usual = (at - USUAL.ln()) / USUAL_STRAYS;
        let word = ((length / words.max(1.0)).ln() - WORD.ln()) / WORD_STRAYS;
        let cost = class(0, low) + class(low, logs.len()) + KNOWN * 0.5 * (usual * usual + word * word);
        if cost < best.0 {
            best = (cost, at.exp());
        }
    }
    Some(best.1)
}

/// Joins the stretches of a line into words. `page` is the parting of the whole page, if known.
pub(super) fn words(inked: &[Stretch], x_height: f64, page: Option<f64>) -> Vec<Stretch> {
    let spaces: Vec<f64> = inked.windows(2).map(|p| (p[1].from - p[0].to) / x_height).collect();
    let page = page.unwrap_or(USUAL);
    let length = inked.last().map_or(0.0, |l| (l.to - inked[0].from) / x_height);
    let own = parting(&spaces, length).map_or(page, |own| {
        let weight = (OWN * spaces.len() as f64).min(0.5);
        (own.ln() * weight + page.ln() * (1.0 - weight)).exp()
    });
    let mut out: Vec<Stretch> = Vec::new();
    for &stretch in inked {
        match out.last_mut() {
            Some(word) if (stretch.from - word.to) / x_height < own => word.to = stretch.to,
            _ => out.push(stretch),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Spaces of a page of so many words of five letters, in x-heights: between letters and between words.
    fn page(letters: f64, words: f64) -> Vec<f64> {
        // Both kinds stray evenly by a quarter to either side.
        let stray = |i: usize| 0.75 + 0.5 * ((i * 37) % 101) as f64 / 101.0;
        (0..500).map(|i| if i % 5 == 4 { words } else { letters } * stray(i)).collect()
    }

    #[test]
    fn the_parting_lies_between_the_spaces_of_letters_and_of_words() {
        // Roman, letters spaced out, and black letter close set.
        for (letters, words, length) in [(0.12, 0.6, 500.0), (0.3, 0.9, 560.0), (0.08, 0.3, 420.0)] {
            let at = parting(&page(letters, words), length).unwrap();
            assert!(at > 1.2 * letters && at < 0.8 * words, "{letters} {words}: {at}");
        }
    }

    #[test]
    fn few_spaces_part_as_the_page_does() {
        let inked: Vec<Stretch> =
            [(0.0, 10.0), (11.0, 20.0), (26.0, 40.0)].map(|(from, to)| Stretch { from, to }).to_vec();
        let found = words(&inked, 10.0, Some(0.3));
        assert_eq!(found.iter().map(|w| (w.from, w.to)).collect::<Vec<_>>(), [(0.0, 20.0), (26.0, 40.0)]);
        assert_eq!(parting(&[0.1, 0.5], 5.0), None);
    }
}

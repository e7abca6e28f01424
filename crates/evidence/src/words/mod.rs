//! Which words of one side are which words of the other, in their order, whatever the line-ends.
//!
//! Nothing is read: words are compared as pictures, and the two sequences are aligned so that the
//! likenesses add up to the most (Needleman & Wunsch, *J. Mol. Biol.* 48 (1970), 443-453), with two
//! neighbouring words allowed to match one where a space was missed.

mod picture;

pub(crate) use picture::WordPlace;
use picture::{WordPicture, draw, sharpen};
use rayon::prelude::*;
use register::Pyramid;
use sheet::{Point, Rect};

/// The words of one side in reading order, drawn for comparison.
#[derive(Debug, Clone)]
pub(crate) struct WordSequence {
    places: Vec<WordPlace>,
    /// Pictures of single words, then of each word with the next one of its line.
    single: Vec<WordPicture>,
    double: Vec<Option<WordPicture>>,
}

/// Two words taken for the same: indexes in the two sequences, and their likeness.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct WordMatch {
    /// Index in the first sequence.
    pub(crate) a: usize,
    /// Index in the second.
    pub(crate) b: usize,
    /// Likeness, -1 to 1.
    pub(crate) likeness: f32,
}

/// x-height, in samples, of the level that words are drawn from.
const DRAWN_X_HEIGHT: f64 = 7.0;
/// Likeness at which two words are as well left unmatched; see docs/benchmarks.md.
const LEAST_LIKENESS: f32 = 0.5;
/// What it costs to leave a word out.
const LEFT_OUT: f32 = 0.02;
/// The same word on both sides is matched up to this many words (or this share) out of step.
const BAND_WORDS: usize = 80;
const BAND_SHARE: f64 = 0.25;

impl WordSequence {
    /// Draws every word; `line_of` tells words of one line from those of the next.
    pub(crate) fn new(ink: &Pyramid, places: Vec<WordPlace>, line_of: &[usize]) -> Self {
        let draw_all = |places: &[WordPlace]| -> Vec<WordPicture> {
            places
                .par_iter()
                .map(|p| {
                    let level =
                        ((p.x_height / DRAWN_X_HEIGHT).max(1.0).log2().round() as usize).min(ink.depth() - 1);
                    draw(ink.level(level), 2f64.powi(level as i32), p)
                })
                .collect()
        };
        let mut single = draw_all(&places);
        sharpen(&mut single);
        let pairs: Vec<Option<WordPlace>> = (0..places.len())
            .map(|i| {
                let (p, q) = (places[i], places.get(i + 1)?);
                (line_of.get(i) == line_of.get(i + 1)).then(|| joined(&p, q))
            })
            .collect();
        let mut drawn = draw_all(&pairs.iter().flatten().copied().collect::<Vec<_>>());
        sharpen(&mut drawn);
        let mut drawn = drawn.into_iter();
        let double = pairs.iter().map(|p| p.and_then(|_| drawn.next())).collect();
        Self { places, single, double }
    }

    /// Number of words.
    pub(crate) fn len(&self) -> usize {
        self.places.len()
    }

    /// Whether there is none.
    pub(crate) fn is_empty(&self) -> bool {
        self.places.is_empty()
    }
}

fn joined(p: &WordPlace, q: &WordPlace) -> WordPlace {
    let bounds: Rect = p.bounds.united(q.bounds);
    let foot = Point::new(f64::midpoint(p.foot.x, q.foot.x), f64::midpoint(p.foot.y, q.foot.y));
    WordPlace {
        bounds,
        foot,
        slope: f64::midpoint(p.slope, q.slope),
        x_height: f64::midpoint(p.x_height, q.x_height),
    }
}

/// A step of the alignment: how many words of each side it takes.
const STEPS: [(usize, usize); 5] = [(1, 1), (1, 0), (0, 1), (2, 1), (1, 2)];

/// The best alignment of the two sequences; words left out are not in it. A joined pair gives two
/// matches.
pub(crate) fn align(a: &WordSequence, b: &WordSequence) -> Vec<WordMatch> {
    let (n, m) = (a.len(), b.len());
    if n == 0 || m == 0 {
        return Vec::new();
    }
    let band = (BAND_WORDS.max((BAND_SHARE * n.max(m) as f64) as usize)) as isize + n.abs_diff(m) as isize;
    let near = |i: usize, j: usize| (i as isize - j as isize).abs() <= band;
    let likeness: Vec<[f32; 3]> = (0..n)
        .into_par_iter()
        .flat_map_iter(|i| {
            (0..m).map(move |j| {
                if !near(i, j) {
                    return [-1.0; 3];
                }
                let two_one = a.double[i].as_ref().map_or(-1.0, |d| d.likeness(&b.single[j]));
                let one_two = b.double[j].as_ref().map_or(-1.0, |d| a.single[i].likeness(d));
                [a.single[i].likeness(&b.single[j]), two_one, one_two]
            })
        })
        .collect();

    let stride = m + 1;
    let mut best = vec![f32::NEG_INFINITY; (n + 1) * stride];
    let mut step = vec![0u8; (n + 1) * stride];
    best[0] = 0.0;
    for i in 0..=n {
        for j in 0..=m {
            for (s, &(di, dj)) in STEPS.iter().enumerate() {
                if i < di || j < dj {
                    continue;
                }
                let (pi, pj) = (i - di, j - dj);
                let gain = match s {
                    0 => likeness[pi * m + pj][0] - LEAST_LIKENESS,
                    3 => 2.0 * (likeness[pi * m + pj][1] - LEAST_LIKENESS) - LEFT_OUT,
                    4 => 2.0 * (likeness[pi * m + pj][2] - LEAST_LIKENESS) - LEFT_OUT,
                    _ => -LEFT_OUT,
                };
                let total = best[pi * stride + pj] + gain;
                if total > best[i * stride + j] {
                    best[i * stride + j] = total;
                    step[i * stride + j] = s as u8;
                }
            }
        }
    }

    let mut out = Vec::new();
    let (mut i, mut j) = (n, m);
    while i > 0 || j > 0 {
        let s = step[i * stride + j] as usize;
        let (di, dj) = STEPS[s];
        i -= di;
        j -= dj;
        let which = match s {
            0 => 0,
            3 => 1,
            4 => 2,
            _ => continue,
        };
        let l = likeness[i * m + j][which];
        if l >= LEAST_LIKENESS {
            for (p, q) in [(0, 0), (di - 1, dj - 1)].into_iter().take(di.max(dj)) {
                out.push(WordMatch { a: i + p, b: j + q, likeness: l });
            }
        }
    }
    out.reverse();
    out
}

/// Share of the words of both sides that are matched in their order, 0 to 1.
pub(crate) fn matched_share(a: &WordSequence, b: &WordSequence, matches: &[WordMatch]) -> f64 {
    let count = |pick: fn(&WordMatch) -> usize| {
        let mut seen: Vec<usize> = matches.iter().map(pick).collect();
        seen.sort_unstable();
        seen.dedup();
        seen.len()
    };
    let words = a.len() + b.len();
    if words == 0 { 0.0 } else { (count(|m| m.a) + count(|m| m.b)) as f64 / words as f64 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use sheet::Plane;

    /// A page on which word `k` is a pattern of bars told by the bits of `k`.
    fn page(words: &[u32], per_line: usize) -> WordSequence {
        let mut ink = Plane::filled(400, 400, 0u8);
        let (mut places, mut lines) = (Vec::new(), Vec::new());
        for (i, &k) in words.iter().enumerate() {
            let (x0, y0) = (10 + (i % per_line) * 48, 30 + (i / per_line) * 30);
            for bit in 0..10 {
                if k >> bit & 1 == 1 {
                    for y in y0 - 10 + (bit % 3) * 3..y0 {
                        ink.row_mut(y)[x0 + bit * 4..x0 + bit * 4 + 3].fill(255);
                    }
                }
            }
            places.push(WordPlace {
                bounds: Rect::new(x0 as f64, y0 as f64 - 10.0, 40.0, 10.0),
                foot: Point::new(x0 as f64 + 20.0, y0 as f64),
                slope: 0.0,
                x_height: 8.0,
            });
            lines.push(i / per_line);
        }
        WordSequence::new(&Pyramid::new(ink), places, &lines)
    }

    const TEXT: [u32; 14] = [717, 341, 682, 819, 204, 455, 568, 113, 910, 601, 422, 857, 166, 999];

    #[test]
    fn the_same_words_are_matched_over_other_line_ends() {
        let (a, b) = (page(&TEXT, 7), page(&TEXT, 5));
        let m = align(&a, &b);
        assert!(matched_share(&a, &b, &m) > 0.99, "{m:?}");
        assert!(m.iter().all(|w| w.a == w.b));
    }

    #[test]
    fn a_word_left_out_shifts_the_rest_and_no_more() {
        let mut shorter = TEXT.to_vec();
        shorter.remove(4);
        let (a, b) = (page(&TEXT, 7), page(&shorter, 7));
        let m = align(&a, &b);
        assert!(m.iter().filter(|w| w.a > 4).all(|w| w.a == w.b + 1));
        assert!(matched_share(&a, &b, &m) > 0.9);
    }

    #[test]
    fn nothing_matches_nothing() {
        let (a, b) = (page(&TEXT, 7), page(&[], 7));
        assert!(align(&a, &b).is_empty());
    }
}

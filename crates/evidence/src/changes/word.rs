//! How a word's ink differs between two impressions, once it is laid on itself.

use super::blobs::{Blob, blobs};
use super::spread::spread;
use register::{Followed, Laid, Pyramid};
use sheet::{Plane, Point, Rect};

/// What differs about one word. Masses are in square x-heights of full ink.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct WordDifference {
    /// Heaviest connected place with ink in the first only.
    pub(crate) lost: f64,
    /// Heaviest connected place with ink in the second only.
    pub(crate) gained: f64,
    /// All ink of the word in the first, and in the second.
    pub(crate) ink: [f64; 2],
    /// Correlation of the whole word, laid on itself.
    pub(crate) likeness: f64,
    /// Least correlation of any part about a letter wide.
    pub(crate) least_part: f64,
    /// The box of the heaviest differing place on the first photograph.
    pub(crate) place: Rect,
    /// Samples to an x-height at which this was seen.
    pub(crate) detail: f64,
}

/// Full contrast of ink; differences below this share of it are tone, not sorts.
const FAINT: f32 = 0.42;
/// Breadth by which ink may spread or shrink from pull to pull, in x-heights (about 0.1 mm on pica),
/// and at least one sample.
const SPREAD: f64 = 0.06;
/// Breadth of a part, in x-heights: about one letter.
const PART: f64 = 1.1;
/// The finest level used has at least this many samples to the x-height, where there are so many.
const DETAIL: f64 = 14.0;

/// Compares a word's ink; `x_height` in pixels of A. `None` where it does not lie on both.
pub(crate) fn difference(
    a: &Pyramid,
    b: &Pyramid,
    laid: &Laid,
    word: Rect,
    found: &Followed,
    x_height: f64,
) -> Option<WordDifference> {
    let finest = laid.unit.log2().round() as usize;
    let wanted = (x_height / DETAIL).max(1.0).log2().floor() as usize;
    let level = wanted.max(finest);
    let unit = 2f64.powi(level as i32);
    let (pa, pb) = pair(a, b, laid, word, found, level)?;
    let (w, h) = (pa.width(), pa.height());
    let detail = x_height / unit;
    let reach = (SPREAD * detail).round().max(1.0) as usize;
    let gain = gains(&pa, &pb);
    let lost = only(&pa, gain[0], &spread(&pb, reach), gain[1]);
    let gained = only(&pb, gain[1], &spread(&pa, reach), gain[0]);
    let mass = |weight: f64| weight / 255.0 / (detail * detail);
    let heaviest = |p: &Plane<u8>| blobs(p).first().copied();
    let (l, g) = (heaviest(&lost), heaviest(&gained));
    let sum = |p: &Plane<u8>| mass(p.data().iter().map(|&v| f64::from(v)).sum());
    let place =
        [l, g].into_iter().flatten().map(|b| rect(&b, word, unit)).reduce(Rect::united).unwrap_or(word);
    let (likeness, least_part) = likeness(&pa, &pb, ((PART * detail) as usize).clamp(4, w.max(4)));
    Some(WordDifference {
        lost: l.map_or(0.0, |b| mass(f64::from(b.weight))),
        gained: g.map_or(0.0, |b| mass(f64::from(b.weight))),
        ink: [sum(&pa), sum(&pb)],
        likeness,
        least_part,
        place,
        detail: detail.min(h as f64),
    })
}

/// A's ink in the word's box and B's, laid on it by the word's own displacement.
fn pair(
    a: &Pyramid,
    b: &Pyramid,
    laid: &Laid,
    word: Rect,
    found: &Followed,
    level: usize,
) -> Option<(Plane<u8>, Plane<u8>)> {
    let unit = 2f64.powi(level as i32);
    let plane = a.level(level);
    let x = (word.x / unit).floor().max(0.0) as usize;
    let y = (word.y / unit).floor().max(0.0) as usize;
    let right = ((word.right() / unit).ceil().max(0.0) as usize).min(plane.width());
    let low = ((word.bottom() / unit).ceil().max(0.0) as usize).min(plane.height());
    if right < x + 4 || low < y + 4 {
        return None;
    }
    let pa = plane.crop(x, y, right - x, low - y);
    let at = found.at;
    let (paper, _) = laid.map.paper.at(at);
    let (centre, slope) = laid.map.to_b_with_slope(at + found.shift - paper);
    let level_b = laid.level_of_b(level);
    let down = 2f64.powi(-(level_b as i32));
    let pb_full = b.level(level_b);
    let mut pb = Plane::filled(pa.width(), pa.height(), 0u8);
    for j in 0..pa.height() {
        for i in 0..pa.width() {
            let d = Point::new((x + i) as f64 + 0.5, (y + j) as f64 + 0.5) * unit - at;
            let px = (centre.x + slope[0][0] * d.x + slope[0][1] * d.y) * down;
            let py = (centre.y + slope[1][0] * d.x + slope[1][1] * d.y) * down;
            if px < 0.0 || py < 0.0 || px >= pb_full.width() as f64 || py >= pb_full.height() as f64 {
                return None;
            }
            pb.row_mut(j)[i] = pb_full.sample(px, py) as u8;
        }
    }
    Some((pa, pb))
}

/// Factors that bring the solid ink of both to the darker one's: the mean of each one's darkest
/// tenth, never stretched more than twice.
fn gains(a: &Plane<u8>, b: &Plane<u8>) -> [f32; 2] {
    let solid = |p: &Plane<u8>| {
        let mut v = p.data().to_vec();
        let at = v.len() - (v.len() / 10).max(1);
        v.select_nth_unstable(at);
        let top = &v[at..];
        top.iter().map(|&x| f32::from(x)).sum::<f32>() / top.len() as f32
    };
    let (sa, sb) = (solid(a), solid(b));
    let full = sa.max(sb).max(1.0);
    [(full / sa.max(1.0)).min(2.0), (full / sb.max(1.0)).min(2.0)]
}

/// Where `ink` stands and `other`, spread, does not: zero below [`FAINT`].
fn only(ink: &Plane<u8>, gain: f32, other: &Plane<u8>, other_gain: f32) -> Plane<u8> {
    let mut out = ink.clone();
    for (o, q) in out.data_mut().iter_mut().zip(other.data()) {
        let d = (f32::from(*o) * gain - f32::from(*q) * other_gain) / 255.0;
        *o = if d > FAINT { (d.min(1.0) * 255.0) as u8 } else { 0 };
    }
    out
}

fn rect(b: &Blob, word: Rect, unit: f64) -> Rect {
    let [x, y, r, l] = b.bounds.map(|v| v as f64 * unit);
    Rect::new(word.x.max(0.0) + x, word.y.max(0.0) + y, r - x, l - y)
}

/// Correlation of the whole, and the least over parts `part` samples wide that hold ink.
fn likeness(a: &Plane<u8>, b: &Plane<u8>, part: usize) -> (f64, f64) {
    let (w, h) = (a.width(), a.height());
    // Sums of each column: n, a, b, aa, bb, ab.
    let columns: Vec<[f64; 5]> = (0..w)
        .map(|x| {
            (0..h).fold([0.0; 5], |s, y| {
                let (p, q) = (f64::from(a.at(x, y)), f64::from(b.at(x, y)));
                [s[0] + p, s[1] + q, s[2] + p * p, s[3] + q * q, s[4] + p * q]
            })
        })
        .collect();
    let correlation = |range: std::ops::Range<usize>| {
        let n = (range.len() * h) as f64;
        let s = columns[range].iter().fold([0.0; 5], |t, c| std::array::from_fn(|i| t[i] + c[i]));
        let (va, vb) = (s[2] - s[0] * s[0] / n, s[3] - s[1] * s[1] / n);
        // A part without print in either says nothing.
        let printed = va.max(vb) > 900.0 * n;
        printed.then(|| (s[4] - s[0] * s[1] / n) / (va * vb).sqrt().max(200.0 * n))
    };
    let whole = correlation(0..w).unwrap_or(0.0);
    let least = (0..=w.saturating_sub(part))
        .step_by((part / 3).max(1))
        .filter_map(|x| correlation(x..(x + part).min(w)))
        .fold(whole, f64::min);
    (whole, least)
}

//! How a word's ink differs between two impressions, once it is laid on itself.

use super::around::{Cell, InkGrid};
use super::letters::{Letter, Sign, letters, pieced, signs};
use super::spread::spread;
use super::view::Picture;
use crate::blobs::{Blob, Blobs, blobs};
use register::{Followed, Laid, Pyramid, pieces};
use sheet::{Plane, Point, Rect, StraightMap};

/// What differs about one word. Masses are in square x-heights of full ink.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct WordDifference {
    /// The places that differ, heaviest first.
    pub(crate) places: Vec<DifferingPlace>,
    /// Its letters, boxes in pixels of the first photograph.
    pub(crate) letters: Vec<Letter>,
    /// All letters and points of it on the first, and on the second; boxes in pixels of the first.
    pub(crate) signs: [Vec<Sign>; 2],
    /// Both impressions of each of the places, close by.
    pub(super) pictures: Vec<Picture>,
    /// Correlation of the whole word, laid on itself.
    pub(crate) likeness: f64,
    /// Least correlation of any part about a letter wide.
    pub(crate) least_part: f64,
    /// Ink by the cells of the page's grid, square pixels of the first.
    pub(crate) cells: Vec<(usize, Cell)>,
}

impl WordDifference {
    /// The places where ink stands in one only, heaviest first, without letters that are merely unlike themselves.
    pub(super) fn places_of_ink(&self) -> impl Iterator<Item = &DifferingPlace> {
        self.places.iter().filter(|p| p.letter.is_none())
    }
}

/// A place of a word where one impression has ink and the other has none. Masses in square x-heights.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct DifferingPlace {
    /// Its box, pixels of the first photograph.
    pub(crate) bounds: Rect,
    /// Ink in the first only.
    pub(crate) lost: f64,
    /// Ink in the second only.
    pub(crate) gained: f64,
    /// How much of the letters that it takes ink from it takes, 0 to 1: of those in the first, in the
    /// second.
    pub(crate) whole: [f64; 2],
    /// Its mean darkness there, of 1.
    pub(crate) tone: f64,
    /// Mean ink of the copy that lacks the heaviest piece, in the piece's box, of 1.
    pub(crate) beside: f64,
    /// Correlation of the two in the place and a little about it.
    pub(crate) alike: f64,
    /// Share of its box that ink in one only fills.
    pub(crate) fill: f64,
    /// Of a letter that is not much like itself while hardly any ink stands in one only: its likeness.
    pub(crate) letter: Option<f64>,
    /// Area of ink in one only, square samples.
    area: f64,
}

/// Full contrast of ink; differences below this share of it are tone, not sorts.
const FAINT: f32 = 0.36;
/// Breadth by which ink may spread or shrink from pull to pull, in x-heights (about 0.1 mm on pica),
/// and at least one sample.
const SPREAD: f64 = 0.06;
/// Breadth of a part, in x-heights: about one letter.
const PART: f64 = 1.1;
/// The finest level used has at least this many samples to the x-height, where there are so many.
const DETAIL: f64 = 18.0;
/// Pieces nearer than this, in x-heights, are one place: the strokes of one letter.
const ONE_PLACE: f64 = 0.25;
/// So far apart they may be over one another: the points of a colon stand about half an x-height apart.
const ONE_COLUMN: f64 = 0.6;
/// What hangs in from another line is no higher than this, x-heights.
const HANGS_IN: f64 = 0.4;
/// Pieces lighter than this, in square x-heights, are specks: the point of an i is about 0.03.
const SPECK: f64 = 0.008;
/// Places looked at in one word, the heaviest first.
const PLACES_A_WORD: usize = 3;
/// A letter less like itself than this is a place, even where hardly any ink stands in one only: thin strokes make an n
/// of a u. So many in one word, the least like themselves.
const UNLIKE: f64 = 0.86;
const LETTERS_A_WORD: usize = 2;
/// How much about a place is looked at for its likeness, x-heights.
const ABOUT: f64 = 0.3;
/// Ink of a letter, of 255.
const INKED: u8 = 90;
/// So much beside what a crease hides is not compared either, x-heights: its edge is not known better.
const CREASED: f64 = 0.2;
/// A piece of a word that a crease cuts is looked for so far from where the paper puts it, x-heights.
const PIECE_OFF: f64 = 0.3;

/// Compares a word's ink, laid by its own displacement, or where it has none by the paper's; `x_height` in pixels
/// of A. `None` where it does not lie on both.
pub(crate) fn difference(
    a: &Pyramid,
    b: &Pyramid,
    laid: &Laid,
    word: Rect,
    found: Option<Followed>,
    x_height: f64,
    grid: &InkGrid,
) -> Option<WordDifference> {
    let finest = laid.unit.log2().round() as usize;
    let wanted = (x_height / DETAIL).max(1.0).log2().floor() as usize;
    let level = wanted.max(finest);
    let unit = 2f64.powi(level as i32);
    let Pair { a: pa, b: pb, origin } = pair(a, b, laid, word, found, level, x_height)?;
    let detail = x_height / unit;
    let reach = (SPREAD * detail).round().max(1.0) as usize;
    let gain = gains(&pa, &pb);
    let lost = only(&pa, gain[0], &spread(&pb, reach), gain[1]);
    let gained = only(&pb, gain[1], &spread(&pa, reach), gain[0]);
    let part = ((PART * detail) as usize).clamp(4, pa.width().max(4));
    let (likeness, least_part) = likeness(&pa, &pb, part);
    let seen = Seen { one: [&pa, &pb], only: [&lost, &gained], detail };
    let pieces = [&pa, &pb].map(|p| pieced(p, detail));
    let letters = letters([&pa, &pb], &pieces, gain, detail);
    let mut places = seen.places();
    places.truncate(PLACES_A_WORD);
    places.extend(seen.unlike_letters(&letters, &places));
    let picture = |p: &DifferingPlace| Picture::close([&pa, &pb], gain, p.bounds.centre(), detail);
    let pictures = places.iter().map(picture).collect();
    let places = places
        .into_iter()
        .map(|p| DifferingPlace { bounds: p.bounds.scaled(unit).moved(origin), ..p })
        .collect();
    let letters = letters.into_iter().map(|l| l.placed(unit, origin)).collect();
    let signs = [(&pa, &pieces[0]), (&pb, &pieces[1])]
        .map(|(p, pieces)| signs(p, pieces, detail).into_iter().map(|s| s.placed(unit, origin)).collect());
    Some(WordDifference {
        places,
        letters,
        signs,
        pictures,
        likeness,
        least_part,
        cells: by_cells([&pa, &pb, &lost, &gained], origin, unit, grid),
    })
}

/// The planes of a word, and what stands in one only.
struct Seen<'p> {
    one: [&'p Plane<u8>; 2],
    only: [&'p Plane<u8>; 2],
    detail: f64,
}

impl Seen<'_> {
    /// The places that differ, heaviest first; boxes in samples.
    fn places(&self) -> Vec<DifferingPlace> {
        let w = self.one[0].width();
        let mass = |weight: f64| weight / 255.0 / (self.detail * self.detail);
        let mut pieces: Vec<DifferingPlace> = Vec::new();
        for side in 0..2 {
            let gone = blobs(self.only[side], 0);
            if gone.all.first().is_none_or(|b| mass(f64::from(b.weight)) < SPECK) {
                continue;
            }
            let letters = blobs(self.one[side], INKED);
            let taken = self.share_taken(side, &gone, &letters);
            for (k, piece) in gone.all.iter().enumerate() {
                let weight = mass(f64::from(piece.weight));
                if weight < SPECK {
                    break;
                }
                // What is cut by the side of the box is a neighbour's, and seen whole there; what hangs in from above
                // or below is another line's.
                let low = (piece.bounds[3] - piece.bounds[1]) as f64 <= HANGS_IN * self.detail;
                let hangs = low && (piece.bounds[1] == 0 || piece.bounds[3] == self.one[0].height());
                if piece.bounds[0] == 0 || piece.bounds[2] == w || hangs {
                    continue;
                }
                let mut p = DifferingPlace {
                    bounds: rect(piece),
                    lost: 0.0,
                    gained: 0.0,
                    whole: [0.0; 2],
                    tone: 0.0,
                    beside: mean(self.one[1 - side], piece),
                    alike: 0.0,
                    fill: 0.0,
                    letter: None,
                    area: f64::from(piece.area),
                };
                *(if side == 0 { &mut p.lost } else { &mut p.gained }) = weight;
                p.whole[side] = taken[k];
                pieces.push(p);
            }
        }
        let mut places = joined(pieces, self.detail);
        for p in &mut places {
            self.look_about(p);
        }
        places.sort_by(|p, q| (q.lost + q.gained).total_cmp(&(p.lost + p.gained)));
        places
    }

    /// How a place looks whose box, ink in one only and area are known.
    fn look_about(&self, p: &mut DifferingPlace) {
        p.tone = (p.lost + p.gained) * self.detail * self.detail / p.area.max(1.0);
        p.alike = correlation(self.one[0], self.one[1], p.bounds.grown(ABOUT * self.detail)).unwrap_or(0.0);
        p.fill = p.area / p.bounds.area().max(1.0);
    }

    /// The letters that are not much like themselves and in which no place lies, as places; boxes in samples.
    fn unlike_letters(&self, letters: &[Letter], places: &[DifferingPlace]) -> Vec<DifferingPlace> {
        let is_place = |l: &Letter| places.iter().any(|p| l.bounds.holds(p.bounds.centre()));
        let mut unlike: Vec<&Letter> =
            letters.iter().filter(|l| l.likeness() < UNLIKE && !is_place(l)).collect();
        unlike.sort_by(|p, q| p.likeness().total_cmp(&q.likeness()));
        unlike.into_iter().take(LETTERS_A_WORD).map(|l| self.as_place(l)).collect()
    }

    /// A letter as a place.
    fn as_place(&self, letter: &Letter) -> DifferingPlace {
        let r = letter.bounds;
        let (columns, rows) = (r.x as usize..r.right() as usize, r.y as usize..r.bottom() as usize);
        let within = |plane: &'_ Plane<u8>| -> [f64; 2] {
            let values = rows.clone().flat_map(|y| &plane.row(y)[columns.clone()]);
            values.fold([0.0; 2], |[sum, area], &v| [sum + f64::from(v), area + f64::from(u8::from(v > 0))])
        };
        let ([lost, gained], ink) = (self.only.map(within), self.one.map(|p| within(p)[0]));
        let mass = |weight: f64| weight / 255.0 / (self.detail * self.detail);
        let mut place = DifferingPlace {
            bounds: r,
            lost: mass(lost[0]),
            gained: mass(gained[0]),
            whole: [lost[0] / ink[0].max(1.0), gained[0] / ink[1].max(1.0)],
            tone: 0.0,
            beside: ink[0].min(ink[1]) / 255.0 / r.area().max(1.0),
            alike: 0.0,
            fill: 0.0,
            letter: Some(letter.likeness()),
            area: lost[1] + gained[1],
        };
        self.look_about(&mut place);
        place
    }

    /// For each piece of ink in one only, how much of the letters it belongs to is in one only.
    fn share_taken(&self, side: usize, gone: &Blobs, letters: &Blobs) -> Vec<f64> {
        let mut taken = vec![0.0f64; letters.all.len()];
        let only = self.only[side].data();
        for (&l, &v) in letters.of.iter().zip(only) {
            if l > 0 {
                taken[l as usize - 1] += f64::from(v);
            }
        }
        let mut out = vec![[0.0f64; 2]; gone.all.len()];
        for ((&g, &l), &v) in gone.of.iter().zip(&letters.of).zip(only) {
            if g > 0 && l > 0 {
                let letter = l as usize - 1;
                let share = (taken[letter] / f64::from(letters.all[letter].weight).max(1.0)).min(1.0);
                out[g as usize - 1][0] += f64::from(v) * share;
                out[g as usize - 1][1] += f64::from(v);
            }
        }
        out.into_iter().map(|[s, n]| if n > 0.0 { s / n } else { 0.0 }).collect()
    }
}

/// Pieces that lie near each other, or over one another, as places, heavier before lighter; `x_height` in samples.
fn joined(mut pieces: Vec<DifferingPlace>, x_height: f64) -> Vec<DifferingPlace> {
    pieces.sort_by(|p, q| (q.lost + q.gained).total_cmp(&(p.lost + p.gained)));
    let mut places: Vec<DifferingPlace> = Vec::new();
    for piece in pieces {
        let mut piece = piece;
        // A piece may bring two places together.
        while let Some(i) = places.iter().position(|p| one_place(p.bounds, piece.bounds, x_height)) {
            piece = both(&places.remove(i), &piece);
        }
        places.push(piece);
    }
    places
}

/// Whether two pieces are of one letter: near each other, or one over the other, as the point and the comma of a
/// semicolon are.
fn one_place(p: Rect, q: Rect, x_height: f64) -> bool {
    let reach = |r: Rect, x: f64, y: f64| Rect::new(r.x - x, r.y - y, r.w + 2.0 * x, r.h + 2.0 * y);
    let over = p.right().min(q.right()) - p.x.max(q.x) > 0.5 * p.w.min(q.w);
    reach(p, ONE_PLACE * x_height, if over { ONE_COLUMN } else { ONE_PLACE } * x_height).shared(q).is_some()
}

fn both(p: &DifferingPlace, q: &DifferingPlace) -> DifferingPlace {
    let heavy = if p.lost + p.gained >= q.lost + q.gained { p } else { q };
    let mean = |k: usize, mass: fn(&DifferingPlace) -> f64| {
        let (m, n) = (mass(p), mass(q));
        if m + n > 0.0 { (m * p.whole[k] + n * q.whole[k]) / (m + n) } else { 0.0 }
    };
    DifferingPlace {
        bounds: p.bounds.united(q.bounds),
        lost: p.lost + q.lost,
        gained: p.gained + q.gained,
        whole: [mean(0, |p| p.lost), mean(1, |p| p.gained)],
        area: p.area + q.area,
        ..*heavy
    }
}

fn mean(plane: &Plane<u8>, piece: &Blob) -> f64 {
    let [x0, y0, x1, y1] = piece.bounds;
    let sum: u64 = (y0..y1).flat_map(|y| &plane.row(y)[x0..x1]).map(|&v| u64::from(v)).sum();
    sum as f64 / 255.0 / ((x1 - x0) * (y1 - y0)).max(1) as f64
}

/// Sums of four planes (values of 255) by the page's cells, square pixels of A.
fn by_cells(planes: [&Plane<u8>; 4], origin: Point, unit: f64, grid: &InkGrid) -> Vec<(usize, Cell)> {
    let mut out: Vec<(usize, Cell)> = Vec::new();
    let area = (unit * unit / 255.0) as f32;
    for y in 0..planes[0].height() {
        for x in 0..planes[0].width() {
            let v: Cell = std::array::from_fn(|k| f32::from(planes[k].row(y)[x]) * area);
            if v.iter().all(|&v| v <= 0.0) {
                continue;
            }
            let at = Point::new((x as f64 + 0.5) * unit, (y as f64 + 0.5) * unit) + origin;
            let Some(i) = grid.index(at) else { continue };
            match out.last_mut() {
                Some((last, cell)) if *last == i => (0..4).for_each(|k| cell[k] += v[k]),
                _ => out.push((i, v)),
            }
        }
    }
    out
}

/// A's ink in a word's box and B's laid on it; `origin` is the first sample's corner in pixels of A.
struct Pair {
    a: Plane<u8>,
    b: Plane<u8>,
    origin: Point,
}

/// A's ink in the word's box and B's, laid on it by the word's own displacement, or by the paper's. What a crease
/// hides in either is taken from both.
fn pair(
    a: &Pyramid,
    b: &Pyramid,
    laid: &Laid,
    word: Rect,
    found: Option<Followed>,
    level: usize,
    x_height: f64,
) -> Option<Pair> {
    let unit = 2f64.powi(level as i32);
    let plane = a.level(level);
    let x = (word.x / unit).floor().max(0.0) as usize;
    let y = (word.y / unit).floor().max(0.0) as usize;
    let right = ((word.right() / unit).ceil().max(0.0) as usize).min(plane.width());
    let low = ((word.bottom() / unit).ceil().max(0.0) as usize).min(plane.height());
    if right < x + 4 || low < y + 4 {
        return None;
    }
    let mut pa = plane.crop(x, y, right - x, low - y);
    let at = found.map_or(word.centre(), |f| f.at);
    let paper = &laid.map.paper;
    let (centre, slope) =
        laid.map.to_b_with_slope(at + found.map_or(Point::new(0.0, 0.0), |f| f.shift - paper.at(at).0));
    let margin = CREASED * x_height;
    let cut =
        paper.cuts(word, margin).then(|| pieces(a, b, laid, word, level, (PIECE_OFF * x_height, margin)));
    let level_b = laid.level_of_b(level);
    let down = 2f64.powi(-(level_b as i32));
    let pb_full = b.level(level_b);
    let straight = StraightMap { centre, slope };
    let is_on = |q: &Point| pb_full.holds(*q);
    let (w, h) = (pa.width(), pa.height());
    let whole = {
        let d = Point::new(x as f64 + w as f64 / 2.0, y as f64 + h as f64 / 2.0) * unit - at;
        StraightMap { centre: straight.to(d.x, d.y), slope }.between_levels(unit, down)
    };
    let origin = Point::new(x as f64 * unit, y as f64 * unit);
    if cut.is_none() && whole.corners(w, h).iter().all(is_on) {
        return Some(Pair { a: pa, b: pb_full.through(&whole, w, h), origin });
    }
    let mut pb = Plane::filled(w, h, 0u8);
    for j in 0..h {
        for i in 0..w {
            let p = Point::new((x + i) as f64 + 0.5, (y + j) as f64 + 0.5) * unit;
            let q = cut.as_ref().map_or_else(
                || {
                    let d = p - at;
                    Some(straight.to(d.x, d.y))
                },
                |cut| cut.to_b(laid, p),
            );
            match q.map(|q| q * down).filter(is_on) {
                Some(q) => pb.row_mut(j)[i] = pb_full.sample(q.x, q.y) as u8,
                // Off the second photograph, and in a fold, nothing can be said: neither has ink there.
                None => pa.row_mut(j)[i] = 0,
            }
        }
    }
    Some(Pair { a: pa, b: pb, origin })
}

/// Factors that bring the solid ink of both to the darker one's, never stretched more than twice.
fn gains(a: &Plane<u8>, b: &Plane<u8>) -> [f32; 2] {
    let (sa, sb) = (solid(a), solid(b));
    let full = sa.max(sb).max(1.0);
    [(full / sa.max(1.0)).min(2.0), (full / sb.max(1.0)).min(2.0)]
}

/// Solid ink of a plane, of 255: the mean of its darkest tenth.
pub(super) fn solid(plane: &Plane<u8>) -> f32 {
    let mut counts = [0usize; 256];
    plane.data().iter().for_each(|&v| counts[usize::from(v)] += 1);
    let all = (plane.data().len() / 10).max(1);
    let (mut left, mut sum) = (all, 0);
    for (level, &count) in counts.iter().enumerate().rev() {
        let taken = count.min(left);
        sum += taken * level;
        left -= taken;
    }
    sum as f32 / all as f32
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

fn rect(b: &Blob) -> Rect {
    let [x, y, r, l] = b.bounds.map(|v| v as f64);
    Rect::new(x, y, r - x, l - y)
}

/// Correlation within a box, in samples; `None` where neither has print.
fn correlation(a: &Plane<u8>, b: &Plane<u8>, within: Rect) -> Option<f64> {
    let (x0, y0) = (within.x.max(0.0) as usize, within.y.max(0.0) as usize);
    let (x1, y1) =
        ((within.right() as usize + 1).min(a.width()), (within.bottom() as usize + 1).min(a.height()));
    let n = (x1.saturating_sub(x0) * y1.saturating_sub(y0)) as f64;
    let rows = (y0..y1).map(|y| (&a.row(y)[x0..x1], &b.row(y)[x0..x1]));
    let sums = rows.map(|(p, q)| p.iter().zip(q).fold([0; 5], |s, (&p, &q)| with(s, p, q)));
    from_sums(sums, n)
}

/// Sums of the first, the second, their squares, their products, of a row or a column: no word is 66,000 samples broad.
type Sums = [u32; 5];

fn with(s: Sums, p: u8, q: u8) -> Sums {
    let (p, q) = (u32::from(p), u32::from(q));
    [s[0] + p, s[1] + q, s[2] + p * p, s[3] + q * q, s[4] + p * q]
}

/// Correlation of `n` pairs from their sums, row by row or column by column. `None` where neither has print.
fn from_sums(parts: impl Iterator<Item = Sums>, n: f64) -> Option<f64> {
    let s = parts.fold([0u64; 5], |t, s| std::array::from_fn(|i| t[i] + u64::from(s[i])));
    let s = s.map(|v| v as f64);
    let (va, vb) = (s[2] - s[0] * s[0] / n, s[3] - s[1] * s[1] / n);
    let printed = n > 0.0 && va.max(vb) > 900.0 * n;
    printed.then(|| (s[4] - s[0] * s[1] / n) / (va * vb).sqrt().max(200.0 * n))
}

/// Correlation of the whole, and the least over parts `part` samples wide that hold ink.
fn likeness(a: &Plane<u8>, b: &Plane<u8>, part: usize) -> (f64, f64) {
    let (w, h) = (a.width(), a.height());
    let mut columns = vec![[0u32; 5]; w];
    for y in 0..h {
        for ((column, &p), &q) in columns.iter_mut().zip(a.row(y)).zip(b.row(y)) {
            *column = with(*column, p, q);
        }
    }
    let of = |range: std::ops::Range<usize>| {
        let n = (range.len() * h) as f64;
        from_sums(columns[range].iter().copied(), n)
    };
    let whole = of(0..w).unwrap_or(0.0);
    let least = (0..=w.saturating_sub(part))
        .step_by((part / 3).max(1))
        .filter_map(|x| of(x..(x + part).min(w)))
        .fold(whole, f64::min);
    (whole, least)
}

#[cfg(test)]
mod tests {
    use super::*;

    const DETAIL: f64 = 20.0;

    /// Two stems joined by a thin stroke at the top, an n, or at the foot, a u.
    fn minims(joined_at: usize) -> Plane<u8> {
        let mut plane = Plane::filled(50, 40, 0u8);
        for y in 10..30 {
            plane.row_mut(y)[16..20].fill(230);
            plane.row_mut(y)[30..34].fill(230);
        }
        (joined_at..joined_at + 3).for_each(|y| plane.row_mut(y)[16..34].fill(230));
        plane
    }

    /// The letters that are places though no ink stands in one only.
    fn thin_places(one: [&Plane<u8>; 2]) -> Vec<DifferingPlace> {
        let none = Plane::filled(50, 40, 0u8);
        let pieces = one.map(|p| pieced(p, DETAIL));
        let letters = letters(one, &pieces, [1.0; 2], DETAIL);
        assert_eq!(letters.len(), 1);
        Seen { one, only: [&none, &none], detail: DETAIL }.unlike_letters(&letters, &[])
    }

    #[test]
    fn an_n_put_in_for_a_u_is_a_place_though_only_thin_strokes_tell() {
        let (n, u) = (minims(10), minims(27));
        let places = thin_places([&u, &n]);
        assert_eq!(places.len(), 1);
        assert!(places[0].letter.is_some_and(|l| l < UNLIKE));
        assert!(
            places[0].lost == 0.0 && places[0].tone == 0.0 && places[0].bounds.holds(Point::new(25.0, 20.0))
        );
        assert!(thin_places([&u, &u]).is_empty());
    }
}

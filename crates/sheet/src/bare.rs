//! Bare paper: its light where no ink is.
//!
//! Folds, stains, fibres and the wires of the mould make the paper a little lighter or darker than it is about them.

use crate::Plane;
use crate::ink::InkPlane;
use std::ops::{AddAssign, SubAssign};

/// Longer side at which the paper is looked at, samples: a third of a millimetre of a folio page.
const LOOKED_AT: usize = 900;
/// Mean darkness of a sample that is ink, of 255.
const INKED: u32 = 12;
/// From the page's edge, as a share of the longer side, nothing is looked at.
const EDGE: f64 = 0.012;
/// Half the breadth over which the paper's light is evened out, samples.
const EVEN: usize = 5;
/// Light that differs by more than this many standard deviations is no paper's.
const MOST: f32 = 4.0;
/// Share of the samples about one that must be bare if its fine relief is to be told.
const WELL_KNOWN: f32 = 0.3;

/// The paper of one photograph, reduced.
#[derive(Debug, Clone, PartialEq)]
pub struct BarePaper {
    light: Plane<u8>,
    /// [`BARE`] where neither this sample nor one beside it holds ink, and the page's edge is not near.
    bare: Plane<u8>,
    reduction: usize,
}

/// Of a mask: bare paper.
const BARE: u8 = 255;

impl BarePaper {
    /// The paper of a photograph, from its luminance and its ink.
    pub fn of(luminance: &Plane<u8>, ink: &InkPlane) -> Self {
        let reduction = luminance.width().max(luminance.height()).div_ceil(LOOKED_AT).max(1);
        let (light, dark) = (reduced(luminance, reduction), reduced(&ink.darkness, reduction));
        let (w, h) = (light.width(), light.height());
        let mut bare = Plane::filled(w, h, 0u8);
        let margin = (EDGE * w.max(h) as f64) as isize;
        // The cells of the ink's paper on which a sample lies, and those a margin before and after it.
        let cells = |v: usize, most: usize| {
            [-margin, 0, margin]
                .map(|d| v.checked_add_signed(d).map(|v| v * reduction / ink.cell).filter(|&c| c < most))
        };
        let columns: Vec<_> = (0..w).map(|x| cells(x, ink.paper.width())).collect();
        let mut darkest = vec![0u8; w];
        for y in 1..h.max(1) - 1 {
            let [Some(top), Some(middle), Some(low)] = cells(y, ink.paper.height()) else { continue };
            let rows = [top, middle, low].map(|r| ink.paper.row(r));
            let is_paper: Vec<bool> = (0..ink.paper.width()).map(|c| rows.iter().all(|r| r[c] > 0)).collect();
            let about = dark.row(y - 1).iter().zip(dark.row(y)).zip(dark.row(y + 1));
            darkest.iter_mut().zip(about).for_each(|(d, ((&p, &q), &r))| *d = p.max(q).max(r));
            let to = bare.row_mut(y);
            for (x, near) in darkest.windows(3).enumerate() {
                let clear = u32::from(near[0].max(near[1]).max(near[2])) < INKED;
                let on_page = || columns[x + 1].iter().all(|c| c.is_some_and(|c| is_paper[c]));
                to[x + 1] = if clear && on_page() { BARE } else { 0 };
            }
        }
        Self { light, bare, reduction }
    }

    /// The same, turned clockwise by so many right angles.
    #[must_use]
    pub fn turned(&self, quarters: u8) -> Self {
        Self { light: self.light.turned(quarters), bare: self.bare.turned(quarters), ..*self }
    }

    /// Pixels of the photograph to one sample.
    pub fn reduction(&self) -> usize {
        self.reduction
    }

    /// Brightness, bare paper or not.
    pub fn light(&self) -> &Plane<u8> {
        &self.light
    }

    /// 255 where paper is bare, 0 where it is not.
    pub fn mask(&self) -> &Plane<u8> {
        &self.bare
    }

    /// Whether a sample is bare paper.
    pub fn is_bare(&self, x: usize, y: usize) -> bool {
        self.bare.at(x, y) == BARE
    }

    /// Both papers only where both are bare and `keep` says so; `other` is the light and the mask of another photograph
    /// drawn on the samples of this one.
    pub fn together(&self, other: (Plane<u8>, &Plane<u8>), keep: impl Fn(usize, usize) -> bool) -> [Self; 2] {
        let mut bare = self.bare.clone();
        for y in 0..bare.height() {
            for (x, (b, &o)) in bare.row_mut(y).iter_mut().zip(other.1.row(y)).enumerate() {
                if o < BARE || !keep(x, y) {
                    *b = 0;
                }
            }
        }
        [self.light.clone(), other.0].map(|light| Self {
            light,
            bare: bare.clone(),
            reduction: self.reduction,
        })
    }

    /// Samples of bare paper.
    pub fn samples(&self) -> usize {
        self.bare.data().iter().map(|&b| usize::from(b == BARE)).sum()
    }

    /// How much lighter or darker than about it the paper is, in standard deviations of its grain, at most 4; 0 where it
    /// is not bare. `None` where less than a twentieth is.
    pub fn relief(&self) -> Option<Plane<f32>> {
        let (w, h) = (self.light.width(), self.light.height());
        if w < 4 * EVEN || h < 4 * EVEN || self.samples() < (w * h / 20).max(1) {
            return None;
        }
        let mut out = self.against_about(&self.counted());
        let bare = || self.bare.data().iter().map(|&b| b == BARE);
        let off: Vec<f32> = out.data().iter().zip(bare()).filter(|p| p.1).map(|p| p.0.abs()).collect();
        in_deviations(&mut out, off);
        Some(out)
    }

    /// [`Self::relief`] without what is smooth about a sample, as the shadow of a gutter: what the paper itself shows.
    /// `None` where nothing is bare.
    pub fn fine_relief(&self) -> Option<Plane<f32>> {
        if self.samples() == 0 {
            return None;
        }
        let count = self.counted();
        let mut out = self.against_about(&count);
        let known = WELL_KNOWN * ((2 * EVEN + 1) * (2 * EVEN + 1)) as f32;
        for _ in 0..2 {
            let sum = evened(&out);
            for (((o, &b), &s), &n) in
                out.data_mut().iter_mut().zip(self.bare.data()).zip(sum.data()).zip(count.data())
            {
                let n = f32::from(n);
                *o = if b == BARE && n > known { *o - s / n } else { 0.0 };
            }
        }
        let off: Vec<f32> = out.data().iter().filter(|v| **v != 0.0).map(|v| v.abs()).collect();
        if off.is_empty() {
            return None;
        }
        in_deviations(&mut out, off);
        Some(out)
    }

    /// Samples of bare paper about each.
    fn counted(&self) -> Plane<u16> {
        evened(&self.of_bare(|_| 1u16))
    }

    /// Something of the light of each sample of bare paper; nothing of others.
    fn of_bare<T: Copy + Default>(&self, of: impl Fn(u8) -> T) -> Plane<T> {
        let mut out = Plane::filled(self.light.width(), self.light.height(), T::default());
        for (o, (&v, &b)) in out.data_mut().iter_mut().zip(self.light.data().iter().zip(self.bare.data())) {
            *o = if b == BARE { of(v) } else { T::default() };
        }
        out
    }

    /// Light against the mean of bare paper about it: 0 is alike; `count` is how many samples of it there are.
    fn against_about(&self, count: &Plane<u16>) -> Plane<f32> {
        let sum = evened(&self.of_bare(u16::from));
        let mut out = self.of_bare(f32::from);
        for ((o, &s), &n) in out.data_mut().iter_mut().zip(sum.data()).zip(count.data()) {
            // 0 stays 0: paper is lighter than nothing.
            *o = if *o > 0.0 { *o * f32::from(n) / f32::from(s) - 1.0 } else { 0.0 };
        }
        out
    }
}

/// Brings values to standard deviations of the grain, from how far they are `off` 0.
fn in_deviations(values: &mut Plane<f32>, mut off: Vec<f32>) {
    let half = off.len() / 2;
    // Of a normal distribution the median of what is off is 0.6745 standard deviations.
    let grain = (*off.select_nth_unstable_by(half, f32::total_cmp).1 / 0.6745).max(1e-4);
    values.data_mut().iter_mut().for_each(|v| *v = (*v / grain).clamp(-MOST, MOST));
}

/// Rows of bytes whose sums have room in 16 bits.
const ROWS_AT_ONCE: usize = 256;

/// Means of blocks of `by` by `by` samples.
fn reduced(plane: &Plane<u8>, by: usize) -> Plane<u8> {
    let (w, h) = (plane.width() / by, plane.height() / by);
    let mut out = Plane::filled(w, h, 0u8);
    let mut sums = vec![0u32; w];
    let mut columns = vec![0u16; plane.width()];
    let area = (by * by) as u32;
    for y in 0..h {
        // Down first, whole rows at once; of so many rows the sum of bytes has room in 16 bits.
        for rows in (y * by..(y + 1) * by).step_by(ROWS_AT_ONCE) {
            columns.fill(0);
            for row in rows..(rows + ROWS_AT_ONCE).min((y + 1) * by) {
                columns.iter_mut().zip(plane.row(row)).for_each(|(sum, &v)| *sum += u16::from(v));
            }
            for (o, block) in sums.iter_mut().zip(columns.chunks_exact(by)) {
                *o += block.iter().map(|&v| u32::from(v)).sum::<u32>();
            }
        }
        for (o, sum) in out.row_mut(y).iter_mut().zip(&mut sums) {
            *o = (std::mem::take(sum) / area) as u8;
        }
    }
    out
}

/// Sums over squares of `2 * EVEN + 1` samples, along rows and then down. Of bytes they stay below 2^16.
fn evened<T: Copy + Default + AddAssign + SubAssign>(plane: &Plane<T>) -> Plane<T> {
    let (w, h) = (plane.width(), plane.height());
    let mut across = Plane::filled(w, h, T::default());
    for y in 0..h {
        running(plane.row(y), across.row_mut(y));
    }
    let mut out = Plane::filled(w, h, T::default());
    let mut sum = vec![T::default(); w];
    for y in 0..h + EVEN {
        if y < h {
            sum.iter_mut().zip(across.row(y)).for_each(|(s, &v)| *s += v);
        }
        if y > 2 * EVEN {
            sum.iter_mut().zip(across.row(y - 2 * EVEN - 1)).for_each(|(s, &v)| *s -= v);
        }
        if y >= EVEN {
            out.row_mut(y - EVEN).copy_from_slice(&sum);
        }
    }
    out
}

/// Running sums of a row.
fn running<T: Copy + Default + AddAssign + SubAssign>(row: &[T], out: &mut [T]) {
    let mut sum = T::default();
    for x in 0..row.len() + EVEN {
        sum += row.get(x).copied().unwrap_or_default();
        if x > 2 * EVEN {
            sum -= row[x - 2 * EVEN - 1];
        }
        if x >= EVEN {
            out[x - EVEN] = sum;
        }
    }
}

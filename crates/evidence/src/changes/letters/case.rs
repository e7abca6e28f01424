//! Letters among their like: does what stands in a letter's place print as its kind prints there?
//!
//! Two photographs differ in ink, light and lens, so that a letter is never quite like itself. But the other letters of
//! its kind went the same way: where the first has an n and the second something that is liker what stands in the u's
//! places there than what stands in the n's, the n was exchanged.

use super::{Letter, Shape};
use crate::changes::signs::short_of;

/// The letters of a page, to be looked up by their look.
#[derive(Debug)]
pub(crate) struct Case<'l> {
    letters: Vec<&'l Letter>,
    /// Coarse looks by cut and by impression; `None` of what was not cut out.
    looks: [[Vec<Option<Look>>; 2]; 2],
}

/// How a letter is cut out: the same box on both impressions, or each in a box of its own. The first still holds where
/// letters touch or ink is missing, the second where the two are not of one breadth.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Cut {
    OneBox,
    OwnBoxes,
}

impl Cut {
    const ALL: [Self; 2] = [Self::OneBox, Self::OwnBoxes];

    /// A letter's ink on one impression.
    fn of(self, letter: &Letter, side: usize) -> Option<&Shape> {
        match (self, side) {
            (Self::OneBox, _) => Some(&letter.patches[side]),
            (Self::OwnBoxes, 0) => Some(&letter.first),
            (Self::OwnBoxes, _) => letter.second.as_ref(),
        }
    }
}

/// What stands in a letter's place on one impression, against what stands there in the places of letters of its kind,
/// the kind told by the other impression.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Kin {
    /// Best likeness to one of its kind.
    own: f64,
    /// Best likeness to one of another kind; 0 if there is none.
    other: f64,
    /// How many others of its kind were found.
    count: usize,
}

/// A letter among its like.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Kinship {
    /// Cut out by one box, and by boxes of their own: on the first impression, and on the second.
    kin: [[Kin; 2]; 2],
    /// Best likeness, on the second, to one of its kind turned half round; 0 if there is none.
    pub(crate) turned: f64,
}

impl Kinship {
    /// How much rather, cut out by one box, it is of another kind than of its own, on the first and on the second.
    pub(crate) fn rather(&self) -> [f64; 2] {
        self.kin[0].map(|k| k.rather())
    }

    /// The same, each in a box of its own.
    pub(crate) fn rather_by_own_box(&self) -> [f64; 2] {
        self.kin[1].map(|k| k.rather())
    }

    /// Best likeness to a letter of another kind, on the first and on the second, each in a box of its own.
    pub(crate) fn other(&self) -> [f64; 2] {
        self.kin[1].map(|k| k.other)
    }
}

impl Kin {
    /// Where no other of its kind is found: nothing can be said.
    const UNKNOWN: Self = Self { own: 0.0, other: 0.0, count: 0 };

    /// How much rather it is of another kind than of its own, as logarithms of what the likenesses lack; 0 where that
    /// cannot be said.
    fn rather(&self) -> f64 {
        if self.count == 0 { 0.0 } else { (short_of(self.own) - short_of(self.other)).clamp(-MOST, MOST) }
    }
}

/// Letters that look most like one, of which its kind is told; and rivals that are looked at.
const NEAREST: usize = 10;
const RIVALS: usize = 12;
/// Least likeness of two letters of one kind on one impression. Likenesses that lack up to e^0.5 times what the best
/// lacks are of the same kind, those that lack e^0.9 times as much are of another; between, it cannot be said.
const LEAST_KIN: f64 = 0.7;
const SAME_KIND: f64 = 0.5;
const OTHER_KIND: f64 = 0.9;
/// Beyond this it cannot be more surely of another kind.
const MOST: f64 = 2.5;

impl<'l> Case<'l> {
    /// Of the letters of lines that stand.
    pub(crate) fn of(letters: Vec<&'l Letter>) -> Self {
        let looks = Cut::ALL
            .map(|cut| [0, 1].map(|side| letters.iter().map(|l| cut.of(l, side).map(Look::of)).collect()));
        Self { letters, looks }
    }

    /// A letter, of these or another, among them.
    pub(crate) fn kinship(&self, letter: &Letter) -> Kinship {
        let by_cut = Cut::ALL.map(|cut| {
            let near = [0, 1].map(|side| self.nearest(letter, cut, side));
            let kinds = [0, 1].map(|side| self.kind(letter, cut, &near[side], side));
            let kin = [0, 1].map(|side| self.kin(letter, cut, &kinds[1 - side], &near[side], side));
            (kin, kinds)
        });
        let turned = by_cut[0].1[0].of.iter().filter_map(|&j| {
            Some(self.letters[j].second.as_ref()?.turned().likeness(letter.second.as_ref()?))
        });
        Kinship { turned: turned.fold(0.0, f64::max), kin: by_cut.map(|(kin, _)| kin) }
    }

    /// The letters of its kind, told on impression `side`; `near` are those that look most like it there.
    fn kind(&self, letter: &Letter, cut: Cut, near: &[usize], side: usize) -> Kind {
        let Some(print) = cut.of(letter, side) else { return Kind { of: Vec::new(), lacks: 0.0 } };
        let near = near.iter().take(NEAREST);
        let likenesses: Vec<(usize, f64)> = near.map(|&j| (j, self.likeness(j, print, cut, side))).collect();
        let best = likenesses.iter().map(|l| l.1).fold(-1.0, f64::max);
        let kind = Kind { of: Vec::new(), lacks: short_of(best) };
        if best < LEAST_KIN {
            return kind;
        }
        let of = likenesses.into_iter().filter(|(_, l)| kind.holds(*l)).map(|(j, _)| j).collect();
        Kind { of, ..kind }
    }

    /// What stands on impression `side` in the letter's place against its kind and others, the kind told on the other
    /// impression; `near` are the letters that look most like it on this one.
    fn kin(&self, letter: &Letter, cut: Cut, kind: &Kind, near: &[usize], side: usize) -> Kin {
        let by = 1 - side;
        let (Some(print), Some(told)) = (cut.of(letter, side), cut.of(letter, by)) else {
            return Kin::UNKNOWN;
        };
        let own = kind.of.iter().map(|&j| self.likeness(j, print, cut, side)).reduce(f64::max);
        let Some(own) = own else { return Kin::UNKNOWN };
        let other = near
            .iter()
            .take(RIVALS + kind.of.len())
            .filter(|j| !kind.of.contains(j) && kind.excludes(self.likeness(**j, told, cut, by)))
            .map(|&j| self.likeness(j, print, cut, side))
            .fold(0.0, f64::max);
        Kin { own: own.max(0.0), other, count: kind.of.len() }
    }

    /// Likeness of letter `j` to a print; -1 if it was not cut out.
    fn likeness(&self, j: usize, print: &Shape, cut: Cut, side: usize) -> f64 {
        cut.of(self.letters[j], side).map_or(-1.0, |s| s.likeness(print))
    }

    /// The letters that look most like one on impression `side`, itself left out; most alike first.
    fn nearest(&self, letter: &Letter, cut: Cut, side: usize) -> Vec<usize> {
        let Some(print) = cut.of(letter, side) else { return Vec::new() };
        let look = Look::of(print);
        let mut all: Vec<(f32, usize)> = self
            .letters
            .iter()
            .zip(&self.looks[cut as usize][side])
            .enumerate()
            .filter(|(_, (l, _))| !std::ptr::eq(**l, letter))
            .filter(|(_, (l, _))| cut.of(l, side).is_some_and(|s| s.is_of_size(print)))
            .filter_map(|(j, (_, other))| Some((look.likeness(other.as_ref()?), j)))
            .collect();
        let count = NEAREST + RIVALS;
        if all.len() > count {
            all.select_nth_unstable_by(count - 1, |p, q| q.0.total_cmp(&p.0));
            all.truncate(count);
        }
        all.sort_unstable_by(|p, q| q.0.total_cmp(&p.0));
        all.into_iter().map(|(_, j)| j).collect()
    }
}

/// Letters of one kind, by number.
struct Kind {
    of: Vec<usize>,
    /// What the likeness of the best of them lacks, as a logarithm.
    lacks: f64,
}

impl Kind {
    fn holds(&self, likeness: f64) -> bool {
        short_of(likeness) <= self.lacks + SAME_KIND
    }

    fn excludes(&self, likeness: f64) -> bool {
        short_of(likeness) >= self.lacks + OTHER_KIND
    }
}

/// Cells of a look, across and down.
const ACROSS: usize = 6;
const DOWN: usize = 8;

/// A letter seen coarsely: the ink of its box by cells, less its mean, of length 1.
#[derive(Debug, Clone, PartialEq)]
struct Look([f32; ACROSS * DOWN]);

impl Look {
    fn of(shape: &Shape) -> Self {
        let mut cells = shape.cells::<ACROSS, DOWN, { ACROSS * DOWN }>();
        let mean = cells.iter().sum::<f32>() / cells.len() as f32;
        for v in &mut cells {
            *v -= mean;
        }
        let length = cells.iter().map(|v| v * v).sum::<f32>().sqrt().max(1e-6);
        for v in &mut cells {
            *v /= length;
        }
        Self(cells)
    }

    fn likeness(&self, other: &Self) -> f32 {
        self.0.iter().zip(&other.0).map(|(p, q)| p * q).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::changes::letters::tests::letters_of;
    use sheet::Plane;

    /// Two kinds of letters, ten samples high: an n with its bar above, a u with its bar below.
    #[derive(Clone, Copy)]
    enum Letterform {
        N,
        U,
    }

    /// A line of letters, 20 samples apart; `ink` of 255.
    fn line(kinds: &[Letterform], ink: u8) -> Plane<u8> {
        let mut p = Plane::filled(20 * kinds.len() + 20, 30, 0u8);
        for (&kind, left) in kinds.iter().zip((12..).step_by(20)) {
            for y in 10..20 {
                let bar = match kind {
                    Letterform::N => y < 12,
                    Letterform::U => y >= 18,
                };
                for x in 0..9 {
                    if bar || !(2..7).contains(&x) {
                        p.row_mut(y)[left + x] = ink;
                    }
                }
            }
        }
        p
    }

    #[test]
    fn an_n_put_in_for_a_u_is_rather_an_n() {
        use Letterform::{N, U};
        let first = line(&[N, U, N, U, N, U, N, U], 255);
        let second = line(&[N, U, N, N, N, U, N, U], 200);
        let all = letters_of(&first, &second, 10.0);
        assert_eq!(all.len(), 8);
        let case = Case::of(all.iter().collect());
        let rather = |k: usize| case.kinship(&all[k]).rather();
        assert!(rather(3).iter().all(|&r| r > 1.0), "{:?}", rather(3));
        // Of the n's, one stands where the first has a u: no n is rather an n for that.
        for k in [0, 1, 2, 4, 5, 6, 7] {
            assert!(rather(k).iter().all(|&r| r < 0.1), "{k}: {:?}", rather(k));
        }
        assert!(case.kinship(&all[3]).turned > 0.95, "an n is a u turned half round");
        assert!(case.kinship(&all[0]).turned < 0.9);
    }

    #[test]
    fn of_a_letter_without_its_like_nothing_is_said() {
        let plane = line(&[Letterform::N, Letterform::U], 255);
        let all = letters_of(&plane, &plane, 10.0);
        let kinship = Case::of(all.iter().collect()).kinship(&all[0]);
        assert_eq!((kinship.rather(), kinship.rather_by_own_box()), ([0.0; 2], [0.0; 2]));
    }
}

//! Everything that speaks for or against a place having changed.

use super::letters::{Kinship, Letter, Usual};
use super::page::PageOfWords;
use super::view::View;
use super::word::{DifferingPlace, WordDifference};
use serde::Serialize;
use sheet::Rect;

/// What is seen of a place and about it. Masses are in square x-heights, lengths in x-heights, shares and
/// correlations of 1; logarithms are natural ones.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize)]
pub struct Signs {
    /// Whether sorts stand there in either impression, or in one alone.
    pub two_sided: bool,
    /// Logarithm of the mass of ink in one only: the greater part, in the first or in the second only.
    pub greater: f64,
    /// The same of the lesser part.
    pub lesser: f64,
    /// Logarithm of the mass below which the heaviest places of nine words in ten of the page stay.
    pub noise: f64,
    /// The same of three words in four.
    pub quiet: f64,
    /// How far the greater part is above the page's noise.
    pub above_noise: f64,
    /// How nearly whole letters are gone: missing ink seldom keeps to letters.
    pub whole: f64,
    /// Mean darkness of the ink in one only.
    pub tone: f64,
    /// Ink of the other impression in the same box.
    pub beside: f64,
    /// Correlation of the two in the place and a little about it.
    pub alike: f64,
    /// Share of ink that goes the same way about the place: missing ink does, and a fold.
    pub about: f64,
    /// Share of ink that goes the other way.
    pub about_other: f64,
    /// Ink about the place: how much there is to tell by.
    pub ink_about: f64,
    /// Logarithm of its height.
    pub height: f64,
    /// Logarithm of its breadth.
    pub breadth: f64,
    /// Correlation of the word, less what is usual on the page.
    pub likeness: f64,
    /// Least correlation of a letter's breadth in the word, less what is usual on the page.
    pub least_part: f64,
    /// Correlation of the words of its line, the middle one of them, less what is usual on the page.
    pub line: f64,
    /// 1 where the line could not be judged to stand, nor to have moved whole.
    pub loose: f64,
    /// 1 where the word was found in no one place: it is laid where the paper puts it.
    pub unplaced: f64,
    /// How far short of full likeness, where it fits best, the letter of the first falls that the place takes ink
    /// from.
    pub own_letter: f64,
    /// How many letters the place takes ink from.
    pub own_letters: f64,
    /// Of the letter that the place takes ink from and that looks most like another: how much rather, on the second, it
    /// is of another kind than of its own. 0 of none, as the others about it.
    pub rather_there: f64,
    /// The same on the first, its kind told by the second.
    pub rather_here: f64,
    /// The same of both, each in a box of its own.
    pub rather_there_by_own_box: f64,
    /// The same on the first.
    pub rather_here_by_own_box: f64,
    /// How near to full likeness to a letter of another kind it comes: on the second.
    pub other_there: f64,
    /// The same on the first.
    pub other_here: f64,
    /// How far short of each other's likeness the two fall, each in its own box.
    pub cross: f64,
    /// How near to full likeness it comes on the second, turned half round.
    pub turned: f64,
    /// How near on the second its kind comes to it, turned half round.
    pub turned_kin: f64,
    /// Of its ink, laid where it fits best, the share that stands on one only: the greater.
    pub letter_greater: f64,
    /// The lesser.
    pub letter_lesser: f64,
    /// How much liker itself it is there than where the word puts it.
    pub gain: f64,
    /// How far off that is, to either side.
    pub aside: f64,
    /// How far off, up or down.
    pub up_or_down: f64,
    /// How much liker itself a letter that the place takes ink from is leant over than upright, the most.
    pub lean_gain: f64,
    /// Share of ink that stands in one only straight above and below: a fold goes on.
    pub over_and_under: f64,
    /// How far short of full likeness the page's letters commonly fall.
    pub usual_letter: f64,
    /// The same of the letter beside that is least like itself.
    pub next_letter: f64,
    /// The same of all letters beside.
    pub next_letters: f64,
    /// How many letters are beside.
    pub neighbours: f64,
    /// Best likeness of the letter or point that stands there to another of the page; 0 where it was not asked.
    pub like: f64,
    /// 1 where no letter or point stands there by itself.
    pub no_sign: f64,
    /// 1 where one does that is a small part of the place.
    pub part_sign: f64,
    /// How nearly it is a point that stands by itself: small, in one only and whole, on the baseline or hanging from it,
    /// and like another of the page; 0 to 1.
    pub point: f64,
    /// 1 of a letter that is unlike itself while hardly any ink stands in one only.
    pub thin: f64,
    /// Share of its box that the ink in one only fills: a risen space fills it, a letter does not.
    pub fill: f64,
    /// Its foot below the baseline.
    pub foot: f64,
    /// Its top above the baseline.
    pub top: f64,
    /// From it to the nearest letter.
    pub gap: f64,
    /// Words with a differing place in a straight line with it, in the direction that has most.
    pub in_line: f64,
    /// How many more that is than in the middle one of all directions.
    pub in_line_above: f64,
    /// Words in line in that middle one.
    pub in_line_usual: f64,
    /// From it to the nearest crease.
    pub crease: f64,
    /// From it to the nearest fold that the paper shows, on either photograph.
    pub fold: f64,
    /// Logarithm of the x-height in pixels.
    pub pixels: f64,
    /// Log odds that a small network gives by both impressions about the place alone.
    pub by_view: f64,
}

/// Where a place stands.
#[derive(Debug, Clone, Copy)]
pub(super) struct Standpoint {
    /// Number of its line among the page's, and of its word in the line.
    pub(super) line: usize,
    pub(super) word: usize,
    /// Correlation of the line's words, the middle one of them, less what is usual on the page.
    pub(super) likeness: f64,
    /// Whether the line stands or was moved whole, and whether the word was found in one place.
    pub(super) stands: bool,
    pub(super) is_placed: bool,
    /// Height of its baseline, pixels.
    pub(super) baseline: f64,
    /// x-height of its line, pixels.
    pub(super) x_height: f64,
}

/// Whether what stands in a place has its like on the page.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Like {
    /// Too light to be a letter or a point.
    Unasked,
    /// No letter or point stands there by itself.
    Nothing,
    /// One does, but it is a small part of the place.
    Part,
    /// Best likeness to another.
    To(f64),
}

/// A place has ink in one only, or in either, if the lesser part is this share of the greater.
const TWO_SIDED: f64 = 0.25;
/// A little mass, square x-heights, so that none has a logarithm; and a little length, x-heights.
const LITTLE: f64 = 0.01;
const SHORT: f64 = 0.05;
/// Likeness of letters to themselves where a page has too few to tell.
const COMMON_LIKENESS: f64 = 0.9;
/// Shares of ink that goes astray about a place, and square x-heights of ink there, beyond which more says no more.
const ASTRAY: f64 = 0.4;
const INK_ABOUT: f64 = 3.0;
/// Farther from a crease, or off its place, in x-heights, says no more.
const FAR_FROM_CREASE: f64 = 6.0;
const FARTHEST: f64 = 0.4;
/// A letter that lacks less than e to this power of full likeness is not asked whether it was turned; and of one that
/// is asked, likeness turned half round speaks so much less than likeness to another kind.
const UPRIGHT: f64 = -1.6;
const NEARLY: f64 = 1.0;
/// What a letter lacks of full likeness that is not asked.
const ITSELF: f64 = -3.0;
/// A view alone says no more than this, log odds.
const MOST_BY_VIEW: f64 = 8.0;
/// Letters are beside a place within this distance, in x-heights.
const BESIDE: f64 = 2.0;

impl Signs {
    // Values beyond those at which a sign has said what it can say are cut off: a few far ones would lead a regression.
    /// Of a place of a word, found at `at` and lying `there` on the second photograph; `kinship` is that of the word's letters, as far as it was asked.
    pub(super) fn of(
        (place, view): (&DifferingPlace, &View),
        seen: &WordDifference,
        kinship: &[Option<Kinship>],
        page: &PageOfWords,
        there: Rect,
        at: Standpoint,
    ) -> Self {
        let x_height = at.x_height;
        let letters = LettersAbout::of(place, seen, kinship, x_height);
        let (more, less) = (place.lost.max(place.gained), place.lost.min(place.gained));
        let (greater, noise) = ((more + LITTLE).ln(), page.noise_on_log());
        let around = page.around(place.bounds, x_height);
        let (about, about_other) = if place.lost >= place.gained {
            (around.lost, around.gained)
        } else {
            (around.gained, around.lost)
        };
        let in_line = page.aligned(place.bounds, [at.line, at.word], x_height);
        let like = page.like(place, seen, x_height);
        let signs = Self {
            two_sided: place.letter.is_some() || less > TWO_SIDED * more,
            greater,
            lesser: (less + LITTLE).ln(),
            noise,
            quiet: page.quiet_on_log(),
            above_noise: greater - noise,
            whole: (place.whole[0] * place.lost + place.whole[1] * place.gained)
                / (place.lost + place.gained).max(1e-9),
            tone: place.tone,
            beside: place.beside.min(0.3),
            alike: place.alike,
            about: about.min(ASTRAY),
            about_other: about_other.min(ASTRAY),
            ink_about: around.ink.min(INK_ABOUT),
            height: (place.bounds.h / x_height + SHORT).ln(),
            breadth: (place.bounds.w / x_height + SHORT).ln(),
            likeness: (seen.likeness - page.likeness).max(-0.6),
            least_part: (seen.least_part - page.least_part).max(-1.0),
            line: at.likeness.clamp(-0.6, 0.1),
            loose: f64::from(u8::from(!at.stands)),
            unplaced: f64::from(u8::from(!at.is_placed)),
            own_letter: short_of(letters.own),
            own_letters: letters.owned.min(2) as f64,
            rather_there: letters.other.rather[1],
            rather_here: letters.other.rather[0],
            rather_there_by_own_box: letters.other.by_own_box[1],
            rather_here_by_own_box: letters.other.by_own_box[0],
            other_there: letters.other.another[1],
            other_here: letters.other.another[0],
            cross: letters.other.cross,
            turned: letters.other.turned[0],
            turned_kin: letters.other.turned[1],
            letter_greater: letters.other.astray[0].max(letters.other.astray[1]),
            letter_lesser: letters.other.astray[0].min(letters.other.astray[1]),
            gain: letters.other.gain.min(0.5),
            aside: letters.other.off[0].min(FARTHEST),
            up_or_down: letters.other.off[1].min(FARTHEST),
            lean_gain: letters.lean_gain.clamp(0.0, 0.4),
            over_and_under: around.up.clamp(-0.05, 0.3),
            usual_letter: short_of(page.letters.map_or(COMMON_LIKENESS, Usual::likeness)),
            next_letter: short_of(letters.least),
            next_letters: short_of(letters.mean),
            neighbours: letters.beside.min(3) as f64,
            like: if let Like::To(v) = like { v.max(0.0) } else { 0.0 },
            no_sign: f64::from(u8::from(like == Like::Nothing)),
            part_sign: f64::from(u8::from(like == Like::Part)),
            point: 0.0,
            thin: f64::from(u8::from(place.letter.is_some())),
            fill: place.fill,
            foot: ((place.bounds.bottom() - at.baseline) / x_height).clamp(-1.5, 0.8),
            top: ((at.baseline - place.bounds.y) / x_height).clamp(-0.5, 1.8),
            gap: (letters.gap / x_height).min(1.0),
            in_line: in_line.most,
            in_line_above: in_line.most - in_line.usual,
            in_line_usual: in_line.usual,
            crease: page.to_crease(place.bounds.centre(), x_height).min(FAR_FROM_CREASE),
            fold: page.to_fold(place.bounds, there, x_height).min(FAR_FROM_CREASE),
            pixels: x_height.ln(),
            by_view: view.log_odds().clamp(-MOST_BY_VIEW, MOST_BY_VIEW),
        };
        Self { point: signs.pointedness(), ..signs }
    }

    /// How nearly it is a point that stands by itself.
    fn pointedness(&self) -> f64 {
        if self.two_sided || self.part_sign > 0.0 || self.no_sign > 0.0 {
            return 0.0;
        }
        let rises = |v: f64, from: f64, to: f64| ((v - from) / (to - from)).clamp(0.0, 1.0);
        // 1 between the two lengths, and 0 so much beyond them.
        let within = |v: f64, [least, most]: [f64; 2], beyond: f64| {
            (1.0 - (least - v).max(v - most).max(0.0) / beyond).clamp(0.0, 1.0)
        };
        rises(self.like, 0.5, 0.9)
            * rises(self.whole, 0.7, 1.0)
            * within(self.breadth.exp() - SHORT, [0.1, 0.6], 0.1)
            * within(self.height.exp() - SHORT, [0.15, 1.5], 0.2)
            * within(self.foot, [-0.2, 0.55], 0.1)
            * within(self.top, [0.05, 1.1], 0.2)
    }
}

/// What speaks for another letter's standing in one's place.
#[derive(Debug, Clone, Copy)]
struct Other {
    /// How much rather it is of another kind, on the first and on the second.
    rather: [f64; 2],
    by_own_box: [f64; 2],
    another: [f64; 2],
    cross: f64,
    /// How near to full likeness the first, and its kind on the second, come turned half round.
    turned: [f64; 2],
    astray: [f64; 2],
    gain: f64,
    off: [f64; 2],
}

impl Other {
    /// Where no letter is asked: what is there is itself.
    const NONE: Self = Self {
        rather: [0.0; 2],
        by_own_box: [0.0; 2],
        another: [0.0; 2],
        cross: ITSELF,
        turned: [0.0; 2],
        astray: [0.0; 2],
        gain: 0.0,
        off: [0.0; 2],
    };

    /// Of the letter of which most speaks for it; those much like themselves have no kinship.
    fn most<'l>(letters: impl Iterator<Item = (&'l Letter, &'l Option<Kinship>)>) -> Self {
        let asked = letters.filter_map(|(l, k)| Some((l, k.as_ref()?)));
        let all = asked.map(|(l, k)| {
            let near = |likeness: f64| -short_of(likeness);
            let other = Self {
                rather: k.rather(),
                by_own_box: k.rather_by_own_box(),
                another: k.other().map(near),
                cross: -near(l.cross()),
                turned: [near(l.turned()), near(k.turned)],
                astray: l.astray(),
                gain: l.gain(),
                off: l.off().map(f64::abs),
            };
            let turned = if short_of(l.likeness()) > UPRIGHT { other.turned[0] - NEARLY } else { 0.0 };
            (other.rather.into_iter().chain(other.by_own_box).fold(turned, f64::max), other)
        });
        all.max_by(|p, q| p.0.total_cmp(&q.0)).map_or(Self::NONE, |(_, other)| other)
    }
}

/// The letters of a word about a place.
struct LettersAbout {
    /// Likeness to itself of the one least so that the place takes ink from; 1 of none.
    own: f64,
    owned: usize,
    /// The most by which one of them is liker itself leant over.
    lean_gain: f64,
    other: Other,
    /// Of those beside: the least, and the mean.
    least: f64,
    mean: f64,
    beside: usize,
    /// From the place to the nearest letter to the left or the right, pixels.
    gap: f64,
}

impl LettersAbout {
    fn of(place: &DifferingPlace, seen: &WordDifference, kinship: &[Option<Kinship>], x_height: f64) -> Self {
        let at = place.bounds;
        let (own, others): (Vec<&Letter>, Vec<&Letter>) =
            seen.letters.iter().partition(|l| l.bounds.shared(at).is_some());
        let near = at.grown(BESIDE * x_height);
        let beside: Vec<f64> = others
            .iter()
            .filter(|l| l.bounds.x < near.right() && l.bounds.right() > near.x)
            .map(|l| l.likeness())
            .collect();
        let least = |all: &mut dyn Iterator<Item = f64>| all.fold(1.0, f64::min);
        let gaps = seen.letters.iter().flat_map(|l| [at.x - l.bounds.right(), l.bounds.x - at.right()]);
        Self {
            own: least(&mut own.iter().map(|l| l.likeness())),
            owned: own.len(),
            lean_gain: own.iter().map(|l| l.lean_gain()).fold(0.0, f64::max),
            other: Other::most(
                seen.letters.iter().zip(kinship).filter(|(l, _)| l.bounds.shared(at).is_some()),
            ),
            least: least(&mut beside.iter().copied()),
            mean: match beside.len() {
                0 => COMMON_LIKENESS,
                n => beside.iter().sum::<f64>() / n as f64,
            },
            beside: beside.len(),
            // Boxes may share a sample's breadth.
            gap: gaps.filter(|g| *g >= -1.0).fold(f64::INFINITY, f64::min),
        }
    }
}

/// How far short of full likeness, as a logarithm: 0.9 and 0.95 are as far apart as 0.6 and 0.8.
pub(super) fn short_of(likeness: f64) -> f64 {
    (1.03 - likeness.clamp(0.0, 1.0)).ln()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_comma_is_a_point_and_a_letter_is_none() {
        let comma = Signs {
            like: 0.95,
            whole: 1.0,
            breadth: 0.4f64.ln(),
            height: 0.7f64.ln(),
            foot: 0.4,
            top: 0.25,
            ..Signs::default()
        };
        assert!(comma.pointedness() > 0.99);
        assert!(Signs { foot: -0.7, top: 1.2, ..comma }.pointedness() < 0.01, "above the letters");
        assert!(Signs { breadth: 0.0, ..comma }.pointedness() < 0.01, "as broad as an n");
        assert!(Signs { whole: 0.6, ..comma }.pointedness() < 0.01, "a part of a letter");
        assert!(Signs { two_sided: true, ..comma }.pointedness() < 0.01);
    }
}

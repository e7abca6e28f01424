//! The places that differ, word by word.
//!
//! Each word's ink is laid on itself ([`word`]); what stands in one impression only is a place. What is seen of a
//! place and about it are its signs ([`signs`]), and a regression on them says how surely something was done to the
//! type there ([`score`]). Letters that are unlike themselves, or off their line, are looked for beside ([`letters`]).

mod added;
mod aligned;
mod around;

mod letters;
mod moved;
mod page;
mod score;
mod signs;
mod spread;
mod together;
mod view;
mod weighed;
mod word;

use crate::reading::Reading;
use crate::record::{Change, ChangeClass, box_px, to_thousandths};
use crate::standing::Standing;
use rayon::prelude::*;
use register::{Followed, Laid};
use sheet::{Point, Rect};

pub use letters::LetterSigns;
pub(crate) use letters::letter_boxes;
use letters::{Case, Kinship, Letter};
use page::PageOfWords;
pub(crate) use score::logistic;
pub use signs::Signs;
use signs::{Standpoint, short_of};
use view::Picture;
pub use view::View;
pub use weighed::{Weighed, WeighedLetter, WeighedPlace};
use word::DifferingPlace;

/// A word of the first photograph with what is known of it on the second.
#[derive(Debug, Clone, Copy)]
pub(crate) struct WordAtHand {
    pub(crate) bounds: Rect,
    /// Height of its baseline, pixels.
    pub(crate) foot: f64,
    pub(crate) found: Option<Followed>,
    pub(crate) is_found: bool,
    /// A crease runs through it.
    pub(crate) astride: bool,
    pub(crate) drift_along: Option<f64>,
    pub(crate) drift_sd: f64,
}

impl WordAtHand {
    /// Where it was found, if in one place: one that was not is laid where the paper puts it.
    fn placed(&self) -> Option<Followed> {
        self.found.filter(|_| self.is_found && !self.astride)
    }

    /// Its displacement by itself against the paper's, pixels of the first.
    fn own_shift(&self, laid: &Laid) -> Point {
        self.placed().map_or(Point::new(0.0, 0.0), |f| f.shift - laid.map.paper.at(f.at).0)
    }
}

/// A line of words.
#[derive(Debug, Clone)]
pub(crate) struct LineOfWords {
    pub(crate) standing: Standing,
    pub(crate) x_height: f64,
    pub(crate) words: Vec<WordAtHand>,
}

impl LineOfWords {
    /// Its words are spaced as they were: what was done was done to single sorts, or to the line as a whole.
    fn stands(&self) -> bool {
        matches!(self.standing, Standing::Same | Standing::Moved)
    }
}

/// The places that differ: those that move the verdict, and those that are doubtful.
#[derive(Debug, Clone, Default)]
pub(crate) struct Judged {
    pub(crate) sure: Vec<Change>,
    pub(crate) doubtful: Vec<Change>,
    /// Line by line, how like its words are against the lines that stand.
    pub(crate) likeness: Vec<Option<f64>>,
    /// Everything that was weighed.
    pub(crate) weighed: Weighed,
}

/// Score from which a place moves the verdict.
pub(crate) const SURE: f64 = 0.5;
/// Score of what may be the paper's doing: it is looked at, no more.
pub(crate) const DOUBTFUL: f64 = 0.4;
/// Score below which a place is not worth a look.
const WORTH_A_LOOK: f64 = 0.1;
/// How much less like itself than usual, as the median of its words, an unjudged line may be whose letters are looked at
/// one by one: of a line too short or too pale to be judged by its spaces the sorts can still be.
const LEAST_ITSELF: f64 = -0.1;
/// A letter is looked up among its like if its likeness lacks e to this power times what the median letter's lacks. Of
/// letters that were exchanged five in six lack so much, or have a neighbour's box; of others two in seven.
const UNLIKE_ITSELF: f64 = 0.3;
/// Words from which a line that can neither be judged nor lies on itself is looked at: of a few, pieces of a heading's
/// large letters may have been read as a line of the text.
const FEWEST_TO_LOOK: usize = 3;
/// A letter with hardly any ink in one only is weighed as a place if it lacks so much more.
const MUCH_UNLIKE: f64 = 0.6;
/// Boxes are shown a little larger than the ink that differs, and than a letter, in x-heights.
const ABOUT_A_PLACE: f64 = 0.15;
const ABOUT_A_LETTER: f64 = 0.1;

/// Judges every word of every line that stands, then the second photograph's words that have no
/// counterpart.
pub(crate) fn judge(a: &Reading, b: &Reading, laid: &Laid, lines: &[LineOfWords], x_height: f64) -> Judged {
    let page = PageOfWords::of(a, b, laid, lines, x_height);
    let moved_lines = lines.iter().filter(|l| l.standing == Standing::Moved);
    let moved = moved_lines.flat_map(|l| l.words.iter().map(|w| w.bounds)).collect();
    let at_hand = AtHand { a, b, laid, case: Case::of(page.letters_that_stand(lines)), page: &page, moved };
    let of_lines: Vec<Found> = lines.par_iter().enumerate().map(|(i, line)| at_hand.line(line, i)).collect();
    let (mut found, mut weighed) = (Vec::new(), Weighed::default());
    for of_line in of_lines {
        found.extend(of_line.changes);
        weighed.places.extend(of_line.weighed.places);
        weighed.letters.extend(of_line.weighed.letters);
    }
    found.extend(added::added(a, b, laid, x_height));
    if [a, b].iter().any(|side| !side.letters_are_legible()) {
        for change in &mut found {
            change.score = change.score.min(DOUBTFUL);
        }
    }
    let found = together::without_doubles(found);
    let (sure, doubtful) = found.into_iter().partition(|c| c.score >= SURE && c.class.moves_the_verdict());
    Judged { sure: together::joined(sure, x_height), doubtful, likeness: page.likeness_of_lines(), weighed }
}

/// What was found in the words of a line.
#[derive(Debug, Default)]
struct Found {
    changes: Vec<Change>,
    weighed: Weighed,
}

/// All that a word is judged by.
struct AtHand<'p> {
    a: &'p Reading,
    b: &'p Reading,
    laid: &'p Laid,
    page: &'p PageOfWords,
    /// The letters of lines that stand.
    case: Case<'p>,
    /// The words of lines that were moved whole.
    moved: Vec<Rect>,
}

impl AtHand<'_> {
    /// Judges the words of line `i`.
    fn line(&self, line: &LineOfWords, i: usize) -> Found {
        let mut found = Found::default();
        let likeness = self.page.likeness_of(i);
        let is_itself = likeness.is_some_and(|l| l > LEAST_ITSELF);
        if line.standing == Standing::Unjudged && !is_itself && line.words.len() < FEWEST_TO_LOOK {
            return found;
        }
        // Of a line that is spaced otherwise, or does not lie on itself, the words' ink is compared, their places and
        // single letters are not.
        let by_letters = line.stands() || line.standing == Standing::Unjudged && is_itself;
        for k in 0..line.words.len() {
            self.word(line, [i, k], (by_letters, likeness.unwrap_or(0.0)), &mut found);
        }
        found
    }

    /// Judges word `k` of line `i`: whether it moved, the places where its ink differs, and its letters one by one.
    /// `by_letters`: its place in the line and its single letters too; `likeness` is its line's.
    fn word(
        &self,
        line: &LineOfWords,
        [i, k]: [usize; 2],
        (by_letters, likeness): (bool, f64),
        found: &mut Found,
    ) {
        let Some(seen) = &self.page.differences[i][k] else { return };
        let word = &line.words[k];
        let own = word.own_shift(self.laid);
        // Print slides into a fold: what seems to have moved beside one may have stood.
        let is_folded =
            |place: Rect| self.page.is_folded(place, on_second(place, own, self.laid), line.x_height);
        let mut note = |(class, score): (ChangeClass, f64), place: Rect| {
            if score >= WORTH_A_LOOK {
                found.changes.push(in_line(i, class, score, place, own, self.laid));
            }
        };
        let by_a_fold = || is_folded(word.bounds);
        if by_letters && let Some(moved) = moved::moved(line, k, by_a_fold, self.a, self.b, self.laid) {
            note(moved, word.bounds);
            if moved.1 >= SURE {
                return;
            }
        }
        let at = Standpoint {
            line: i,
            word: k,
            likeness,
            stands: line.stands(),
            is_placed: word.placed().is_some(),
            baseline: word.foot,
            x_height: line.x_height,
        };
        let usual = self.usual_letter();
        let worth = |p: &DifferingPlace| {
            p.letter.is_none_or(|l| usual.is_some_and(|u| short_of(l) > u + MUCH_UNLIKE))
        };
        let places: Vec<(&DifferingPlace, &Picture)> =
            seen.places.iter().zip(&seen.pictures).filter(|(p, _)| worth(p)).collect();
        // Of letters that no place takes ink from nothing is asked.
        let is_asked = |l: &Letter| places.iter().any(|(p, _)| l.bounds.shared(p.bounds).is_some());
        let kinship: Vec<Option<Kinship>> =
            seen.letters.iter().map(|l| if is_asked(l) { self.kinship(l) } else { None }).collect();
        for (place, close) in places {
            let middle = place.bounds.centre();
            let about = Picture::about([self.a, self.b], self.laid, middle, own, line.x_height);
            let view = View::new(close.clone(), about);
            let there = on_second(place.bounds, own, self.laid);
            let signs = Signs::of((place, &view), seen, &kinship, self.page, there, at);
            let mut judged = score::judge(place, &signs);
            if self.moved.iter().any(|w| w.holds(middle)) {
                // The line is said to have moved; its neighbours, which did not, hang into its words, and its words
                // into theirs.
                judged.1 = judged.1.min(DOUBTFUL);
            }
            note(judged, place.bounds.grown(ABOUT_A_PLACE * line.x_height));
            found.weighed.places.push(WeighedPlace {
                bounds: place.bounds,
                there,
                mass: place.lost + place.gained,
                signs,
                view,
                score: judged.1,
            });
        }
        if line.standing != Standing::Same {
            return;
        }
        for (n, letter) in seen.letters.iter().enumerate() {
            let there = on_second(letter.bounds, own, self.laid);
            let Some(signs) = LetterSigns::of(seen, n, self.page, there, line.x_height) else {
                continue;
            };
            let judged = score::judge_letter(&signs);
            let score = if is_folded(letter.bounds) { judged.min(DOUBTFUL) } else { judged };
            note((ChangeClass::SortMoved, score), letter.bounds.grown(ABOUT_A_LETTER * line.x_height));
            found.weighed.letters.push(WeighedLetter { bounds: letter.bounds, there, signs, score });
        }
    }

    /// A letter among its like, if it is not much like itself.
    fn kinship(&self, letter: &Letter) -> Option<Kinship> {
        (short_of(letter.likeness()) > self.usual_letter()? + UNLIKE_ITSELF)
            .then(|| self.case.kinship(letter))
    }

    /// How far short of full likeness the page's letters commonly fall.
    fn usual_letter(&self) -> Option<f64> {
        self.page.letters.map(|l| short_of(l.likeness()))
    }
}

/// Where a place of the first photograph lies on the second: where the paper puts it and `own`, the displacement of
/// its word by itself.
fn on_second(place: Rect, own: Point, laid: &Laid) -> Rect {
    Rect::around(place.corners().map(|p| laid.map.to_b(p + own))).unwrap_or(place)
}

/// A place of the first photograph that differs, in the line of index `line`; for `own` see [`on_second`].
pub(crate) fn in_line(
    line: usize,
    class: ChangeClass,
    score: f64,
    place: Rect,
    own: Point,
    laid: &Laid,
) -> Change {
    Change {
        class,
        score: to_thousandths(score),
        box_a_px: box_px(place),
        box_b_px: box_px(on_second(place, own, laid)),
        size_mm: None,
        size_x_heights: None,
        line: Some(line + 1),
    }
}

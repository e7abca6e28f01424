//! Single changes in a line of standing type, as made with bodkin and composing stick.

use sheet::{Degrees, Mm, Rect};

use super::ChangeClass;
use crate::chance::Chance;
use crate::compose::{ComposeError, Hand, THIN};
use crate::fount::reading;
use crate::setting::{Fill, Line, Sort, Word};
use crate::text::{Style, Token};

/// What was done: the word that it was done to, and where it was and is, to be looked up in the line before and after.
#[derive(Debug, Clone, Copy)]
pub(super) struct Done {
    pub(super) word: Option<usize>,
    pub(super) before: Option<Place>,
    pub(super) after: Option<Place>,
}

/// A part of a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Place {
    Line,
    Word(usize),
    Sort(usize, usize),
}

impl Place {
    /// Its box in a line that is laid.
    pub(super) fn bounds(self, line: &Line) -> Option<Rect> {
        match self {
            Self::Line => line.bounds(),
            Self::Word(w) => line.words.get(w)?.bounds(),
            Self::Sort(w, s) => line.words.get(w)?.sorts.get(s).map(Sort::bounds),
        }
    }
}

/// Letters that foul case or a tired eye puts for each other; the second is what was put for the first.
const CONFUSED: [(char, &str); 14] = [
    ('a', "oe"),
    ('b', "hd"),
    ('c', "et"),
    ('d', "bh"),
    ('e', "cao"),
    ('f', "\u{17f}t"),
    ('h', "bn"),
    ('i', "tl"),
    ('m', "nw"),
    ('n', "umr"),
    ('o', "ae"),
    ('r', "tn"),
    ('t', "rl"),
    ('u', "na"),
];

/// Letters that look much the same upside down; turning them would change nothing to speak of.
const UNTURNABLE: &str = "osxzlOSXZHINi-:";

/// Does one thing to a line; `None` when the line does not allow it. The line is laid again.
pub(super) fn edit(
    class: ChangeClass,
    line: &mut Line,
    spare_words: &[String],
    hand: &mut Hand<'_>,
    chance: &mut Chance,
) -> Result<Option<Done>, ComposeError> {
    let done = match class {
        ChangeClass::LetterChanged => letter_changed(line, hand, chance)?,
        ChangeClass::LetterTurned => letter_turned(line, chance),
        ChangeClass::WordChanged => word_changed(line, spare_words, hand, chance)?,
        ChangeClass::WordMoved => word_moved(line, chance),
        ChangeClass::PointAdded => point_added(line, hand, chance)?,
        ChangeClass::PointRemoved => point_removed(line, chance),
        ChangeClass::SortLost => sort_lost(line, chance),
        ChangeClass::SortShifted => sort_shifted(line, chance),
        ChangeClass::LineMoved => Some(line_moved(line, chance)),
        ChangeClass::LineReset => None,
    };
    line.lay();
    Ok(done)
}

/// Takes up `delta` mm of more (or less) type after word `word`: in the next gap when it bears it, else
/// in all gaps alike. False, with nothing done, when the line has no room.
fn take_up(line: &mut Line, word: usize, delta: f64) -> bool {
    let least = 0.85 * THIN * line.body.0;
    if line.fill != Fill::Justified {
        return line.set_width().0 <= line.width.0;
    }
    let n = line.gaps.len();
    if n == 0 {
        return false;
    }
    let near = word.min(n - 1);
    if delta.abs() < 0.4 * line.body.0 && line.gaps[near].0 - delta > least {
        line.gaps[near].0 -= delta;
        return true;
    }
    let each = delta / n as f64;
    if line.gaps.iter().any(|g| g.0 - each < least) {
        return false;
    }
    line.gaps.iter_mut().for_each(|g| g.0 -= each);
    true
}

/// A sort of the line that a rule accepts, as (word, place in the word).
fn pick_sort(
    line: &Line,
    chance: &mut Chance,
    fits: impl Fn(&Word, &Sort) -> bool,
) -> Option<(usize, usize)> {
    let all: Vec<(usize, usize)> = line
        .words
        .iter()
        .enumerate()
        .flat_map(|(w, word)| {
            word.sorts.iter().enumerate().filter(|(_, s)| fits(word, s)).map(move |(i, _)| (w, i))
        })
        .collect();
    (!all.is_empty()).then(|| *chance.pick(&all))
}

fn letter_changed(
    line: &mut Line,
    hand: &mut Hand<'_>,
    chance: &mut Chance,
) -> Result<Option<Done>, ComposeError> {
    let known = |s: &Sort| CONFUSED.iter().find(|(letter, _)| *letter == s.glyph);
    let Some((w, i)) = pick_sort(line, chance, |word, s| word.sorts.len() > 2 && known(s).is_some()) else {
        return Ok(None);
    };
    let old = line.words[w].sorts[i].clone();
    let others: Vec<char> = known(&old).map(|(_, o)| o.chars().collect()).unwrap_or_default();
    let new = hand.sort(*chance.pick(&others), old.face, old.body, 0.0)?;
    let delta = new.width.0 - old.width.0;
    line.words[w].sorts[i] = new;
    if !take_up(line, w, delta) {
        line.words[w].sorts[i] = old;
        return Ok(None);
    }
    line.words[w].reread();
    Ok(Some(Done { word: Some(w), before: Some(Place::Sort(w, i)), after: Some(Place::Sort(w, i)) }))
}

fn letter_turned(line: &mut Line, chance: &mut Chance) -> Option<Done> {
    let (w, i) = pick_sort(line, chance, |_, s| s.glyph.is_alphabetic() && !UNTURNABLE.contains(s.glyph))?;
    let sort = &mut line.words[w].sorts[i];
    sort.upside_down = !sort.upside_down;
    Some(Done { word: Some(w), before: Some(Place::Sort(w, i)), after: Some(Place::Sort(w, i)) })
}

fn word_changed(
    line: &mut Line,
    spare: &[String],
    hand: &mut Hand<'_>,
    chance: &mut Chance,
) -> Result<Option<Done>, ComposeError> {
    let plain =
        |w: &Word| w.style == Style::Roman && w.part == 0 && w.sorts.len() > 2 && !w.text.ends_with('-');
    let candidates: Vec<usize> = (1..line.words.len()).filter(|&i| plain(&line.words[i])).collect();
    if candidates.is_empty() || spare.is_empty() {
        return Ok(None);
    }
    for _ in 0..12 {
        let w = *chance.pick(&candidates);
        let old = line.words[w].clone();
        let points: String = old.text.chars().rev().take_while(|c| !c.is_alphabetic()).collect();
        let points: String = points.chars().rev().collect();
        let text = format!("{}{points}", chance.pick(spare));
        let Some(sort) = old.sorts.first() else { continue };
        let (face, body) = (sort.face, sort.body);
        let token = Token { id: old.token, text, style: Style::Roman };
        let new = hand.word(&token, 0, face, body)?;
        let delta = new.width().0 - old.width().0;
        let same = new.text == old.text || delta.abs() < 0.3;
        line.words[w] = new;
        if !same && take_up(line, w, delta) {
            return Ok(Some(Done {
                word: Some(w),
                before: Some(Place::Word(w)),
                after: Some(Place::Word(w)),
            }));
        }
        line.words[w] = old;
    }
    Ok(None)
}

fn word_moved(line: &mut Line, chance: &mut Chance) -> Option<Done> {
    let least = THIN * line.body.0;
    let way = if chance.happens(0.5) { 1.0 } else { -1.0 };
    let by = chance.between(0.3, 0.8);
    let shrinks = |w: usize| if way > 0.0 { w } else { w - 1 };
    let room = |w: usize| line.gaps.get(shrinks(w)).is_some_and(|g| g.0 - by > least);
    let able: Vec<usize> = (1..line.words.len().saturating_sub(1)).filter(|&w| room(w)).collect();
    if able.is_empty() {
        return None;
    }
    let w = *chance.pick(&able);
    line.gaps[w - 1].0 += way * by;
    line.gaps[w].0 -= way * by;
    Some(Done { word: Some(w), before: Some(Place::Word(w)), after: Some(Place::Word(w)) })
}

fn point_added(
    line: &mut Line,
    hand: &mut Hand<'_>,
    chance: &mut Chance,
) -> Result<Option<Done>, ComposeError> {
    let bare: Vec<usize> =
        (0..line.words.len()).filter(|&i| line.words[i].text.ends_with(char::is_alphabetic)).collect();
    if bare.is_empty() {
        return Ok(None);
    }
    let w = *chance.pick(&bare);
    let Some(last) = line.words[w].sorts.last() else { return Ok(None) };
    let (face, body) = (last.face, last.body);
    let point = hand.sort(*chance.pick(&[',', ',', ';', '.', ':']), face, body, 0.0)?;
    let width = point.width.0;
    line.words[w].sorts.push(point);
    if !take_up(line, w, width) {
        line.words[w].sorts.pop();
        return Ok(None);
    }
    line.words[w].reread();
    let i = line.words[w].sorts.len() - 1;
    Ok(Some(Done { word: Some(w), before: None, after: Some(Place::Sort(w, i)) }))
}

fn point_removed(line: &mut Line, chance: &mut Chance) -> Option<Done> {
    let pointed: Vec<usize> = (0..line.words.len())
        .filter(|&i| line.words[i].sorts.len() > 1 && line.words[i].text.ends_with([',', ';', '.', ':']))
        .collect();
    if pointed.is_empty() {
        return None;
    }
    let w = *chance.pick(&pointed);
    let gone = line.words[w].sorts.pop()?;
    if !take_up(line, w, -gone.width.0) {
        line.words[w].sorts.push(gone);
        return None;
    }
    line.words[w].reread();
    Some(Done { word: Some(w), before: Some(Place::Sort(w, line.words[w].sorts.len())), after: None })
}

fn sort_lost(line: &mut Line, chance: &mut Chance) -> Option<Done> {
    let (w, i) = pick_sort(line, chance, |word, s| word.sorts.len() > 2 && s.glyph.is_alphabetic())?;
    let i = i.max(1);
    let gone = line.words[w].sorts.remove(i);
    // Its place stays empty: the sort before it takes the room.
    line.words[w].sorts[i - 1].width = Mm(line.words[w].sorts[i - 1].width.0 + gone.width.0);
    line.words[w].reread();
    Some(Done { word: Some(w), before: Some(Place::Sort(w, i)), after: None })
}

fn sort_shifted(line: &mut Line, chance: &mut Chance) -> Option<Done> {
    let (w, i) = pick_sort(line, chance, |_, s| s.glyph.is_alphabetic() && !reading(s.glyph).is_empty())?;
    let sort = &mut line.words[w].sorts[i];
    if chance.happens(0.6) {
        let way = if chance.happens(0.5) { 1.0 } else { -1.0 };
        sort.shift.y += way * chance.between(0.08, 0.14) * sort.body.0;
    } else {
        let way = if chance.happens(0.5) { 1.0 } else { -1.0 };
        sort.turn = Degrees(sort.turn.0 + way * chance.between(8.0, 15.0));
    }
    Some(Done { word: Some(w), before: Some(Place::Sort(w, i)), after: Some(Place::Sort(w, i)) })
}

fn line_moved(line: &mut Line, chance: &mut Chance) -> Done {
    let way = if chance.happens(0.5) { 1.0 } else { -1.0 };
    line.baseline = Mm(line.baseline.0 + way * chance.between(0.07, 0.12) * line.body.0);
    Done { word: None, before: Some(Place::Line), after: Some(Place::Line) }
}

//! Correction at press: the forme is stopped, a few places are changed, and printing goes on.

use super::edit::{Done, edit};
use super::{Change, ChangeClass, next_id};
use crate::chance::Chance;
use crate::compose::{ComposeError, Hand};
use crate::fount::Founts;
use crate::setting::{Line, Setting};
use crate::text::{Role, Style};

/// Of a line corrected throughout so many words are left alone for each that something is done to.
const LEFT_ALONE: usize = 2;

impl Setting {
    /// The same setting with these things done to it, each in a line of its own; what no line allows is
    /// left undone, so the list of changes may be shorter than that of the wishes.
    ///
    /// # Errors
    /// [`ComposeError::NoSort`] when a fount lacks a sort that is to be put in.
    pub fn corrected(
        &self,
        founts: &Founts,
        wishes: &[ChangeClass],
        seed: u64,
    ) -> Result<(Self, Vec<Change>), ComposeError> {
        let mut at_press = AtPress::of(self, founts, seed);
        let mut open = self.text_lines();
        at_press.chance.shuffle(&mut open);
        let mut now = self.clone();
        let mut changes = Vec::new();
        for &class in wishes {
            for place in 0..open.len() {
                let number = open[place];
                let mut line = self.lines[number].clone();
                if let Some(done) = at_press.edit(class, &mut line)? {
                    changes.push(seen(class, number, done, &self.lines[number], &line));
                    now.lines[number] = line;
                    open.remove(place);
                    break;
                }
            }
        }
        changes.sort_by_key(|c| c.line);
        Ok((now, changes))
    }

    /// The same setting with a sort or point changed in every third word or so, of whatever of these classes each line
    /// allows: far more than a corrector marks, for what is to learn from many examples.
    ///
    /// # Errors
    /// [`ComposeError::NoSort`] when a fount lacks a sort that is to be put in.
    pub fn corrected_throughout(
        &self,
        founts: &Founts,
        classes: &[ChangeClass],
        seed: u64,
    ) -> Result<(Self, Vec<Change>), ComposeError> {
        let mut at_press = AtPress::of(self, founts, seed);
        let mut now = self.clone();
        let mut changes = Vec::new();
        for number in self.text_lines() {
            let base = &self.lines[number];
            let mut done: Vec<(ChangeClass, Done)> = Vec::new();
            for _ in 0..base.words.len() / (1 + LEFT_ALONE) {
                let class = *at_press.chance.pick(classes);
                let mut line = now.lines[number].clone();
                // A word is changed once, so that what is said of it holds of the line before and after.
                let edited = at_press.edit(class, &mut line)?;
                if let Some(one) = edited.filter(|one| done.iter().all(|(_, d)| d.word != one.word)) {
                    now.lines[number] = line;
                    done.push((class, one));
                }
            }
            let line = &now.lines[number];
            changes.extend(done.into_iter().map(|(class, one)| seen(class, number, one, base, line)));
        }
        Ok((now, changes))
    }
}

/// What a corrector has at hand.
struct AtPress<'f> {
    hand: Hand<'f>,
    chance: Chance,
    /// Words that may be put in for others.
    spare: Vec<String>,
}

impl<'f> AtPress<'f> {
    fn of(setting: &Setting, founts: &'f Founts, seed: u64) -> Self {
        let mut chance = Chance::new(seed, "correction at press");
        let hand = Hand::new(founts, setting.layout.stock, chance.seed(), setting.age, next_id(setting));
        Self { hand, chance, spare: spare_words(setting) }
    }

    fn edit(&mut self, class: ChangeClass, line: &mut Line) -> Result<Option<Done>, ComposeError> {
        edit(class, line, &self.spare, &mut self.hand, &mut self.chance)
    }
}

/// The change that was made, where it lies in the line before and after.
fn seen(class: ChangeClass, number: usize, done: Done, base: &Line, now: &Line) -> Change {
    let boxes = [done.before.and_then(|p| p.bounds(base)), done.after.and_then(|p| p.bounds(now))];
    Change::seen(class, number, done.word, boxes, base, now)
}

/// Lines of the text proper, of some length: where corrections fall.
pub(super) fn is_text(line: &Line) -> bool {
    matches!(line.role, Role::Body | Role::Verse(_)) && line.words.len() > 3
}

/// Words of the text that may be put in for others.
fn spare_words(setting: &Setting) -> Vec<String> {
    let mut words: Vec<String> = setting
        .lines
        .iter()
        .filter(|l| is_text(l))
        .flat_map(|l| &l.words)
        .filter(|w| w.style == Style::Roman && w.part == 0 && w.text.chars().all(char::is_alphabetic))
        .map(|w| w.text.clone())
        .filter(|t| t.chars().count() > 3)
        .collect();
    words.sort();
    words.dedup();
    words
}

//! Correction at press: the forme is stopped, a few places are changed, and printing goes on.

use super::edit::edit;
use super::{Change, ChangeClass, next_id};
use crate::chance::Chance;
use crate::compose::{ComposeError, Hand};
use crate::fount::Founts;
use crate::setting::{Line, Setting};
use crate::text::{Role, Style};

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
        let mut chance = Chance::new(seed, "correction at press");
        let mut hand = Hand::new(founts, self.layout.stock, chance.seed(), self.age, next_id(self));
        let mut now = self.clone();
        let mut open: Vec<usize> = (0..self.lines.len()).filter(|&i| is_text(&self.lines[i])).collect();
        chance.shuffle(&mut open);
        let spare = spare_words(self);
        let mut changes = Vec::new();
        for &class in wishes {
            for place in 0..open.len() {
                let number = open[place];
                let mut line = self.lines[number].clone();
                if let Some((word, boxes)) = edit(class, &mut line, &spare, &mut hand, &mut chance)? {
                    changes.push(Change::seen(class, number, word, boxes, &self.lines[number], &line));
                    now.lines[number] = line;
                    open.remove(place);
                    break;
                }
            }
        }
        changes.sort_by_key(|c| c.line);
        Ok((now, changes))
    }
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

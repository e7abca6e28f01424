//! Setting again: the same words from other pieces of type, with spaces of another hand.

use sheet::{Mm, Rect};

use super::{Change, ChangeClass, next_id};
use crate::border;
use crate::chance::{Chance, mixed};
use crate::compose::{Care, ComposeError, Hand, THIN, copied, spaces};
use crate::fount::Founts;
use crate::setting::{CutKind, Fill, Line, Setting, Word};
use crate::text::{Role, Token, other_spelling};

/// How a text is set again, line for line.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Reset {
    /// How closely the compositor follows the spaces of his copy.
    pub care: Care,
    /// Share of the words that he spells his own way where the line allows it.
    pub respelt: f64,
    /// Headlines, rules and border are made up again; else the skeleton is left standing as it was.
    pub new_skeleton: bool,
}

impl Setting {
    /// The whole text set again with the same line-ends: another setting.
    ///
    /// Cuts are the same blocks, set in again within half a millimetre; what belongs to the skeleton stands, if it is kept.
    ///
    /// # Errors
    /// [`ComposeError::NoSort`] when a fount lacks a sort of another spelling.
    pub fn reset(&self, founts: &Founts, how: Reset, seed: u64) -> Result<Self, ComposeError> {
        let mut chance = Chance::new(seed, "setting again");
        // Sorts of headlines that stand keep their numbers.
        let first = if how.new_skeleton { 0 } else { next_id(self) };
        let mut hand = Hand::new(founts, self.layout.stock, seed, self.age, first);
        let mut now = self.clone();
        now.id = format!("{:016x}", mixed(seed, "setting"));
        now.seed = seed;
        // White between the parts of a page is made up of quads and leads, never twice quite alike.
        let (mut role, mut down) = (None, 0.0);
        for line in &mut now.lines {
            if role.is_some_and(|r| std::mem::discriminant(&r) != std::mem::discriminant(&line.role)) {
                let spread = if how.care <= Care::Ordinary { 0.3 } else { 0.1 };
                down += chance.normal(spread);
            }
            role = Some(line.role);
            line.baseline = Mm(line.baseline.0 + down);
            set_again(line, how, &mut hand, &mut chance)?;
        }
        for cut in &mut now.cuts {
            let spread = if cut.kind == CutKind::Rule { 0.2 } else { 0.3 };
            cut.place.x += chance.normal(spread);
            cut.place.y += chance.normal(spread);
            cut.turn += chance.normal(0.25);
        }
        if !how.new_skeleton {
            return Ok(now.in_skeleton(&self.skeleton()));
        }
        if let Some(body) = self.layout.border {
            now.cuts.retain(|c| !matches!(c.kind, CutKind::Ornament { .. }));
            let (ornaments, _) =
                border::around(self.page.grown(-body.0), body.0, self.layout.stock, &mut chance);
            now.cuts.extend(ornaments);
        }
        Ok(now)
    }

    /// Some lines set again, the rest left standing. The numbers are places in [`Setting::lines`];
    /// those beyond the last are passed over.
    ///
    /// # Errors
    /// [`ComposeError::NoSort`] when a fount lacks a sort.
    pub fn partly_reset(
        &self,
        founts: &Founts,
        lines: &[usize],
        how: Reset,
        seed: u64,
    ) -> Result<(Self, Vec<Change>), ComposeError> {
        let mut chance = Chance::new(seed, "setting again in part");
        let mut hand = Hand::new(founts, self.layout.stock, chance.seed(), self.age, next_id(self));
        let mut now = self.clone();
        let mut changes = Vec::new();
        for &number in lines.iter().filter(|n| **n < self.lines.len()) {
            let line = &mut now.lines[number];
            set_again(line, how, &mut hand, &mut chance)?;
            let was = &self.lines[number];
            let boxes: [Option<Rect>; 2] = [was.bounds(), line.bounds()];
            changes.push(Change::seen(ChangeClass::LineReset, number, None, boxes, was, line));
        }
        Ok((now, changes))
    }

    /// Lines of the text proper: those that can be set again or corrected.
    pub fn text_lines(&self) -> Vec<usize> {
        (0..self.lines.len()).filter(|&i| super::correction::is_text(&self.lines[i])).collect()
    }
}

/// One line from other pieces, with other spaces.
fn set_again(
    line: &mut Line,
    how: Reset,
    hand: &mut Hand<'_>,
    chance: &mut Chance,
) -> Result<(), ComposeError> {
    for word in &mut line.words {
        *word = copied_word(word, None, hand)?;
    }
    if matches!(line.role, Role::Body | Role::Verse(_)) && how.respelt > 0.0 {
        respell(line, how.respelt, hand, chance)?;
    }
    let body = line.body.0;
    let copy: Vec<f64> = line.gaps.iter().map(|g| g.0).collect();
    let white = line.width.0 - line.words.iter().map(|w| w.width().0).sum::<f64>();
    let gaps = match (line.fill, how.care) {
        (Fill::Justified, Care::Careless | Care::Ordinary) => {
            let points: Vec<bool> =
                line.words.iter().take(copy.len()).map(|w| w.text.ends_with([',', '.', ';', ':'])).collect();
            spaces(white, &points, body, how.care, chance)
        }
        (Fill::Justified, _) => copied(&copy, white, body, how.care, chance),
        (_, care) => {
            // Not justified: whatever spaces came to hand, about as wide.
            let spread = match care {
                Care::Careless => 0.07,
                Care::Ordinary => 0.045,
                Care::Careful => 0.03,
                Care::VeryCareful => 0.02,
            };
            copy.iter().map(|g| (g + chance.normal(spread * body)).max(THIN * body)).collect()
        }
    };
    line.gaps = gaps.into_iter().map(Mm).collect();
    line.lay();
    Ok(())
}

/// The word from other pieces, perhaps spelt otherwise. Letter-space stays as it was.
fn copied_word(word: &Word, spelt: Option<String>, hand: &mut Hand<'_>) -> Result<Word, ComposeError> {
    let Some(first) = word.sorts.first() else { return Ok(word.clone()) };
    let (face, body) = (first.face, first.body);
    let token = Token { id: word.token, text: spelt.unwrap_or_else(|| word.text.clone()), style: word.style };
    hand.word(&token, word.part, face, body)
}

fn respell(
    line: &mut Line,
    share: f64,
    hand: &mut Hand<'_>,
    chance: &mut Chance,
) -> Result<(), ComposeError> {
    for i in 0..line.words.len() {
        let Some(other) = other_spelling(&line.words[i].text).filter(|_| chance.happens(share)) else {
            continue;
        };
        let new = copied_word(&line.words[i], Some(other), hand)?;
        let old = std::mem::replace(&mut line.words[i], new);
        let words: f64 = line.words.iter().map(|w| w.width().0).sum();
        let least = THIN * line.body.0 * line.gaps.len() as f64;
        if words + least > line.width.0 {
            line.words[i] = old;
        }
    }
    Ok(())
}

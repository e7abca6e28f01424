//! The compositor's hand: takes the sorts of a word from the case.

use sheet::{Degrees, Mm, Point};

use super::ComposeError;
use crate::fount::{Face, Founts, with_ligatures};
use crate::piece::{Case, Piece};
use crate::setting::{Sort, Word};
use crate::text::{Style, Token};

/// A compositor at his cases.
#[derive(Debug)]
pub(crate) struct Hand<'a> {
    founts: &'a Founts,
    case: Case,
    next_id: u32,
    age: f64,
}

impl<'a> Hand<'a> {
    /// Begins a setting: `first_id` is the number of the first sort he sets.
    pub(crate) fn new(founts: &'a Founts, house: u64, seed: u64, age: f64, first_id: u32) -> Self {
        Self { founts, case: Case::new(house, seed), next_id: first_id, age }
    }

    pub(crate) fn founts(&self) -> &Founts {
        self.founts
    }

    /// Sets one word on a body, in a roman or the italic that goes with it.
    pub(crate) fn word(
        &mut self,
        token: &Token,
        part: u8,
        roman: Face,
        body: Mm,
    ) -> Result<Word, ComposeError> {
        let face = if token.style == Style::Italic { roman.italic() } else { roman };
        let spaced = if token.style == Style::Capitals { 0.07 * body.0 } else { 0.0 };
        let glyphs = with_ligatures(&token.text, |glyph| self.founts.has(face, glyph));
        let sorts =
            glyphs.into_iter().map(|glyph| self.sort(glyph, face, body, spaced)).collect::<Result<_, _>>()?;
        Ok(Word { token: token.id, part, text: token.text.clone(), style: token.style, sorts })
    }

    /// Takes one sort, with so much letter-space after it (mm).
    pub(crate) fn sort(
        &mut self,
        glyph: char,
        face: Face,
        body: Mm,
        spaced: f64,
    ) -> Result<Sort, ComposeError> {
        let cast = self.founts.cast(face, glyph).ok_or(ComposeError::NoSort { face, glyph })?;
        let piece = self.case.take(face, glyph);
        let own = Piece::numbered(piece, self.age);
        let id = self.next_id;
        self.next_id += 1;
        Ok(Sort {
            id,
            glyph,
            face,
            body,
            piece,
            width: Mm((cast.width + own.width) * body.0 + spaced),
            at: Point::new(0.0, 0.0),
            turn: Degrees(own.turn),
            upside_down: false,
            height: Mm(own.height),
            shift: Point::new(0.0, own.lift * body.0),
        })
    }
}

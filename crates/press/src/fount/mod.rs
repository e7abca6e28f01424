//! Founts of type: which sorts a face has, how wide each is cast, and the outline it prints.

mod ligatures;
mod outline;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use swash::FontRef;
use swash::scale::ScaleContext;
use thiserror::Error;

pub use ligatures::{reading, with_ligatures};
pub use outline::Outline;

/// A face of type in the house.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Face {
    /// English roman.
    EnglishRoman,
    /// English italic.
    EnglishItalic,
    /// Pica roman.
    PicaRoman,
    /// Pica italic.
    PicaItalic,
    /// Great primer roman.
    GreatPrimerRoman,
    /// Great primer italic.
    GreatPrimerItalic,
    /// French canon roman, for display.
    FrenchCanonRoman,
}

impl Face {
    /// Every face of the house.
    pub const ALL: [Self; 7] = [
        Self::EnglishRoman,
        Self::EnglishItalic,
        Self::PicaRoman,
        Self::PicaItalic,
        Self::GreatPrimerRoman,
        Self::GreatPrimerItalic,
        Self::FrenchCanonRoman,
    ];

    /// The italic that goes with a roman; the face itself when it is italic or has none.
    #[must_use]
    pub fn italic(self) -> Self {
        match self {
            Self::EnglishRoman => Self::EnglishItalic,
            Self::PicaRoman => Self::PicaItalic,
            Self::GreatPrimerRoman | Self::FrenchCanonRoman => Self::GreatPrimerItalic,
            other => other,
        }
    }

    fn file(self) -> &'static [u8] {
        match self {
            Self::EnglishRoman => include_bytes!("../../assets/fell-english-roman.ttf"),
            Self::EnglishItalic => include_bytes!("../../assets/fell-english-italic.ttf"),
            Self::PicaRoman => include_bytes!("../../assets/fell-pica-roman.ttf"),
            Self::PicaItalic => include_bytes!("../../assets/fell-pica-italic.ttf"),
            Self::GreatPrimerRoman => include_bytes!("../../assets/fell-great-primer-roman.ttf"),
            Self::GreatPrimerItalic => include_bytes!("../../assets/fell-great-primer-italic.ttf"),
            Self::FrenchCanonRoman => include_bytes!("../../assets/fell-french-canon-roman.ttf"),
        }
    }
}

/// Why the founts could not be opened. The files are part of this crate, so either means a damaged build.
#[derive(Debug, Error)]
pub enum FountError {
    /// A font file is not one.
    #[error("the outlines of {face:?} cannot be read; build the program again from unchanged sources")]
    Unreadable {
        /// Which face.
        face: Face,
    },
    /// A face has no letters.
    #[error("the face {face:?} has no outlines; build the program again from unchanged sources")]
    Empty {
        /// Which face.
        face: Face,
    },
}

/// One character of a face as it is cast: its set width and what prints. In ems; y down from the baseline.
#[derive(Debug, Clone, PartialEq)]
pub struct Cast {
    /// Set width, in ems of the body.
    pub width: f64,
    /// The face of the sort, in ems, origin on the baseline at the left side of the sort.
    pub outline: Outline,
}

/// All founts of the house, read once.
#[derive(Debug, Clone)]
pub struct Founts(BTreeMap<(Face, char), Cast>);

impl Founts {
    /// Reads every face (about 20 ms).
    ///
    /// # Errors
    /// [`FountError`] when a file within the program is damaged.
    pub fn open() -> Result<Self, FountError> {
        let mut casts = BTreeMap::new();
        let mut context = ScaleContext::new();
        for face in Face::ALL {
            let font = FontRef::from_index(face.file(), 0).ok_or(FountError::Unreadable { face })?;
            let em = f32::from(font.metrics(&[]).units_per_em);
            let (charmap, widths) = (font.charmap(), font.glyph_metrics(&[]));
            let mut scaler = context.builder(font).size(em).build();
            let before = casts.len();
            for glyph in ligatures::wanted() {
                let id = charmap.map(glyph);
                if id == 0 {
                    continue;
                }
                if let Some(drawn) = scaler.scale_outline(id) {
                    let width = f64::from(widths.advance_width(id) / em);
                    let outline = Outline::flattened(drawn.points(), drawn.verbs(), f64::from(em));
                    casts.insert((face, glyph), Cast { width, outline });
                }
            }
            if casts.len() == before {
                return Err(FountError::Empty { face });
            }
        }
        Ok(Self(casts))
    }

    /// One character of a face; `None` when the fount has no such sort.
    pub fn cast(&self, face: Face, glyph: char) -> Option<&Cast> {
        self.0.get(&(face, glyph))
    }

    /// Whether a fount has a sort.
    pub fn has(&self, face: Face, glyph: char) -> bool {
        self.0.contains_key(&(face, glyph))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_face_has_its_letters_and_the_long_s_with_ligatures() {
        let founts = Founts::open().unwrap();
        for face in Face::ALL {
            for glyph in ('a'..='z').chain('A'..='Z').chain('0'..='9').chain(",.;:'-!?&".chars()) {
                assert!(founts.has(face, glyph), "{face:?} lacks {glyph}");
            }
            for glyph in "\u{17f}\u{fb05}\u{e00a}\u{e009}\u{e004}\u{fb01}\u{fb00}\u{fb03}".chars() {
                assert!(founts.has(face, glyph), "{face:?} lacks {:x}", u32::from(glyph));
            }
        }
    }

    #[test]
    fn an_x_is_about_half_as_high_as_a_capital_and_stands_on_the_line() {
        let founts = Founts::open().unwrap();
        let x = founts.cast(Face::PicaRoman, 'x').unwrap().outline.bounds().unwrap();
        let cap = founts.cast(Face::PicaRoman, 'H').unwrap().outline.bounds().unwrap();
        // The font's own tables say 855 and 1403 of 2048 units.
        assert!((-x.y - 855.0 / 2048.0).abs() < 0.02 && (-cap.y - 1403.0 / 2048.0).abs() < 0.02);
        assert!(x.bottom().abs() < 0.03);
    }
}

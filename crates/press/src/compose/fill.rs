//! Filling lines: how many words go into the measure, and where a word is divided.

use sheet::Mm;

use super::justify::{THICK, THIN};
use super::{ComposeError, Hand};
use crate::fount::Face;
use crate::setting::Word;
use crate::text::Token;

/// The words of one line, and whether it is full (so to be justified).
pub(crate) struct Filled {
    pub words: Vec<Word>,
    pub full: bool,
}

/// Sets words into lines, whose measure may change from line to line.
///
/// With thick spaces first; a word that does not fit is got in by thinning the spaces, or divided if it
/// is long, or taken over into the next line.
pub(crate) fn fill(
    hand: &mut Hand<'_>,
    tokens: &[(Token, u8)],
    face: Face,
    body: Mm,
    divide: bool,
    measure: impl Fn(usize) -> f64,
) -> Result<Vec<Filled>, ComposeError> {
    let mut lines = Vec::new();
    let mut line: Vec<Word> = Vec::new();
    let mut used = 0.0;
    let mut waiting: Vec<(Token, u8)> = tokens.iter().rev().cloned().collect();
    while let Some((token, part)) = waiting.pop() {
        let room = measure(lines.len());
        let word = hand.word(&token, part, face, body)?;
        let width = word.width().0;
        let gaps = line.len() as f64;
        if used + width + gaps * (THICK * 0.75 + THIN * 0.25) * body.0 <= room {
            used += width;
            line.push(word);
            continue;
        }
        let left = room - used - gaps * THICK * body.0;
        if let Some((head, tail)) = divided(&token, part, left / width).filter(|_| divide) {
            let first = hand.word(&head, part, face, body)?;
            if used + first.width().0 + gaps * THIN * body.0 <= room {
                line.push(first);
                lines.push(Filled { words: std::mem::take(&mut line), full: true });
                used = 0.0;
                waiting.push((tail, 1));
                continue;
            }
        }
        if line.is_empty() {
            return Err(ComposeError::MeasureTooNarrow {
                word: token.text,
                measure: Mm(room),
                needs: Mm(width),
            });
        }
        lines.push(Filled { words: std::mem::take(&mut line), full: true });
        used = 0.0;
        waiting.push((token, part));
    }
    if !line.is_empty() {
        lines.push(Filled { words: line, full: false });
    }
    Ok(lines)
}

/// A long word divided between two consonants in its middle, so that about `share` of it stays.
fn divided(token: &Token, part: u8, share: f64) -> Option<(Token, Token)> {
    let letters: Vec<char> = token.text.chars().collect();
    if letters.len() < 7
        || part > 0
        || share < 0.3
        || letters.iter().any(|c| !c.is_alphabetic() && !",.;:".contains(*c))
    {
        return None;
    }
    let vowel = |c: char| "aeiouyAEIOUY".contains(c);
    // At least three letters go over into the next line; points do not count.
    let alphabetic = letters.iter().take_while(|c| c.is_alphabetic()).count();
    let furthest = ((letters.len() as f64 * share) as usize).min(alphabetic.saturating_sub(3));
    let at = (3..=furthest).rev().find(|&i| {
        !vowel(letters[i - 1])
            && !vowel(letters[i])
            && vowel(letters[i - 2])
            && (vowel(letters[i + 1]) || vowel(letters[i + 2]))
    })?;
    let text = |part: &[char]| part.iter().collect::<String>();
    let head = Token { text: text(&letters[..at]) + "-", ..token.clone() };
    let tail = Token { text: text(&letters[at..]), ..token.clone() };
    Some((head, tail))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::Style;

    #[test]
    fn a_word_is_divided_between_consonants() {
        let token = Token { id: 0, text: "Gentleman,".into(), style: Style::Roman };
        let (head, tail) = divided(&token, 0, 0.7).unwrap();
        assert_eq!((head.text.as_str(), tail.text.as_str()), ("Gen-", "tleman,"));
        assert!(divided(&token, 0, 0.2).is_none());
    }
}

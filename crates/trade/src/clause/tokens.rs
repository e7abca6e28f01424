//! A clause as words.

use super::error::ClauseError;
use crate::numerals::{Span, is_numeral_letter, read};

/// The longest clause that is read, in characters.
pub const MOST_CHARACTERS: usize = 2000;

/// A word, a number or an "and".
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Token {
    /// As it stands, without the stops at its ends.
    pub(super) raw: String,
    /// In small letters, long s, ligatures and accents resolved, without a genitive 's.
    pub(super) word: String,
    /// Its value as a Roman numeral, if it could be one.
    pub(super) roman: Option<u32>,
    /// Where it stands.
    pub(super) span: Span,
}

/// The words of a clause.
///
/// # Errors
/// Nothing in it, or too long.
pub(super) fn tokens(text: &str) -> Result<Vec<Token>, ClauseError> {
    let characters: Vec<char> = text.chars().collect();
    if characters.len() > MOST_CHARACTERS {
        return Err(ClauseError::TooLong { characters: characters.len(), most: MOST_CHARACTERS });
    }
    let mut all = Vec::new();
    let mut at = 0;
    while at < characters.len() {
        if characters[at].is_whitespace() {
            at += 1;
            continue;
        }
        let end =
            characters[at..].iter().position(|c| c.is_whitespace()).map_or(characters.len(), |n| at + n);
        chunk(&characters, Span { start: at, end }, &mut all);
        at = end;
    }
    if all.is_empty() { Err(ClauseError::Empty) } else { Ok(all) }
}

/// What stands between two spaces: one numeral or double year, or words parted by stops.
fn chunk(text: &[char], span: Span, all: &mut Vec<Token>) {
    let span = trimmed(text, span);
    if span.start >= span.end {
        return;
    }
    let piece = &text[span.start..span.end];
    let is_whole = is_numeral(piece) || is_double_year(piece);
    if is_whole {
        all.push(token(text, span));
        return;
    }
    let mut start = span.start;
    for at in span.start..=span.end {
        let c = text.get(at).copied().filter(|_| at < span.end);
        if c.is_some_and(|c| !is_stop(c)) && !is_parting_stroke(text, at) {
            continue;
        }
        let inner = trimmed(text, Span { start, end: at });
        if inner.start < inner.end {
            all.push(token(text, inner));
        }
        let sign = match c {
            Some('&') => Some(("&", "and")),
            Some(c) if is_stroke(c) => Some(("/", "/")),
            _ => None,
        };
        if let Some((raw, word)) = sign {
            let span = Span { start: at, end: at + 1 };
            all.push(Token { raw: raw.into(), word: word.into(), roman: None, span });
        }
        start = at + 1;
    }
}

/// The stroke of a fraction.
fn is_stroke(c: char) -> bool {
    matches!(c, '/' | '⁄' | '∕')
}

/// Whether a stroke parts words, as in June/8 July, and stands not between two figures as in 10/20 or 1648/9.
fn is_parting_stroke(text: &[char], at: usize) -> bool {
    let is_figure = |at: Option<usize>| at.and_then(|i| text.get(i)).is_some_and(char::is_ascii_digit);
    text.get(at).copied().is_some_and(is_stroke)
        && !(is_figure(at.checked_sub(1)) && is_figure(at.checked_add(1)))
}

/// What parts words.
fn is_stop(c: char) -> bool {
    !(c.is_alphanumeric() || matches!(c, '\'' | '’' | '/' | '⁄' | '∕' | '\u{304}' | '\u{305}' | '|'))
}

/// Without stops at the ends; a bracket that closes an apostrophus is kept.
fn trimmed(text: &[char], mut span: Span) -> Span {
    let is_end = |c: char| {
        !c.is_alphanumeric()
            && c != '&'
            && !is_stroke(c)
            && !matches!(c, '\u{304}' | '\u{305}' | '∞' | ')' | '(')
    };
    while span.start < span.end && is_end(text[span.start]) {
        span.start += 1;
    }
    while span.start < span.end && is_end(text[span.end - 1]) {
        span.end -= 1;
    }
    if is_numeral(&text[span.start..span.end]) {
        return span;
    }
    while span.start < span.end && matches!(text[span.start], '(' | ')') {
        span.start += 1;
    }
    while span.start < span.end && matches!(text[span.end - 1], '(' | ')' | ',' | '.' | ';' | ':') {
        span.end -= 1;
    }
    span
}

/// Whether it can only be a Roman numeral, whole: signs, with points or commas between, no figure.
fn is_numeral(piece: &[char]) -> bool {
    let is_sign = |c: char| {
        is_numeral_letter(c)
            || matches!(
                c,
                'Ↄ' | 'ↄ' | ')' | '(' | '|' | '.' | ',' | ':' | 'ↀ' | 'ↁ' | 'ↂ' | '∞' | '\u{304}' | '\u{305}'
            )
    };
    !piece.is_empty() && piece.iter().all(|&c| is_sign(c)) && read(&piece.iter().collect::<String>()).is_ok()
}

/// Whether it is like 1648/9 or 1648-49, or 1648[/9].
fn is_double_year(piece: &[char]) -> bool {
    let plain: Vec<char> = piece.iter().copied().filter(|c| !matches!(c, '[' | ']')).collect();
    let Some(mark) = plain.iter().position(|c| matches!(c, '/' | '-' | '–')) else { return false };
    mark == 4
        && plain[..mark].iter().all(char::is_ascii_digit)
        && (1..=4).contains(&(plain.len() - mark - 1))
        && plain[mark + 1..].iter().all(char::is_ascii_digit)
}

fn token(text: &[char], span: Span) -> Token {
    let raw: String = text[span.start..span.end].iter().collect();
    let word = folded(&raw);
    let roman =
        is_numeral(&text[span.start..span.end]).then(|| read(&raw).ok().map(|n| n.strict())).flatten();
    Token { raw, word, roman, span }
}

/// In small letters, with what printing made of them undone.
fn folded(raw: &str) -> String {
    let mut out = String::with_capacity(raw.len());
    for c in raw.chars().flat_map(char::to_lowercase) {
        match c {
            'ſ' => out.push('s'),
            'æ' => out.push_str("ae"),
            'œ' => out.push_str("oe"),
            'à' | 'á' | 'â' | 'ä' => out.push('a'),
            'è' | 'é' | 'ê' | 'ë' => out.push('e'),
            'ì' | 'í' | 'î' | 'ï' => out.push('i'),
            'ò' | 'ó' | 'ô' | 'ö' => out.push('o'),
            'ù' | 'ú' | 'û' | 'ü' => out.push('u'),
            'ç' => out.push('c'),
            '’' => out.push('\''),
            '⁄' | '∕' => out.push('/'),
            _ => out.push(c),
        }
    }
    match out.strip_suffix("'s").or_else(|| out.strip_suffix('\'')) {
        Some(shorter) if !shorter.is_empty() && shorter != "new year" && shorter != "queen" => {
            shorter.to_owned()
        }
        _ => out,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words(text: &str) -> Vec<String> {
        tokens(text).unwrap().into_iter().map(|t| t.word).collect()
    }

    #[test]
    fn clauses_fall_into_words() {
        assert_eq!(words("8. Martii, 1648/9."), ["8", "martii", "1648/9"]);
        assert_eq!(words("2&3 P.&M."), ["2", "and", "3", "p", "and", "m"]);
        assert_eq!(words("7.Hen.8"), ["7", "hen", "8"]);
        assert_eq!(words("M.DC.LXXIX. (Tueſday)"), ["m.dc.lxxix", "tuesday"]);
        assert_eq!(words("CI) I) C XXVI"), ["ci)", "i)", "c", "xxvi"]);
        assert_eq!(
            words("St Michael’s Day, twenty-fifth 1648[/9]"),
            ["st", "michael", "day", "twenty", "fifth", "1648[/9"]
        );
        assert_eq!(words("28 June/8 July 10/20"), ["28", "june", "/", "8", "july", "10/20"]);
        assert_eq!(words("22 Dec./1 Jan. 1650"), ["22", "dec", "/", "1", "jan", "1650"]);
        assert_eq!(words("10⁄20 June"), ["10/20", "june"]);
        assert_eq!(tokens(" .. "), Err(ClauseError::Empty));
        assert!(matches!(tokens(&"a ".repeat(3000)), Err(ClauseError::TooLong { .. })));
    }
}

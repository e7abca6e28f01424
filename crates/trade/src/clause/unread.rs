//! Words of a clause that were not read, and which of them need not be told.

use super::tokens::Token;
use crate::numerals::Span;

/// Adds a word that was not read to the stretch before it, if it follows at once.
pub(super) fn put(unread: &mut Vec<(String, Span)>, token: &Token, words: &impl Fn(Span) -> String) {
    match unread.last_mut() {
        Some((text, span)) if span.end + 2 >= token.span.start => {
            span.end = token.span.end;
            *text = words(*span);
        }
        _ => unread.push((words(token.span), token.span)),
    }
}

/// Words of every clause, that need not be told as unread.
pub(super) fn is_plain(word: &str) -> bool {
    // A number may be a date that was not understood.
    if word.contains(|c: char| c.is_ascii_digit()) {
        return false;
    }
    let word: String = word.to_lowercase().chars().filter(|c| c.is_alphabetic()).collect();
    matches!(
        word.as_str(),
        "" | "the"
            | "of"
            | "in"
            | "at"
            | "on"
            | "and"
            | "anno"
            | "annoque"
            | "domini"
            | "dom"
            | "given"
            | "dated"
            | "datum"
            | "data"
            | "day"
            | "year"
            | "yeare"
            | "our"
            | "lord"
            | "god"
            | "this"
            | "being"
            | "a"
            | "d"
            | "ad"
            | "die"
            | "mensis"
            | "vero"
            | "et"
            | "printed"
            | "finis"
            | "upon"
            | "from"
            | "feast"
            | "by"
            | "reign"
            | "yeere"
            | "grace"
            | "christi"
            | "salutis"
            | "i"
            | "ab"
    )
}

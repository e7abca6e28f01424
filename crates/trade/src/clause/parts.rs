//! What the grammar is put together from.

use super::tokens::Token;
use winnow::error::EmptyError;
use winnow::prelude::*;
use winnow::stream::TokenSlice;
use winnow::token::any;

/// The words that are still to be read.
pub(super) type Tokens<'a> = TokenSlice<'a, Token>;

/// What a part of the grammar gives: a value, or nothing, and then another part is tried.
pub(super) type Parsed<T> = Result<T, ParsedError>;

/// The error of the grammar, which says nothing: what was expected is told of the clause as a whole.
pub(super) type ParsedError = EmptyError;

/// This part of the grammar does not fit here.
pub(super) fn nothing<T>() -> Parsed<T> {
    Err(EmptyError)
}

/// One word, as it is folded.
pub(super) fn word<'a>(wanted: &'static str) -> impl Parser<Tokens<'a>, &'a Token, EmptyError> {
    any.verify(move |t: &&Token| t.word == wanted)
}

/// One word of a kind.
pub(super) fn one<'a>(is: fn(&str) -> bool) -> impl Parser<Tokens<'a>, &'a Token, EmptyError> {
    any.verify(move |t: &&Token| is(&t.word))
}

/// One word that means something.
pub(super) fn meaning<'a, T>(of: fn(&str) -> Option<T>) -> impl Parser<Tokens<'a>, T, EmptyError> {
    any.verify_map(move |t: &Token| of(&t.word))
}

/// As many words of a kind as there are, and how many.
pub(super) fn skip(is: fn(&str) -> bool, input: &mut Tokens<'_>) -> usize {
    let mut skipped = 0;
    loop {
        let mut ahead = input.clone();
        let found: Parsed<&Token> = one(is).parse_next(&mut ahead);
        if found.is_err() {
            return skipped;
        }
        *input = ahead;
        skipped += 1;
    }
}

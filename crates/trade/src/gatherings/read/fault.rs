//! Faults as the parsers carry them, in bytes; they become errors, in characters, at the end.

use super::super::error::{FormulaError, Problem, Span};
use winnow::error::{AddContext, ErrMode, ParserError};
use winnow::stream::{LocatingSlice, Location as _, Stream};
use winnow::{ModalResult, Parser};

/// The text as it is read.
pub(super) type Text<'a> = LocatingSlice<&'a str>;

/// What a parser gives.
pub(super) type Read<T> = ModalResult<T, Fault>;

/// Something that was not as expected, or worse.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Fault {
    at: usize,
    end: usize,
    why: Why,
}

#[derive(Debug, Clone, PartialEq, Eq)]
enum Why {
    Nothing,
    Expected(&'static str),
    Told(Box<Problem>),
}

impl<'a> ParserError<Text<'a>> for Fault {
    type Inner = Self;

    fn from_input(input: &Text<'a>) -> Self {
        let at = input.current_token_start();
        Self { at, end: at, why: Why::Nothing }
    }

    /// Of two, the one that read farther knows better what was meant.
    fn or(self, other: Self) -> Self {
        if self.at > other.at || (self.at == other.at && other.why == Why::Nothing) { self } else { other }
    }

    fn into_inner(self) -> Result<Self, Self> {
        Ok(self)
    }
}

impl<'a> AddContext<Text<'a>, &'static str> for Fault {
    fn add_context(
        mut self,
        _: &Text<'a>,
        _: &<Text<'a> as Stream>::Checkpoint,
        expected: &'static str,
    ) -> Self {
        if self.why == Why::Nothing {
            self.why = Why::Expected(expected);
        }
        self
    }
}

/// An error that no other reading can mend: from a place to where the reading stands.
pub(super) fn told(from: usize, input: &Text<'_>, problem: Problem) -> ErrMode<Fault> {
    let end = input.previous_token_end().max(from);
    ErrMode::Cut(Fault { at: from, end, why: Why::Told(Box::new(problem)) })
}

/// The parser, with what it expects if it does not find it.
pub(super) fn expecting<'a, T>(
    what: &'static str,
    mut parser: impl Parser<Text<'a>, T, ErrMode<Fault>>,
) -> impl Parser<Text<'a>, T, ErrMode<Fault>> {
    move |input: &mut Text<'a>| parser.by_ref().context(what).parse_next(input)
}

impl Fault {
    /// The error, with places counted in characters of the text.
    pub(super) fn into_error(self, text: &str) -> FormulaError {
        let characters = |byte: usize| text.get(..byte).unwrap_or(text).chars().count();
        let problem = match self.why {
            Why::Told(problem) => *problem,
            Why::Nothing => unexpected(text, self.at, "a gathering, as A^4, B-C^8 or [A]^4"),
            Why::Expected(what) => unexpected(text, self.at, what),
        };
        let first = characters(self.at);
        let end = if self.end > self.at { characters(self.end) } else { first };
        FormulaError { at: Span { first, end }, problem }
    }
}

fn unexpected(text: &str, at: usize, expected: &'static str) -> Problem {
    let found = match text.get(at..).and_then(|rest| rest.chars().next()) {
        None => "the end".to_owned(),
        Some(c) if c.is_whitespace() => "a space".to_owned(),
        Some(c) if c.is_control() => "a control character".to_owned(),
        Some(c) => format!("\"{c}\""),
    };
    Problem::Unexpected { expected, found }
}

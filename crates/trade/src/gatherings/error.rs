//! What is wrong with a formula, where, and what was expected there.

use thiserror::Error;

/// Characters of the text, counted from 0; the last is not included.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Span {
    /// The first character.
    pub first: usize,
    /// One past the last; the same as the first where something is lacking.
    pub end: usize,
}

/// An error in a formula.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("at character {}: {problem}", at.first + 1)]
pub struct FormulaError {
    /// Where.
    pub at: Span,
    /// What.
    pub problem: Problem,
}

impl FormulaError {
    /// The text on one line, and below it marks under what is meant.
    pub fn pointed(&self, text: &str) -> String {
        let line: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
        let marks = (self.at.end - self.at.first).max(1);
        format!("{line}\n{}{}", " ".repeat(self.at.first), "^".repeat(marks))
    }
}

/// What can be wrong with a formula.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum Problem {
    /// There is nothing: write at least one gathering.
    #[error("there is no formula; write gatherings with the number of their leaves, as A^4 B-C^8")]
    Empty,
    /// The text is longer than any formula: give one formula at a time.
    #[error("{characters} characters are more than any formula has; give one formula, of at most {most}")]
    TooLong {
        /// How long it is.
        characters: usize,
        /// How long it may be.
        most: usize,
    },
    /// Something stands where something else was expected.
    #[error("expected {expected}, and found {found}")]
    Unexpected {
        /// What was expected.
        expected: &'static str,
        /// What stands there.
        found: String,
    },
    /// A plain number after a letter: raise it with ^.
    #[error(
        "{signature}{number} names one leaf, number {number} of {signature}; for a gathering of {number} leaves write \
         {signature}^{number} or {signature} with a raised {number}"
    )]
    PlainNumber {
        /// The signature.
        signature: String,
        /// The number.
        number: u32,
    },
    /// Letters that make no signature: a doubled letter is Aa, AA or 2A.
    #[error(
        "{letters} is no signature; a letter may be repeated (Aa, AA, 2A), and gatherings stand apart: A^4 B^4"
    )]
    Letters {
        /// The letters.
        letters: String,
    },
    /// A format that is none: 1, 2, 4, 8, 12, 16, 18, 24, 32 or 64.
    #[error(
        "no format makes {number} leaves of a sheet; known are 1°, 2°, 4°, 8°, 12°, 16°, 18°, 24°, 32° and 64°"
    )]
    NoFormat {
        /// The number.
        number: u32,
    },
    /// A run from a later to an earlier signature: turn it round.
    #[error("the run goes backwards: {last} comes before {first}; write {last}-{first}")]
    Backwards {
        /// The first signature as written.
        first: String,
        /// The last.
        last: String,
    },
    /// A run from one signature to itself: write it once.
    #[error("the run begins and ends with {signature}; for one gathering write it once")]
    OneOnly {
        /// The signature.
        signature: String,
    },
    /// A run between alphabets, cases or series: divide it.
    #[error(
        "{first} and {last} belong to different sequences ({from} and {to}); end one run and begin the next, as A-Z^8 a-f^8"
    )]
    Across {
        /// The first signature.
        first: String,
        /// The last.
        last: String,
        /// What the first belongs to.
        from: &'static str,
        /// What the last does.
        to: &'static str,
    },
    /// A run whose order is not fixed: say how many gatherings it has.
    #[error(
        "between {first} and {last} the order of signatures is not fixed (the alphabet of signatures has 23 letters, \
         without J, U and W); name the gatherings singly, or say how many there are: {first}-{last}^8[=24]"
    )]
    NoOrder {
        /// The first signature.
        first: String,
        /// The last.
        last: String,
    },
    /// The number of gatherings that was said is not that of the run: mend one of them.
    #[error("the run has {counted} gatherings, and {stated} are stated; mend one or the other")]
    RunCount {
        /// As counted.
        counted: u32,
        /// As stated.
        stated: u32,
    },
    /// A gathering with an odd number of leaves: folded leaves come in pairs.
    #[error(
        "a gathering of {leaves} leaves cannot be folded, for leaves come in pairs; if one is missing or added say \
         which, as A^{even}(-A{even}) or A^{less}(A{less}+1)"
    )]
    Odd {
        /// How many.
        leaves: u16,
        /// The even number above.
        even: u16,
        /// The even number below.
        less: u16,
    },
    /// A number of leaves that no gathering has.
    #[error("{leaves} leaves are no gathering; it has from 1 to {most}")]
    Leaves {
        /// How many.
        leaves: u32,
        /// The most.
        most: u16,
    },
    /// A leaf of another gathering than the one beside which it is named.
    #[error("{leaf} is no leaf of {gatherings}; write the alteration beside the gathering it belongs to")]
    OtherGathering {
        /// The leaf.
        leaf: String,
        /// The gatherings it stands beside.
        gatherings: String,
    },
    /// A leaf that its gathering does not have.
    #[error("there is no leaf {leaf}: gathering {gathering} has {leaves} leaves")]
    NoLeaf {
        /// The leaf.
        leaf: String,
        /// Its gathering.
        gathering: String,
        /// How many leaves that has.
        leaves: u16,
    },
    /// A leaf of no gathering of the formula.
    #[error("there is no leaf {leaf} in the formula; check its signature")]
    Unknown {
        /// The leaf.
        leaf: String,
    },
    /// A leaf that is cut away or replaced twice.
    #[error("leaf {leaf} is cut away or replaced twice; say it once")]
    Twice {
        /// The leaf.
        leaf: String,
    },
    /// Two leaves that are not conjugate, said to be replaced as a pair.
    #[error(
        "{a} and {b} are not conjugate: the fellow of {a} is {fellow}; two single leaves are written ±{a},{number}"
    )]
    NotConjugate {
        /// The first.
        a: String,
        /// The second.
        b: String,
        /// The fellow of the first.
        fellow: String,
        /// The number of the second.
        number: u16,
    },
    /// Gatherings laid in gatherings more than three deep.
    #[error("gatherings lie in gatherings more than {most} deep; write the innermost apart")]
    TooDeep {
        /// How deep they may.
        most: u8,
    },
    /// More gatherings or leaves than any book has.
    #[error("{what} above {most} are more than any book has; check the numbers before the letters")]
    TooMany {
        /// Of what.
        what: &'static str,
        /// How many there may be.
        most: u32,
    },
    /// Numbers of pages that run backwards, or begin at nothing.
    #[error("pages {first} to {last} are no run of numbers; the first is 1 or more, the last not before it")]
    Pages {
        /// The first.
        first: u32,
        /// The last.
        last: u32,
    },
    /// The same statement twice.
    #[error("{what} is stated twice; state it once")]
    Restated {
        /// What.
        what: &'static str,
    },
}

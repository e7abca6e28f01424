//! What may stand before the gatherings: "Signatures:", "Collation:", the format.

use super::super::error::Problem;
use super::super::formula::NamedFormat;
use super::fault::{Read, Text, told};
use super::tokens::{number, short, spaces, to_parenthesis};
use crate::format::Way;
use winnow::Parser;
use winnow::combinator::{alt, delimited, opt, terminated};
use winnow::stream::Location as _;
use winnow::token::literal;

/// The title of a note, with what is said of its script; what is said is given back.
pub(super) fn title(input: &mut Text<'_>) -> Read<Option<String>> {
    let word = alt((literal("Signatures"), literal("Collation")));
    let said = delimited((spaces, '('), to_parenthesis, ')').map(|t: &str| t.trim().to_owned());
    let title = terminated((word, opt(said)), (spaces, ':', spaces)).map(|(_, said)| said);
    Ok(opt(title).parse_next(input)?.flatten().filter(|said| !said.is_empty()))
}

/// A format before its colon: "8°:", "8vo:", "fol.:", "8° in 4s:".
pub(super) fn format(input: &mut Text<'_>) -> Read<NamedFormat> {
    let from = input.current_token_start();
    let ending = alt((literal("°"), literal("º"), literal("to"), literal("vo"), literal("mo"), literal("o")));
    let folio = alt((literal("folio"), literal("Folio"), literal("fol."), literal("Fol."), literal("fo")));
    let number_of = alt((terminated(number, ending), folio.value(2_u32)));
    let gathered = delimited(
        (spaces, literal("in"), spaces),
        alt((number, words)),
        opt(alt((literal("'s"), literal("s")))),
    );
    let mut named = terminated((number_of, opt(gathered)), (spaces, ':', spaces));
    let (format, gathered) = named.parse_next(input)?;
    if !Way::numbers().iter().any(|n| u32::from(*n) == format) {
        return Err(told(from, input, Problem::NoFormat { number: format }));
    }
    let gathered_in = match gathered {
        Some(n) => Some(super::run::check_leaves(n, from, input)?),
        None => None,
    };
    Ok(NamedFormat { number: short(format, from, input)?, gathered_in })
}

/// "in fours".
fn words(input: &mut Text<'_>) -> Read<u32> {
    alt((
        literal("two").value(2),
        literal("four").value(4),
        literal("six").value(6),
        literal("sixe").value(6),
        literal("eight").value(8),
        literal("ten").value(10),
        literal("twelve").value(12),
    ))
    .parse_next(input)
}

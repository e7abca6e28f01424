//! Kings and queens by name, in English and Latin, in full and as statutes cite them.

use super::numbers::number;
use super::parts::{Parsed, Tokens, nothing, word};
use crate::reigns::Sovereign as S;
use winnow::combinator::{alt, opt, preceded};
use winnow::prelude::*;
use winnow::token::any;

/// Whom a name can mean: with its number one, without it all of that name.
pub(super) fn name(input: &mut Tokens<'_>) -> Parsed<Vec<S>> {
    alt((pair, single)).parse_next(input)
}

/// Philip and Mary, William and Mary.
fn pair(input: &mut Tokens<'_>) -> Parsed<Vec<S>> {
    let king = any.parse_next(input)?;
    opt(preceded(opt(word("the")), number.verify(|n| n.value == 3))).parse_next(input)?;
    alt((word("and"), word("et"))).parse_next(input)?;
    let fillers = ["king", "queen", "queene", "reginae", "our"];
    opt(any.verify(|t: &&super::tokens::Token| fillers.contains(&t.word.as_str()))).parse_next(input)?;
    let queen = any.parse_next(input)?;
    if !matches!(queen.word.as_str(), "mary" | "marie" | "mariae" | "mar" | "m") {
        return nothing();
    }
    match king.word.as_str() {
        "philip" | "phillip" | "philippi" | "phil" | "ph" | "p" => Ok(vec![S::PhilipAndMary]),
        "william" | "gulielmi" | "guilielmi" | "will" | "gul" | "w" | "wm" => Ok(vec![S::WilliamAndMary]),
        _ => nothing(),
    }
}

/// One name, and its number if one follows.
fn single(input: &mut Tokens<'_>) -> Parsed<Vec<S>> {
    let token = any.parse_next(input)?;
    let all: &[(u32, S)] = match token.word.as_str() {
        "henry" | "henrie" | "harry" | "hen" | "henr" | "henrici" => &[(7, S::HenryVii), (8, S::HenryViii)],
        "edward" | "edwarde" | "edw" | "edwardi" | "ed" => &[(6, S::EdwardVi)],
        "jane" | "iane" | "janae" => &[(1, S::Jane)],
        "mary" | "marie" | "mariae" | "mar" => &[(1, S::Mary), (0, S::MaryScots)],
        "elizabeth" | "elisabeth" | "elizabethae" | "elizabethe" | "eliz" | "elizab" => &[(1, S::Elizabeth)],
        "james" | "iames" | "jacobi" | "iacobi" | "jac" | "iac" => &[
            (1, S::James),
            (2, S::JamesIi),
            (3, S::JamesIiiScots),
            (4, S::JamesIvScots),
            (5, S::JamesVScots),
            (6, S::JamesViScots),
        ],
        "charles" | "caroli" | "car" | "carol" | "chas" => &[(1, S::Charles), (2, S::CharlesIi)],
        "william" | "gulielmi" | "guilielmi" | "will" | "gul" | "wm" => &[(3, S::William), (4, S::WilliamIv)],
        "anne" | "ann" | "annae" | "anna" => &[(1, S::Anne)],
        "george" | "georgii" | "georgij" | "geo" => {
            &[(1, S::George), (2, S::GeorgeIi), (3, S::GeorgeIii), (4, S::GeorgeIv)]
        }
        "victoria" | "victoriae" | "vict" => &[(1, S::Victoria)],
        _ => return nothing(),
    };
    let mut ahead = input.clone();
    let numbered: Parsed<_> = preceded(opt(word("the")), number).parse_next(&mut ahead);
    if let Ok(found) = numbered
        && let Some((_, sovereign)) = all.iter().find(|(n, _)| *n == found.value && *n > 0)
    {
        *input = ahead;
        return Ok(vec![*sovereign]);
    }
    Ok(all.iter().map(|(_, s)| *s).collect())
}

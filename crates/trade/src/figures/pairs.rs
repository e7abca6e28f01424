//! Two figures beside each other: more often together, or in turns, than chance would have it?

use schemars::JsonSchema;
use serde::Serialize;

use super::FormeName;
use super::copies::Sheet;
use super::exact::{chance_of_mixed, chance_of_runs};

/// What was counted, what chance would bring, and how odd it is.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Tail {
    /// What was counted.
    pub observed: u32,
    /// Out of so many sheets.
    pub of: u32,
    /// What chance would bring on average.
    pub expected: f64,
    /// The chance of so many or more.
    pub chance_of_more: f64,
    /// The chance of so many or fewer.
    pub chance_of_fewer: f64,
}

/// How two figures stand to each other, if that is more than chance.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Standing {
    /// They share sheets, one forme each: as if two worked at one time, each on one side.
    SideBySide,
    /// They keep to sheets of their own, both formes each.
    SheetsApart,
    /// They follow each other in turns, sheet by sheet.
    InTurns,
    /// They keep to stretches of their own.
    InBlocks,
}

/// Two figures.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Pair {
    /// The one.
    pub first: String,
    /// The other.
    pub second: String,
    /// Sheets with one forme of each, of those whose formes have these two figures and no other; null where there are too few
    /// to tell anything.
    pub mixed: Option<Tail>,
    /// Runs of one figure, along the sheets that are of one of the two alone; null where there are too few.
    pub runs: Option<Tail>,
    /// What is more than chance, after allowing for how many questions were asked.
    pub standing: Vec<Standing>,
}

/// What happens less often than this by chance is told, after allowing for all questions (common practice).
const LEAST_CHANCE: f64 = 0.05;
/// Of fewer sheets nothing is asked: no outcome of four could be told from chance (a proposal).
const FEWEST_SHEETS: u32 = 5;

/// Every two of these figures.
pub(super) fn pairs(sheets: &[Sheet], figures: &[&str]) -> Vec<Pair> {
    let mut all = Vec::new();
    for (i, first) in figures.iter().enumerate() {
        for second in &figures[i + 1..] {
            let (mixed, runs) = (mixed(sheets, first, second), runs(sheets, first, second));
            if mixed.is_some() || runs.is_some() {
                let (first, second) = ((*first).to_owned(), (*second).to_owned());
                all.push(Pair { first, second, mixed, runs, standing: Vec::new() });
            }
        }
    }
    // Each table is asked two questions: is it more, is it fewer.
    let questions =
        2 * all.iter().map(|p| usize::from(p.mixed.is_some()) + usize::from(p.runs.is_some())).sum::<usize>();
    let is_odd = |chance: f64| chance * questions as f64 <= LEAST_CHANCE;
    for pair in &mut all {
        for (tail, more, fewer) in [
            (pair.mixed, Standing::SideBySide, Standing::SheetsApart),
            (pair.runs, Standing::InTurns, Standing::InBlocks),
        ] {
            pair.standing.extend(tail.filter(|t| is_odd(t.chance_of_more)).map(|_| more));
            pair.standing.extend(tail.filter(|t| is_odd(t.chance_of_fewer)).map(|_| fewer));
        }
    }
    all
}

fn mixed(sheets: &[Sheet], first: &str, second: &str) -> Option<Tail> {
    let (mut of, mut of_first, mut observed) = (0, 0, 0);
    for sheet in sheets {
        let (Some(outer), Some(inner)) = (sheet.single(FormeName::Outer), sheet.single(FormeName::Inner))
        else {
            continue;
        };
        if [outer, inner].iter().all(|f| *f == first || *f == second) {
            of += 1;
            of_first += usize::from(outer == first) + usize::from(inner == first);
            observed += u32::from(outer != inner);
        }
    }
    // With all formes of one figure there is nothing to ask.
    let asks = of >= FEWEST_SHEETS && of_first > 0 && of_first < 2 * of as usize;
    asks.then(|| tail(&chance_of_mixed(of as usize, of_first), observed, of))
}

fn runs(sheets: &[Sheet], first: &str, second: &str) -> Option<Tail> {
    // A sheet is of a figure if both its formes are, or one is and the other has none.
    let whose = |sheet: &Sheet| {
        let figures = [FormeName::Outer, FormeName::Inner].map(|f| sheet.figures(f).unwrap_or_default());
        match figures {
            [[one], [other]] if one == other => Some(one == first).filter(|_| one == first || one == second),
            [[one], []] | [[], [one]] => Some(one == first).filter(|_| one == first || one == second),
            _ => None,
        }
    };
    let row: Vec<bool> = sheets.iter().filter_map(whose).collect();
    let of_first = row.iter().filter(|&&f| f).count();
    let observed = row.windows(2).filter(|w| w[0] != w[1]).count() as u32 + 1;
    let of = row.len() as u32;
    let asks = of >= FEWEST_SHEETS && of_first > 0 && of_first < row.len();
    asks.then(|| tail(&chance_of_runs(of_first, row.len() - of_first), observed, of))
}

fn tail(chances: &[f64], observed: u32, of: u32) -> Tail {
    let at = observed as usize;
    let sum = |some: &[f64]| some.iter().sum::<f64>().min(1.0);
    Tail {
        observed,
        of,
        expected: chances.iter().enumerate().map(|(i, c)| i as f64 * c).sum(),
        chance_of_more: sum(chances.get(at..).unwrap_or_default()),
        chance_of_fewer: sum(chances.get(..=at).unwrap_or(chances)),
    }
}

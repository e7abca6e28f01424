//! The share of each figure, and when it worked.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Serialize;

use super::FormeName;
use super::copies::Sheet;

/// Sheets that follow each other.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Span {
    /// The first.
    pub from: String,
    /// The last.
    pub to: String,
    /// How many.
    pub sheets: u32,
}

/// What one figure did.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Work {
    /// The figure.
    pub figure: String,
    /// Formes; of a forme with two figures each has half.
    pub formes: f64,
    /// Its share of all formes that have a figure; 0 to 1.
    pub share: f64,
    /// The share of 95 percent (Wilson 1927), as if formes were dealt out one by one: how far the share of a whole book could be
    /// from that of the formes looked at.
    pub share_95: [f64; 2],
    /// Sheets of which it has both formes.
    pub whole_sheets: u32,
    /// Stretches of sheets, one after the other, in which it is found.
    pub runs: Vec<Span>,
}

/// The work of each figure, that of most formes first.
pub(super) fn work(sheets: &[Sheet]) -> Vec<Work> {
    let mut formes: BTreeMap<&str, f64> = BTreeMap::new();
    let mut all = 0.0;
    for sheet in sheets {
        for forme in [FormeName::Outer, FormeName::Inner] {
            let figures = sheet.figures(forme).unwrap_or_default();
            all += f64::from(u8::from(!figures.is_empty()));
            for figure in figures {
                *formes.entry(figure).or_insert(0.0) += 1.0 / figures.len() as f64;
            }
        }
    }
    let mut out: Vec<Work> = formes
        .into_iter()
        .map(|(figure, formes)| {
            let has =
                |sheet: &Sheet, forme| sheet.figures(forme).is_some_and(|f| f.iter().any(|f| f == figure));
            let whole = |s: &&Sheet| {
                [FormeName::Outer, FormeName::Inner].iter().all(|&f| s.single(f) == Some(figure))
            };
            Work {
                figure: figure.to_owned(),
                formes,
                share: formes / all,
                share_95: wilson(formes, all),
                whole_sheets: sheets.iter().filter(whole).count() as u32,
                runs: runs(sheets, |s| has(s, FormeName::Outer) || has(s, FormeName::Inner)),
            }
        })
        .collect();
    out.sort_by(|a, b| b.formes.total_cmp(&a.formes));
    out
}

fn runs(sheets: &[Sheet], is_there: impl Fn(&Sheet) -> bool) -> Vec<Span> {
    let mut out: Vec<Span> = Vec::new();
    let mut goes_on = false;
    for sheet in sheets {
        let there = is_there(sheet);
        match out.last_mut().filter(|_| goes_on) {
            Some(span) if there => {
                span.to.clone_from(&sheet.name);
                span.sheets += 1;
            }
            _ if there => out.push(Span { from: sheet.name.clone(), to: sheet.name.clone(), sheets: 1 }),
            _ => {}
        }
        goes_on = there;
    }
    out
}

/// Wilson's interval of a share (*Journal of the American Statistical Association* 22, 1927).
fn wilson(some: f64, all: f64) -> [f64; 2] {
    const Z: f64 = 1.959_963_984_540_054;
    let p = some / all;
    let middle = p + Z * Z / (2.0 * all);
    let half = Z * (p * (1.0 - p) / all + Z * Z / (4.0 * all * all)).max(0.0).sqrt();
    [middle - half, middle + half].map(|x| (x / (1.0 + Z * Z / all)).clamp(0.0, 1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wilsons_interval_worked_by_hand() {
        // 8 of 10: (0.8 + 0.19207 ± 1.96 √(0.016 + 0.0096036))/1.38415, that is 0.490 and 0.943.
        let [low, high] = wilson(8.0, 10.0);
        assert!((low - 0.4902).abs() < 5e-4 && (high - 0.9433).abs() < 5e-4, "{low} {high}");
    }
}

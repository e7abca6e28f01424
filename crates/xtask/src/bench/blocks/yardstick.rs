//! The yardstick beside the same pairs: what laying two cuts together with a general library for pictures comes to.

use std::path::Path;

use anyhow::Context as _;
use evidence::Verdict;
use evidence::block::BlockVerdict;
use serde::{Deserialize, Serialize};
use sheet::decode::{DecodeRequest, decode};

use super::Outcome;
use super::kept::photograph;
use crate::bench::report::table::{Table, number};
use crate::bench::run::Yardstick;
use crate::bench::score::median;
use crate::bench::set::root;

/// White left about the cut, as a share of its longer side: what one would cut a photograph down to.
const MARGIN: f64 = 0.06;

/// What the yardstick made of a pair.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub(super) struct Measured {
    /// Whether it says that both were printed from one block; `None` of no answer.
    one: Option<bool>,
    /// Its median residual, pixels of the first.
    residual_px: Option<f64>,
    seconds: f64,
}

/// Asks the yardstick about every pair, the photographs cut down to the blocks.
pub(super) fn measure(outcomes: &mut [Outcome], photographs: &Path) -> anyhow::Result<()> {
    let mut yardstick = Yardstick::start(&root())?;
    let folder = photographs.join("cut-down");
    std::fs::create_dir_all(&folder).with_context(|| format!("cannot make {}", folder.display()))?;
    let of = outcomes.len();
    for (n, outcome) in outcomes.iter_mut().enumerate() {
        let files = [folder.join("a.png"), folder.join("b.png")];
        for (which, file) in files.iter().enumerate() {
            cut_down(
                &photograph(photographs, outcome.kept.planned.number, which),
                outcome.kept.boxes_px[which],
                file,
            )?;
        }
        let pair = &outcome.kept.planned.pair;
        let ppi = (Some(pair.ppi_a.0), Some(pair.ppi_b.0));
        let answer = yardstick.judge((&files[0], &files[1]), ppi, &[])?;
        outcome.yardstick = Some(Measured {
            one: answer.verdict.and_then(|v| match v {
                Verdict::Undetermined => None,
                v => Some(matches!(v, Verdict::SameSetting | Verdict::SameSettingWithDifferences)),
            }),
            residual_px: answer.residual_px,
            seconds: answer.seconds,
        });
        eprint!("\rthe yardstick: {} of {of}", n + 1);
    }
    eprintln!();
    Ok(())
}

fn cut_down(from: &Path, [x, y, w, h]: [f64; 4], to: &Path) -> anyhow::Result<()> {
    let bytes = std::fs::read(from).with_context(|| format!("cannot read {}", from.display()))?;
    let plane = decode(&bytes, &DecodeRequest::default())?.luminance;
    let margin = MARGIN * w.max(h);
    let (left, top) = ((x - margin).max(0.0) as usize, (y - margin).max(0.0) as usize);
    let right = ((x + w + margin) as usize).min(plane.width());
    let below = ((y + h + margin) as usize).min(plane.height());
    let cut = plane.crop(left, top, right.saturating_sub(left), below.saturating_sub(top));
    let (width, height) = (cut.width() as u32, cut.height() as u32);
    image::GrayImage::from_raw(width, height, cut.data().to_vec())
        .context("a cut has no size")?
        .save(to)
        .with_context(|| format!("cannot write {}", to.display()))
}

/// Both beside each other, of the pairs that the yardstick was asked about.
pub(super) fn table(outcomes: &[Outcome]) -> String {
    let asked: Vec<(&Outcome, &Measured)> =
        outcomes.iter().filter_map(|o| Some((o, o.yardstick.as_ref()?))).collect();
    if asked.is_empty() {
        return String::new();
    }
    let mut table = Table::new([
        "truly",
        "pairs",
        "yardstick: one block",
        "two",
        "no answer",
        "Reglet: one block",
        "two",
        "undetermined",
    ]);
    for (name, truly_one) in [("one block", true), ("two", false)] {
        let of: Vec<_> =
            asked.iter().filter(|(o, _)| o.truth.starts_with("same-block") == truly_one).collect();
        let count = |is: &dyn Fn(&Outcome, &Measured) -> bool| {
            of.iter().filter(|(o, m)| is(o, m)).count().to_string()
        };
        let reglet = |o: &Outcome| {
            let said = o.said.verdict;
            (said != BlockVerdict::Undetermined).then(|| said.is_one_block())
        };
        table.row([
            name.to_owned(),
            of.len().to_string(),
            count(&|_, m| m.one == Some(true)),
            count(&|_, m| m.one == Some(false)),
            count(&|_, m| m.one.is_none()),
            count(&|o, _| reglet(o) == Some(true)),
            count(&|o, _| reglet(o) == Some(false)),
            count(&|o, _| reglet(o).is_none()),
        ]);
    }
    let mut laid = Table::new(["of one block, laid by both", "pairs", "yardstick", "Reglet"]);
    let both: Vec<(f64, f64)> = asked
        .iter()
        .filter(|(o, _)| o.truth == "same-block")
        .filter_map(|(o, m)| Some((m.residual_px?, o.said.signs.as_ref()?.wandering_px)))
        .collect();
    let half = |of: &dyn Fn(&(f64, f64)) -> f64| number(median(&both.iter().map(of).collect::<Vec<_>>()), 2);
    laid.row([
        "residual, median of the pairs' medians, px".to_owned(),
        both.len().to_string(),
        half(&|b| b.0),
        half(&|b| b.1),
    ]);
    let seconds = |of: Vec<f64>| number(median(&of), 2);
    laid.row([
        "seconds a pair, median".to_owned(),
        asked.len().to_string(),
        seconds(asked.iter().map(|a| a.1.seconds).collect()),
        seconds(asked.iter().map(|a| a.0.seconds).collect()),
    ]);
    table.markdown() + &laid.markdown()
}

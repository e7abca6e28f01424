//! Blocks: what there is to look at of their impressions, and the words of their page.

mod damage;
mod dates;
mod doubts;
mod order;
mod pictures;
pub(crate) mod plot;
mod words;

use crate::page::blocks::{BlockModel, BlocksModel, CutPairModel, ImpressionModel};
use crate::pictures::CannotDraw;
use crate::record::{BlocksRecord, CutFound};
use crate::report::side;

pub(crate) use dates::dated_words;
pub(crate) use pictures::part;
pub use pictures::{BlocksPictures, ImpressionOnFrame, OneBlockPictures};
pub use plot::date_plot_svg;
pub(crate) use words::named;

/// Sets a record of blocks as a page, with what there is to look at; `command` made it.
///
/// # Errors
/// When a picture cannot be encoded.
pub fn blocks_model(
    record: &BlocksRecord,
    pictures: &BlocksPictures,
    command: String,
) -> Result<BlocksModel, CannotDraw> {
    let crops = record.damage.iter().map(|d| d.damage.seen.len()).sum();
    let blocks = (0..record.blocks.len())
        .map(|block| one_block(record, block, of_block(pictures, block), pictures::of_crops(crops)))
        .collect::<Result<_, _>>()?;
    let impressions =
        (0..record.photographs.len()).map(|i| impression(record, pictures, i)).collect::<Result<_, _>>()?;
    Ok(BlocksModel {
        title: words::title(record),
        verdict_words: words::verdict(record),
        findings: words::findings(record),
        cautions: record.cautions.clone(),
        warnings: record.warnings.clone(),
        measures: words::measures(record),
        impressions,
        blocks,
        pairs: record.pairs.iter().map(pair).collect(),
        doubts: doubts::of_pairs(record),
        program: record.program.clone(),
        command,
    })
}

/// The pictures of a block of the record.
fn of_block(pictures: &BlocksPictures, block: usize) -> Option<&OneBlockPictures> {
    pictures.blocks.get(block).and_then(Option::as_ref)
}

fn one_block(
    record: &BlocksRecord,
    block: usize,
    pictures: Option<&OneBlockPictures>,
    crops: Option<f64>,
) -> Result<BlockModel, CannotDraw> {
    let found = &record.blocks[block];
    let order = record.order.iter().find(|o| o.block == block);
    let dates = record.dates.iter().flatten().find(|d| d.block == block);
    let mut impressions: Vec<usize> = order.map_or_else(
        || found.impressions.clone(),
        |o| o.told.arrangement.impressions.iter().map(|p| found.impressions[p.impression]).collect(),
    );
    // An order that leaves one out would hide it.
    impressions
        .extend(found.impressions.iter().filter(|i| !impressions.contains(i)).copied().collect::<Vec<_>>());
    let mut damages = record
        .damage
        .iter()
        .filter(|d| d.block == block)
        .map(|d| damage::damage(d, &impressions, pictures, crops))
        .collect::<Result<Vec<_>, _>>()?;
    if let Some(order) = order {
        damage::mark_odd(&mut damages, order, &found.impressions);
    }
    let numbers: Vec<usize> = impressions.iter().map(|i| i + 1).collect();
    Ok(BlockModel {
        number: block + 1,
        words: dates::sentence(&words::of_block(record, block)),
        frame: found.frame + 1,
        composite: pictures.map(|p| pictures::composite(&p.composite)).transpose()?,
        order: order.map(|o| order::order(o, &found.impressions, &damages)),
        dates: dates.map(|d| dates::dates(d, record, &impressions)),
        doubts: doubts::of_block(record, block),
        impressions: numbers,
        damages,
    })
}

fn impression(
    record: &BlocksRecord,
    pictures: &BlocksPictures,
    i: usize,
) -> Result<ImpressionModel, CannotDraw> {
    let block = record.blocks.iter().position(|b| b.impressions.contains(&i));
    let on_frame = block.and_then(|b| of_block(pictures, b)).and_then(|p| p.of(i));
    let seen = pictures.blocks.iter().flatten().map(|p| p.impressions.len()).sum();
    let (shown, head) = on_frame.map(|one| pictures::overview(one, seen)).transpose()?.unzip();
    let cut: Option<&CutFound> = record.cuts.get(i).and_then(Option::as_ref);
    let why_not = record.unplaced.iter().find(|u| u.copy == i);
    let about = record.photographs[i].as_ref();
    Ok(ImpressionModel {
        number: i + 1,
        side: about.map_or_else(|| crate::many::unread(why_not.map_or("", |u| u.file.as_str())), side),
        block: block.map(|b| b + 1),
        why_not: why_not.map(|u| u.reason.clone()),
        cut_words: cut.map(words::of_cut),
        dated: cut.map(|c| c.dated).unwrap_or_default(),
        cut: pictures.cuts.get(i).and_then(Option::as_ref).map(pictures::cut).transpose()?,
        shown,
        head,
    })
}

fn pair(p: &crate::record::CutPairFound) -> CutPairModel {
    CutPairModel {
        impressions: [p.a + 1, p.b + 1],
        verdict_words: p.comparison.sentence.clone(),
        weight_log10: p.comparison.weight_log10,
        likeness_words: words::likeness(&p.comparison),
        reasons: p.comparison.reasons.clone(),
    }
}

#[cfg(test)]
pub(crate) mod tests;

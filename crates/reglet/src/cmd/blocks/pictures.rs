//! What there is to look at of blocks, drawn for the page and the plates.

use super::told::Member;
use evidence::block::{OneBlock, Studied};
use publish::blocks::{BlocksPictures, ImpressionOnFrame, OneBlockPictures};
use rayon::prelude::*;
use register::overlay;
use sheet::{Plane, Rect};

/// What is shown where a photograph has nothing: the colour of a table.
const OUTSIDE: [u8; 3] = [120, 116, 110];

/// Pictures of all blocks, and of the cut of each of so many photographs.
pub(super) fn pictures(studied: &Studied, members: &[Member<'_>], photographs: usize) -> BlocksPictures {
    let blocks = studied.blocks.iter().map(|block| one_block(block, members)).collect();
    let mut cuts = vec![None; photographs];
    for &(number, impression, cut) in members {
        let back = (4 - impression.turned.quarters()) % 4;
        cuts[number] = impression.cuts[cut].colour.as_ref().map(|c| c.turned(back));
    }
    BlocksPictures { blocks, cuts }
}

fn one_block(block: &OneBlock, members: &[Member<'_>]) -> Option<OneBlockPictures> {
    let damages = block.damages.as_ref()?;
    let (_, frame, cut) = members[block.frame];
    let framed = &frame.cuts[cut].cut;
    let unit = damages.unit_px;
    let size = (damages.whole.width(), damages.whole.height());
    let back = (4 - frame.turned.quarters()) % 4;
    let mut impressions: Vec<ImpressionOnFrame> = block
        .laid
        .par_iter()
        .filter_map(|(at, laid)| {
            let (number, impression, cut) = members[*at];
            let own = &impression.cuts[cut];
            let colour = own.colour.as_ref()?;
            let ink = own.cut.ink.full();
            let still;
            let map = if let Some(laid) = laid {
                &laid.map
            } else {
                still = register::PaperMap::flat(sheet::Homography::identity());
                &still
            };
            Some(ImpressionOnFrame {
                impression: number,
                photograph: drawn(map, colour, size, unit, OUTSIDE).into_turned(back),
                ink: drawn(map, ink, size, unit, 0).into_turned(back),
            })
        })
        .collect();
    impressions.sort_by_key(|i| i.impression);
    let whole = Rect::new(0.0, 0.0, framed.ink.full().width() as f64, framed.ink.full().height() as f64);
    let origin = frame.turned.box_on_photograph(whole.moved(framed.corner));
    Some(OneBlockPictures {
        composite: damages.whole.turned(back),
        impressions,
        origin: sheet::Point::new(origin.x, origin.y),
        scale: 1.0 / unit,
    })
}

fn drawn<T, const N: usize>(
    map: &register::PaperMap,
    of: &Plane<T>,
    size: (usize, usize),
    unit: f64,
    outside: T,
) -> Plane<T>
where
    T: register::Sample<N> + Send + Sync,
{
    overlay(map, of, 1.0, size, unit, outside)
}

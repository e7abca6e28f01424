//! The map of the residual.

use super::{Frame, length, unit};
use crate::pictures::{CannotDraw, OnFrame, PatchStroke, ResidualMap};
use crate::record::Record;
use sheet::Point;

/// So many times as long as it is a displacement is drawn, at least and at most: as long as a patch if it is what nine in
/// ten fall short of.
const TIMES: [f64; 2] = [2.0, 50.0];

/// The patches of print with their displacements; `None` where nothing was laid.
///
/// # Errors
/// When the print under the map cannot be encoded.
pub(crate) fn residual_map(record: &Record, drawn: &OnFrame) -> Result<Option<ResidualMap>, CannotDraw> {
    let frame = Frame::of(&record.photographs[0]);
    let Some(placement) = &record.comparison.placement else { return Ok(None) };
    let [width, height] = frame.size;
    let mut lengths: Vec<f64> =
        placement.patches.iter().filter_map(|w| w.residual_px.map(|[x, y]| x.hypot(y))).collect();
    lengths.sort_by(f64::total_cmp);
    let Some(usual) = lengths.get(lengths.len() * 9 / 10).copied().filter(|v| *v > 0.0) else {
        return Ok(None);
    };
    let times = (placement.patch_px / usual).clamp(TIMES[0], TIMES[1]).round();
    let patches = placement
        .patches
        .iter()
        .map(|w| {
            let middle = frame.turned.upright(w.at_px);
            let middle = [middle.x / width, middle.y / width];
            let displacement = w.residual_px.map(|[x, y]| {
                let end = frame.turned.upright(w.at_px + Point::new(x, y));
                let by = end - frame.turned.upright(w.at_px);
                [by.x / width, by.y / width]
            });
            PatchStroke { middle, displacement }
        })
        .collect();
    Ok(Some(ResidualMap {
        print: drawn.pale_print()?,
        shape: height / width,
        side: placement.patch_px / width,
        patches,
        drawn_times: times,
        drawn_words: format!(
            "it is drawn {times:.0} times as long as it is, and nine in ten are shorter than {}",
            length(usual, unit(record))
        ),
    }))
}

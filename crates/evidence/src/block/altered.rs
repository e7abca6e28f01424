//! Parts of two impressions that do not go with the rest: plugged or cut anew, another block of a composite, or sawn off.

use super::Cut;
use super::edges::sawn;
use super::parted::parted;
use super::record::{Altered, AlteredHow};
use super::strokes::StrokeWindow;
use sheet::{Plane, Rect};

/// How clearly what windows say must part in two for each part to be judged by itself, and what the worse may say at the most,
/// log odds: two grades, the second for a worse part that is no small share of the cut and speaks less plainly, as a traced copy
/// does. Of 352 pairs of the fitting set that are one block or two throughout one is parted by these and has a better part that
/// speaks for one block, of 17 composites with one odd piece twelve, of 22 plugged blocks four (network fitted to 480 pairs).
const PARTED: [f64; 2] = [22.0, 40.0];
const WORSE_SAYS: [f64; 2] = [-1.5, -0.9];
/// What the better part must say at the least, once it is laid by its own windows alone.
pub(super) const BETTER_SAYS: f64 = 0.5;
const NO_SMALL_SHARE: f64 = 0.25;
/// What one window says counts no more than this, log odds.
const MOST: f64 = 4.0;
/// A cut of which one part speaks for one block and the other against it.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct TwoParts {
    /// The rectangle, pixels of the first.
    pub(super) place: Rect,
    /// Whether the better part is what lies in it, not what lies about it.
    pub(super) better_within: bool,
    /// Share of the windows in the worse part.
    pub(super) worse_share: f64,
}

/// The two parts into which a cut falls by what its windows say; `side` is that of a window. `None` where none is clear.
pub(super) fn two_parts(strokes: &[StrokeWindow], side: f64) -> Option<TwoParts> {
    let say: Vec<f64> = strokes.iter().map(|w| w.says.clamp(-MOST, MOST)).collect();
    let ways =
        [1.0, -1.0].into_iter().filter_map(|sign| Some((parted(&cells(strokes), &say, sign)?, sign > 0.0)));
    let (part, better_within) = ways.max_by(|p, q| p.0.strength.total_cmp(&q.0.strength))?;
    let [within, about] = part.means;
    let worse = if better_within { about } else { within };
    let share = part.within.len() as f64 / strokes.len() as f64;
    let worse_share = if better_within { 1.0 - share } else { share };
    let is = |grade: usize| part.strength >= PARTED[grade] && worse <= WORSE_SAYS[grade];
    let are_two = is(0) || is(1) && worse_share >= NO_SMALL_SHARE;
    are_two.then(|| TwoParts { place: around(strokes, &part.within, side), better_within, worse_share })
}

/// The strip that was sawn off between two impressions of one block, if one was; `second` is the second's ink on the frame of
/// the first.
pub(super) fn sawn_off(
    a: &Cut,
    second: &Plane<u8>,
    strokes: &[StrokeWindow],
    edges: Option<[f64; 4]>,
) -> Option<Altered> {
    let strip = sawn(a, second, edges?)?;
    let within = strokes.iter().filter(|w| strip.place.holds(w.at)).count();
    let what = if strip.of_second { AlteredHow::SawnOff } else { AlteredHow::SawnOffTheFirst };
    let r = strip.place.moved(a.corner);
    Some(Altered { box_a_px: [r.x, r.y, r.w, r.h], share: within as f64 / strokes.len().max(1) as f64, what })
}

fn cells(strokes: &[StrokeWindow]) -> Vec<(usize, usize)> {
    strokes.iter().map(|w| w.cell).collect()
}

/// The box about windows.
fn around(strokes: &[StrokeWindow], within: &[usize], side: f64) -> Rect {
    let half = side / 2.0;
    let boxes = within.iter().flat_map(|&i| {
        let at = strokes[i].at;
        Rect::new(at.x - half, at.y - half, side, side).corners()
    });
    Rect::around(boxes).unwrap_or(Rect::new(0.0, 0.0, 0.0, 0.0))
}

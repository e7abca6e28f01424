//! Which creases the paper's motion cannot do without.
//!
//! A crease is found where a jump explains the displacements beside a line better than a curved surface does. But the
//! smooth motion follows paper that bends more closely than one surface can, and where lines wander by themselves
//! several jumps may each explain a little. So the print is asked again, every piece of it from the others alone, with
//! each crease and without it; a crease that tells nothing more than the smooth motion alone is none.

use crate::Motion;
use crate::crease::Crease;
use crate::smooth::Sample;
use sheet::Point;

/// Print farther than this from a crease, in widths of a neighbourhood, is not told otherwise by it.
const REACH_IN_WIDTHS: f64 = 2.0;
/// How much better the print beside a crease must be told with it, at least (fall of Cauchy's loss, in the scatter
/// that is usual). Of none, 0, 7 and 15, 15 did best on simulated pairs, by little: the placement as good, and a quarter
/// of the creases gone (docs/benchmarks.md).
const LEAST_GAIN: f64 = 15.0;

/// The creases without which windows, `side` wide, are told worse by their neighbours; `width` is that of a
/// neighbourhood, pixels of A.
pub(crate) fn needed(windows: &[Sample], side: f64, mut creases: Vec<Crease>, width: f64) -> Vec<Crease> {
    while !creases.is_empty() {
        let with = Motion::cut(windows.iter().copied(), side, &creases, width);
        let noise = with.usual_scatter();
        let gain = |i: usize| {
            let places: Vec<(Point, Point)> = with
                .samples()
                .iter()
                .filter(|s| creases[i].beyond(s.at).abs() < REACH_IN_WIDTHS * width)
                .map(|s| (s.at, s.shift))
                .collect();
            let (one, other) = (with.left_over(&places), with.across(i).left_over(&places));
            let loss = |r: f64| (r / noise).powi(2).ln_1p();
            one.iter().zip(&other).filter_map(|(&w, &o)| Some(loss(o?) - loss(w?))).sum::<f64>()
        };
        let gains: Vec<f64> = (0..creases.len()).map(gain).collect();
        let Some((i, &g)) = gains.iter().enumerate().min_by(|p, q| p.1.total_cmp(q.1)) else { break };
        if g >= LEAST_GAIN {
            break;
        }
        creases.remove(i);
    }
    creases
}

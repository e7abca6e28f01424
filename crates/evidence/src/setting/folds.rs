//! Folds that the paper shows and at which no crease was found: the print beside them may have slid a little.

use crate::reading::Reading;
use register::Laid;
use sheet::Fold;

/// A fold is a crease that was found if that lies this near to it, in x-heights, at both of these shares of its length.
const NEAR: f64 = 2.0;
const LOOKED_AT: [f64; 2] = [0.3, 0.7];

/// The folds of both photographs, on the first, at which no crease was found.
pub(super) fn without_crease(a: &Reading, b: &Reading, laid: &Laid, x_height: f64) -> Vec<Fold> {
    let from_b = b.folds.iter().filter_map(|f| {
        // Amid the page: its edges may lie off the first photograph.
        let [from, to] = LOOKED_AT.map(|share| laid.map.to_a(f.from + (f.to - f.from) * share));
        Some(Fold { from: from?, to: to?, ..*f })
    });
    let is_found = |f: &Fold| {
        let at = LOOKED_AT.map(|share| f.from + (f.to - f.from) * share);
        laid.map.paper.creases().iter().any(|c| at.iter().all(|p| c.beyond(*p).abs() < NEAR * x_height))
    };
    a.folds.iter().copied().chain(from_b).filter(|f| !is_found(f)).collect()
}

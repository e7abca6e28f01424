//! Which cut of each photograph is meant: that which is most like a cut of the others.

use super::impression::Impression;
use rayon::prelude::*;
use register::by_quarters;

/// The place of the cut in each photograph's list. Where a photograph has one only, that; else that which as a whole is most
/// like some cut of each of the others.
pub(super) fn chosen(impressions: &[&Impression]) -> Vec<usize> {
    let of = |i: usize| {
        let own = &impressions[i].cuts;
        if own.len() == 1 {
            return 0;
        }
        let likeness: Vec<f64> = own
            .par_iter()
            .map(|c| {
                let others = impressions.iter().enumerate().filter(|(j, _)| *j != i);
                let best = others.map(|(_, other)| {
                    let all = other.cuts.iter().flat_map(|o| by_quarters(&c.cut.ink, &o.cut.ink));
                    all.fold(0.0, f64::max)
                });
                best.sum()
            })
            .collect();
        (0..own.len()).max_by(|&p, &q| likeness[p].total_cmp(&likeness[q]).then(q.cmp(&p))).unwrap_or(0)
    };
    (0..impressions.len()).map(of).collect()
}

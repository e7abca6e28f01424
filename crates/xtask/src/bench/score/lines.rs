//! Lines of type: those said to be set again against those that were, and how much of a planted
//! respacing is seen.

use sheet::Rect;

/// The reported line that lies on a true one: the one whose box shares most area with it, and at
/// least half the height of one of them. `None` when there is none.
pub(crate) fn lying_on(truth: Rect, reported: &[Rect]) -> Option<usize> {
    let shared =
        |r: &Rect| truth.shared(*r).filter(|s| s.h >= 0.5 * truth.h.min(r.h)).map_or(0.0, Rect::area);
    let best = (0..reported.len()).max_by(|&i, &j| shared(&reported[i]).total_cmp(&shared(&reported[j])))?;
    (shared(&reported[best]) > 0.0).then_some(best)
}

/// Words of the reported drift further than this from a true word, in pixels per pixel of the gap
/// between true words, are another word's.
const NEAR: f64 = 0.5;

/// The share of a planted drift that is seen: the slope of the reported drift on the true one
/// through the origin, word by word (1 is all of it). Both are (place along the line, drift) in
/// pixels. `None` unless two thirds of the words have a reported drift.
pub(crate) fn recovered(truth: &[[f64; 2]], told: &[[f64; 2]]) -> Option<f64> {
    let span = truth.iter().map(|w| w[0]).fold(f64::NEG_INFINITY, f64::max)
        - truth.iter().map(|w| w[0]).fold(f64::INFINITY, f64::min);
    let gap = span / truth.len().saturating_sub(1).max(1) as f64;
    let (mut both, mut own, mut met) = (0.0, 0.0, 0);
    for word in truth {
        let nearest = told.iter().min_by(|p, q| (p[0] - word[0]).abs().total_cmp(&(q[0] - word[0]).abs()));
        if let Some(n) = nearest.filter(|n| (n[0] - word[0]).abs() <= NEAR * gap) {
            both += n[1] * word[1];
            own += word[1] * word[1];
            met += 1;
        }
    }
    (own > 0.0 && 3 * met >= 2 * truth.len()).then(|| both / own)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_line_above_is_not_meant() {
        let truth = Rect::new(0.0, 100.0, 500.0, 20.0);
        let lines = [Rect::new(0.0, 75.0, 500.0, 28.0), Rect::new(10.0, 98.0, 480.0, 24.0)];
        assert_eq!(lying_on(truth, &lines), Some(1));
        assert_eq!(lying_on(truth, &lines[..1]), None);
    }

    #[test]
    fn half_the_drift_is_half_recovered() {
        let truth = [[0.0, 0.0], [100.0, 2.0], [200.0, 4.0], [300.0, 2.0]];
        let told = [[3.0, 0.0], [98.0, 1.0], [205.0, 2.0], [301.0, 1.0]];
        assert!((recovered(&truth, &told).unwrap() - 0.5).abs() < 1e-12);
        assert_eq!(recovered(&truth, &told[..2]), None, "too few words");
        assert_eq!(recovered(&truth, &[]), None);
    }
}

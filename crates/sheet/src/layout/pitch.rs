//! From baseline to baseline.

use super::fit::Fitted;

/// Lines of the text's own size differ from it by at most this factor.
const SIZES: f64 = 1.2;
/// Neighbours are at most this far apart, in x-heights: lines farther apart have a blank or something
/// else between them.
const FARTHEST: f64 = 6.0;
/// And at least this far: less is two parts of one line.
const NEAREST: f64 = 1.2;

/// The median distance, across the lines, from the baseline of a line of the text's own size to that of
/// the next below it, in the unit of the lines; `None` when no two follow each other.
pub(super) fn line_pitch(lines: &[&Fitted], x_height: f64, fall: f64) -> Option<f64> {
    let own: Vec<&&Fitted> =
        lines.iter().filter(|l| (l.x_height / x_height).ln().abs() <= SIZES.ln()).collect();
    let upright = 1.0 / fall.hypot(1.0);
    let mut steps: Vec<f64> = Vec::new();
    for l in &own {
        let below = own.iter().filter_map(|o| {
            let (from, to) = (l.left.max(o.left), l.right.min(o.right));
            let x = f64::midpoint(from, to);
            let step = (o.baseline(x) - l.baseline(x)) * upright;
            (to > from && step > NEAREST * x_height).then_some(step)
        });
        steps.extend(below.min_by(f64::total_cmp).filter(|s| *s < FARTHEST * x_height));
    }
    steps.sort_by(f64::total_cmp);
    steps.get(steps.len() / 2).copied()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_pitch_is_that_of_the_text_in_columns_and_across_a_slope() {
        let (fall, x) = (0.1, 10.0);
        let mut lines = vec![Fitted::straight(0.0, 300.0, 20.0, fall, 30.0)];
        for i in 0..6 {
            let y = 100.0 + 25.0 * f64::from(i) + if i > 2 { 30.0 } else { 0.0 };
            lines.push(Fitted::straight(0.0, 140.0, y, fall, x));
            lines.push(Fitted::straight(160.0, 300.0, y + 31.0, fall, x));
        }
        let all: Vec<&Fitted> = lines.iter().collect();
        let pitch = line_pitch(&all, x, fall).unwrap();
        assert!((pitch - 25.0 / 1.01f64.sqrt()).abs() < 1e-9, "{pitch}");
        assert_eq!(line_pitch(&all[..2], x, fall), None);
    }
}

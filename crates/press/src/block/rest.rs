//! What is left between two sets of places after size, turn and shear are fitted.

use sheet::Point;

/// The affine map (fitted by least squares) that takes the first of each pair nearest to the second, and the root mean
/// square of what is left, in the unit of the points; `None` of fewer than three pairs, or of pairs on one line.
pub fn affine_rest(pairs: &[(Point, Point)]) -> Option<f64> {
    let n = pairs.len() as f64;
    if pairs.len() < 3 {
        return None;
    }
    let mean = |pick: fn(&(Point, Point)) -> Point| {
        pairs.iter().map(pick).fold(Point::new(0.0, 0.0), |a, b| a + b) * (1.0 / n)
    };
    let (ma, mb) = (mean(|p| p.0), mean(|p| p.1));
    let (mut xx, mut xy, mut yy) = (0.0, 0.0, 0.0);
    let (mut to_x, mut to_y) = (Point::new(0.0, 0.0), Point::new(0.0, 0.0));
    for (a, b) in pairs {
        let (p, q) = (*a - ma, *b - mb);
        xx += p.x * p.x;
        xy += p.x * p.y;
        yy += p.y * p.y;
        to_x = to_x + p * q.x;
        to_y = to_y + p * q.y;
    }
    let det = xx * yy - xy * xy;
    if det.abs() < 1e-9 {
        return None;
    }
    let solved = |t: Point| Point::new((t.x * yy - t.y * xy) / det, (t.y * xx - t.x * xy) / det);
    let (rx, ry) = (solved(to_x), solved(to_y));
    let rest: f64 = pairs
        .iter()
        .map(|(a, b)| {
            let p = *a - ma;
            let q = *b - mb;
            (q.x - rx.x * p.x - rx.y * p.y).powi(2) + (q.y - ry.x * p.x - ry.y * p.y).powi(2)
        })
        .sum();
    Some((rest / n).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sheared_and_stretched_figure_leaves_nothing_and_one_place_off_leaves_its_share() {
        let places = [(0.0, 0.0), (10.0, 0.0), (0.0, 10.0), (10.0, 10.0)].map(|(x, y)| Point::new(x, y));
        let mut pairs =
            places.map(|p| (p, Point::new(1.1 * p.x + 0.2 * p.y + 3.0, 0.9 * p.y - 1.0))).to_vec();
        assert!(affine_rest(&pairs).unwrap() < 1e-9);
        // One corner of a square moved by 0.4: the fit takes three quarters, each corner keeps 0.1.
        pairs[3].1.x += 0.4;
        assert!((affine_rest(&pairs).unwrap() - 0.1).abs() < 1e-9);
        assert!(affine_rest(&pairs[..2]).is_none());
    }
}

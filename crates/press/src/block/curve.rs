//! Curves as lists of places, in mm.

use sheet::Point;

/// A unit vector at an angle in radians, clockwise from rightwards (y down).
pub(super) fn towards(angle: f64) -> Point {
    Point::new(angle.cos(), angle.sin())
}

/// Turned a quarter clockwise.
pub(super) fn across(p: Point) -> Point {
    Point::new(-p.y, p.x)
}

/// The vector of length 1 that way; rightwards for none.
pub(super) fn unit(p: Point) -> Point {
    let l = p.length();
    if l < 1e-9 { Point::new(1.0, 0.0) } else { p * (1.0 / l) }
}

pub(super) fn dot(a: Point, b: Point) -> f64 {
    a.x * b.x + a.y * b.y
}

pub(super) fn mixed(a: Point, b: Point, t: f64) -> Point {
    a + (b - a) * t
}

pub(super) fn length(path: &[Point]) -> f64 {
    path.windows(2).map(|p| p[0].distance(p[1])).sum()
}

/// The path with a place at least every `step`, corners kept.
pub(super) fn resampled(path: &[Point], step: f64) -> Vec<Point> {
    let mut out: Vec<Point> = path.first().copied().into_iter().collect();
    for pair in path.windows(2) {
        let parts = (pair[0].distance(pair[1]) / step).ceil().max(1.0) as usize;
        out.extend((1..=parts).map(|k| mixed(pair[0], pair[1], k as f64 / parts as f64)));
    }
    out
}

/// A smooth curve through the places (Catmull & Rom 1974), a place every `step` or so.
pub(super) fn smooth(path: &[Point], step: f64) -> Vec<Point> {
    let n = path.len();
    if n < 3 {
        return resampled(path, step);
    }
    let at = |i: isize| path[i.clamp(0, n as isize - 1) as usize];
    let mut out = vec![path[0]];
    for i in 0..n as isize - 1 {
        piece(&mut out, [at(i - 1), at(i), at(i + 1), at(i + 2)], step);
    }
    out
}

/// The same for a closed curve; the first place is not said again.
pub(super) fn smooth_closed(path: &[Point], step: f64) -> Vec<Point> {
    let n = path.len() as isize;
    if n < 3 {
        return path.to_vec();
    }
    let at = |i: isize| path[i.rem_euclid(n) as usize];
    let mut out = vec![path[0]];
    for i in 0..n {
        piece(&mut out, [at(i - 1), at(i), at(i + 1), at(i + 2)], step);
    }
    out.pop();
    out
}

fn piece(out: &mut Vec<Point>, [a, b, c, d]: [Point; 4], step: f64) {
    let parts = (b.distance(c) / step).ceil().max(1.0) as usize;
    for k in 1..=parts {
        let t = k as f64 / parts as f64;
        let (t2, t3) = (t * t, t * t * t);
        out.push(
            (b * 2.0
                + (c - a) * t
                + (a * 2.0 - b * 5.0 + c * 4.0 - d) * t2
                + (b * 3.0 - a - c * 3.0 + d) * t3)
                * 0.5,
        );
    }
}

/// The place at a share of the length, and which way the path runs there.
pub(super) fn at(path: &[Point], share: f64) -> (Point, Point) {
    let whole = length(path);
    let mut left = share.clamp(0.0, 1.0) * whole;
    for pair in path.windows(2) {
        let long = pair[0].distance(pair[1]);
        if left <= long && long > 1e-9 {
            return (mixed(pair[0], pair[1], left / long), unit(pair[1] - pair[0]));
        }
        left -= long;
    }
    let n = path.len();
    if n < 2 {
        return (path.first().copied().unwrap_or(Point::new(0.0, 0.0)), Point::new(1.0, 0.0));
    }
    (path[n - 1], unit(path[n - 1] - path[n - 2]))
}

/// The part of a path between two shares of its length, a place every `step`.
pub(super) fn part(path: &[Point], from: f64, to: f64, step: f64) -> Vec<Point> {
    let n = ((length(path) * (to - from).abs() / step).ceil() as usize).max(2);
    (0..=n).map(|i| at(path, from + (to - from) * i as f64 / n as f64).0).collect()
}

/// An arc of an ellipse, from one angle to another (radians).
pub(super) fn arc(centre: Point, rx: f64, ry: f64, from: f64, to: f64) -> Vec<Point> {
    let n = (((to - from).abs() * rx.max(ry) / 0.4).ceil() as usize).clamp(6, 400);
    let place = |i: usize| {
        let a = from + (to - from) * i as f64 / n as f64;
        centre + Point::new(rx * a.cos(), ry * a.sin())
    };
    (0..=n).map(place).collect()
}

/// A closed ellipse.
pub(super) fn ellipse(centre: Point, rx: f64, ry: f64) -> Vec<Point> {
    let mut out = arc(centre, rx, ry, 0.0, std::f64::consts::TAU);
    out.pop();
    out
}

/// A spiral: from the angle `from` and radius `outer` inwards by so many turns to the radius `inner`.
pub(super) fn spiral(centre: Point, outer: f64, inner: f64, from: f64, turns: f64) -> Vec<Point> {
    let n =
        ((turns.abs() * std::f64::consts::TAU * (outer + inner) / 2.0 / 0.5).ceil() as usize).clamp(16, 500);
    let place = |i: usize| {
        let t = i as f64 / n as f64;
        centre + towards(from + std::f64::consts::TAU * turns * t) * (outer + (inner - outer) * t.powf(0.8))
    };
    (0..=n).map(place).collect()
}

/// The two sides of a band along a path: `half` is half its width at a share of the length.
pub(super) fn sides(path: &[Point], half: impl Fn(f64) -> f64) -> [Vec<Point>; 2] {
    let n = path.len();
    let side = |sign: f64| -> Vec<Point> {
        (0..n)
            .map(|i| {
                let d = unit(path[(i + 1).min(n - 1)] - path[i.saturating_sub(1)]);
                path[i] + across(d) * (sign * half(i as f64 / (n - 1).max(1) as f64))
            })
            .collect()
    };
    [side(-1.0), side(1.0)]
}

/// A closed line of both sides.
pub(super) fn closed(sides: &[Vec<Point>; 2]) -> Vec<Point> {
    sides[0].iter().copied().chain(sides[1].iter().rev().copied()).collect()
}

/// Scallops along a path: bumps outwards (to the left as it runs), `wide` across.
pub(super) fn scalloped(path: &[Point], wide: f64, high: f64, vary: &mut impl FnMut() -> f64) -> Vec<Point> {
    let n = (length(path) / wide).round().max(2.0) as usize;
    let mut out = Vec::new();
    for i in 0..n {
        let tall = high * (0.6 + 0.8 * vary());
        for k in 0..6 {
            let u = f64::from(k) / 6.0;
            let (p, d) = at(path, (i as f64 + u) / n as f64);
            out.push(p - across(d) * (tall * (std::f64::consts::PI * u).sin().powf(0.7)));
        }
    }
    out.push(at(path, 1.0).0);
    out
}

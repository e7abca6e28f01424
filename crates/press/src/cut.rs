//! What cuts and ornaments print: invented designs, drawn as closed outlines with hand-cut edges.

use sheet::{Point, Rect};

use crate::chance::Chance;
use crate::fount::{Face, Founts, Outline};
use crate::noise::Noise;
use crate::setting::{Cut, CutKind};

/// The outline of a cut in mm, before it is turned about its middle.
pub(crate) fn outline(cut: &Cut, founts: &Founts, stock: u64) -> Outline {
    let r = cut.place;
    match cut.kind {
        CutKind::Rule => rule(r, cut.piece),
        CutKind::Ornament { design } => ornament(design, stock, r, cut.piece),
        CutKind::HeadPiece => head_piece(r, cut.piece),
        CutKind::Initial { letter } => initial(letter, founts, r, cut.piece),
        // A block brings its own face.
        CutKind::Block => Outline::default(),
    }
}

/// A rule: straight, but with a bend, a nick or two, and ends not quite square.
fn rule(r: Rect, piece: u64) -> Outline {
    let long = r.w.max(r.h);
    let bent = Noise::new(piece, "bent rule", 45.0);
    let worn = Noise::new(piece, "worn rule", 1.3);
    let across = r.w < r.h;
    let half = r.w.min(r.h) / 2.0;
    Outline::rectangle(Rect::new(0.0, -half, long, 2.0 * half)).divided(0.7).mapped(|p| {
        let thin = 1.0 - 0.22 * worn.at(p.x, p.y.signum() * 7.0).max(0.0);
        let q = Point::new(p.x, p.y * thin + 0.09 * bent.at(p.x, 0.0));
        if across { Point::new(r.x + half - q.y, r.y + q.x) } else { Point::new(r.x + q.x, r.y + half + q.y) }
    })
}

/// Edges as a knife leaves them: small wanderings of `by` mm.
fn cut_by_hand(outline: &Outline, piece: u64, by: f64) -> Outline {
    let (x, y) = (Noise::new(piece, "knife across", 0.9), Noise::new(piece, "knife down", 0.9));
    outline.divided(0.35).mapped(|p| p + Point::new(by * x.rough(p.x, p.y), by * y.rough(p.x, p.y)))
}

/// A petal from `from` to `to`, so wide in its middle.
fn petal(from: Point, to: Point, wide: f64) -> Vec<Point> {
    let along = to - from;
    let normal = Point::new(-along.y, along.x) * (wide / along.x.hypot(along.y).max(1e-9));
    let side = |sign: f64, i: usize| {
        let t = i as f64 / 8.0;
        from + along * t + normal * (sign * (std::f64::consts::PI * t).sin().powf(0.8) * 0.5)
    };
    clockwise((0..=8).map(|i| side(1.0, i)).chain((1..8).rev().map(|i| side(-1.0, i))).collect())
}

fn disc(centre: Point, radius: f64, clockwise: bool) -> Vec<Point> {
    let n = 20;
    let point = |i: usize| {
        let a = std::f64::consts::TAU * i as f64 / n as f64;
        centre + Point::new(a.cos(), if clockwise { a.sin() } else { -a.sin() }) * radius
    };
    (0..n).map(point).collect()
}

/// A band along a curve, `wide` at its thickest and tapering to both ends.
fn stroke(path: &[Point], wide: f64) -> Vec<Point> {
    let n = path.len();
    let edge = |i: usize, sign: f64| {
        let (a, b) = (path[i.saturating_sub(1)], path[(i + 1).min(n - 1)]);
        let d = b - a;
        let t = i as f64 / (n - 1).max(1) as f64;
        let half = wide / 2.0 * (0.25 + 0.75 * (std::f64::consts::PI * t).sin());
        path[i] + Point::new(-d.y, d.x) * (sign * half / d.x.hypot(d.y).max(1e-9))
    };
    clockwise((0..n).map(|i| edge(i, 1.0)).chain((0..n).rev().map(|i| edge(i, -1.0))).collect())
}

/// A spiral tendril from its root, with so many turns.
fn tendril(root: Point, start: f64, radius: f64, turns: f64, hand: f64) -> Vec<Point> {
    let n = 30;
    let centre = root + Point::new(start.cos(), start.sin()) * radius;
    let point = |i: usize| {
        let t = i as f64 / f64::from(n);
        let a = start + std::f64::consts::PI + hand * std::f64::consts::TAU * turns * t;
        centre + Point::new(a.cos(), a.sin()) * (radius * (1.0 - 0.82 * t))
    };
    (0..=n as usize).map(point).collect()
}

/// One type ornament of the house. Its design hangs on the stock; the piece only on its wear.
fn ornament(design: u8, stock: u64, r: Rect, piece: u64) -> Outline {
    let mut chance = Chance::new(stock ^ u64::from(design), "ornament design");
    let (c, s) = (r.centre(), r.w / 2.0);
    let at = |x: f64, y: f64| c + Point::new(x * s, y * s);
    let mut lines = Vec::new();
    match design {
        // A flower between two leaves.
        0 | 4 => {
            let petals = chance.whole(5, 8);
            for i in 0..petals {
                let a = std::f64::consts::TAU * i as f64 / petals as f64 + 0.3;
                lines.push(petal(
                    at(0.16 * a.cos(), 0.16 * a.sin()),
                    at(0.8 * a.cos(), 0.8 * a.sin()),
                    0.42 * s,
                ));
            }
            lines.push(disc(c, 0.13 * s, true));
        }
        // A scroll.
        1 | 5 => {
            let hand = if chance.happens(0.5) { 1.0 } else { -1.0 };
            lines.push(stroke(&tendril(at(-0.85, 0.55 * hand), -0.4 * hand, 0.62 * s, 1.3, hand), 0.24 * s));
            lines.push(petal(at(0.05, -0.2 * hand), at(0.9, -0.75 * hand), 0.3 * s));
            lines.push(petal(at(0.3, 0.2 * hand), at(0.95, 0.75 * hand), 0.26 * s));
            lines.push(disc(at(-0.62, -0.6 * hand), chance.between(0.1, 0.17) * s, true));
        }
        // An acorn on a stalk.
        2 => {
            lines.push(petal(at(0.0, -0.9), at(0.0, 0.25), 0.75 * s));
            lines.push(petal(at(-0.55, 0.12), at(0.55, 0.12), 0.3 * s));
            lines.push(stroke(&[at(0.0, 0.2), at(0.08, 0.5), at(0.0, 0.92)], 0.16 * s));
            lines.push(petal(at(0.05, 0.6), at(0.75, 0.85), 0.24 * s));
            lines.push(petal(at(-0.05, 0.6), at(-0.75, 0.85), 0.24 * s));
        }
        // A star in a ring.
        _ => {
            let rays = 2 * chance.whole(3, 5);
            let star = (0..rays).map(|i| {
                let a = std::f64::consts::TAU * i as f64 / rays as f64;
                let reach = if i % 2 == 0 { 0.56 } else { 0.22 };
                at(reach * a.cos(), reach * a.sin())
            });
            lines.push(clockwise(star.collect()));
            lines.push(disc(c, 0.86 * s, true));
            lines.push(disc(c, 0.7 * s, false));
        }
    }
    cut_by_hand(&Outline(lines), piece, 0.035)
}

/// Runs a line clockwise (on the screen), so that parts that overlap add up instead of cutting holes.
fn clockwise(mut line: Vec<Point>) -> Vec<Point> {
    if Outline(vec![line.clone()]).area() < 0.0 {
        line.reverse();
    }
    line
}

/// A head-piece: within a frame, a vase with tendrils to both sides, white on a hatched ground.
fn head_piece(r: Rect, piece: u64) -> Outline {
    let mut chance = Chance::new(piece, "head-piece");
    let mut lines = frame(r, 0.55);
    let inner = r.grown(-1.3);
    let c = inner.centre();
    let half = inner.h / 2.0;
    // Tendrils in mirror pairs, not quite alike: the hand was not a machine's.
    let count = ((inner.w / 2.0 - half) / (1.55 * half)).floor().max(1.0) as usize;
    for side in [-1.0, 1.0] {
        for i in 0..count {
            let x = c.x + side * (half * 0.9 + i as f64 * 1.55 * half);
            let up = if i % 2 == 0 { 1.0 } else { -1.0 };
            let root = Point::new(x, c.y + up * 0.7 * half + chance.about(0.15));
            let start = if side > 0.0 { -0.55 * up } else { std::f64::consts::PI + 0.55 * up };
            let turns = chance.between(1.2, 1.6);
            lines.push(stroke(&tendril(root, start, 0.74 * half, turns, -side * up), 0.2 * half));
            for k in 0..3 {
                let a = start + side * up * (f64::from(k) - 0.6) * 0.9;
                let tip = root + Point::new(a.cos(), a.sin()) * (chance.between(0.5, 0.8) * half);
                lines.push(petal(root + Point::new(a.cos(), a.sin()) * (0.1 * half), tip, 0.24 * half));
            }
            lines.push(disc(root + Point::new(side * 0.75 * half, -up * 0.7 * half), 0.1 * half, true));
        }
    }
    // The vase.
    let profile = [(0.42, -0.82), (0.16, -0.55), (0.5, -0.1), (0.44, 0.3), (0.14, 0.55), (0.4, 0.85)];
    let left = profile.iter().map(|&(x, y)| c + Point::new(-x * half, y * half));
    let right = profile.iter().rev().map(|&(x, y)| c + Point::new(x * half, y * half));
    lines.push(clockwise(left.chain(right).collect()));
    for i in 0..5 {
        let a = -std::f64::consts::FRAC_PI_2 + (f64::from(i) - 2.0) * 0.42;
        let top = c + Point::new(0.0, -0.8 * half);
        lines.push(petal(top, top + Point::new(a.cos(), a.sin() * 0.3) * (0.6 * half), 0.16 * half));
    }
    hatching(&mut lines, inner, 0.75 + chance.unit() * 0.4, &mut chance);
    cut_by_hand(&Outline(lines), piece, 0.06)
}

/// Short level strokes in the upper and lower strips, as shading.
fn hatching(lines: &mut Vec<Vec<Point>>, r: Rect, apart: f64, chance: &mut Chance) {
    let mut x = r.x + apart;
    while x < r.right() - apart {
        for (y, way) in [(r.y, 1.0), (r.bottom(), -1.0)] {
            let long = chance.between(0.6, 1.5);
            let top = Point::new(x + chance.about(0.1), y + way * 0.2);
            lines.push(stroke(
                &[
                    top,
                    top + Point::new(0.05, way * long / 2.0),
                    top + Point::new(chance.about(0.1), way * long),
                ],
                0.22,
            ));
        }
        x += apart;
    }
}

/// A frame: an outer line and its inner edge.
fn frame(r: Rect, wide: f64) -> Vec<Vec<Point>> {
    let mut lines = Outline::rectangle(r).0;
    let mut inside = Outline::rectangle(r.grown(-wide)).0;
    for line in &mut inside {
        line.reverse();
    }
    lines.append(&mut inside);
    lines
}

/// An initial: the letter within a double frame, on a ground of tendrils and dots.
fn initial(letter: char, founts: &Founts, r: Rect, piece: u64) -> Outline {
    let mut chance = Chance::new(piece, "initial");
    let mut lines = frame(r, 0.04 * r.w);
    let inner = r.grown(-0.09 * r.w);
    if let Some(cast) = founts.cast(Face::FrenchCanonRoman, letter)
        && let Some(b) = cast.outline.bounds()
    {
        let k = (0.8 * inner.h / b.h).min(0.86 * inner.w / b.w);
        let c = inner.centre() - b.centre() * k;
        lines.extend(cast.outline.spread(0.012).mapped(|p| p * k + c).0.into_iter().map(|mut l| {
            // The font runs its lines the other way round.
            l.reverse();
            l
        }));
    }
    for corner in inner.corners() {
        let towards = inner.centre() - corner;
        let start = towards.y.atan2(towards.x);
        for hand in [-1.0, 1.0] {
            let root = corner + towards * 0.06;
            let radius = inner.w * chance.between(0.075, 0.11);
            lines.push(stroke(&tendril(root, start + hand * 0.75, radius, 1.1, hand), 0.028 * r.w));
        }
        lines.push(petal(corner + towards * 0.08, corner + towards * chance.between(0.36, 0.46), 0.06 * r.w));
    }
    for _ in 0..14 {
        let at = Point::new(inner.x + inner.w * chance.unit(), inner.y + inner.h * chance.unit());
        lines.push(disc(at, 0.012 * r.w, true));
    }
    cut_by_hand(&Outline(lines), piece, 0.05)
}

//! Scores the layout against simulated pairs, whose truth is known to the word:
//! `score_simulated FOLDER FROM TO [lines]`. The folder holds `NNN-a.*`, `NNN-b.*` and `NNN-truth.json`
//! as the benchmark makes them; pairs `FROM..TO` are looked at.
//!
//! Lines: a true line is found when a line of the layout has more than half of the area of both boxes
//! together (the layout's box from ascenders to descenders). A line that is none of the true ones is a
//! *part* when most of its box lies on true lines, at the *edge* of the photograph, *ornament* when its
//! band is well inked, else *other*.
//!
//! Size: the x-height of a page over the height of the boxes of its text, the size in which most true lines
//! stand by their length; pages that differ from the median of all by more than a fifth are off.
//!
//! Words: in pairs of one setting, which words of one photograph have a word of the same extent on the
//! other, both ends within 0.35 x-heights where sealed points carry them.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a tool for the people who build this"
)]

#[path = "../tests/support/mod.rs"]
mod support;

use nalgebra::{Matrix3, Vector3};
use rayon::prelude::*;
use sheet::{Layout, Line, Plane, Point, Rect};
use std::path::{Path, PathBuf};
use std::time::Instant;

/// Kinds of pairs by their number modulo 24 whose text stands in one setting.
const ONE_SETTING: [usize; 10] = [0, 6, 11, 15, 1, 4, 8, 12, 16, 19];
/// A word's ends are those of another within this, in x-heights.
const SAME_END: f64 = 0.35;
/// A band at least this dark on average is well inked, 0 to 255.
const INKED: f64 = 20.0;

#[derive(Default)]
struct Counts {
    true_lines: usize,
    found: usize,
    given: usize,
    right: usize,
    part: usize,
    edge: usize,
    ornament: usize,
    other: usize,
    words: usize,
    same: usize,
    ms: Vec<f64>,
    sizes: Vec<f64>,
    report: Vec<String>,
}

impl Counts {
    fn add(&mut self, o: &Self) {
        self.true_lines += o.true_lines;
        self.found += o.found;
        self.given += o.given;
        self.right += o.right;
        self.part += o.part;
        self.edge += o.edge;
        self.ornament += o.ornament;
        self.other += o.other;
        self.words += o.words;
        self.same += o.same;
        self.ms.extend(&o.ms);
        self.sizes.extend(&o.sizes);
    }
}

fn main() {
    let args: Vec<String> = std::env::args().collect();
    let folder = Path::new(&args[1]);
    let (from, to): (usize, usize) = (args[2].parse().unwrap(), args[3].parse().unwrap());
    let told = args.get(4).is_some();
    let all: Vec<Counts> = (from..to).into_par_iter().map(|n| pair(folder, n)).collect();
    let mut sum = Counts::default();
    for c in &all {
        if told && !c.report.is_empty() {
            println!("{}", c.report.join("\n"));
        }
        sum.add(c);
    }
    sum.ms.sort_by(f64::total_cmp);
    let pages = all.len() as f64;
    println!(
        "pages {from}..{to}: recall {:.4} ({}/{}) precision {:.4} ({}/{})",
        sum.found as f64 / sum.true_lines as f64,
        sum.found,
        sum.true_lines,
        sum.right as f64 / sum.given as f64,
        sum.right,
        sum.given
    );
    println!(
        "false lines a page: ornament {:.3} edge {:.3} other {:.3} part {:.3}",
        sum.ornament as f64 / pages,
        sum.edge as f64 / pages,
        sum.other as f64 / pages,
        sum.part as f64 / pages
    );
    sum.sizes.sort_by(f64::total_cmp);
    let usual = sum.sizes[sum.sizes.len() / 2];
    let off = sum.sizes.iter().filter(|s| (*s / usual - 1.0).abs() > 0.2).count();
    println!("x-height over the height of the text: median {usual:.3}, off {off}/{}", sum.sizes.len());
    println!(
        "words with a counterpart: {:.4} ({}/{}); median {:.1} ms, slowest {:.1} ms",
        sum.same as f64 / sum.words.max(1) as f64,
        sum.same,
        sum.words,
        sum.ms[sum.ms.len() / 2],
        sum.ms[sum.ms.len() - 1]
    );
}

fn pair(folder: &Path, n: usize) -> Counts {
    let mut c = Counts::default();
    let name = |side: &str| photograph(folder, n, side);
    let truth: serde_json::Value =
        serde_json::from_slice(&std::fs::read(folder.join(format!("{n:03}-truth.json"))).unwrap()).unwrap();
    let number = |v: &serde_json::Value, i: usize| v[i].as_f64().unwrap();
    let boxes: Vec<Rect> = truth["lines"]
        .as_array()
        .unwrap()
        .iter()
        .map(|l| &l["box_a_px"])
        .map(|b| Rect::new(number(b, 0), number(b, 1), number(b, 2), number(b, 3)))
        .collect();
    let ink = inked(&name("a"));
    let (a, ms) = laid_out(&ink);
    c.ms.push(ms);
    lines(n, &ink, &a, &boxes, &mut c);
    if let (Some(x_height), Some(text)) = (a.x_height, text_height(&boxes, a.skew.radians().tan().abs())) {
        c.sizes.push(x_height.0 / text);
        c.report.push(format!("{n:03} size {:.1} over {text:.1}", x_height.0));
    }
    let points: Vec<(Point, Point)> = truth["points"]
        .as_array()
        .unwrap()
        .iter()
        .map(|p| (Point::new(number(p, 0), number(p, 1)), Point::new(number(p, 2), number(p, 3))))
        .collect();
    if ONE_SETTING.contains(&(n % 24)) && points.len() > 20 {
        let (b, points) = upright(inked(&name("b")), points);
        let (b, ms) = laid_out(&b);
        c.ms.push(ms);
        words(n, &a, &b, &boxes, &points, &mut c);
    }
    c
}

/// The height of the true lines in which most of the text stands, the slope of their boxes taken out; `None` of
/// fewer than four long ones.
fn text_height(boxes: &[Rect], slope: f64) -> Option<f64> {
    let lines: Vec<(f64, f64)> =
        boxes.iter().map(|b| (b.h - slope * b.w, b.w)).filter(|l| l.0 > 1.0 && l.1 > 8.0 * l.0).collect();
    let near =
        |h: f64| -> f64 { lines.iter().filter(|l| (l.0 / h).ln().abs() < 0.12).map(|l| l.1 / l.0).sum() };
    let best = lines.iter().max_by(|p, q| near(p.0).total_cmp(&near(q.0)))?;
    (lines.len() >= 4).then_some(best.0)
}

fn photograph(folder: &Path, n: usize, side: &str) -> PathBuf {
    ["png", "jpg"].iter().map(|e| folder.join(format!("{n:03}-{side}.{e}"))).find(|p| p.exists()).unwrap()
}

fn inked(path: &Path) -> Plane<u8> {
    sheet::ink(&support::luminance(path).unwrap()).darkness
}

/// Turns the second photograph by quarters until it stands as the first does.
fn upright(mut ink: Plane<u8>, mut points: Vec<(Point, Point)>) -> (Plane<u8>, Vec<(Point, Point)>) {
    // The two points that lie farthest apart down the first photograph.
    let (Some(top), Some(low)) = (
        (0..points.len()).min_by(|&i, &j| points[i].0.y.total_cmp(&points[j].0.y)),
        (0..points.len()).max_by(|&i, &j| points[i].0.y.total_cmp(&points[j].0.y)),
    ) else {
        return (ink, points);
    };
    for _ in 0..3 {
        let (v, w) = (points[low].0 - points[top].0, points[low].1 - points[top].1);
        let (across, along) = (v.x * w.y - v.y * w.x, v.x * w.x + v.y * w.y);
        if along > across.abs() {
            break;
        }
        let height = ink.height() as f64;
        ink = ink.turned(1);
        for p in &mut points {
            p.1 = Point::new(height - p.1.y, p.1.x);
        }
    }
    (ink, points)
}

/// The layout as the comparison has it, and its milliseconds.
fn laid_out(ink: &Plane<u8>) -> (Layout, f64) {
    let mut level = ink.clone();
    let mut reduction = 1.0;
    while level.width().max(level.height()) > 2600 {
        level = level.halved();
        reduction *= 2.0;
    }
    let start = Instant::now();
    let layout = sheet::layout(&level, reduction);
    (layout, start.elapsed().as_secs_f64() * 1e3)
}

fn over(a: Rect, b: Rect) -> f64 {
    let shared = a.shared(b).map_or(0.0, Rect::area);
    shared / (a.area() + b.area() - shared)
}

fn lines(n: usize, ink: &Plane<u8>, layout: &Layout, boxes: &[Rect], c: &mut Counts) {
    let page = Rect::new(0.0, 0.0, ink.width() as f64, ink.height() as f64);
    c.true_lines += boxes.len();
    for b in boxes {
        let found = layout.lines.iter().any(|l| over(l.bounds, *b) > 0.5);
        c.found += usize::from(found);
        if !found {
            c.report.push(format!("{n:03} missed {:.0} {:.0} {:.0} {:.0}", b.x, b.y, b.w, b.h));
        }
    }
    c.given += layout.lines.len();
    for l in &layout.lines {
        if boxes.iter().any(|b| over(l.bounds, *b) > 0.5) {
            c.right += 1;
            continue;
        }
        let bounds = l.bounds;
        let on: f64 = boxes.iter().filter_map(|b| band(l).shared(*b)).map(Rect::area).sum();
        let near = 0.01 * page.w.max(page.h);
        let cause = if on > 0.5 * band(l).area() {
            c.part += 1;
            "part"
        } else if bounds.x < near
            || bounds.right() > page.w - near
            || band(l).y < near
            || bounds.bottom() > page.h
        {
            c.edge += 1;
            "edge"
        } else if mean(ink, band(l)) > INKED {
            c.ornament += 1;
            "ornament"
        } else {
            c.other += 1;
            "other"
        };
        c.report.push(format!(
            "{n:03} false {cause} {:.0} {:.0} {:.0} {:.0} x {:.1} of {:.1} contrast {:.2} words {}",
            bounds.x,
            bounds.y,
            bounds.w,
            bounds.h,
            l.x_height.0,
            layout.x_height.map_or(0.0, |x| x.0),
            l.contrast,
            l.words.len()
        ));
    }
}

/// From x-line to baseline.
fn band(l: &Line) -> Rect {
    let (a, b) = (l.baseline[0], l.baseline[l.baseline.len() - 1]);
    let (top, bottom) = (a.y.min(b.y) - l.x_height.0, a.y.max(b.y));
    Rect::new(a.x, top, b.x - a.x, bottom - top)
}

fn mean(ink: &Plane<u8>, r: Rect) -> f64 {
    let (mut sum, mut count) = (0.0, 0.0);
    for y in (r.y.max(0.0) as usize..(r.bottom().max(0.0) as usize).min(ink.height())).step_by(2) {
        for x in (r.x.max(0.0) as usize..(r.right().max(0.0) as usize).min(ink.width())).step_by(2) {
            sum += f64::from(ink.at(x, y));
            count += 1.0;
        }
    }
    if count > 0.0 { sum / count } else { 0.0 }
}

/// Carries a place from one photograph to the other: the affine map of the sealed points, near ones
/// counting for more.
fn carried(points: &[(Point, Point)], p: Point, near: f64) -> Option<Point> {
    let mut normal = Matrix3::<f64>::zeros();
    let (mut xs, mut ys) = (Vector3::<f64>::zeros(), Vector3::<f64>::zeros());
    for (from, to) in points {
        let d = p.distance(*from) / near;
        let w = 1.0 / (0.05 + d * d).powi(2);
        let v = Vector3::new(1.0, from.x - p.x, from.y - p.y);
        normal += w * v * v.transpose();
        xs += w * to.x * v;
        ys += w * to.y * v;
    }
    let inverse = normal.try_inverse()?;
    Some(Point::new((inverse * xs)[0], (inverse * ys)[0]))
}

/// A word's ends on the baseline, and its x-height.
fn ends(layout: &Layout) -> Vec<(Point, Point, f64)> {
    let mut out = Vec::new();
    for l in &layout.lines {
        for w in &l.words {
            let at = |x: f64| {
                let x = x.clamp(l.baseline[0].x, l.baseline[l.baseline.len() - 1].x);
                let y = support::y_at(&l.baseline, x).unwrap_or(l.baseline[0].y);
                Point::new(x, y - l.x_height.0 / 2.0)
            };
            let (mut p, mut q) = (at(w.bounds.x), at(w.bounds.right()));
            (p.x, q.x) = (w.bounds.x, w.bounds.right());
            out.push((p, q, l.x_height.0));
        }
    }
    out
}

fn words(n: usize, a: &Layout, b: &Layout, boxes: &[Rect], points: &[(Point, Point)], c: &mut Counts) {
    let (on_a, on_b) = (ends(a), ends(b));
    let back: Vec<(Point, Point)> = points.iter().map(|p| (p.1, p.0)).collect();
    // What both photographs show, and is text.
    let shown = Rect::around(points.iter().map(|p| p.0)).unwrap();
    let is_text = |p: Point, q: Point| {
        let middle = (p + q) * 0.5;
        shown.holds(middle) && boxes.iter().any(|b| b.holds(middle))
    };
    let near = (shown.w + shown.h) / 8.0;
    let carried_b: Vec<(Point, Point, f64)> = on_b
        .iter()
        .filter_map(|w| Some((carried(&back, w.0, near)?, carried(&back, w.1, near)?, w.2)))
        .collect();
    let is_same = |v: &(Point, Point, f64), w: &(Point, Point, f64)| {
        let h = SAME_END * v.2;
        (v.0.x - w.0.x).abs() < h
            && (v.1.x - w.1.x).abs() < h
            && (v.0.y - w.0.y).abs() < 2.0 * h
            && (v.1.y - w.1.y).abs() < 2.0 * h
    };
    let mine: Vec<_> = on_a.iter().filter(|w| is_text(w.0, w.1)).collect();
    let others: Vec<_> = carried_b.iter().filter(|w| is_text(w.0, w.1)).collect();
    let same = mine.iter().filter(|v| others.iter().any(|w| is_same(v, w))).count();
    c.report.push(format!("{n:03} words {same} of {} and {}", mine.len(), others.len()));
    c.words += mine.len() + others.len();
    c.same += 2 * same;
}

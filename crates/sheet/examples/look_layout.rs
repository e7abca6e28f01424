//! Draws the layout of a photograph over its ink, to look at: `look_layout PHOTOGRAPH OUT.png`.
//!
//! Ink is grey, baselines ochre with a bar for the x-height at the left end, words teal boxes over the
//! x-height, what is not type a brown box with a mark for its kind. Where there is ground truth, wrong
//! lines are drawn red and true lines that were missed blue.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a tool for the people who build this"
)]

#[path = "../tests/support/mod.rs"]
mod support;

use image::{Rgb, RgbImage};
use sheet::{PatchKind, Point, Rect};

const OCHRE: Rgb<u8> = Rgb([180, 97, 15]);
const TEAL: Rgb<u8> = Rgb([11, 100, 112]);
const RED: Rgb<u8> = Rgb([220, 0, 0]);
const BLUE: Rgb<u8> = Rgb([0, 60, 230]);
const BROWN: Rgb<u8> = Rgb([120, 20, 80]);

fn main() {
    let args: Vec<String> = std::env::args().collect();
    let luminance = support::luminance(args[1].as_ref()).unwrap();
    let ink = sheet::ink(&luminance).darkness;
    let layout = if ink.width().max(ink.height()) > 2600 {
        sheet::layout(&ink.halved(), 2.0)
    } else {
        sheet::layout(&ink, 1.0)
    };
    let shrink = (ink.width().max(ink.height()) as f64 / 1800.0).max(1.0);
    let (w, h) = ((ink.width() as f64 / shrink) as u32, (ink.height() as f64 / shrink) as u32);
    let mut picture = RgbImage::from_fn(w, h, |x, y| {
        let v = ink.sample((f64::from(x) + 0.5) * shrink, (f64::from(y) + 0.5) * shrink);
        Rgb([255 - (v * 0.55) as u8; 3])
    });
    let truth = support::real()
        .and_then(|folder| support::pages(&folder).into_iter().find(|p| args[1].ends_with(&p.file)));
    let (found, right) = truth.as_ref().map_or((Vec::new(), Vec::new()), |t| {
        let (_, found, right) = support::score(t, &layout);
        (found, right)
    });
    for (line, _) in truth.iter().flat_map(|t| &t.lines).zip(&found).filter(|(_, found)| !**found) {
        for p in line.baseline.windows(2) {
            for off in 0..3 {
                let by = Point::new(0.0, f64::from(off));
                stroke(&mut picture, p[0] * (1.0 / shrink) + by, p[1] * (1.0 / shrink) + by, BLUE);
            }
        }
    }
    for (i, line) in layout.lines.iter().enumerate() {
        let wrong = right.get(i).is_some_and(|right| !right);
        for p in line.baseline.windows(2) {
            for off in 0..if wrong { 4 } else { 1 } {
                let by = Point::new(0.0, f64::from(off));
                stroke(
                    &mut picture,
                    p[0] * (1.0 / shrink) + by,
                    p[1] * (1.0 / shrink) + by,
                    if wrong { RED } else { OCHRE },
                );
            }
        }
        let first = line.baseline[0] * (1.0 / shrink);
        let top = Point::new(first.x, first.y - line.x_height.0 / shrink);
        stroke(&mut picture, first, top, OCHRE);
        for word in &line.words {
            let y = support::y_at(&line.baseline, word.bounds.centre().x).unwrap_or(line.baseline[0].y);
            let b = Rect::new(word.bounds.x, y - line.x_height.0 * 1.1, word.bounds.w, line.x_height.0 * 1.2);
            frame(&mut picture, b.scaled(1.0 / shrink), TEAL);
        }
        if let Some(next) = layout.lines.get(i + 1) {
            // The order of reading, as a thin line from the end of one to the start of the next.
            let (a, b) = (line.baseline[line.baseline.len() - 1], next.baseline[0]);
            dotted(&mut picture, a * (1.0 / shrink), b * (1.0 / shrink), BROWN);
        }
    }
    for patch in &layout.not_type {
        let b = patch.bounds.scaled(1.0 / shrink);
        frame(&mut picture, b, BROWN);
        let lines = match patch.kind {
            PatchKind::Cut => 1,
            PatchKind::Initial => 2,
            PatchKind::Border => 3,
            PatchKind::Rule => 4,
            PatchKind::Unknown => 0,
        };
        for i in 0..lines {
            let y = b.y + b.h * f64::from(i + 1) / f64::from(lines + 1);
            stroke(&mut picture, Point::new(b.x, y), Point::new(b.right(), y), BROWN);
        }
    }
    println!(
        "{} lines, {} patches, skew {:.2}, x-height {:?}, pitch {:?}",
        layout.lines.len(),
        layout.not_type.len(),
        layout.skew.0,
        layout.x_height,
        layout.line_pitch
    );
    picture.save(&args[2]).unwrap();
}

fn put(picture: &mut RgbImage, x: f64, y: f64, colour: Rgb<u8>) {
    if x >= 0.0 && y >= 0.0 && (x as u32) < picture.width() && (y as u32) < picture.height() {
        picture.put_pixel(x as u32, y as u32, colour);
    }
}

fn stroke(picture: &mut RgbImage, a: Point, b: Point, colour: Rgb<u8>) {
    let n = a.distance(b).ceil().max(1.0) as usize;
    for i in 0..=n {
        let p = a + (b - a) * (i as f64 / n as f64);
        put(picture, p.x, p.y, colour);
    }
}

fn dotted(picture: &mut RgbImage, a: Point, b: Point, colour: Rgb<u8>) {
    let n = (a.distance(b) / 5.0).ceil().max(1.0) as usize;
    for i in 0..=n {
        let p = a + (b - a) * (i as f64 / n as f64);
        put(picture, p.x, p.y, colour);
    }
}

fn frame(picture: &mut RgbImage, r: Rect, colour: Rgb<u8>) {
    let c = r.corners();
    for i in 0..4 {
        stroke(picture, c[i], c[(i + 1) % 4], colour);
    }
}

//! Accidents of one pull, and the record of them.

use std::collections::BTreeMap;

use sheet::{Plane, Point, Rect};

use super::canvas::{Stamp, blend};
use super::fields::Beating;
use super::frame::Frame;
use super::stamps;
use crate::chance::Chance;
use crate::fount::Outline;
use crate::ink::Ink;
use crate::piece::Flaw;
use crate::setting::Setting;
use crate::truth::{Incident, IncidentKind, around};
use crate::warp::Fold;

/// Spaces and quads that have risen and print.
pub(super) fn risen(
    setting: &Setting,
    ink: &Ink,
    chance: &mut Chance,
    frame: &Frame,
    record: &mut Vec<Incident>,
) -> Vec<Stamp> {
    let mut out = Vec::new();
    if ink.risen_spaces <= 0.0 {
        return out;
    }
    for line in &setting.lines {
        for space in line.spaces() {
            if !chance.happens(ink.risen_spaces) {
                continue;
            }
            // Wide white is made of several quads; one of them rises. A space is lower than the type's
            // shoulder at both ends, so a little less than the body prints.
            let wide = space.w.min(chance.between(0.25, 1.1) * line.body.0);
            let left = space.x + chance.unit() * (space.w - wide);
            let tall = chance.between(0.55, 0.92) * space.h;
            let top = if chance.happens(0.5) { space.y } else { space.bottom() - tall };
            let place = Rect::new(left, top, wide, tall);
            let map = |p| frame.warp.to_photograph(p);
            record.push(Incident { kind: IncidentKind::RisenSpace, box_px: around(place, map) });
            out.push(stamps::of_space(place, map));
        }
    }
    out
}

/// Sorts battered between two pulls: by number, with what is broken off.
pub(super) fn battered(
    setting: &Setting,
    ink: &Ink,
    seed: u64,
    frame: &Frame,
    record: &mut Vec<Incident>,
) -> BTreeMap<u32, Flaw> {
    let mut chance = Chance::new(seed, "battered sorts");
    let letters: Vec<_> = setting.sorts().map(|(_, _, s)| s).filter(|s| s.glyph.is_alphabetic()).collect();
    let map = |p| frame.warp.to_photograph(p);
    let mut out = BTreeMap::new();
    for i in chance.some_of(letters.len(), usize::from(ink.battered)) {
        record.push(Incident { kind: IncidentKind::BatteredSort, box_px: around(letters[i].bounds(), map) });
        let flaw = Flaw {
            at: chance.unit(),
            reach: chance.between(0.05, 0.11),
            stretch: chance.between(1.0, 3.0),
            angle: chance.about(1.6),
        };
        out.insert(letters[i].id, flaw);
    }
    out
}

/// Ink on furniture at the side of the page: ragged dabs where no frisket kept the sheet clean.
pub(super) fn inky_edge(
    setting: &Setting,
    ink: &Ink,
    chance: &mut Chance,
    frame: &Frame,
    record: &mut Vec<Incident>,
) -> Vec<Stamp> {
    if ink.inky_edge <= 0.0 {
        return Vec::new();
    }
    let page = setting.page;
    let [.., left, right] = setting.furniture();
    let x = if chance.happens(0.5) {
        right.x + chance.between(2.0, 5.0)
    } else {
        left.right() - chance.between(2.5, 5.5)
    };
    let map = |p| frame.warp.to_photograph(p);
    let mut out = Vec::new();
    let mut y = page.y + chance.unit() * 0.5 * page.h;
    let end = (y + page.h * (0.2 + 0.5 * ink.inky_edge)).min(page.bottom());
    while y < end {
        let long = chance.between(1.5, 14.0).min(end - y + 0.5);
        let strip = Rect::new(x + chance.about(0.2), y, chance.between(0.25, 1.3), long);
        let ragged =
            Outline::rectangle(strip).divided(0.4).mapped(|p| map(p + Point::new(chance_of(p) * 0.25, 0.0)));
        let load = chance.between(0.35, 0.75) as f32;
        record.push(Incident { kind: IncidentKind::InkyEdge, box_px: around(strip, map) });
        out.push(Stamp { outline: ragged, broken: None, load, inks: true });
        y += long + chance.between(0.3, 6.0);
    }
    out
}

/// A wandering that hangs on the place alone.
fn chance_of(p: Point) -> f64 {
    (p.y * 7.1 + p.x * 3.3).sin() * (p.y * 2.3).cos()
}

/// Opened creases, where no forme printed: the ink that the outline of a letter draws across is taken out.
pub(super) fn gaps(cover: &mut Plane<f32>, frame: &Frame, record: &mut Vec<Incident>) {
    for (i, crease) in frame.warp.creases.iter().enumerate() {
        let (s, c) = crease.normal.radians().sin_cos();
        let at = |along: f64, beyond: f64| {
            let p = crease.through + Point::new(c * beyond - s * along, s * beyond + c * along);
            let jump = crease.beyond(p).1;
            let p = if beyond > 0.0 {
                crease.through + Point::new(c * jump - s * along, s * jump + c * along)
            } else {
                p
            };
            let p = frame.warp.creases[i + 1..].iter().fold(p, |q, later| later.forth(q));
            frame.warp.way().lying_to_photograph(p)
        };
        let long = frame.sheet.w.hypot(frame.sheet.h);
        let steps = (long / 2.0).ceil() as i32;
        let along = |i: i32| f64::from(i) * 2.0;
        let near = (-steps..=steps).map(|i| at(along(i), 0.0));
        let far = (-steps..=steps).rev().map(|i| at(along(i), 1.0));
        let band = Outline(vec![near.chain(far).collect()]);
        if let Some(box_px) = band.bounds() {
            record.push(Incident { kind: IncidentKind::Crease, box_px });
        }
        if crease.fold == Fold::BeforePrinting {
            blend(cover, &band, |ink, gap| ink * (1.0 - gap));
        }
    }
}

/// Hairs: a thin curved line that keeps the ink off, and here and there prints itself.
pub(super) fn hairs(
    cover: &mut Plane<f32>,
    setting: &Setting,
    ink: &Ink,
    chance: &mut Chance,
    frame: &Frame,
    record: &mut Vec<Incident>,
) {
    for _ in 0..ink.hairs {
        let page = setting.page;
        let mut p = Point::new(page.x + page.w * chance.unit(), page.y + page.h * chance.unit());
        let mut heading = chance.between(0.0, std::f64::consts::TAU);
        let mut bend = chance.about(0.25);
        let thick = chance.between(0.05, 0.13);
        let (mut left, mut right) = (Vec::new(), Vec::new());
        for _ in 0..chance.whole(12, 45) {
            let side = Point::new(-heading.sin(), heading.cos()) * (thick / 2.0);
            left.push(frame.warp.to_photograph(p + side));
            right.push(frame.warp.to_photograph(p - side));
            p = p + Point::new(heading.cos(), heading.sin()) * 0.35;
            bend = (bend + chance.about(0.12)).clamp(-0.35, 0.35);
            heading += bend;
        }
        let hair = Outline(vec![left.into_iter().chain(right.into_iter().rev()).collect()]);
        if let Some(box_px) = hair.bounds() {
            record.push(Incident { kind: IncidentKind::Hair, box_px });
            let prints = if chance.happens(0.5) { 0.55 } else { 0.0 };
            blend(cover, &hair, |ink, part| ink * (1.0 - 0.9 * part) + prints * part * (1.0 - ink));
        }
    }
}

/// Words that got next to no ink, or too much.
pub(super) fn words(setting: &Setting, beating: &Beating, frame: &Frame, record: &mut Vec<Incident>) {
    let map = |p| frame.warp.to_photograph(p);
    for bounds in setting.lines.iter().flat_map(|l| &l.words).filter_map(crate::setting::Word::bounds) {
        let kind = match bounds.centre() {
            p if beating.is_missed(p) => IncidentKind::MissingInk,
            p if beating.filling(p) > 0.6 => IncidentKind::TooMuchInk,
            _ => continue,
        };
        record.push(Incident { kind, box_px: around(bounds, map) });
    }
}

/// For every line and word, the share of its ink that is to be seen: printed, in the frame, not in a fold.
pub(super) fn legible(
    setting: &Setting,
    cover: &Plane<f32>,
    ink: &Plane<f32>,
    frame: &Frame,
) -> Vec<Vec<f32>> {
    let whole = Rect::new(0.0, 0.0, cover.width() as f64, cover.height() as f64);
    let word = |bounds: Rect| {
        let hidden = (0..9).filter(|i| {
            let (u, v) = (f64::from(i % 3) / 2.0, f64::from(i / 3) / 2.0);
            !frame.warp.shows(Point::new(bounds.x + u * bounds.w, bounds.y + v * bounds.h))
        });
        let folded = hidden.count() as f64 / 9.0;
        let on_photograph = around(bounds, |p| frame.warp.to_photograph(p));
        let Some(seen) = on_photograph.shared(whole) else { return 0.0 };
        let framed = seen.area() / on_photograph.area().max(1e-9);
        let (mut wanted, mut there) = (0.0f64, 0.0f64);
        for y in seen.y as usize..(seen.bottom().ceil() as usize).min(cover.height()) {
            let columns = seen.x as usize..(seen.right().ceil() as usize).min(cover.width());
            for (c, t) in cover.row(y)[columns.clone()].iter().zip(&ink.row(y)[columns]) {
                wanted += f64::from(*c);
                there += f64::from(t.min(*c));
            }
        }
        let inked = if wanted > 0.5 { there / wanted } else { 0.0 };
        (inked * framed * (1.0 - folded)) as f32
    };
    let line = |l: &crate::setting::Line| l.words.iter().map(|w| w.bounds().map_or(0.0, word)).collect();
    setting.lines.iter().map(line).collect()
}

//! A setting brought to print: every sort, cut and risen space as an outline on the photograph.

use std::collections::BTreeMap;

use rayon::prelude::*;
use sheet::{Point, Rect};

use super::canvas::Stamp;
use super::fields::Beating;
use crate::cut;
use crate::fount::{Founts, Outline};
use crate::ink::Ink;
use crate::piece::{Flaw, Piece};
use crate::setting::{Cut, CutKind, Setting, Sort};

/// No straight side of an outline is longer than this (mm) before the sheet is bent.
const LONGEST_SIDE: f64 = 0.6;

/// Everything of the setting that prints. `battered` are sorts, by number, that were hurt before this pull;
/// `place` takes mm in the forme to px.
pub(super) fn of_setting(
    founts: &Founts,
    setting: &Setting,
    ink: &Ink,
    beating: &Beating,
    battered: &BTreeMap<u32, Flaw>,
    place: impl Fn(Point) -> Point + Sync,
) -> Vec<Stamp> {
    let sorts: Vec<&Sort> = setting.sorts().map(|(_, _, sort)| sort).collect();
    // Blocks first: what is cut out of them must not take ink from the letter in a factotum.
    let mut stamps: Vec<Stamp> =
        setting.cuts.iter().flat_map(|cut| of_block(cut, ink, beating, &place)).collect();
    let type_stamps: Vec<Stamp> = sorts
        .par_iter()
        .with_min_len(64)
        .filter_map(|sort| {
            let hurt = battered.get(&sort.id).copied();
            of_sort(founts, sort, setting.age, ink, beating, hurt, &place)
        })
        .collect();
    stamps.extend(type_stamps);
    let cuts: Vec<Stamp> = setting
        .cuts
        .par_iter()
        .filter(|cut| cut.kind != CutKind::Block)
        .map(|cut| of_cut(founts, cut, setting.layout.stock, ink, beating, &place))
        .collect();
    stamps.extend(cuts);
    stamps
}

/// What a height to paper (mm against the rest) does to the ink taken: a hundredth more takes a sixteenth more.
fn load_at(height: f64) -> f64 {
    (1.0 + 6.5 * height).clamp(0.45, 1.3)
}

fn of_sort(
    founts: &Founts,
    sort: &Sort,
    age: f64,
    ink: &Ink,
    beating: &Beating,
    hurt: Option<Flaw>,
    place: &(impl Fn(Point) -> Point + Sync),
) -> Option<Stamp> {
    let cast = founts.cast(sort.face, sort.glyph)?;
    let piece = Piece::numbered(sort.piece, age);
    let body = sort.body.0;
    let load = load_at(sort.height.0);
    let gain =
        (ink.squash.0 * load + piece.wear * body + beating.gain(sort.bounds().centre())).max(-0.03 * body);
    let stand = |p: Point| place(sort.to_forme(p));
    let whole = cast.outline.spread(gain / body).divided(LONGEST_SIDE / body);
    let flaws: Vec<Flaw> = piece.flaws.iter().copied().chain(hurt).collect();
    let broken = broken(&cast.outline, &flaws).map(|b| b.mapped(stand));
    Some(Stamp { outline: whole.mapped(stand), broken, load: load as f32, inks: true })
}

/// What is broken off a face, in ems: a ragged patch for each flaw, on the edge of the outline.
fn broken(outline: &Outline, flaws: &[Flaw]) -> Option<Outline> {
    let edge: Vec<Point> = outline.0.iter().flatten().copied().collect();
    let patch = |flaw: &Flaw| {
        let at = *edge.get((flaw.at * edge.len() as f64) as usize)?;
        let (s, c) = flaw.angle.sin_cos();
        let thick = flaw.reach / flaw.stretch.sqrt();
        let ragged = (0..9).map(|i| {
            let a = std::f64::consts::TAU * f64::from(i) / 9.0;
            let r = 1.0 + 0.35 * (a * 3.0 + flaw.angle * 9.0).sin();
            let q = Point::new(a.cos() * r * thick * flaw.stretch, a.sin() * r * thick);
            at + Point::new(c * q.x - s * q.y, s * q.x + c * q.y)
        });
        Some(ragged.collect::<Vec<Point>>())
    };
    let patches: Vec<Vec<Point>> = flaws.iter().filter_map(patch).collect();
    (!patches.is_empty()).then_some(Outline(patches))
}

fn of_cut(
    founts: &Founts,
    cut: &Cut,
    stock: u64,
    ink: &Ink,
    beating: &Beating,
    place: &(impl Fn(Point) -> Point + Sync),
) -> Stamp {
    let middle = cut.place.centre();
    let (s, c) = cut.turn.to_radians().sin_cos();
    let load = load_at(cut.height.0);
    let gain = ink.squash.0 * load + beating.gain(middle);
    let outline = cut::outline(cut, founts, stock).spread(gain).divided(LONGEST_SIDE).mapped(|p| {
        let q = p - middle;
        place(Point::new(c * q.x - s * q.y, s * q.x + c * q.y) + middle)
    });
    Stamp { outline, broken: None, load: load as f32, inks: true }
}

/// A block's strokes in their order, white ones among them.
fn of_block(cut: &Cut, ink: &Ink, beating: &Beating, place: &(impl Fn(Point) -> Point + Sync)) -> Vec<Stamp> {
    let Some(face) = cut.face.as_ref().filter(|_| cut.kind == CutKind::Block) else { return Vec::new() };
    let height = cut.height.0;
    face.prints()
        .into_par_iter()
        .map(|print| {
            let load = load_at(height + print.height());
            let outline =
                print.outline(|p| ink.squash.0 * load + beating.gain(p)).divided(LONGEST_SIDE).mapped(place);
            Stamp { outline, broken: None, load: load as f32, inks: print.inks() }
        })
        .collect()
}

/// A space or quad that has risen and prints: its top, ragged. `box_mm` in the forme.
pub(super) fn of_space(box_mm: Rect, place: impl Fn(Point) -> Point) -> Stamp {
    let r = box_mm.grown(-0.05);
    Stamp { outline: Outline::rectangle(r).divided(0.5).mapped(place), broken: None, load: 0.66, inks: true }
}

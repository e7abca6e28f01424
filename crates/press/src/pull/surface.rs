//! The sheet's own look: its shape on the table, chain-lines, clouds, stains, light.

use sheet::{Plane, Point, Rect};

use super::canvas::blend;
use super::chart::Chart;
use super::frame::Frame;
use crate::camera::Camera;
use crate::chance::Chance;
use crate::fount::Outline;
use crate::noise::Noise;
use crate::paper::Paper;
use crate::truth::{Incident, IncidentKind, around};
use crate::warp::Warp;

/// Slow values over the photograph: place on the sheet (mm), shade of the paper, light, and how yellow
/// a stain makes it.
pub(super) const X: usize = 0;
pub(super) const Y: usize = 1;
pub(super) const SHADE: usize = 2;
pub(super) const LIGHT: usize = 3;
pub(super) const YELLOW: usize = 4;

/// The sheet as it looks without ink.
#[derive(Debug)]
pub(super) struct Surface {
    /// Slow values: see the constants.
    pub chart: Chart<5>,
    /// How much of each pixel is sheet, the rest being table.
    pub sheet: Plane<f32>,
    /// Specks, as darkness.
    pub specks: Vec<(Outline, f32)>,
    /// Chain-lines.
    pub chains: Chains,
}

/// Shade of the mould's wires, worked out once across the sheet.
#[derive(Debug)]
pub(super) struct Chains {
    /// Shade of the chain-lines at steps of `1 / PER_MM` from `-MARGIN` mm on.
    profile: Vec<f32>,
    across: bool,
    strength: f32,
    /// Wires to the mm.
    wires: f32,
}

/// Steps of the chain-lines' profile to the mm.
const PER_MM: f32 = 20.0;
/// How far beyond the sheet the profile reaches, in mm.
const MARGIN: f32 = 50.0;

/// A spot: foxing or a stain with its tide-line.
struct Spot {
    at: Point,
    radius: f64,
    strength: f64,
    tide: bool,
    ragged: Noise,
}

impl Spot {
    fn darkness(&self, p: Point) -> f64 {
        let away = p - self.at;
        if away.x.abs().max(away.y.abs()) > 1.8 * self.radius {
            return 0.0;
        }
        let reach = self.radius * (1.0 + 0.35 * self.ragged.rough(p.x, p.y));
        let t = p.distance(self.at) / reach.max(0.1);
        if t > 1.25 {
            return 0.0;
        }
        if self.tide {
            let rim = (-((t - 0.97) / 0.05).powi(2)).exp();
            self.strength * (if t < 0.97 { 0.4 } else { 0.0 } + rim)
        } else {
            self.strength * (-2.2 * t * t).exp()
        }
    }
}

impl Surface {
    pub(super) fn new(
        paper: &Paper,
        camera: &Camera,
        frame: &Frame,
        chance: &mut Chance,
        record: &mut Vec<Incident>,
    ) -> Self {
        let spots = spots(paper, frame, chance, record);
        let cloud = Noise::new(chance.seed(), "clouds of the paper", 5.5);
        let clouds = Noise::new(chance.seed(), "tone of the paper", 60.0);
        let light = Light::new(camera, frame, chance);
        let creases = CreaseShade { warp: &frame.warp };
        // Stains have soft edges of a millimetre; knots lie closer than that.
        let step = frame.px(0.7).clamp(6.0, 16.0);
        let way = frame.warp.way();
        let chart = Chart::new(frame.width, frame.height, step, |p| {
            let on_sheet = way.photograph_to_lying(p).unwrap_or(Point::new(-999.0, -999.0));
            let spot: f64 = spots.iter().map(|s| s.darkness(on_sheet)).sum();
            let shade = 1.0
                + 0.02 * paper.rough * cloud.rough(on_sheet.x, on_sheet.y)
                + 0.05 * paper.rough * clouds.rough(on_sheet.x, on_sheet.y)
                - 0.5 * spot.min(0.8)
                + creases.at(on_sheet);
            [
                on_sheet.x as f32,
                on_sheet.y as f32,
                shade as f32,
                light.at(p, on_sheet) as f32,
                spot.min(0.8) as f32,
            ]
        });
        Self {
            chart,
            sheet: sheet_mask(paper, frame, chance, record),
            specks: specks(paper, frame, chance),
            chains: Chains::new(paper, frame, chance),
        }
    }
}

impl Chains {
    fn new(paper: &Paper, frame: &Frame, chance: &mut Chance) -> Self {
        let span = if paper.chains_across { frame.sheet.h } else { frame.sheet.w };
        let mut profile = vec![0.0f32; ((span as f32 + 2.0 * MARGIN) * PER_MM) as usize];
        let mut at = chance.unit() * paper.chain.0;
        while at < span + 2.0 * f64::from(MARGIN) {
            // A thin dark line (more pulp lies along the wire) in a slightly lighter band.
            for (i, shade) in profile.iter_mut().enumerate() {
                let off = i as f32 / PER_MM - at as f32;
                if off.abs() < 3.0 {
                    *shade += 0.4 * (-(off / 1.3).powi(2)).exp() - (-(off / 0.35).powi(2)).exp();
                }
            }
            at += paper.chain.0.max(2.0) * (1.0 + chance.normal(0.02));
        }
        let wires = 1.0 / chance.between(0.8, 1.25) as f32;
        Self { profile, across: paper.chains_across, strength: paper.laid as f32, wires }
    }

    /// Shade of the mould's wires at a place on the sheet (mm): about 0, at most 0.04 either way.
    pub(super) fn shade(&self, x: f32, y: f32) -> f32 {
        let (across, along) = if self.across { (y, x) } else { (x, y) };
        let chain = self.profile.get(((across + MARGIN) * PER_MM) as usize).copied().unwrap_or(0.0);
        // A parabola for each half wave: near enough to a cosine for the eye. The cast rounds down.
        let turn = along * self.wires + 4096.0;
        let part = turn - (turn as u32) as f32;
        self.strength * (0.022 * chain + 0.009 * (1.0 - 6.0 * part * (1.0 - part)))
    }
}

/// Light over the photograph: a slope, a falling-off to the corners, the shadow in the gutter.
struct Light<'a> {
    towards: Point,
    uneven: f64,
    size: (f64, f64),
    warp: &'a Warp,
}

impl<'a> Light<'a> {
    fn new(camera: &Camera, frame: &'a Frame, chance: &mut Chance) -> Self {
        let (s, c) = chance.between(0.0, std::f64::consts::TAU).sin_cos();
        let size = (frame.width as f64, frame.height as f64);
        Self { towards: Point::new(c, s), uneven: camera.uneven_light, size, warp: &frame.warp }
    }

    fn at(&self, p: Point, on_sheet: Point) -> f64 {
        let (u, v) = (p.x / self.size.0 - 0.5, p.y / self.size.1 - 0.5);
        let slope = self.towards.x * u + self.towards.y * v;
        let even = 1.0 + 0.55 * self.uneven * slope - 0.5 * self.uneven * (u * u + v * v);
        let Some(curl) = &self.warp.curl else { return even };
        let from = curl.gutter_distance(on_sheet);
        let lean = 0.55 * curl.slope(on_sheet).powi(2);
        let shadow = if from < 0.0 { 0.55 } else { 0.55 * (-from / 4.5).exp() };
        even * (1.0 - lean) * (1.0 - shadow)
    }
}

/// Light and dark along a crease.
struct CreaseShade<'a> {
    warp: &'a Warp,
}

impl CreaseShade<'_> {
    fn at(&self, on_sheet: Point) -> f64 {
        let one = |c: &crate::warp::Crease| {
            let d = c.beyond(on_sheet).0;
            0.07 * (-((d + 0.5) / 0.6).powi(2)).exp() - 0.13 * (-((d - 0.3) / 0.5).powi(2)).exp()
        };
        self.warp.creases.iter().map(one).sum()
    }
}

fn spots(paper: &Paper, frame: &Frame, chance: &mut Chance, record: &mut Vec<Incident>) -> Vec<Spot> {
    let place =
        |chance: &mut Chance| Point::new(frame.sheet.w * chance.unit(), frame.sheet.h * chance.unit());
    let mut out = Vec::new();
    for _ in 0..paper.foxing {
        let ragged = Noise::new(chance.seed(), "foxing", 1.0);
        let (at, radius, strength) = (place(chance), chance.between(0.4, 2.2), chance.between(0.06, 0.3));
        out.push(Spot { at, radius, strength, tide: false, ragged });
    }
    for _ in 0..paper.stains {
        let at = place(chance);
        let radius = chance.between(8.0, 40.0);
        let ragged = Noise::new(chance.seed(), "stain", 14.0);
        let around_it = Rect::new(at.x - radius, at.y - radius, 2.0 * radius, 2.0 * radius);
        let box_px = around(around_it, |p| frame.warp.way().lying_to_photograph(p));
        record.push(Incident { kind: IncidentKind::Stain, box_px });
        let tide = chance.happens(0.7);
        out.push(Spot { at, radius, strength: chance.between(0.06, 0.22), tide, ragged });
    }
    out
}

/// Dirt, and the dark fibres and shives that every old paper has, as outlines in px with their darkness.
fn specks(paper: &Paper, frame: &Frame, chance: &mut Chance) -> Vec<(Outline, f32)> {
    let place =
        |chance: &mut Chance| Point::new(frame.sheet.w * chance.unit(), frame.sheet.h * chance.unit());
    let way = frame.warp.way();
    let map = |p: Point| way.lying_to_photograph(p);
    let mut out = Vec::new();
    for _ in 0..paper.specks {
        let c = place(chance);
        let r = chance.between(0.05, 0.28) * if chance.happens(0.1) { 2.0 } else { 1.0 };
        let edge = (0..8).map(|i| {
            let a = std::f64::consts::TAU * f64::from(i) / 8.0;
            map(c + Point::new(a.cos(), a.sin()) * (r * chance.between(0.5, 1.2)))
        });
        let outline = Outline(vec![edge.collect()]);
        out.push((outline, chance.between(0.15, 0.7) as f32));
    }
    let fibres = (frame.sheet.area() / 100.0 * (0.3 + 1.6 * paper.rough)) as usize;
    for _ in 0..fibres {
        let mut p = place(chance);
        let mut heading = chance.between(0.0, std::f64::consts::TAU);
        let (step, thick) = (chance.between(0.06, 0.3), chance.between(0.012, 0.035));
        let (mut one, mut two) = (Vec::new(), Vec::new());
        for _ in 0..5 {
            let side = Point::new(-heading.sin(), heading.cos()) * thick;
            one.push(map(p + side));
            two.push(map(p - side));
            p = p + Point::new(heading.cos(), heading.sin()) * step;
            heading += chance.about(0.5);
        }
        let outline = Outline(vec![one.into_iter().chain(two.into_iter().rev()).collect()]);
        out.push((outline, chance.between(0.08, 0.45) as f32));
    }
    out
}

/// The sheet's shape on the table: deckled or cut edges, tears and holes.
fn sheet_mask(paper: &Paper, frame: &Frame, chance: &mut Chance, record: &mut Vec<Incident>) -> Plane<f32> {
    let mut mask = Plane::filled(frame.width, frame.height, 0.0f32);
    let deckle = if chance.happens(0.5) { 0.15 } else { 0.7 };
    let (dx, dy) =
        (Noise::new(chance.seed(), "edge across", 7.0), Noise::new(chance.seed(), "edge down", 7.0));
    let mut shape = frame.sheet;
    if let Some(curl) = &frame.warp.curl {
        // The facing page, on the other side of the gutter.
        let beyond = 30.0;
        shape.w += beyond;
        shape.x -= if curl.to_the_right { beyond } else { 0.0 };
    }
    let way = frame.warp.way();
    let map = |p: Point| way.lying_to_photograph(p);
    let edge = Outline::rectangle(shape)
        .divided(1.2)
        .mapped(|p| map(p + Point::new(deckle * dx.rough(p.x, p.y), deckle * dy.rough(p.x, p.y))));
    blend(&mut mask, &edge, |_, part| part);
    let mut lose = |outline: Outline, box_mm: Rect| {
        record.push(Incident { kind: IncidentKind::Loss, box_px: around(box_mm, map) });
        blend(&mut mask, &outline.mapped(map), |sheet, part| sheet * (1.0 - part));
    };
    for _ in 0..paper.holes {
        let c = Point::new(frame.sheet.w * chance.unit(), frame.sheet.h * chance.unit());
        let r = chance.between(0.5, 1.6);
        let ring = (0..12).map(|i| {
            let a = std::f64::consts::TAU * f64::from(i) / 12.0;
            c + Point::new(a.cos(), a.sin()) * (r * chance.between(0.75, 1.2))
        });
        lose(Outline(vec![ring.collect()]), Rect::new(c.x - r, c.y - r, 2.0 * r, 2.0 * r));
    }
    for _ in 0..paper.tears {
        let (outline, box_mm) = tear(frame.sheet, chance);
        lose(outline, box_mm);
    }
    mask
}

/// A tear: a narrow ragged wedge from an edge of the sheet inwards.
fn tear(sheet: Rect, chance: &mut Chance) -> (Outline, Rect) {
    let deep = chance.between(5.0, 28.0);
    let wide = chance.between(0.4, 3.0);
    let (t, from_left) = (chance.unit(), chance.happens(0.5));
    let start = if from_left {
        Point::new(sheet.x - 1.0, sheet.h * t)
    } else {
        Point::new(sheet.w * t, sheet.bottom() + 1.0)
    };
    let inwards =
        if from_left { Point::new(1.0, chance.about(0.5)) } else { Point::new(chance.about(0.5), -1.0) };
    let side = Point::new(-inwards.y, inwards.x);
    let (mut one, mut two) = (Vec::new(), Vec::new());
    let mut wander = 0.0;
    for i in 0..=10 {
        let u = f64::from(i) / 10.0;
        wander += chance.about(0.5);
        let middle = start + inwards * (deep * u) + side * wander;
        one.push(middle + side * (wide / 2.0 * (1.0 - u)));
        two.push(middle - side * (wide / 2.0 * (1.0 - u)));
    }
    let outline = Outline(vec![one.into_iter().chain(two.into_iter().rev()).collect()]);
    let bounds = outline.bounds().unwrap_or(sheet);
    (outline, bounds)
}

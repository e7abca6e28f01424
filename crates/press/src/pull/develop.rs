//! From printing surface and paper to the photograph: ink takes, light falls, the lens blurs, grain comes.

use rayon::prelude::*;
use sheet::{Plane, Point};

use super::blur::blurred;
use super::canvas::{Canvas, blend};
use super::chart::Chart;
use super::fields::Beating;
use super::frame::Frame;
use super::ghost::Ghosts;
use super::grain::Grain;
use super::surface::{LIGHT, SHADE, Surface, X, Y, YELLOW};
use crate::camera::{Camera, Table};
use crate::chance::Chance;
use crate::ink::Ink;
use crate::paper::Paper;
use crate::picture::Picture;

/// The photograph, and the ink that took (0..1) before the lens blurred it.
#[derive(Debug)]
pub(super) struct Developed {
    pub picture: Picture,
    pub ink: Plane<f32>,
}

/// Spread of light within the paper, which softens every edge of print, in mm.
const SCATTER: f64 = 0.028;

#[allow(clippy::too_many_arguments, reason = "each is one of the things a photograph shows")]
pub(super) fn developed(
    canvas: &Canvas,
    ink: &Ink,
    paper: &Paper,
    camera: &Camera,
    frame: &Frame,
    beating: &Beating,
    ghosts: &Ghosts,
    surface: &Surface,
    chance: &mut Chance,
) -> Developed {
    let seeds = [chance.seed(), chance.seed(), chance.seed()];
    let mut took = taken(canvas, ink, paper, frame, beating, seeds[0]);
    if let Some(slur) = &ink.slur {
        let (s, c) = (slur.towards.radians() + camera.turn.radians()).sin_cos();
        let by = frame.px(slur.by.0);
        took = doubled(&took, Point::new(c * by, s * by), slur.strength as f32);
    }
    // Ink only stands where there is sheet.
    took.data_mut().par_iter_mut().zip(surface.sheet.data()).for_each(|(t, s)| *t *= s);
    let mut dark = took.clone();
    for (speck, strength) in &surface.specks {
        blend(&mut dark, speck, |d, part| d.max(part * strength));
    }
    let soft = camera.blur.hypot(frame.px(SCATTER));
    dark = sharpened(blurred(&dark, soft), camera.sharpening);
    let sheet = blurred(&surface.sheet, camera.blur);
    let picture = exposed(&dark, &sheet, ink, paper, camera, frame, ghosts, surface, [seeds[1], seeds[2]]);
    Developed { picture, ink: took }
}

/// How much ink each pixel took: the type's coverage, less where ink, pressure or paper failed.
fn taken(
    canvas: &Canvas,
    ink: &Ink,
    paper: &Paper,
    frame: &Frame,
    beating: &Beating,
    seed: u64,
) -> Plane<f32> {
    let near = blurred(&canvas.cover, frame.px(0.07));
    let step = frame.px(0.8).clamp(4.0, 16.0);
    let chart = Chart::new(frame.width, frame.height, step, |p| {
        let forme = frame.warp.to_forme(p).unwrap_or(Point::new(-999.0, -999.0));
        [(ink.strength * beating.load(forme)) as f32, beating.filling(forme) as f32]
    });
    let fibre = Grain::new(seed, frame.px(0.045).max(0.5));
    let patchy = Grain::new(seed ^ 0x55, frame.px(0.16));
    let rough = (0.09 + 0.14 * paper.rough) as f32;
    let rim = ink.rim as f32;
    let mut out = Plane::filled(frame.width, frame.height, 0.0f32);
    out.data_mut().par_chunks_mut(frame.width).enumerate().for_each(|(y, row)| {
        let (cover, load, near) = (canvas.cover.row(y), canvas.load.row(y), near.row(y));
        let (fibre, patchy) = (fibre.row(y), patchy.row(y));
        chart.along_row(y, frame.width, |x, &[beaten, filling]| {
            let filled = (near[x] * 2.3 - 0.45).clamp(0.0, 1.0);
            let c = cover[x] + filling * (filled - cover[x]).max(0.0);
            if c <= 0.0 {
                return;
            }
            let grain = rough * (fibre[x % fibre.len()] + 0.8 * patchy[x % patchy.len()]);
            let pressed = load[x] * beaten + rim * 0.5 * (0.85 - near[x]).max(0.0) - grain;
            let takes = ((pressed - 0.3) * 2.1).clamp(0.0, 1.0);
            row[x] = c * takes * (0.8 + 0.2 * pressed.clamp(0.0, 1.0));
        });
    });
    out
}

/// A fainter second impression moved by `by` px.
fn doubled(plane: &Plane<f32>, by: Point, strength: f32) -> Plane<f32> {
    let (dx, dy) = (by.x.round() as isize, by.y.round() as isize);
    let mut out = plane.clone();
    let width = plane.width();
    out.data_mut().par_chunks_mut(width).enumerate().for_each(|(y, row)| {
        let from = y as isize - dy;
        if from < 0 || from >= plane.height() as isize {
            return;
        }
        let source = plane.row(from as usize);
        for (x, t) in row.iter_mut().enumerate() {
            let sx = x as isize - dx;
            if (0..width as isize).contains(&sx) {
                *t = t.max(strength * source[sx as usize]);
            }
        }
    });
    out
}

/// Unsharp masking as cameras and scanners do it: the detail finer than about a pixel is added again.
fn sharpened(plane: Plane<f32>, amount: f64) -> Plane<f32> {
    if amount <= 0.0 {
        return plane;
    }
    let soft = blurred(&plane, 1.1);
    let amount = amount as f32;
    let mut out = plane;
    out.data_mut().par_iter_mut().zip(soft.data()).for_each(|(v, s)| *v += amount * (*v - s));
    out
}

#[allow(clippy::too_many_arguments, reason = "each is one of the things a photograph shows")]
fn exposed(
    dark: &Plane<f32>,
    sheet: &Plane<f32>,
    ink: &Ink,
    paper: &Paper,
    camera: &Camera,
    frame: &Frame,
    ghosts: &Ghosts,
    surface: &Surface,
    seeds: [u64; 2],
) -> Picture {
    let sensor = Grain::new(seeds[0], 0.45);
    let pulp = Grain::new(seeds[1], frame.px(0.09).max(0.6));
    let noise = camera.noise as f32;
    let rough = paper.rough as f32;
    let light = camera.exposure as f32;
    let table = table(camera.table);
    let (paper_tone, ink_tone) = (paper.tone.map(f32::from), ink.colour.map(f32::from));
    let mut out = Plane::filled(frame.width, frame.height, [0u8; 3]);
    out.data_mut().par_chunks_mut(frame.width).enumerate().for_each(|(y, row)| {
        let mut ghost = vec![0.0f32; frame.width];
        ghosts.add_to_row(y, &mut ghost);
        let (dark, sheet, sensor, pulp) = (dark.row(y), sheet.row(y), sensor.row(y), pulp.row(y));
        surface.chart.along_row(y, frame.width, |x, slow| {
            let mould = surface.chains.shade(slow[X], slow[Y]);
            let shade = slow[SHADE] + mould + 0.012 * rough * pulp[x % pulp.len()] - 0.55 * ghost[x].min(0.9);
            let d = dark[x];
            let grain = noise * sensor[x % sensor.len()];
            row[x] = std::array::from_fn(|k| {
                // Stains take the blue out first.
                let stained = shade - [0.0, 0.12, 0.4][k] * slow[YELLOW];
                let bare = paper_tone[k] * stained;
                let printed = bare + d * (ink_tone[k] - bare);
                let seen = sheet[x] * printed + (1.0 - sheet[x]) * table[k];
                let bright = seen * slow[LIGHT] * light;
                (bright + grain * (0.45 + 0.55 * bright / 255.0)).round().clamp(0.0, 255.0) as u8
            });
        });
    });
    let colour = Picture::Colour(out);
    if camera.colour { colour } else { Picture::Grey(colour.luminance()) }
}

fn table(table: Table) -> [f32; 3] {
    match table {
        Table::Dark => [28.0, 27.0, 28.0],
        Table::Light => [243.0, 243.0, 241.0],
        Table::Coloured(c) => c.map(f32::from),
    }
}

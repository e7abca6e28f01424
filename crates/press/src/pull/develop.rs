//! From printing surface and paper to the photograph: ink takes, light falls, the lens blurs, grain comes.

use rayon::prelude::*;
use sheet::{Plane, Point};

use super::blur::blurred;
use super::canvas::{Canvas, blend};
use super::chart::Chart;
use super::expose::Exposure;
use super::fields::Beating;
use super::frame::Frame;
use super::ghost::Ghosts;
use super::grain::Grain;
use super::surface::{Surface, X, Y};
use super::wood::{Wood, strayed};
use crate::camera::Camera;
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
    let mut took = taken(canvas, ink, paper, frame, beating, &surface.chart, seeds[0]);
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
    if let Some(two_tone) = camera.two_tone {
        // What scanned it saw finer than what was saved.
        dark.data_mut().par_iter_mut().for_each(|d| *d = two_tone.of(*d));
        dark = blurred(&dark, 0.5);
    }
    let sheet = blurred(&surface.sheet, camera.blur);
    let exposure = Exposure::new(&dark, &sheet, paper, camera, frame, ghosts, surface, [seeds[1], seeds[2]]);
    Developed { picture: exposure.picture(ink, paper, camera), ink: took }
}

/// How much ink each pixel took: the type's coverage, less where ink, pressure or paper failed.
fn taken(
    canvas: &Canvas,
    ink: &Ink,
    paper: &Paper,
    frame: &Frame,
    beating: &Beating,
    slow: &Chart<5>,
    seed: u64,
) -> Plane<f32> {
    let cover = strayed(&canvas.cover, &ink.on_wood, frame.px_per_mm, seed);
    let near = blurred(&cover, frame.px(0.07));
    let wood = Wood::new(&cover, &ink.on_wood, frame, seed);
    let way = frame.warp.way();
    let chart = slow.derived(|knot| {
        let lying = Point::new(f64::from(knot[X]), f64::from(knot[Y]));
        let forme = way.lying_to_forme(lying).unwrap_or(lying);
        [(ink.strength * beating.load(forme)) as f32, beating.filling(forme) as f32]
    });
    let fibre = Grain::new(seed, frame.px(0.045).max(0.5));
    let patchy = Grain::new(seed ^ 0x55, frame.px(0.16));
    let rough = (0.07 + 0.12 * paper.rough) as f32;
    let mottle = (0.1 + 0.26 * ink.mottle) as f32;
    let rim = ink.rim as f32;
    let mut out = Plane::filled(frame.width, frame.height, 0.0f32);
    out.data_mut().par_chunks_mut(frame.width).enumerate().for_each(|(y, row)| {
        let (cover, load, near) = (cover.row(y), canvas.load.row(y), near.row(y));
        let (fibre, patchy) = (fibre.row(y), patchy.row(y));
        chart.along_row(y, frame.width, |x, &[beaten, filling]| {
            let filled = (near[x] * 2.3 - 0.45).clamp(0.0, 1.0);
            let c = cover[x] + filling * (filled - cover[x]).max(0.0);
            if c <= 0.0 {
                return;
            }
            let (fine, coarse) = (fibre[x % fibre.len()], patchy[x % patchy.len()]);
            // Ink runs out along fibres at the edge of a letter.
            let c = (c + 1.6 * rough * 4.0 * c * (1.0 - c) * fine).clamp(0.0, 1.0);
            let film = load[x] * beaten + rim * 0.6 * (0.8 - near[x]).max(-0.3)
                - wood.as_ref().map_or(0.0, |w| w.lacks(x, y));
            // Where the film is thin, only the high places of the paper take it.
            let takes = ((film - rough * (fine + 0.8 * coarse) - 0.28) * 2.2).clamp(0.0, 1.0);
            let thick = (film - mottle * (0.5 * fine + coarse)).max(0.05);
            row[x] = c * takes * (1.28 * thick / (thick + 0.33)).min(1.0);
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

//! Print that should not be there: the back showing through, and ink set off from another sheet.

use std::collections::BTreeMap;

use sheet::{Mm, Plane, Point, Rect};

use super::blur::blurred;
use super::canvas::Canvas;
use super::fields::Beating;
use super::frame::Frame;
use super::stamps;
use crate::fount::Founts;
use crate::ink::Ink;
use crate::paper::Paper;
use crate::setting::Setting;
use crate::truth::{Incident, IncidentKind};

/// A faint image at a part of the photograph's resolution, and how strong it is.
#[derive(Debug)]
struct Ghost {
    image: Plane<f32>,
    shrunk: f64,
    strength: f32,
}

/// All faint images of one copy.
#[derive(Debug)]
pub(super) struct Ghosts(Vec<Ghost>);

impl Ghosts {
    pub(super) fn new(
        founts: &Founts,
        back: Option<&Setting>,
        ink: &Ink,
        paper: &Paper,
        frame: &Frame,
        record: &mut Vec<Incident>,
    ) -> Self {
        let mut ghosts = Vec::new();
        if let Some(back) = back {
            if paper.show_through > 0.0 {
                ghosts.push(ghost(founts, back, 0.28, 0.42 * paper.show_through, frame));
            }
            if ink.set_off > 0.0 {
                ghosts.push(ghost(founts, back, 0.1, ink.set_off, frame));
                let whole = Rect::new(0.0, 0.0, frame.width as f64, frame.height as f64);
                record.push(Incident { kind: IncidentKind::SetOff, box_px: whole });
            }
        }
        Self(ghosts)
    }

    /// Adds the faint images to a row of darkness values, one a pixel.
    pub(super) fn add_to_row(&self, y: usize, darkness: &mut [f32]) {
        for ghost in &self.0 {
            for (x, d) in darkness.iter_mut().enumerate() {
                let (u, v) = ((x as f64 + 0.5) / ghost.shrunk, (y as f64 + 0.5) / ghost.shrunk);
                *d += ghost.strength * sampled(&ghost.image, u, v);
            }
        }
    }
}

/// `soft` is the spread through the paper in mm. Its mirror image falls on the sheet back to front.
fn ghost(founts: &Founts, back: &Setting, soft: f64, strength: f64, frame: &Frame) -> Ghost {
    let shrunk = (frame.px(soft) * 0.9).clamp(1.0, 6.0);
    let size = |n: usize| (n as f64 / shrunk).ceil() as usize + 2;
    let mut canvas = Canvas::new(size(frame.width), size(frame.height));
    let (w, _) = back.sheet_size();
    let origin = back.origin_on_sheet();
    let way = frame.warp.way();
    let mirrored = |p: Point| {
        let on_back = p + origin;
        way.lying_to_photograph(Point::new(w.0 - on_back.x, on_back.y)) * (1.0 / shrunk)
    };
    let plain =
        Ink { squash: Mm(0.04), unevenness: 0.2, missed: 0.0, overinked: 0.0, bite: Mm(0.0), ..Ink::good() };
    let beating = Beating::new(&plain, back.page, back.seed);
    canvas.print(&stamps::of_setting(founts, back, &plain, &beating, &BTreeMap::new(), mirrored));
    Ghost { image: blurred(&canvas.cover, frame.px(soft) / shrunk), shrunk, strength: strength as f32 }
}

fn sampled(plane: &Plane<f32>, x: f64, y: f64) -> f32 {
    let (x, y) = ((x - 0.5).max(0.0), (y - 0.5).max(0.0));
    let (i, j) = ((x as usize).min(plane.width() - 2), (y as usize).min(plane.height() - 2));
    let (a, b) = ((x - i as f64) as f32, (y - j as f64) as f32);
    let (top, low) = (&plane.row(j)[i..i + 2], &plane.row(j + 1)[i..i + 2]);
    let t = top[0] + a * (top[1] - top[0]);
    let l = low[0] + a * (low[1] - low[0]);
    t + b * (l - t)
}

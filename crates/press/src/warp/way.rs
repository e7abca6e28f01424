//! A warp made ready for many points: each of its steps, there and back.

use sheet::Point;

use super::lens::Eye;
use super::{Angle, Laying, Warp};

/// A [`Warp`] with its sines and cosines worked out.
#[derive(Debug, Clone, Copy)]
pub struct Way<'a> {
    warp: &'a Warp,
    laid: Angle,
    eye: Eye,
}

impl<'a> Way<'a> {
    pub(super) fn new(warp: &'a Warp) -> Self {
        Self { warp, laid: Angle::of(warp.laying.turn), eye: Eye::new(warp.lens) }
    }

    /// Where a place of the forme (mm) is on the photograph (px; may lie outside it).
    pub fn to_photograph(&self, forme: Point) -> Point {
        self.lying_to_photograph(self.to_lying(forme))
    }

    /// Where a place on the photograph was in the forme (mm); `None` in the gap of an opened crease,
    /// where no forme printed, or where the view does not meet the sheet.
    pub fn to_forme(&self, photograph: Point) -> Option<Point> {
        self.lying_to_forme(self.photograph_to_lying(photograph)?)
    }

    /// Whether a place of the forme can be seen: false in paper that a crease has swallowed.
    pub fn shows(&self, forme: Point) -> bool {
        let mut p = self.cockled(self.dried(forme));
        for crease in &self.warp.creases {
            if crease.swallows(p) {
                return false;
            }
            p = crease.forth(p);
        }
        true
    }

    /// Where a place of the forme is on the dry sheet as it lies, in mm from its top left corner.
    pub fn to_lying(&self, forme: Point) -> Point {
        let cockled = self.cockled(self.dried(forme));
        self.warp.creases.iter().fold(cockled, |p, crease| crease.forth(p))
    }

    /// Where a place of the sheet as it lies (mm) was in the forme (mm); `None` in the gap of an opened crease.
    pub fn lying_to_forme(&self, lying: Point) -> Option<Point> {
        let uncreased = self.warp.creases.iter().rev().try_fold(lying, |p, crease| crease.back(p))?;
        let dry = self.uncockled(uncreased);
        let [across, down] = self.warp.shrinkage;
        let damp = Point::new(dry.x / (1.0 - across), dry.y / (1.0 - down));
        let Laying { about, shear, shift, .. } = self.warp.laying;
        let q = self.laid.turn_back(damp - shift - about);
        Some(Point::new(q.x - shear * q.y, q.y) + about)
    }

    /// From the sheet as it lies (mm) to the photograph (px).
    pub fn lying_to_photograph(&self, lying: Point) -> Point {
        self.eye.project(self.surface(lying))
    }

    /// From the photograph (px) to the sheet as it lies (mm); `None` where the view does not meet it.
    pub fn photograph_to_lying(&self, photograph: Point) -> Option<Point> {
        let target = self.eye.undistorted(photograph);
        let see = |p: Point| self.eye.flat_projection(self.surface(p));
        let mut p = self.eye.plane_guess(target);
        // Newton's method with slopes by differences; the surface is nearly flat, so it closes in at once.
        for _ in 0..30 {
            let here = see(p);
            let miss = target - here;
            if !(miss.x.is_finite() && miss.y.is_finite()) {
                return None;
            }
            if miss.x.abs() + miss.y.abs() < 1e-9 {
                return Some(p);
            }
            let step = 1e-4;
            let across = (see(p + Point::new(step, 0.0)) - here) * (1.0 / step);
            let down = (see(p + Point::new(0.0, step)) - here) * (1.0 / step);
            let det = across.x * down.y - across.y * down.x;
            if det.abs() < 1e-9 {
                return None;
            }
            let by = Point::new(miss.x * down.y - miss.y * down.x, across.x * miss.y - across.y * miss.x);
            p = p + by * (1.0 / det);
        }
        let miss = target - see(p);
        (miss.x.hypot(miss.y) < 1e-6).then_some(p)
    }

    fn dried(&self, forme: Point) -> Point {
        let Laying { about, shear, shift, .. } = self.warp.laying;
        let q = forme - about;
        let damp = self.laid.turn(Point::new(q.x + shear * q.y, q.y)) + about + shift;
        let [across, down] = self.warp.shrinkage;
        Point::new(damp.x * (1.0 - across), damp.y * (1.0 - down))
    }

    fn cockled(&self, p: Point) -> Point {
        self.warp.waves.iter().fold(p, |q, wave| q + wave.at(p))
    }

    /// By iteration: the waves move paper by a few hundredths of their length, so each round is closer.
    fn uncockled(&self, target: Point) -> Point {
        let mut p = target;
        for _ in 0..80 {
            let miss = target - self.cockled(p);
            p = p + miss;
            if miss.x.abs() + miss.y.abs() < 1e-11 {
                break;
            }
        }
        p
    }

    fn surface(&self, lying: Point) -> [f64; 3] {
        self.warp.curl.as_ref().map_or([lying.x, lying.y, 0.0], |curl| curl.surface(lying))
    }
}

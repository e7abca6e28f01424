//! Where the sheet lies and what the camera takes in.

use sheet::{Degrees, Point, Rect};

use super::{MOST_PIXELS, PullError};
use crate::camera::{Camera, Detail};
use crate::chance::Chance;
use crate::paper::{Paper, crease_direction};
use crate::setting::Setting;
use crate::warp::{Crease, Curl, Laying, Lens, Warp, Wave};

/// The warp, the photograph's size, and the sheet as it lies.
#[derive(Debug, Clone)]
pub(crate) struct Frame {
    pub warp: Warp,
    pub width: usize,
    pub height: usize,
    /// The dry sheet, in mm as it lies.
    pub sheet: Rect,
    pub px_per_mm: f64,
}

/// Paper moves by at most this part of its length in cockling: a slope of about 15 degrees.
const MOST_STRAIN: f64 = 0.04;

impl Frame {
    pub(super) fn set(
        setting: &Setting,
        paper: &Paper,
        camera: &Camera,
        chance: &mut Chance,
    ) -> Result<Self, PullError> {
        let (w, h) = setting.sheet_size();
        let shrinkage = paper.shrinkage.map(|s| s / 100.0);
        let sheet = Rect::new(0.0, 0.0, w.0 * (1.0 - shrinkage[0]), h.0 * (1.0 - shrinkage[1]));
        let px_per_mm = camera.ppi.px_per_mm();
        let seen = seen(sheet, camera);
        let quarters = (camera.turn.0 / 90.0).round() as i64;
        let (across, down) = if quarters % 2 == 0 { (seen.w, seen.h) } else { (seen.h, seen.w) };
        let (width, height) = ((across * px_per_mm).round(), (down * px_per_mm).round());
        let sound = width >= 16.0 && height >= 16.0 && width * height <= MOST_PIXELS;
        if !sound {
            return Err(PullError::Size { width, height });
        }
        let laying = Laying {
            about: setting.page.centre(),
            turn: Degrees(chance.normal(0.35)),
            shear: chance.normal(0.0009),
            shift: setting.origin_on_sheet() + Point::new(chance.normal(0.8), chance.normal(0.8)),
        };
        let curl = (camera.curl.0 > 0.0).then(|| {
            let to_the_right = chance.happens(0.5);
            Curl {
                gutter: if to_the_right { -1.5 } else { sheet.w + 1.5 },
                to_the_right,
                steepness: camera.curl,
                reach: chance.between(9.0, 24.0),
            }
        });
        let lens = Lens {
            aims_at: seen.centre(),
            middle: Point::new(width / 2.0, height / 2.0),
            px_per_mm,
            distance: camera.distance.0.max(1.2 * seen.w.max(seen.h)),
            roll: camera.turn,
            pitch: camera.pitch,
            yaw: camera.yaw,
            distortion: camera.distortion,
            unit: width.hypot(height) / 2.0,
        };
        let waves = waves(paper.cockle.0, chance);
        let creases = creases(paper, sheet, chance);
        let warp = Warp { laying, shrinkage, waves, creases, curl, lens };
        Ok(Self { warp, width: width as usize, height: height as usize, sheet, px_per_mm })
    }

    /// Length in px of so many mm of sheet.
    pub(crate) fn px(&self, mm: f64) -> f64 {
        mm * self.px_per_mm
    }
}

fn seen(sheet: Rect, camera: &Camera) -> Rect {
    match camera.detail {
        Some(Detail { left, top, width, height }) => {
            Rect::new(left * sheet.w, top * sheet.h, width * sheet.w, height * sheet.h)
        }
        None => sheet.grown(camera.surround.0),
    }
}

fn waves(amplitude: f64, chance: &mut Chance) -> Vec<Wave> {
    if amplitude <= 0.0 {
        return Vec::new();
    }
    (0..3)
        .map(|i| {
            let length = chance.between(30.0, 80.0);
            let (s, c) = chance.between(0.0, std::f64::consts::TAU).sin_cos();
            let most = MOST_STRAIN * length / std::f64::consts::TAU;
            let size = (amplitude / (1.0 + 0.6 * f64::from(i))).min(most);
            // Paper mostly foreshortens across the crests, and slides along them a little.
            let along = chance.about(0.4);
            Wave {
                direction: Point::new(c, s),
                length,
                phase: chance.between(0.0, std::f64::consts::TAU),
                sway: Point::new(c - along * s, s + along * c) * size,
            }
        })
        .collect()
}

fn creases(paper: &Paper, sheet: Rect, chance: &mut Chance) -> Vec<Crease> {
    let wish = |w: &crate::paper::CreaseWish, chance: &mut Chance| Crease {
        through: Point::new(sheet.w * chance.between(0.25, 0.75), sheet.h * chance.between(0.25, 0.75)),
        normal: crease_direction(chance),
        jump: w.jump.0,
        taper: w.jump.0 * chance.normal(0.0025),
        fold: w.fold,
    };
    paper.creases.iter().map(|w| wish(w, chance)).collect()
}

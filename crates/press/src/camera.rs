//! The photographer: where the camera stands, in what light, and what is saved.

use serde::{Deserialize, Serialize};
use sheet::{Degrees, Mm, Ppi};

use crate::chance::Chance;

/// The table under the sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Table {
    /// Black or nearly.
    Dark,
    /// Whiter than the paper.
    Light,
    /// A colour: red, green, blue.
    Coloured([u8; 3]),
}

/// A part of the sheet: shares of its width and height, each 0..1.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Detail {
    /// Left edge.
    pub left: f64,
    /// Top edge.
    pub top: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

/// How a sheet is photographed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Camera {
    /// Resolution at the middle of the photograph.
    pub ppi: Ppi,
    /// Table left round the sheet; negative cuts into the sheet.
    pub surround: Mm,
    /// Only a part of the sheet is wanted.
    pub detail: Option<Detail>,
    /// How far the sheet is turned clockwise; right angles included.
    pub turn: Degrees,
    /// The sheet tipped about the photograph's horizontal.
    pub pitch: Degrees,
    /// The sheet tipped about the photograph's vertical.
    pub yaw: Degrees,
    /// From the lens to the sheet.
    pub distance: Mm,
    /// Radial distortion at the corner of the photograph, as a share of its radius.
    pub distortion: f64,
    /// Slope of the page at the gutter when it is bound; 0 for a loose sheet.
    pub curl: Degrees,
    /// How unevenly it is lit, 0..1.
    pub uneven_light: f64,
    /// Overall light: 1 brings the paper out in its own tone.
    pub exposure: f64,
    /// Blur of lens and focus: standard deviation in px.
    pub blur: f64,
    /// Noise of the sensor: standard deviation in levels on white.
    pub noise: f64,
    /// Sharpening in the camera: share of the detail added again, 0..1.5.
    pub sharpening: f64,
    /// A photograph in colour; else grey.
    pub colour: bool,
    /// What the sheet lies on.
    pub table: Table,
    /// Saved for reading and not for looking at: black and white with little between, as of microfilm and of early scans.
    #[serde(default)]
    pub two_tone: Option<TwoTone>,
}

/// How grey becomes black or white.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct TwoTone {
    /// Darkness from which on it is black, as a share of the ink's: 0.3 to 0.7.
    pub from: f64,
    /// How steep: 1 leaves the greys as they are, 12 leaves next to none.
    pub steep: f64,
}

impl TwoTone {
    /// What becomes of a darkness, 0..1.
    pub(crate) fn of(self, dark: f32) -> f32 {
        ((dark - self.from as f32) * self.steep as f32 + 0.5).clamp(0.0, 1.0)
    }
}

impl Camera {
    /// Straight from above in even light.
    pub fn good(ppi: Ppi) -> Self {
        Self {
            ppi,
            surround: Mm(6.0),
            detail: None,
            turn: Degrees(0.0),
            pitch: Degrees(0.0),
            yaw: Degrees(0.0),
            distance: Mm(900.0),
            distortion: 0.0,
            curl: Degrees(0.0),
            uneven_light: 0.05,
            exposure: 1.0,
            blur: 0.55,
            noise: 1.5,
            sharpening: 0.0,
            colour: false,
            table: Table::Dark,
            two_tone: None,
        }
    }

    /// A reading-room photograph: `trouble` from 0 (a copy stand) to 1 (a telephone over a tight binding).
    pub fn drawn(ppi: Ppi, trouble: f64, seed: u64) -> Self {
        let mut chance = Chance::new(seed, "camera");
        let t = trouble.clamp(0.0, 1.0);
        let table = match chance.below(4) {
            0 => Table::Light,
            1 => Table::Coloured([90, 74, 60].map(|c| (f64::from(c) + chance.about(30.0)) as u8)),
            _ => Table::Dark,
        };
        Self {
            ppi,
            surround: Mm(chance.between(-2.0 - 4.0 * t, 9.0)),
            detail: None,
            turn: Degrees(chance.normal(0.4 + 1.6 * t)),
            pitch: Degrees(chance.normal(2.6 * t)),
            yaw: Degrees(chance.normal(2.6 * t)),
            distance: Mm(chance.between(1100.0 - 700.0 * t, 1300.0 - 600.0 * t)),
            distortion: chance.normal(0.006 * t),
            curl: Degrees(if chance.happens(0.6 * t) { chance.between(12.0, 46.0) } else { 0.0 }),
            uneven_light: chance.between(0.03, 0.1 + 0.4 * t),
            exposure: chance.between(0.86 + 0.1 * (1.0 - t), 1.12),
            blur: chance.between(0.45, 0.7 + 0.5 * t),
            noise: chance.between(0.8, 1.8 + 4.0 * t),
            sharpening: if chance.happens(0.5) { chance.between(0.2, 0.9) } else { 0.0 },
            colour: chance.happens(0.5),
            table,
            two_tone: None,
        }
    }
}

//! A pull: a setting is inked, brought to paper, kept for centuries, and photographed.

mod blur;
mod canvas;
mod chart;
mod develop;
mod expose;
mod fields;
mod frame;
mod ghost;
mod grain;
mod incidents;
mod stamps;
mod surface;
mod wood;

use serde::{Deserialize, Serialize};
use sheet::Plane;
use thiserror::Error;

use crate::camera::Camera;
use crate::chance::Chance;
use crate::fount::Founts;
use crate::ink::Ink;
use crate::paper::Paper;
use crate::picture::Picture;
use crate::setting::Setting;
use crate::truth::Truth;
pub(crate) use canvas::{Canvas, Stamp};
pub(crate) use fields::Beating;

/// The largest photograph that is made, in px.
pub const MOST_PIXELS: f64 = 200e6;

/// Everything about one copy but its setting.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Conditions {
    /// The inking and the pull.
    pub ink: Ink,
    /// The sheet.
    pub paper: Paper,
    /// The photograph.
    pub camera: Camera,
}

/// One copy, photographed, with the truth beside it.
#[derive(Debug, Clone, PartialEq)]
pub struct Pull {
    /// The photograph.
    pub picture: Picture,
    /// All that is known of it.
    pub truth: Truth,
}

/// Why a copy cannot be photographed as asked.
#[derive(Debug, Error)]
pub enum PullError {
    /// The photograph would be too large (or have no size). Ask for less resolution or a detail.
    #[error(
        "a photograph of {width:.0} x {height:.0} px is out of range (at most 200 megapixels, at least 16 px a side); change the ppi or the detail"
    )]
    Size {
        /// Width in px.
        width: f64,
        /// Height in px.
        height: f64,
    },
}

/// Pulls one copy of a setting and photographs it. `back` is what is printed on the sheet's other side
/// and on the sheet that it lay against; it only shows where paper and ink let it.
///
/// The same arguments give the same bytes, on one thread or many. Cost: about a second for four
/// megapixels on one core.
///
/// # Errors
/// [`PullError`] when the photograph asked for cannot be made.
pub fn pull(
    founts: &Founts,
    setting: &Setting,
    back: Option<&Setting>,
    conditions: &Conditions,
    seed: u64,
) -> Result<Pull, PullError> {
    Ok(pulled(founts, setting, back, conditions, seed)?.0)
}

/// What lies behind a photograph: the ink that took (0..1 a pixel) before any lens, and how the forme was beaten.
#[derive(Debug)]
pub(crate) struct Inside {
    pub ink: Plane<f32>,
    pub beating: Beating,
}

/// [`pull`], with what lies behind the photograph.
pub(crate) fn pulled(
    founts: &Founts,
    setting: &Setting,
    back: Option<&Setting>,
    conditions: &Conditions,
    seed: u64,
) -> Result<(Pull, Inside), PullError> {
    let Conditions { ink, paper, camera } = conditions;
    let mut chance = Chance::new(seed, "pull");
    let frame = frame::Frame::set(setting, paper, camera, &mut chance)?;
    let (width, height) = (frame.width, frame.height);
    let beating = Beating::new(ink, setting.page, chance.seed());
    let way = frame.warp.way();
    let place = |p| way.to_photograph(p);

    let mut incidents = Vec::new();
    let battered = incidents::battered(setting, ink, chance.seed(), &frame, &mut incidents);
    let mut stamps = stamps::of_setting(founts, setting, ink, &beating, &battered, place);
    stamps.extend(incidents::risen(setting, ink, &mut chance, &frame, &mut incidents));
    stamps.extend(incidents::inky_edge(setting, ink, &mut chance, &frame, &mut incidents));
    let mut canvas = Canvas::new(width, height);
    canvas.print(&stamps);
    incidents::gaps(&mut canvas.cover, &frame, &mut incidents);
    incidents::hairs(&mut canvas.cover, setting, ink, &mut chance, &frame, &mut incidents);

    let ghosts = ghost::Ghosts::new(founts, back, ink, paper, &frame, &mut incidents);
    let surface = surface::Surface::new(paper, camera, &frame, &mut chance, &mut incidents);
    let developed =
        develop::developed(&canvas, ink, paper, camera, &frame, &beating, &ghosts, &surface, &mut chance);
    incidents::words(setting, &beating, &frame, &mut incidents);

    let truth = Truth {
        legible: incidents::legible(setting, &canvas.cover, &developed.ink, &frame),
        setting: setting.clone(),
        width: width as u32,
        height: height as u32,
        ppi: camera.ppi,
        warp: frame.warp,
        incidents,
    };
    Ok((Pull { picture: developed.picture, truth }, Inside { ink: developed.ink, beating }))
}

#[cfg(test)]
mod tests;

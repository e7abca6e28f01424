//! One of many copies: what is kept of it once it was read.

use super::kept::Kept;
use crate::cmd::compare::opened::Opened;
use crate::files::Named;
use anyhow::Result;
use evidence::cautions;
use publish::record::Photographed;
use sheet::Turned;
use sheet::scale::ScaleRequest;

/// A copy that was read.
#[derive(Debug)]
pub(super) struct Copy {
    pub(super) about: Photographed,
    /// What the photograph gives cause to doubt.
    pub(super) doubts: Vec<String>,
    pub(super) turned: Turned,
    /// x-height of its text, pixels.
    pub(super) x_height: Option<f64>,
    /// Its ink, and its colour where it is wanted.
    pub(super) kept: Kept,
}

impl Copy {
    /// Reads a photograph, once, and keeps it on the disk, in colour where that is wanted.
    ///
    /// # Errors
    /// A file that cannot be read or decoded, a disk that is full; with its name and the remedy.
    pub(super) fn read(named: &Named, asked: &ScaleRequest, in_colour: bool) -> Result<(Opened, Self)> {
        let (opened, colour) = if in_colour {
            let (opened, colour) = Opened::open_in_colour(named, asked)?;
            (opened, Some(colour))
        } else {
            (Opened::open(named, asked)?, None)
        };
        let turned = opened.reading.turned;
        let colour = colour.map(|colour| colour.into_turned(turned.quarters()));
        let kept = Kept::new(opened.reading.ink.full(), colour.as_ref())?;
        let doubts = cautions::of_photograph(&opened.reading, &named.short());
        let copy = Self {
            about: opened.about.clone(),
            doubts,
            turned,
            x_height: opened.reading.x_height_px(),
            kept,
        };
        Ok((opened.without_bytes(), copy))
    }
}

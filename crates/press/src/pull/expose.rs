//! The exposure: light on paper and ink becomes levels of a photograph.

use rayon::prelude::*;
use sheet::Plane;

use super::frame::Frame;
use super::ghost::Ghosts;
use super::grain::Grain;
use super::surface::{LIGHT, SHADE, Surface, X, Y, YELLOW};
use crate::camera::{Camera, Table};
use crate::ink::Ink;
use crate::paper::Paper;
use crate::picture::Picture;

/// What is to be seen in one pixel.
#[derive(Debug, Clone, Copy)]
struct Seen {
    /// Brightness of the bare paper against its tone.
    shade: f32,
    /// How yellow a stain makes it.
    yellow: f32,
    /// How much of it is ink.
    dark: f32,
    /// How much of it is sheet, the rest being table.
    sheet: f32,
    /// Light that falls on it.
    light: f32,
    /// Noise, in levels on white.
    grain: f32,
}

/// Everything that a row of the photograph is made from.
#[derive(Debug)]
pub(super) struct Exposure<'a> {
    dark: &'a Plane<f32>,
    sheet: &'a Plane<f32>,
    ghosts: &'a Ghosts,
    surface: &'a Surface,
    sensor: Grain,
    pulp: Grain,
    noise: f32,
    rough: f32,
    light: f32,
}

impl<'a> Exposure<'a> {
    #[allow(clippy::too_many_arguments, reason = "each is one of the things a photograph shows")]
    pub(super) fn new(
        dark: &'a Plane<f32>,
        sheet: &'a Plane<f32>,
        paper: &Paper,
        camera: &Camera,
        frame: &Frame,
        ghosts: &'a Ghosts,
        surface: &'a Surface,
        seeds: [u64; 2],
    ) -> Self {
        Self {
            dark,
            sheet,
            ghosts,
            surface,
            sensor: Grain::new(seeds[0], 0.45),
            pulp: Grain::new(seeds[1], frame.px(0.09).max(0.6)),
            noise: camera.noise as f32,
            rough: paper.rough as f32,
            light: camera.exposure as f32,
        }
    }

    /// The finished photograph.
    pub(super) fn picture(&self, ink: &Ink, paper: &Paper, camera: &Camera) -> Picture {
        let (width, height) = (self.dark.width(), self.dark.height());
        let tones = [0, 1, 2].map(|channel| Tones::of_channel(channel, ink, paper, camera.table));
        if camera.colour {
            let mut out = Plane::filled(width, height, [0u8; 3]);
            out.data_mut().par_chunks_mut(width).enumerate().for_each(|(y, row)| {
                self.along_row(y, |x, seen| {
                    row[x] = [tones[0].level(seen), tones[1].level(seen), tones[2].level(seen)];
                });
            });
            return Picture::Colour(out);
        }
        let grey = Tones::grey(&tones);
        let mut out = Plane::filled(width, height, 0u8);
        out.data_mut().par_chunks_mut(width).enumerate().for_each(|(y, row)| {
            self.along_row(y, |x, seen| row[x] = grey.level(seen));
        });
        Picture::Grey(out)
    }

    fn along_row(&self, y: usize, mut each: impl FnMut(usize, Seen)) {
        let width = self.dark.width();
        let mut ghost = vec![0.0f32; width];
        self.ghosts.add_to_row(y, &mut ghost);
        let (dark, sheet) = (self.dark.row(y), self.sheet.row(y));
        let (sensor, pulp) = (self.sensor.row(y), self.pulp.row(y));
        self.surface.chart.along_row(y, width, |x, slow| {
            let mould = self.surface.chains.shade(slow[X], slow[Y]);
            let fibres = 0.012 * self.rough * pulp[x % pulp.len()];
            let seen = Seen {
                shade: slow[SHADE] + mould + fibres - 0.55 * ghost[x].min(0.9),
                yellow: slow[YELLOW],
                dark: dark[x],
                sheet: sheet[x],
                light: slow[LIGHT] * self.light,
                grain: self.noise * sensor[x % sensor.len()],
            };
            each(x, seen);
        });
    }
}

/// Levels of one channel in full light.
#[derive(Debug, Clone, Copy)]
struct Tones {
    paper: f32,
    ink: f32,
    table: f32,
    /// How much a stain takes out of this channel.
    stained: f32,
}

impl Tones {
    fn of_channel(channel: usize, ink: &Ink, paper: &Paper, table: Table) -> Self {
        let table = match table {
            Table::Dark => [28, 27, 28],
            Table::Light => [243, 243, 241],
            Table::Coloured(c) => c,
        };
        Self {
            paper: f32::from(paper.tone[channel]),
            ink: f32::from(ink.colour[channel]),
            table: f32::from(table[channel]),
            // Stains are brown: they take the blue out first.
            stained: [0.0, 0.12, 0.4][channel],
        }
    }

    /// Luminance (Rec. 601 weights).
    fn grey(channels: &[Self; 3]) -> Self {
        let mean = |pick: fn(&Self) -> f32| {
            0.299 * pick(&channels[0]) + 0.587 * pick(&channels[1]) + 0.114 * pick(&channels[2])
        };
        Self {
            paper: mean(|t| t.paper),
            ink: mean(|t| t.ink),
            table: mean(|t| t.table),
            stained: mean(|t| t.stained),
        }
    }

    fn level(self, seen: Seen) -> u8 {
        let bare = self.paper * (seen.shade - self.stained * seen.yellow);
        let printed = bare + seen.dark * (self.ink - bare);
        let bright = (self.table + seen.sheet * (printed - self.table)) * seen.light;
        // Less noise in the shadows, where there is less light to be uneven. The cast rounds down.
        let noisy = bright + seen.grain * (0.45 + 0.002 * bright);
        (noisy + 0.5).clamp(0.0, 255.0) as u8
    }
}

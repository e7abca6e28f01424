//! One photograph as it was opened and read.

use crate::cmd::photographed::{photographed, request};
use crate::files::Named;
use anyhow::{Context as _, Result};
use evidence::Reading;
use publish::record::Photographed;
use sheet::Plane;
use sheet::decode::{Photograph, RgbPhotograph, decode, decode_in_colour, decode_rgb};
use sheet::scale::{ScaleRequest, scale_from};

/// A photograph, what its file says of it, and its ink.
pub(in crate::cmd) struct Opened {
    pub(in crate::cmd) named: Named,
    bytes: Vec<u8>,
    /// The page that was taken; 1 of a file without pages.
    page: u32,
    pub(in crate::cmd) about: Photographed,
    pub(super) reading: Reading,
}

impl Opened {
    /// Opens and reads what the user named.
    ///
    /// # Errors
    /// A file that cannot be read or decoded, with its name and the remedy.
    pub(super) fn open(named: &Named, asked: &ScaleRequest) -> Result<Self> {
        let bytes = named.read()?;
        let photograph = decode(&bytes, &request(named)).with_context(|| named.text())?;
        Ok(Self::read(named, bytes, &photograph, asked))
    }

    /// The same, and the photograph in colour, from one decoding.
    ///
    /// # Errors
    /// As [`Self::open`].
    pub(super) fn open_in_colour(named: &Named, asked: &ScaleRequest) -> Result<(Self, Plane<[u8; 3]>)> {
        let bytes = named.read()?;
        let (photograph, colour) = decode_in_colour(&bytes, &request(named)).with_context(|| named.text())?;
        Ok((Self::read(named, bytes, &photograph, asked), colour))
    }

    fn read(named: &Named, bytes: Vec<u8>, photograph: &Photograph, asked: &ScaleRequest) -> Self {
        let (scale, told) = scale_from(&photograph.file.resolution_tags, asked);
        let reading = Reading::of(&photograph.luminance, scale);
        let about =
            photographed(named, &bytes, photograph, reading.turned.quarters(), (reading.scale, &told));
        Self { named: named.clone(), bytes, page: photograph.file.page.unwrap_or(1), about, reading }
    }

    /// The photograph in colour, for plates.
    ///
    /// # Errors
    /// As [`Self::open`].
    pub(super) fn in_colour(&self) -> Result<RgbPhotograph> {
        decode_rgb(&self.bytes, &request(&self.named)).with_context(|| self.named.text())
    }

    /// The same without the file's bytes, which only plates want.
    pub(super) fn without_bytes(self) -> Self {
        Self { bytes: Vec::new(), ..self }
    }

    /// Pixels of the photograph.
    pub(super) fn pixels(&self) -> usize {
        self.about.width_px * self.about.height_px
    }

    /// Whether both are one picture of one file.
    pub(super) fn is_the_same_as(&self, other: &Self) -> bool {
        self.about.sha256 == other.about.sha256 && self.page == other.page
    }
}

/// What the user should know of these two files.
pub(super) fn warnings(a: &Opened, b: &Opened) -> Vec<String> {
    let mut out = Vec::new();
    if a.is_the_same_as(b) {
        out.push(
            "The two files are the same, byte for byte: this compares a photograph with itself.".to_owned(),
        );
    }
    let [of_a, of_b] = [&a.about.notices, &b.about.notices];
    for n in of_a {
        let whose = if of_b.contains(n) { "Both photographs".to_owned() } else { a.named.short() };
        out.push(format!("{whose}: {n}."));
    }
    out.extend(of_b.iter().filter(|n| !of_a.contains(n)).map(|n| format!("{}: {n}.", b.named.short())));
    out
}

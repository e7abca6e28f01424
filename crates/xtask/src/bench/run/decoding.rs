//! The bare decoding of both photographs, by the library in this process: what any comparison must pay.

use std::path::Path;
use std::time::Instant;

use anyhow::Context as _;
use sheet::decode::{DecodeRequest, decode};

/// What the decoding took.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Bare {
    /// Wall seconds for both, one after the other, reading from the (warm) disk included; the quicker
    /// of two times, for what else the machine does can only slow it.
    pub seconds: f64,
    /// Pixels of the larger one.
    pub larger_pixels: u64,
    /// Pixels of the smaller one.
    pub smaller_pixels: u64,
}

/// Times the decoding of two files.
pub(crate) fn time(a: &Path, b: &Path) -> anyhow::Result<Bare> {
    let once = || -> anyhow::Result<Bare> {
        let start = Instant::now();
        let (mut larger_pixels, mut smaller_pixels) = (0, u64::MAX);
        for path in [a, b] {
            let bytes = std::fs::read(path).with_context(|| format!("cannot read {}", path.display()))?;
            let photograph = decode(&bytes, &DecodeRequest::default())
                .with_context(|| format!("cannot decode {}", path.display()))?;
            let pixels = photograph.luminance.data().len() as u64;
            larger_pixels = larger_pixels.max(pixels);
            smaller_pixels = smaller_pixels.min(pixels);
        }
        Ok(Bare { seconds: start.elapsed().as_secs_f64(), larger_pixels, smaller_pixels })
    };
    let (first, second) = (once()?, once()?);
    Ok(if second.seconds < first.seconds { second } else { first })
}

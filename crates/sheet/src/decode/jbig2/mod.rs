//! Black and white from JBIG2 (ITU-T T.88), as PDFs of scanned books hold it, by way of `hayro-jbig2`.

mod segments;

use hayro_jbig2::{DecodeSettings, Decoder, Globals, Page};

use super::DecodeError;
use super::Format;
use super::request::Limits;

/// Decodes an embedded stream to width, height, and one byte a pixel: 0 black, 255 white.
pub(super) fn decode(
    data: &[u8],
    globals: Option<&[u8]>,
    limits: Limits,
) -> Result<(usize, usize, Vec<u8>), DecodeError> {
    let settings = DecodeSettings::default();
    let damaged = |e| DecodeError::damaged(Format::Pdf, format!("JBIG2: {e}"));
    let globals = globals.map(|g| Globals::new(g, &settings)).transpose().map_err(damaged)?;
    let page = Page::new_embedded(data, globals.as_ref(), &settings).map_err(damaged)?;
    let (width, height) = limits.admit(page.width(), page.height())?;
    // Regions lie on the page, some over others; ten times its area is no page that anybody printed.
    if segments::area_of_regions(data) > 10 * (width * height) as u64 {
        return Err(DecodeError::damaged(Format::Pdf, "JBIG2: regions larger than the page"));
    }
    let mut rows = Rows { samples: vec![255; width * height], width, x: 0, y: 0 };
    page.decode(&mut rows).map_err(damaged)?;
    Ok((width, height, rows.samples))
}

/// Draws pixels row after row.
struct Rows {
    samples: Vec<u8>,
    width: usize,
    x: usize,
    y: usize,
}

impl Rows {
    fn push(&mut self, black: bool, count: usize) {
        let end = (self.x + count).min(self.width);
        if black {
            let row = self.samples.get_mut(self.y * self.width..(self.y + 1) * self.width);
            if let Some(run) = row.and_then(|r| r.get_mut(self.x..end)) {
                run.fill(0);
            }
        }
        self.x = end;
    }
}

impl Decoder for Rows {
    fn push_pixel(&mut self, black: bool) {
        self.push(black, 1);
    }

    fn push_pixel_chunk(&mut self, black: bool, chunk_count: u32) {
        self.push(black, 8 * chunk_count as usize);
    }

    fn next_line(&mut self) {
        self.x = 0;
        self.y += 1;
    }
}

//! Rows of black and white from the fax codings that TIFF and PDF share (ITU-T T.4 and T.6), by way of
//! `hayro-ccitt`.

use hayro_ccitt::{DecodeSettings, Decoder, DecoderContext, EncodingMode};

/// How the rows are coded.
#[derive(Debug, Clone, Copy)]
pub(super) struct FaxCoding {
    pub(super) mode: EncodingMode,
    pub(super) end_of_line: bool,
    pub(super) rows_are_byte_aligned: bool,
}

/// Decodes `height` rows of `width` pixels: 0 where the fax is black, 255 where it is white. `None` when
/// the data break off or break the rules before the last row. Rows are white until they are drawn upon,
/// as an encoder may leave out white rows at the end, after which the end-of-block mark stands.
pub(super) fn decode(data: &[u8], width: usize, height: usize, coding: FaxCoding) -> Option<Vec<u8>> {
    let settings = DecodeSettings {
        columns: width as u32,
        rows: height as u32,
        end_of_block: true,
        end_of_line: coding.end_of_line,
        rows_are_byte_aligned: coding.rows_are_byte_aligned,
        encoding: coding.mode,
        strict: false,
    };
    let mut rows = Rows { samples: vec![255; width * height], width, next: 0 };
    let whole = hayro_ccitt::decode(data, &mut rows, &mut DecoderContext::new(settings)).is_ok();
    (whole || rows.next == height).then_some(rows.samples)
}

/// Draws the black runs of every row.
struct Rows {
    samples: Vec<u8>,
    width: usize,
    next: usize,
}

impl Decoder for Rows {
    fn push_row(&mut self, changes: &[u32]) {
        let Some(row) = self.samples.get_mut(self.next * self.width..(self.next + 1) * self.width) else {
            return;
        };
        for run in changes.chunks(2) {
            let start = (run[0] as usize).min(self.width);
            let end = run.get(1).map_or(self.width, |&e| e as usize).clamp(start, self.width);
            row[start..end].fill(0);
        }
        self.next += 1;
    }
}

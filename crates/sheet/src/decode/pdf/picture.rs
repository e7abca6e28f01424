//! A picture inside a PDF, from its stream to a canvas.
//!
//! ISO 32000-1: 7.4 (filters), 8.9.5 (image dictionaries).

use hayro_ccitt::EncodingMode;
use lopdf::{Dictionary, Document, Object, Stream};

use super::super::bits::{spread, unpacked};
use super::super::canvas::{Canvas, Keep};
use super::super::fax::{self, FaxCoding};
use super::super::request::Limits;
use super::super::tone::{Layout, narrowed};
use super::super::{DecodeError, Format, jbig2, jp2, jpeg};
use super::colour::Space;

/// Decodes one picture, as stored.
pub(super) fn decode(
    document: &Document,
    stream: &Stream,
    keep: Keep,
    limits: Limits,
) -> Result<Canvas, DecodeError> {
    let picture = Picture::read(document, stream, limits)?;
    let (coding, data) = picture.unwrapped()?;
    match coding {
        Some(Coding::Jpeg) => {
            // Here the Decode array says whether CMYK is reversed, and no one else.
            let (mut canvas, _) = jpeg::decode(&data, keep, limits, Some(picture.reversed))?;
            let reversed = picture.reversed && picture.space != Some(Space::Cmyk);
            if reversed != (picture.space == Some(Space::Ink)) {
                canvas.reverse();
            }
            Ok(canvas)
        }
        Some(Coding::Jpeg2000) => {
            let (mut canvas, _) = jp2::decode(&data, keep, limits)?;
            if picture.reversed {
                canvas.reverse();
            }
            Ok(canvas)
        }
        Some(Coding::Fax) => {
            let picture = Picture { bits: 1, ..picture };
            let rows = fax::decode(&data, picture.width, picture.height, picture.fax_coding());
            let broken =
                || DecodeError::damaged(Format::Pdf, "the fax coding breaks off or breaks its rules");
            let samples = rows.ok_or_else(broken)?;
            let black_is_one = picture.flag(b"BlackIs1").unwrap_or(false);
            picture.two_tone(&samples, black_is_one, keep, limits)
        }
        Some(Coding::Jbig2) => {
            let (width, height, samples) = jbig2::decode(&data, picture.globals()?.as_deref(), limits)?;
            let picture = Picture { width, height, bits: 1, ..picture };
            picture.two_tone(&samples, false, keep, limits)
        }
        None => picture.plain(&data, keep, limits),
    }
}

/// A coding that makes pictures of bytes, the last filter of a stream.
enum Coding {
    Jpeg,
    Jpeg2000,
    Fax,
    Jbig2,
}

/// What the dictionary of a picture says.
struct Picture<'a> {
    document: &'a Document,
    stream: &'a Stream,
    width: usize,
    height: usize,
    bits: u8,
    /// `None` when the coding brings its own, or it is not understood.
    space: Option<Space>,
    /// Whether the Decode array exchanges the ends of the scale.
    reversed: bool,
    filters: Vec<&'a [u8]>,
}

impl<'a> Picture<'a> {
    fn read(document: &'a Document, stream: &'a Stream, limits: Limits) -> Result<Self, DecodeError> {
        let get = |key: &[u8]| stream.dict.get_deref(key, document).ok();
        let side = |key: &[u8]| {
            let value = get(key).and_then(|o| o.as_i64().ok()).unwrap_or(0);
            u32::try_from(value).unwrap_or(0)
        };
        let (width, height) = limits.admit(side(b"Width"), side(b"Height"))?;
        let mask = get(b"ImageMask").is_some_and(|o| o.as_bool().unwrap_or(false));
        let bits = if mask { 1 } else { get(b"BitsPerComponent").and_then(|o| o.as_i64().ok()).unwrap_or(8) };
        if !matches!(bits, 1 | 2 | 4 | 8 | 16) {
            return Err(DecodeError::damaged(Format::Pdf, format!("{bits} bits a sample")));
        }
        let ends = get(b"Decode")
            .and_then(|o| o.as_array().ok())
            .and_then(|a| Some((a.first()?.as_float().ok()?, a.get(1)?.as_float().ok()?)));
        Ok(Self {
            document,
            stream,
            width,
            height,
            bits: bits as u8,
            // A stencil paints where its samples are 0; it is taken to paint in black.
            space: if mask {
                Some(Space::Grey)
            } else {
                get(b"ColorSpace").and_then(|o| Space::read(o, document))
            },
            reversed: ends.is_some_and(|(first, last)| first > last),
            filters: stream.filters().unwrap_or_default(),
        })
    }

    /// The last coding, and the bytes that it is to decode, with all filters before it undone.
    fn unwrapped(&self) -> Result<(Option<Coding>, std::borrow::Cow<'a, [u8]>), DecodeError> {
        let coding = match self.filters.last() {
            Some(&b"DCTDecode") => Some(Coding::Jpeg),
            Some(&b"JPXDecode") => Some(Coding::Jpeg2000),
            Some(&b"CCITTFaxDecode") => Some(Coding::Fax),
            Some(&b"JBIG2Decode") => Some(Coding::Jbig2),
            _ => None,
        };
        let before = self.filters.len() - usize::from(coding.is_some());
        if before == 0 {
            return Ok((coding, self.stream.content.as_slice().into()));
        }
        // No filter makes a picture's bytes longer than its pixels, but for a coded picture within.
        let most = self
            .row_bytes()
            .saturating_mul(self.height)
            .max(self.stream.content.len())
            .saturating_add(1 << 16);
        let data = if coding.is_none() {
            self.stream.decompressed_content_with_limit(most)
        } else {
            let mut outer = self.stream.clone();
            let names = self.filters[..before].iter().map(|n| Object::Name(n.to_vec())).collect();
            outer.dict.set("Filter", Object::Array(names));
            outer.decompressed_content_with_limit(most)
        };
        let data = data.map_err(|e| DecodeError::damaged(Format::Pdf, e.to_string()))?;
        Ok((coding, data.into()))
    }

    fn row_bytes(&self) -> usize {
        let components = self.space.as_ref().map_or(4, Space::components);
        (self.width * components * usize::from(self.bits)).div_ceil(8)
    }

    /// The parameters of the last filter.
    fn parameters(&self) -> Option<&'a Dictionary> {
        let found = self.stream.dict.get_deref(b"DecodeParms", self.document).ok()?;
        let found = match found {
            Object::Array(all) => self.document.dereference(all.get(self.filters.len() - 1)?).ok()?.1,
            one => one,
        };
        found.as_dict().ok()
    }

    fn flag(&self, key: &[u8]) -> Option<bool> {
        self.parameters()?.get_deref(key, self.document).ok()?.as_bool().ok()
    }

    fn fax_coding(&self) -> FaxCoding {
        let k = self.parameters().and_then(|p| p.get_deref(b"K", self.document).ok()?.as_i64().ok());
        FaxCoding {
            mode: match k.unwrap_or(0) {
                ..0 => EncodingMode::Group4,
                0 => EncodingMode::Group3_1D,
                1.. => EncodingMode::Group3_2D,
            },
            end_of_line: self.flag(b"EndOfLine").unwrap_or(false),
            rows_are_byte_aligned: self.flag(b"EncodedByteAlign").unwrap_or(false),
        }
    }

    /// The symbols that several JBIG2 streams share.
    fn globals(&self) -> Result<Option<Vec<u8>>, DecodeError> {
        /// Shapes of letters for a few pages; a book's are some hundred kilobytes.
        const MOST_BYTES: usize = 64 << 20;
        let found = self.parameters().and_then(|p| p.get_deref(b"JBIG2Globals", self.document).ok());
        let Some(stream) = found.and_then(|o| o.as_stream().ok()) else { return Ok(None) };
        let data = stream.get_plain_content_with_limit(MOST_BYTES);
        data.map(Some).map_err(|e| DecodeError::damaged(Format::Pdf, e.to_string()))
    }

    /// Lays down black and white given as 0 and 255.
    fn two_tone(
        &self,
        samples: &[u8],
        black_is_one: bool,
        keep: Keep,
        limits: Limits,
    ) -> Result<Canvas, DecodeError> {
        let mut canvas = Canvas::new(keep, self.width as u32, self.height as u32, limits)?;
        for (y, row) in samples.chunks_exact(self.width).enumerate() {
            let bits = row.iter().map(|v| v & 1 ^ u8::from(black_is_one)).collect();
            self.lay(&mut canvas, y, bits)?;
        }
        Ok(canvas)
    }

    /// Lays down rows of plain samples.
    fn plain(&self, data: &[u8], keep: Keep, limits: Limits) -> Result<Canvas, DecodeError> {
        let Some(space) = &self.space else {
            return Err(DecodeError::kind(Format::Pdf, "a picture in an unusual colour space"));
        };
        let mut canvas = Canvas::new(keep, self.width as u32, self.height as u32, limits)?;
        let stride = self.row_bytes();
        if data.len() / stride < self.height {
            return Err(DecodeError::CutShort { format: Format::Pdf });
        }
        let count = self.width * space.components();
        for (y, row) in data.chunks_exact(stride).take(self.height).enumerate() {
            let samples = match self.bits {
                16 => row.as_chunks::<2>().0.iter().map(|&v| narrowed(u16::from_be_bytes(v))).collect(),
                bits => unpacked(row, bits, count),
            };
            self.lay(&mut canvas, y, samples)?;
        }
        Ok(canvas)
    }

    /// Lays down one row of unpacked samples, not yet spread over 0 to 255.
    fn lay(&self, canvas: &mut Canvas, y: usize, mut samples: Vec<u8>) -> Result<(), DecodeError> {
        let space = self.space.as_ref().unwrap_or(&Space::Grey);
        if let Space::Indexed { base, table } = space {
            let top = u8::MAX >> (8 - self.bits.min(8));
            let n = base.samples();
            let mut colours = Vec::with_capacity(samples.len() * n);
            for v in samples {
                let at = usize::from(if self.reversed { top - v } else { v }) * n;
                let colour = table.get(at..at + n);
                colours.extend_from_slice(
                    colour.ok_or_else(|| DecodeError::damaged(Format::Pdf, "an index beyond its table"))?,
                );
            }
            canvas.lay(0, y, *base, &colours);
            return Ok(());
        }
        let factor = if self.bits < 8 { spread(self.bits) } else { 1 };
        let reversed = self.reversed != (*space == Space::Ink);
        for v in &mut samples {
            *v *= factor;
            if reversed {
                *v = 255 - *v;
            }
        }
        let layout = match space {
            Space::Rgb => Layout::RGB,
            Space::Cmyk => Layout::CMYK,
            _ => Layout::GREY,
        };
        canvas.lay(0, y, layout, &samples);
        Ok(())
    }
}

//! From the strips or tiles of a TIFF to the canvas.

use hayro_ccitt::EncodingMode;
use tiff::decoder::TiffCodingUnit;

use super::super::bits::{spread, unpacked};
use super::super::canvas::Canvas;
use super::super::fax::{self, FaxCoding};
use super::super::jpeg;
use super::super::request::Limits;
use super::super::tone::{Alpha, Colour, Layout, narrowed};
use super::super::{DecodeError, Format};
use super::directory::{Directory, Reader, told};

/// Values of the tag Compression.
mod compression {
    pub(super) const FAX_ROWS: u32 = 2;
    pub(super) const FAX_3: u32 = 3;
    pub(super) const FAX_4: u32 = 4;
    pub(super) const OLD_JPEG: u32 = 6;
    pub(super) const JPEG: u32 = 7;
}

/// Values of the tag PhotometricInterpretation.
mod photometric {
    pub(super) const WHITE_IS_ZERO: u32 = 0;
    pub(super) const BLACK_IS_ZERO: u32 = 1;
    pub(super) const RGB: u32 = 2;
    pub(super) const CMYK: u32 = 5;
    pub(super) const YCBCR: u32 = 6;
}

/// Lays every strip or tile down on the canvas.
pub(super) fn decode(
    reader: &mut Reader<'_>,
    file: &[u8],
    directory: &Directory,
    limits: Limits,
    canvas: &mut Canvas,
) -> Result<(), DecodeError> {
    match directory.compression {
        compression::FAX_ROWS | compression::FAX_3 | compression::FAX_4 => {
            fax_strips(file, directory, canvas)
        }
        compression::JPEG => jpeg_strips(file, directory, limits, canvas),
        compression::OLD_JPEG => {
            Err(DecodeError::kind(Format::Tiff, "JPEG compression of the old kind, 6, withdrawn in 1995"))
        }
        _ if directory.lowest_bit_first && directory.bits < 8 => {
            Err(DecodeError::kind(Format::Tiff, "bits in reversed order"))
        }
        _ => plain_strips(reader, directory, canvas),
    }
}

/// The bytes of strip or tile `index`.
fn coded<'a>(file: &'a [u8], directory: &Directory, index: usize) -> Result<&'a [u8], DecodeError> {
    let place =
        directory.chunks.get(index).map(|&(offset, length)| offset as usize..(offset + length) as usize);
    place.and_then(|p| file.get(p)).ok_or(DecodeError::CutShort { format: Format::Tiff })
}

/// Black and white in a fax coding.
fn fax_strips(file: &[u8], directory: &Directory, canvas: &mut Canvas) -> Result<(), DecodeError> {
    if directory.bits != 1 || directory.samples != 1 {
        return Err(DecodeError::damaged(Format::Tiff, "fax coding of more than black and white"));
    }
    // T4Options: bit 0 two-dimensional coding, bit 2 end-of-line codes padded to a byte.
    let coding = match directory.compression {
        compression::FAX_ROWS => {
            FaxCoding { mode: EncodingMode::Group3_1D, end_of_line: false, rows_are_byte_aligned: true }
        }
        compression::FAX_3 => {
            let two = directory.fax_options & 1 != 0;
            let mode = if two { EncodingMode::Group3_2D } else { EncodingMode::Group3_1D };
            FaxCoding { mode, end_of_line: true, rows_are_byte_aligned: false }
        }
        _ => FaxCoding { mode: EncodingMode::Group4, end_of_line: false, rows_are_byte_aligned: false },
    };
    // The fax's black is sample 1; which of the two looks black is for the photometric tag to say.
    let invert = directory.photometric == photometric::BLACK_IS_ZERO;
    for index in 0..directory.count() {
        let (x, y, w, h) = directory.place(index);
        let data = coded(file, directory, index)?;
        let turned: Vec<u8>;
        let data = if directory.lowest_bit_first {
            turned = data.iter().map(|b| b.reverse_bits()).collect();
            &turned
        } else {
            data
        };
        let stride = directory.chunk.0 as usize;
        let rows = fax::decode(data, stride, h, coding).ok_or_else(|| {
            DecodeError::damaged(Format::Tiff, "the fax coding breaks off or breaks its rules")
        })?;
        for (row, samples) in rows.chunks_exact(stride).enumerate() {
            if invert {
                let samples: Vec<u8> = samples[..w].iter().map(|v| 255 - v).collect();
                canvas.lay(x, y + row, Layout::GREY, &samples);
            } else {
                canvas.lay(x, y + row, Layout::GREY, &samples[..w]);
            }
        }
    }
    Ok(())
}

/// Every strip or tile a JPEG of its own, with tables in common.
fn jpeg_strips(
    file: &[u8],
    directory: &Directory,
    limits: Limits,
    canvas: &mut Canvas,
) -> Result<(), DecodeError> {
    let colour = match (directory.photometric, directory.samples, directory.planar) {
        (photometric::WHITE_IS_ZERO | photometric::BLACK_IS_ZERO, 1, _) => Layout::GREY,
        (photometric::RGB, 3, false) => Layout::RGB,
        (photometric::YCBCR, 3, false) => Layout::YCBCR,
        (photometric::CMYK, 4, false) => Layout::CMYK,
        _ => return Err(DecodeError::kind(Format::Tiff, "JPEG strips with unusual colour samples")),
    };
    for index in 0..directory.count() {
        let (x, y, w, h) = directory.place(index);
        let data = coded(file, directory, index)?;
        let (samples, layout, stride) =
            jpeg::decode_strip(data, &directory.jpeg_tables, colour, canvas.keep, directory.chunk, limits)
                .map_err(in_tiff)?;
        if samples.len() < h * stride || stride < w * layout.samples() {
            return Err(DecodeError::damaged(Format::Tiff, "a JPEG strip is smaller than it should be"));
        }
        for (row, samples) in samples.chunks_exact(stride).take(h).enumerate() {
            if directory.photometric == photometric::WHITE_IS_ZERO {
                let samples: Vec<u8> = samples[..w].iter().map(|v| 255 - v).collect();
                canvas.lay(x, y + row, layout, &samples);
            } else {
                canvas.lay(x, y + row, layout, &samples[..w * layout.samples()]);
            }
        }
    }
    Ok(())
}

/// The error of a JPEG strip as one of the TIFF around it.
fn in_tiff(error: DecodeError) -> DecodeError {
    let format = Format::Tiff;
    match error {
        DecodeError::CutShort { .. } => DecodeError::CutShort { format },
        DecodeError::Damaged { reason, .. } => DecodeError::Damaged { format, reason },
        DecodeError::KindNotRead { kind, .. } => DecodeError::KindNotRead { format, kind },
        other => other,
    }
}

/// All other codings: unpacked by the `tiff` crate, strip by strip.
fn plain_strips(
    reader: &mut Reader<'_>,
    directory: &Directory,
    canvas: &mut Canvas,
) -> Result<(), DecodeError> {
    let shape = Shape::of(reader, directory)?;
    let mut buffer = Vec::new();
    for index in 0..directory.count() {
        let (x, y, w, h) = directory.place(index);
        let unit = TiffCodingUnit(index as u32);
        let wanted = reader.image_coding_unit_layout(unit).map_err(|e| told(&e))?;
        let (Some(stride), Some(plane)) = (wanted.row_stride, wanted.plane_stride) else {
            return Err(DecodeError::damaged(Format::Tiff, "an empty strip"));
        };
        buffer.resize(wanted.complete_len, 0);
        reader.read_coding_unit_bytes(unit, &mut buffer).map_err(|e| told(&e))?;
        let planes: Vec<&[u8]> = buffer.chunks_exact(plane.get()).take(wanted.planes).collect();
        for row in 0..h {
            let parts = planes.iter().map(|p| &p[row * stride.get()..(row + 1) * stride.get()]);
            let samples = shape.row(parts, w);
            canvas.lay(x, y + row, shape.layout, &samples);
        }
    }
    Ok(())
}

/// How the bytes of an unpacked row become pixels.
struct Shape {
    layout: Layout,
    /// Samples a pixel in the row, of which the first of `layout` are used.
    present: usize,
    bits: u8,
    /// Colours of the indexes, when the samples are indexes.
    palette: Option<Vec<[u8; 3]>>,
}

impl Shape {
    fn of(reader: &mut Reader<'_>, directory: &Directory) -> Result<Self, DecodeError> {
        let present = usize::from(reader.colortype().map_err(|e| told(&e))?.num_samples());
        let colour = match directory.photometric {
            _ if directory.indexed => Colour::Rgb,
            photometric::WHITE_IS_ZERO | photometric::BLACK_IS_ZERO => Colour::Grey,
            photometric::RGB => Colour::Rgb,
            photometric::CMYK => Colour::Cmyk,
            photometric::YCBCR => Colour::YCbCr,
            other => return Err(DecodeError::kind(Format::Tiff, format!("colour samples of kind {other}"))),
        };
        let palette = if directory.indexed { Some(palette(directory)?) } else { None };
        let plain = Layout { colour, alpha: Alpha::None };
        let alpha = match directory.extra.first() {
            _ if palette.is_some() || present <= plain.samples() || colour == Colour::Cmyk => Alpha::None,
            Some(1) => Alpha::Premultiplied,
            Some(2) => Alpha::Straight,
            _ => Alpha::None,
        };
        Ok(Self { layout: Layout { colour, alpha }, present, bits: directory.bits as u8, palette })
    }

    /// The first `width` pixels of a row as 8-bit samples in `layout`. `parts` is the row in each plane.
    fn row<'a>(&self, parts: impl ExactSizeIterator<Item = &'a [u8]>, width: usize) -> Vec<u8> {
        let each = if parts.len() > 1 { 1 } else { self.present };
        let mut planes: Vec<Vec<u8>> = parts.map(|p| self.eight_bits(p, width * each)).collect();
        if let Some(palette) = &self.palette {
            let black = [0; 3];
            return planes[0].iter().flat_map(|&i| *palette.get(usize::from(i)).unwrap_or(&black)).collect();
        }
        let used = self.layout.samples();
        if planes.len() > 1 {
            return (0..width).flat_map(|x| planes.iter().take(used).map(move |p| p[x])).collect();
        }
        if self.present == used {
            return planes.swap_remove(0);
        }
        planes[0].chunks_exact(self.present).flat_map(|pixel| &pixel[..used]).copied().collect()
    }

    /// The first `count` samples of a row as 8 bits each; indexes stay as they are.
    fn eight_bits(&self, row: &[u8], count: usize) -> Vec<u8> {
        match self.bits {
            16 => {
                row.as_chunks::<2>().0.iter().take(count).map(|&v| narrowed(u16::from_ne_bytes(v))).collect()
            }
            8 => row[..count].to_vec(),
            bits => {
                let factor = if self.palette.is_some() { 1 } else { spread(bits) };
                unpacked(row, bits, count).into_iter().map(|v| v * factor).collect()
            }
        }
    }
}

/// The colours of a palette: the high bytes of the 16-bit entries. Some old writers left the high bytes
/// empty and put the colour into the low ones.
fn palette(directory: &Directory) -> Result<Vec<[u8; 3]>, DecodeError> {
    if directory.bits > 8 || directory.samples != 1 {
        return Err(DecodeError::kind(Format::Tiff, "a palette of more than 256 colours"));
    }
    let colours = 1usize << directory.bits;
    let entries = &directory.palette;
    if entries.len() < 3 * colours {
        return Err(DecodeError::damaged(Format::Tiff, "palette cut short"));
    }
    let shift = if entries.iter().all(|&v| v < 256) { 0 } else { 8 };
    let at = |channel: usize, i: usize| (entries[channel * colours + i] >> shift) as u8;
    Ok((0..colours).map(|i| [at(0, i), at(1, i), at(2, i)]).collect())
}

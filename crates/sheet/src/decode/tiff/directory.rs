//! One picture of a TIFF: what its directory says.

use std::io::Cursor;

use tiff::decoder::Decoder;
use tiff::decoder::ifd::Value;
use tiff::tags::Tag;
use tiff::{TiffError, TiffFormatError, TiffUnsupportedError};

use super::super::format::DEVELOP;
use super::super::request::Limits;
use super::super::{DecodeError, Format, Turning};
use crate::scale::{ResolutionTag, ResolutionUnit, TagSource};

pub(super) type Reader<'a> = Decoder<Cursor<&'a [u8]>>;

/// What must be known to decode a picture. Tag numbers and values: TIFF 6.0.
#[derive(Debug)]
pub(super) struct Directory {
    pub(super) width: u32,
    pub(super) height: u32,
    /// Width and height of a strip or tile, as coded.
    pub(super) chunk: (u32, u32),
    /// Offset and length in the file of every strip or tile.
    pub(super) chunks: Vec<(u64, u64)>,
    pub(super) compression: u32,
    pub(super) photometric: u32,
    /// Whether the samples are indexes into the palette.
    pub(super) indexed: bool,
    pub(super) bits: u32,
    pub(super) samples: usize,
    /// Meanings of the samples after the colour: 1 premultiplied alpha, 2 straight alpha, 0 anything.
    pub(super) extra: Vec<u16>,
    pub(super) planar: bool,
    /// Whether the first pixel is in the lowest bit of a byte.
    pub(super) lowest_bit_first: bool,
    /// Bits of T4Options.
    pub(super) fax_options: u32,
    /// Red, green and blue of each index, 16-bit, all reds first.
    pub(super) palette: Vec<u16>,
    pub(super) jpeg_tables: Vec<u8>,
    pub(super) turning: Turning,
    pub(super) resolution: Option<ResolutionTag>,
}

impl Directory {
    /// Reads the directory at which `reader` stands; `indexed` when its samples are indexes, though it calls
    /// them grey.
    ///
    /// # Errors
    /// Sizes over the limits, strips or tiles that reach beyond the file, sorts of samples that are not read.
    pub(super) fn read(
        reader: &mut Reader<'_>,
        file: &[u8],
        indexed: bool,
        limits: Limits,
    ) -> Result<Self, DecodeError> {
        let (width, height) = reader.dimensions().map_err(|e| told(&e))?;
        limits.admit(width, height)?;
        if number(reader, Tag::Unknown(DNG_VERSION)).is_some() || hides_raw_samples(reader) {
            return Err(DecodeError::ForeignFormat { name: "Camera raw", remedy: DEVELOP });
        }
        let photometric = number(reader, Tag::PhotometricInterpretation).unwrap_or(1);
        let samples = number(reader, Tag::SamplesPerPixel).unwrap_or(1) as usize;
        let bits = numbers(reader, Tag::BitsPerSample).first().copied().unwrap_or(1);
        if let Some(kind @ 2..) = numbers(reader, Tag::SampleFormat).first() {
            let name = if *kind == 3 { "floating-point samples" } else { "signed samples" };
            return Err(DecodeError::kind(Format::Tiff, name));
        }
        if !matches!(bits, 1 | 2 | 4 | 8 | 16) {
            return Err(DecodeError::kind(Format::Tiff, format!("{bits} bits a sample")));
        }
        let (tile_w, tile_h) = reader.chunk_dimensions();
        // Tiles are as large as the picture at most, but for their padding; a strip may promise any height.
        let chunk = (tile_w, tile_h.min(height.next_multiple_of(16).max(65_536)));
        if u64::from(chunk.0) * u64::from(chunk.1.min(height.max(1024))) > limits.max_pixels {
            return Err(DecodeError::damaged(Format::Tiff, "tiles larger than the picture"));
        }
        let chunks = chunk_places(reader, file)?;
        Ok(Self {
            width,
            height,
            chunk,
            chunks,
            compression: number(reader, Tag::Compression).unwrap_or(1),
            photometric,
            indexed,
            bits,
            samples,
            extra: numbers(reader, Tag::ExtraSamples).iter().map(|&v| v as u16).collect(),
            planar: number(reader, Tag::PlanarConfiguration) == Some(2),
            lowest_bit_first: number(reader, Tag::FillOrder) == Some(2),
            fax_options: number(reader, Tag::Unknown(T4_OPTIONS)).unwrap_or(0),
            palette: numbers(reader, Tag::ColorMap).iter().map(|&v| v as u16).collect(),
            jpeg_tables: reader
                .find_tag(Tag::JPEGTables)
                .ok()
                .flatten()
                .map_or_else(Vec::new, |v| v.into_u8_vec().unwrap_or_default()),
            turning: Turning::from_tag(number(reader, Tag::Orientation).unwrap_or(1)),
            resolution: resolution(reader),
        })
    }

    /// Column and row of the top left pixel of strip or tile `index`, and its width and height within the
    /// picture.
    pub(super) fn place(&self, index: usize) -> (usize, usize, usize, usize) {
        let (width, height) = (self.width as usize, self.height as usize);
        let (w, h) = (self.chunk.0 as usize, self.chunk.1 as usize);
        let across = width.div_ceil(w);
        let (x, y) = (index % across * w, index / across * h);
        (x, y, w.min(width - x), h.min(height.saturating_sub(y)))
    }

    /// How many strips or tiles lie side by side and one under another, in one plane.
    pub(super) fn count(&self) -> usize {
        (self.width.div_ceil(self.chunk.0) as usize) * (self.height.div_ceil(self.chunk.1) as usize)
    }
}

/// Tags that the `tiff` crate has no name for.
const T4_OPTIONS: u16 = 292;
const DNG_VERSION: u16 = 50_706;

/// Whether a directory within this one holds what a camera's sensor saw; the picture outside is then a
/// small preview.
fn hides_raw_samples(reader: &mut Reader<'_>) -> bool {
    /// Colour filter array and linear raw (TIFF/EP; DNG 1.4, chapter 3).
    const RAW: [u32; 2] = [32_803, 34_892];
    let within = reader.find_tag(Tag::SubIfd).ok().flatten().and_then(|v| v.into_ifd_vec().ok());
    within.unwrap_or_default().into_iter().take(16).any(|place| {
        let Ok(inner) = reader.read_directory(place) else { return false };
        let found = reader.read_directory_tags(&inner).find_tag_unsigned(Tag::PhotometricInterpretation);
        found.ok().flatten().is_some_and(|kind: u32| RAW.contains(&kind))
    })
}

fn number(reader: &mut Reader<'_>, tag: Tag) -> Option<u32> {
    reader.find_tag_unsigned(tag).ok().flatten()
}

fn numbers(reader: &mut Reader<'_>, tag: Tag) -> Vec<u32> {
    reader.find_tag_unsigned_vec(tag).ok().flatten().unwrap_or_default()
}

/// Where every strip or tile lies; all must lie within the file.
fn chunk_places(reader: &mut Reader<'_>, file: &[u8]) -> Result<Vec<(u64, u64)>, DecodeError> {
    let mut list = |a, b| -> Result<Option<Vec<u64>>, DecodeError> {
        let found = match reader.find_tag_unsigned_vec(a) {
            Ok(None) => reader.find_tag_unsigned_vec(b),
            other => other,
        };
        found.map_err(|e| told(&e))
    };
    let offsets = list(Tag::TileOffsets, Tag::StripOffsets)?;
    let lengths = list(Tag::TileByteCounts, Tag::StripByteCounts)?;
    let (Some(offsets), Some(lengths)) = (offsets, lengths) else {
        return Err(DecodeError::damaged(Format::Tiff, "no strips or tiles"));
    };
    let end = file.len() as u64;
    let places: Vec<_> = offsets.into_iter().zip(lengths).collect();
    if places.iter().any(|&(offset, length)| offset.checked_add(length).is_none_or(|e| e > end)) {
        return Err(DecodeError::CutShort { format: Format::Tiff });
    }
    Ok(places)
}

fn resolution(reader: &mut Reader<'_>) -> Option<ResolutionTag> {
    let unit = match number(reader, Tag::ResolutionUnit) {
        None | Some(2) => ResolutionUnit::Inch,
        Some(3) => ResolutionUnit::Centimetre,
        Some(_) => return None,
    };
    let mut ratio = |tag| match reader.find_tag(tag).ok()?? {
        Value::Rational(over, under) => Some(f64::from(over) / f64::from(under)),
        Value::Float(v) => Some(f64::from(v)),
        Value::Double(v) => Some(v),
        whole => whole.into_u32().ok().map(f64::from),
    };
    let (x, y) = (ratio(Tag::XResolution)?, ratio(Tag::YResolution)?);
    ResolutionTag::new(x, y, unit, TagSource::Tiff)
}

/// The library's error as ours.
pub(super) fn told(error: &TiffError) -> DecodeError {
    match error {
        TiffError::IoError(e) if e.kind() == std::io::ErrorKind::UnexpectedEof => {
            DecodeError::CutShort { format: Format::Tiff }
        }
        TiffError::FormatError(TiffFormatError::InvalidDimensions(..)) => DecodeError::NoPixels,
        TiffError::UnsupportedError(TiffUnsupportedError::UnknownInterpretation) => {
            DecodeError::kind(Format::Tiff, "unknown colour samples, perhaps a camera raw file")
        }
        TiffError::UnsupportedError(kind) => DecodeError::kind(Format::Tiff, kind.to_string()),
        other => DecodeError::damaged(Format::Tiff, other.to_string()),
    }
}

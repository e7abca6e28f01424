//! The headers of JBIG2 segments, read before anything is decoded: a region may promise any size, and the
//! decoder would believe it.
//!
//! ITU-T T.88, 7.2 (segment headers) and 7.4.1 (region segment information).

/// The sum of the areas of all regions of an embedded stream, in pixels. Reads as far as it understands; a
/// segment of unknown length is the last that it counts.
pub(super) fn area_of_regions(data: &[u8]) -> u64 {
    let mut sum = 0u64;
    let mut rest = data;
    while let Some(segment) = Segment::read(rest) {
        sum = sum.saturating_add(segment.area);
        rest = segment.rest;
    }
    sum
}

/// One segment: the area of its region, 0 when it is none, and what follows it.
struct Segment<'a> {
    area: u64,
    rest: &'a [u8],
}

impl<'a> Segment<'a> {
    fn read(bytes: &'a [u8]) -> Option<Self> {
        let (number, rest) = bytes.split_first_chunk::<4>()?;
        let (&flags, rest) = rest.split_first()?;
        // How many segments it refers to: three bits, or 29 when those are all set, with a bit to retain each.
        let count = usize::from(rest.first()? >> 5);
        let (count, rest) = if count < 7 {
            (count, rest.get(1..)?)
        } else {
            let count = (u32::from_be_bytes(rest.first_chunk().copied()?) & 0x1FFF_FFFF) as usize;
            (count, rest.get(4 + (count + 8) / 8..)?)
        };
        // Their numbers are as long as this segment's own number makes necessary.
        let each = match u32::from_be_bytes(*number) {
            0..=256 => 1,
            257..=65_536 => 2,
            _ => 4,
        };
        let page = if flags & 0x40 == 0 { 1 } else { 4 };
        let rest = rest.get(count.checked_mul(each)?.checked_add(page)?..)?;
        let (length, body) = rest.split_first_chunk::<4>()?;
        let is_region = matches!(flags & 0x3F, 4 | 6 | 7 | 20 | 22 | 23 | 36 | 38 | 39 | 40 | 42 | 43);
        let area = match body {
            [a, b, c, d, e, f, g, h, ..] if is_region => {
                u64::from(u32::from_be_bytes([*a, *b, *c, *d]))
                    * u64::from(u32::from_be_bytes([*e, *f, *g, *h]))
            }
            _ => 0,
        };
        let length = u32::from_be_bytes(*length) as usize;
        Some(Self { area, rest: body.get(length..).unwrap_or_default() })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regions_are_counted_over_all_segments() {
        let region = [0, 0, 0, 10, 0, 0, 0, 20, 9, 9];
        let short = [&[0, 0, 0, 1, 38, 0, 1, 0, 0, 0, 10][..], &region].concat();
        // Segment 300 refers to one other by a number of two bytes; its page association has four.
        let long = [&[0, 0, 1, 44, 0x40 | 7, 0x20, 0, 7, 0, 0, 0, 1, 0, 0, 0, 10][..], &region].concat();
        let dictionary = [0, 0, 0, 2, 0, 0, 1, 0, 0, 0, 2, 5, 5];
        assert_eq!(area_of_regions(&[&short[..], &dictionary, &long].concat()), 400);
        for n in 0..short.len() {
            let _ = area_of_regions(&short[..n]);
        }
        assert_eq!(area_of_regions(&[0xFF; 64]), 0);
    }
}

//! From the samples of a file to one brightness, or to red, green and blue.

/// What the samples of a pixel mean. Samples are 8-bit and lie side by side, alpha last.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Layout {
    pub(super) colour: Colour,
    pub(super) alpha: Alpha,
}

/// The colour samples of a pixel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Colour {
    /// One sample, 0 black.
    Grey,
    /// Red, green, blue.
    Rgb,
    /// Brightness and two differences of colour, as in a JPEG.
    YCbCr,
    /// Cyan, magenta, yellow, black; 255 is full ink.
    Cmyk,
}

/// Whether a sample of opacity follows the colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Alpha {
    None,
    /// The colour is what it would be without the transparency.
    Straight,
    /// The colour was multiplied by the opacity already.
    Premultiplied,
}

impl Layout {
    pub(super) const GREY: Self = Self { colour: Colour::Grey, alpha: Alpha::None };
    pub(super) const RGB: Self = Self { colour: Colour::Rgb, alpha: Alpha::None };
    pub(super) const YCBCR: Self = Self { colour: Colour::YCbCr, alpha: Alpha::None };
    pub(super) const CMYK: Self = Self { colour: Colour::Cmyk, alpha: Alpha::None };

    /// The same with straight alpha after it.
    pub(super) const fn with_alpha(self) -> Self {
        Self { alpha: Alpha::Straight, ..self }
    }

    /// Samples a pixel.
    pub(super) const fn samples(self) -> usize {
        let colour = match self.colour {
            Colour::Grey => 1,
            Colour::Rgb | Colour::YCbCr => 3,
            Colour::Cmyk => 4,
        };
        colour + !matches!(self.alpha, Alpha::None) as usize
    }
}

/// Luma of red, green and blue as Rec. ITU-R BT.601-7 weighs them (0.299, 0.587, 0.114), in 16-bit fixed
/// point and rounded: the same brightness that the Y of a JPEG holds. The samples are taken as they are
/// stored, whatever the embedded profile: ink and paper are told apart by contrast, not by colorimetry.
pub(super) const fn luma([r, g, b]: [u8; 3]) -> u8 {
    ((19_595 * r as u32 + 38_470 * g as u32 + 7_471 * b as u32 + 32_768) >> 16) as u8
}

/// `a * b / 255`, rounded.
const fn times(a: u8, b: u8) -> u8 {
    let t = a as u32 * b as u32 + 128;
    ((t + (t >> 8)) >> 8) as u8
}

/// A sample laid on white paper.
const fn on_white(value: u8, opacity: u8, alpha: Alpha) -> u8 {
    match alpha {
        Alpha::None => value,
        Alpha::Straight => times(value, opacity).saturating_add(255 - opacity),
        Alpha::Premultiplied => value.saturating_add(255 - opacity),
    }
}

/// Light left by four inks: each ink takes its share of what the black leaves. No press profile is
/// applied; this is the plain conversion that image libraries use (common practice, no source).
const fn cmyk_to_rgb([c, m, y, k]: [u8; 4]) -> [u8; 3] {
    let light = 255 - k;
    [light - times(c, light), light - times(m, light), light - times(y, light)]
}

/// Red, green and blue of full-range YCbCr: the inverse given in ITU-T T.871, clause 7.
pub(super) fn ycbcr_to_rgb([y, cb, cr]: [u8; 3]) -> [u8; 3] {
    let (y, b, r) = (f32::from(y), f32::from(cb) - 128.0, f32::from(cr) - 128.0);
    // `as` saturates at 0 and 255.
    [y + 1.402 * r, y - 0.344_136 * b - 0.714_136 * r, y + 1.772 * b].map(|v| v.round() as u8)
}

/// A 16-bit sample as 8 bits: the nearest of 256 equal steps, so that 65535 becomes 255.
pub(super) const fn narrowed(value: u16) -> u8 {
    ((value as u32 + 128) / 257) as u8
}

/// Hands the red, green and blue of every pixel, on white paper, to `put`.
#[inline]
fn each_pixel(layout: Layout, samples: &[u8], mut put: impl FnMut([u8; 3])) {
    let n = layout.samples();
    for pixel in samples.chunks_exact(n) {
        let rgb = match layout.colour {
            Colour::Grey => [pixel[0]; 3],
            Colour::Rgb => [pixel[0], pixel[1], pixel[2]],
            Colour::YCbCr => ycbcr_to_rgb([pixel[0], pixel[1], pixel[2]]),
            Colour::Cmyk => cmyk_to_rgb([pixel[0], pixel[1], pixel[2], pixel[3]]),
        };
        put(rgb.map(|v| on_white(v, pixel[n - 1], layout.alpha)));
    }
}

/// The brightness of every pixel of `samples` into `out`, one byte a pixel.
pub(super) fn to_luminance(layout: Layout, samples: &[u8], out: &mut [u8]) {
    match layout {
        Layout::GREY => out.copy_from_slice(&samples[..out.len()]),
        Layout::RGB => {
            for (o, p) in out.iter_mut().zip(samples.as_chunks::<3>().0) {
                *o = luma(*p);
            }
        }
        Layout::YCBCR => {
            for (o, p) in out.iter_mut().zip(samples.as_chunks::<3>().0) {
                *o = p[0];
            }
        }
        _ => {
            let mut out = out.iter_mut();
            each_pixel(layout, samples, |rgb| {
                if let Some(o) = out.next() {
                    *o = luma(rgb);
                }
            });
        }
    }
}

/// Red, green and blue of every pixel of `samples` into `out`, three bytes a pixel.
pub(super) fn to_rgb(layout: Layout, samples: &[u8], out: &mut [u8]) {
    if layout == Layout::RGB {
        out.copy_from_slice(&samples[..out.len()]);
    } else {
        let mut out = out.as_chunks_mut::<3>().0.iter_mut();
        each_pixel(layout, samples, |rgb| {
            if let Some(o) = out.next() {
                *o = rgb;
            }
        });
    }
}

/// Brightness, red, green and blue of every pixel of `samples` into `out`, four bytes a pixel. The brightness is that of
/// [`to_luminance`] to the last bit.
pub(super) fn to_both(layout: Layout, samples: &[u8], out: &mut [u8]) {
    let is_stored = layout == Layout::GREY || layout == Layout::YCBCR;
    let mut stored = samples.chunks_exact(layout.samples()).map(|pixel| pixel[0]);
    let mut out = out.as_chunks_mut::<4>().0.iter_mut();
    each_pixel(layout, samples, |rgb| {
        if let (Some(o), Some(first)) = (out.next(), stored.next()) {
            let [r, g, b] = rgb;
            *o = [if is_stored { first } else { luma(rgb) }, r, g, b];
        }
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    fn luminance(layout: Layout, samples: &[u8]) -> Vec<u8> {
        let mut out = vec![0; samples.len() / layout.samples()];
        to_luminance(layout, samples, &mut out);
        out
    }

    #[test]
    fn white_stays_white_and_the_primaries_have_their_weights() {
        assert_eq!(
            luminance(Layout::RGB, &[255, 255, 255, 255, 0, 0, 0, 255, 0, 0, 0, 255]),
            [255, 76, 150, 29]
        );
    }

    #[test]
    fn what_is_transparent_shows_white_paper() {
        assert_eq!(luminance(Layout::GREY.with_alpha(), &[0, 0, 0, 255, 100, 128]), [255, 0, 177]);
        let ready = Layout { colour: Colour::Grey, alpha: Alpha::Premultiplied };
        assert_eq!(luminance(ready, &[0, 0, 0, 255, 50, 128]), [255, 0, 177]);
    }

    #[test]
    fn the_y_of_ycbcr_is_the_luma_of_its_colour() {
        for ycc in [[128, 128, 128], [76, 85, 255], [120, 100, 140], [200, 128, 120]] {
            assert!(luma(ycbcr_to_rgb(ycc)).abs_diff(ycc[0]) <= 1, "{ycc:?}");
        }
        assert_eq!(ycbcr_to_rgb([76, 85, 255]), [254, 0, 0]);
        assert_eq!(luminance(Layout::YCBCR, &[9, 100, 200]), [9]);
    }

    #[test]
    fn inks_darken() {
        assert_eq!(luminance(Layout::CMYK, &[0, 0, 0, 0, 0, 0, 0, 255, 255, 255, 255, 0]), [255, 0, 0]);
        let mut rgb = [0; 3];
        to_rgb(Layout::CMYK, &[255, 0, 0, 0], &mut rgb);
        assert_eq!(rgb, [0, 255, 255]);
    }

    #[test]
    fn sixteen_bits_are_rounded_to_the_nearest_of_eight() {
        assert_eq!([0, 128, 129, 257, 65_535, 65_406, 65_407].map(narrowed), [0, 0, 1, 1, 255, 254, 255]);
    }

    #[test]
    fn shared_products_are_rounded() {
        for a in 0..=255u8 {
            for b in 0..=255u8 {
                let exact = f64::from(a) * f64::from(b) / 255.0;
                assert!((f64::from(times(a, b)) - exact).abs() <= 0.5 + 1e-9, "{a} * {b}");
            }
        }
    }
}

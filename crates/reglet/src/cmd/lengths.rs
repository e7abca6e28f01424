//! Lengths as they are typed: 83.5, 83,5 and 83.5 mm.

use trade::lengths::Mm;

/// A length in millimetres, its decimals after a point or, as on the Continent, a comma.
///
/// # Errors
/// What is no number, with what to give.
pub(super) fn millimetres(text: &str) -> Result<Mm, String> {
    number(text).map(Mm).ok_or_else(|| format!("\"{text}\" is no length; give millimetres, as 83.5"))
}

/// Two lengths with an x between.
///
/// # Errors
/// What is no pair, with what to give.
pub(super) fn by(text: &str) -> Result<(Mm, Mm), String> {
    let parts = text.split_once(['x', 'X', '×']);
    parts.and_then(|(a, b)| Some((Mm(number(a)?), Mm(number(b)?)))).ok_or_else(|| {
        format!("\"{text}\" is no pair of lengths; give millimetres with an x between, as 172x108")
    })
}

fn number(text: &str) -> Option<f64> {
    let digits = text.trim().trim_end_matches("mm").trim_end();
    digits.replacen(',', ".", 1).parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_length_has_a_point_or_a_comma_and_perhaps_its_unit() {
        for text in ["83.5", "83,5", " 83.5 mm", "83,5mm"] {
            assert_eq!(millimetres(text), Ok(Mm(83.5)), "{text}");
        }
        assert_eq!(by("166x104,5 mm"), Ok((Mm(166.0), Mm(104.5))));
        for text in ["", "mm", "1,000.5", "8 3", "x"] {
            assert!(millimetres(text).is_err() && by(text).is_err(), "{text}");
        }
    }
}

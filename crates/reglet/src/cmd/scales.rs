//! What the user says of the scale of each photograph.

use anyhow::{Result, bail};
use sheet::Ppi;
use sheet::scale::{KnownLength, ScaleRequest};

/// One request a photograph, in their order.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::cmd) enum Scales {
    /// Resolutions: one for all, or one for each.
    Ppi(Vec<ScaleRequest>),
    /// Lengths measured in the first photographs; the rest is heard from the files.
    KnownLengths(Vec<ScaleRequest>),
}

impl Scales {
    /// Resolutions as typed: `300`, or `300,412.5,...`.
    pub(in crate::cmd) fn ppi(text: &str) -> Result<Self, String> {
        let one = |t: &str| {
            let number: f64 =
                t.trim().parse().map_err(|_| format!("\"{t}\" is no number of pixels to the inch"))?;
            ScaleRequest::ppi(number).map_err(|e| e.to_string())
        };
        text.split(',').map(one).collect::<Result<_, _>>().map(Self::Ppi)
    }

    /// Lengths as typed: `683=40`, or `683=40,702=40,...`.
    pub(in crate::cmd) fn known_lengths(text: &str) -> Result<Self, String> {
        let one =
            |t: &str| t.parse::<KnownLength>().map(ScaleRequest::KnownLength).map_err(|e| e.to_string());
        text.split(',').map(one).collect::<Result<_, _>>().map(Self::KnownLengths)
    }

    /// Resolutions that are known.
    pub(in crate::cmd) fn of(ppi: &[Ppi]) -> Self {
        Self::Ppi(ppi.iter().map(|&p| ScaleRequest::Ppi(p)).collect())
    }

    /// What was said of each of so many photographs.
    ///
    /// # Errors
    /// When more was said than there are photographs, or resolutions for some only.
    pub(in crate::cmd) fn for_each(said: Option<&Self>, photographs: usize) -> Result<Vec<ScaleRequest>> {
        let mut out = match said {
            None => Vec::new(),
            Some(Self::Ppi(all)) if all.len() == 1 => vec![all[0]; photographs],
            Some(Self::Ppi(each)) if each.len() != photographs => bail!(
                "--ppi gives {} resolutions for {photographs} photographs: give one for all, or one for each",
                each.len()
            ),
            Some(Self::KnownLengths(some)) if some.len() > photographs => bail!(
                "--known-length gives {} lengths for {photographs} photographs: give one for each at most",
                some.len()
            ),
            Some(Self::Ppi(each) | Self::KnownLengths(each)) => each.clone(),
        };
        out.resize(photographs, ScaleRequest::FromFile);
        Ok(out)
    }

    /// As it would be typed again.
    pub(in crate::cmd) fn typed(&self) -> String {
        let (option, all) = match self {
            Self::Ppi(all) => (PPI, all),
            Self::KnownLengths(all) => (KNOWN_LENGTH, all),
        };
        let told: Vec<String> = all.iter().filter_map(|s| Some(option_of(s)?.1)).collect();
        format!("{option} {}", told.join(","))
    }

    /// What was asked of one photograph, as it would be typed again; `None` where nothing was.
    pub(in crate::cmd) fn typed_of(asked: &ScaleRequest) -> Option<String> {
        option_of(asked).map(|(option, value)| format!("{option} {value}"))
    }
}

const PPI: &str = "--ppi";
const KNOWN_LENGTH: &str = "--known-length";

/// The option that asks this, and its value.
fn option_of(asked: &ScaleRequest) -> Option<(&'static str, String)> {
    match asked {
        ScaleRequest::FromFile => None,
        ScaleRequest::Ppi(p) => Some((PPI, p.0.to_string())),
        ScaleRequest::KnownLength(l) => Some((KNOWN_LENGTH, format!("{}={}", l.px().0, l.mm().0))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn each(said: &Scales, n: usize) -> Vec<ScaleRequest> {
        Scales::for_each(Some(said), n).unwrap()
    }

    #[test]
    fn one_resolution_serves_all_photographs() {
        let one = Scales::ppi("300").unwrap();
        assert_eq!(each(&one, 3), [ScaleRequest::Ppi(Ppi(300.0)); 3]);
        let two = Scales::ppi("300, 412.5").unwrap();
        assert_eq!(each(&two, 2), [ScaleRequest::Ppi(Ppi(300.0)), ScaleRequest::Ppi(Ppi(412.5))]);
        assert!(Scales::for_each(Some(&two), 3).unwrap_err().to_string().contains("2 resolutions for 3"));
        assert!(Scales::ppi("many").unwrap_err().contains("pixels to the inch"));
        assert!(Scales::ppi("-5").is_err() && Scales::ppi("NaN").is_err());
        assert_eq!(two.typed(), "--ppi 300,412.5");
    }

    #[test]
    fn a_known_length_is_pixels_and_millimetres() {
        let one = Scales::known_lengths("683=40").unwrap();
        let [first, second] = each(&one, 2)[..] else { panic!("two") };
        assert!(matches!(first, ScaleRequest::KnownLength(l) if (l.ppi().0 - 433.7).abs() < 0.1));
        assert_eq!(second, ScaleRequest::FromFile);
        assert!(Scales::known_lengths("683").is_err() && Scales::known_lengths("0=40").is_err());
        assert!(Scales::for_each(Some(&Scales::known_lengths("683=40,9=1,9=1").unwrap()), 2).is_err());
        assert_eq!(one.typed(), "--known-length 683=40");
        assert_eq!(Scales::for_each(None, 2).unwrap(), [ScaleRequest::FromFile; 2]);
    }
}

//! What the user knows of the year of each impression.

use anyhow::{Result, bail};
use chronology::Dated;

/// One for each photograph, in their order.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Years(Vec<Dated>);

/// Years that are taken.
const YEARS: std::ops::RangeInclusive<i32> = 1400..=1900;

impl Years {
    /// As typed: `1648,1650..1655,1660..,..1670,?`.
    pub(super) fn parse(text: &str) -> Result<Self, String> {
        text.split(',').map(|t| one(t.trim())).collect::<Result<_, _>>().map(Self)
    }

    /// One for each of so many photographs.
    ///
    /// # Errors
    /// When there are more or fewer.
    pub(super) fn for_each(said: Option<&Self>, photographs: usize) -> Result<Vec<Dated>> {
        match said {
            None => Ok(vec![Dated::Unknown; photographs]),
            Some(Self(each)) if each.len() == photographs => Ok(each.clone()),
            Some(Self(some)) => bail!(
                "--dates gives {} dates for {photographs} photographs: give one for each in their order, ? where nothing is known",
                some.len()
            ),
        }
    }

    /// As they would be typed again.
    pub(super) fn typed(&self) -> String {
        let each: Vec<String> = self.0.iter().map(|d| typed(*d)).collect();
        format!("--dates '{}'", each.join(","))
    }
}

fn one(text: &str) -> Result<Dated, String> {
    let year = |t: &str| match t.trim().parse::<i32>() {
        Ok(year) if YEARS.contains(&year) => Ok(year),
        _ => Err(format!(
            "\"{text}\" is no date: give a year from {} to {}, as 1648, a range as 1650..1655, 1660.. for no earlier, ..1670 for no later, or ? where nothing is known",
            YEARS.start(),
            YEARS.end()
        )),
    };
    match text.split_once("..") {
        _ if text == "?" => Ok(Dated::Unknown),
        None => Ok(Dated::Exactly { year: year(text)? }),
        Some((from, "")) => Ok(Dated::NotBefore { year: year(from)? }),
        Some(("", to)) => Ok(Dated::NotAfter { year: year(to)? }),
        Some((from, to)) => {
            let (from, to) = (year(from)?, year(to)?);
            if from > to {
                return Err(format!(
                    "{from}..{to} contradicts itself: {from} comes after {to}; exchange them, or correct one"
                ));
            }
            Ok(if from == to { Dated::Exactly { year: from } } else { Dated::Between { from, to } })
        }
    }
}

fn typed(dated: Dated) -> String {
    match dated {
        Dated::Unknown => "?".to_owned(),
        Dated::Exactly { year } => year.to_string(),
        Dated::Between { from, to } => format!("{from}..{to}"),
        Dated::NotBefore { year } => format!("{year}.."),
        Dated::NotAfter { year } => format!("..{year}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dates_are_read_and_typed_again() {
        let text = "1648,1650..1655,1660..,..1670,?";
        let years = Years::parse(text).unwrap();
        assert_eq!(
            years.0,
            [
                Dated::Exactly { year: 1648 },
                Dated::Between { from: 1650, to: 1655 },
                Dated::NotBefore { year: 1660 },
                Dated::NotAfter { year: 1670 },
                Dated::Unknown
            ]
        );
        assert_eq!(years.typed(), format!("--dates '{text}'"));
        assert_eq!(Years::for_each(Some(&years), 5).unwrap().len(), 5);
        assert!(Years::for_each(Some(&years), 4).unwrap_err().to_string().contains("5 dates for 4"));
    }

    #[test]
    fn dates_that_contradict_themselves_or_are_none_are_refused() {
        assert!(Years::parse("1650..1640").unwrap_err().contains("1650 comes after 1640"));
        for text in ["", "16x8", "99", "2026", "1650-1655", "..", "1650...1655"] {
            assert!(Years::parse(text).unwrap_err().contains("is no date"), "{text}");
        }
    }
}

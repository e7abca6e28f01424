//! A plan as it is written in a file.

use anyhow::{Result, anyhow};
use serde::de::{self, Deserialize, Deserializer, Visitor};
use std::fmt;
use trade::presswork::{Crew, Pence, Place, SetBy, Sides, Spread};

/// A plan to begin with.
pub(super) const EXAMPLE: &str = r#"# A plan for `reglet presswork`. Leave out what you do not know: a usual shop is taken.
# Rates are a number, or a range in quotes: "150..250", or "150..200..250" with the most likely in the middle.
copies = 750
sheets = 13
half_sheets = 1
sides = "both"          # or "one"
settings = 1            # 2: the text set twice
compositors = 2
presses = 2
crews = 2
crew = "full"           # two men to a press; or "half", one man
set_by = "pages"        # or "formes", from cast-off copy
token = 250

[rates]
ens = "36x44x16"        # lines, ens to the line, pages to the sheet; or the ens of a sheet
ens_an_hour = "500..1000..1200"
correction = 0.17       # as a share of composing
impressions = "150..200..250"
make_ready = "0.5..1..1.5"
between = "0..4"        # hours that a heap lies between its sides
drying = "12..48"       # hours

[day]
hours = 10
begins = 6
days_a_week = 6

[paper]
waste = 0.03
ream = 500

[prices]
ream = "10s"
composing = "8s"        # a sheet
token = "14d"
correction = 0.17       # as a share of composing
overhead = 0.5          # as a share of all labour

[[places]]
name = "Hallow"
copies = 300
days = "1..2"

[[places]]
name = "Merrin"
copies = 200
days = 4
"#;

/// A plan as far as it was said.
#[derive(Debug, Clone, Default, serde::Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(super) struct PlanFile {
    pub(super) copies: Option<u32>,
    pub(super) sheets: Option<u32>,
    pub(super) half_sheets: Option<u32>,
    pub(super) sides: Option<Sided>,
    pub(super) settings: Option<u32>,
    pub(super) compositors: Option<u32>,
    pub(super) presses: Option<u32>,
    pub(super) crews: Option<u32>,
    pub(super) crew: Option<Manned>,
    pub(super) set_by: Option<Set>,
    pub(super) token: Option<u32>,
    pub(super) rates: RatesFile,
    pub(super) day: DayFile,
    pub(super) paper: PaperFile,
    pub(super) prices: PricesFile,
    pub(super) places: Vec<PlaceFile>,
    /// Places that were typed in the stead of those.
    #[serde(skip)]
    pub(super) typed_places: Vec<Place>,
}

#[derive(Debug, Clone, Copy, Default, serde::Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(super) struct RatesFile {
    #[serde(deserialize_with = "ens")]
    pub(super) ens: Option<Range>,
    pub(super) ens_an_hour: Option<Range>,
    pub(super) correction: Option<Range>,
    pub(super) impressions: Option<Range>,
    pub(super) make_ready: Option<Range>,
    pub(super) between: Option<Range>,
    pub(super) drying: Option<Range>,
}

#[derive(Debug, Clone, Copy, Default, serde::Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(super) struct DayFile {
    pub(super) hours: Option<f64>,
    pub(super) begins: Option<f64>,
    pub(super) days_a_week: Option<u32>,
}

#[derive(Debug, Clone, Copy, Default, serde::Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(super) struct PaperFile {
    pub(super) waste: Option<f64>,
    pub(super) ream: Option<u32>,
}

#[derive(Debug, Clone, Copy, Default, serde::Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(super) struct PricesFile {
    pub(super) ream: Option<Money>,
    pub(super) composing: Option<Money>,
    pub(super) token: Option<Money>,
    pub(super) correction: Option<f64>,
    pub(super) overhead: Option<f64>,
}

#[derive(Debug, Clone, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PlaceFile {
    name: String,
    copies: u32,
    days: Range,
}

impl PlaceFile {
    pub(super) fn place(&self) -> Place {
        Place { name: self.name.clone(), copies: self.copies, days: self.days.0 }
    }
}

/// A range: a number, or text.
#[derive(Debug, Clone, Copy)]
pub(super) struct Range(pub(super) Spread);
/// A sum of money, as text.
#[derive(Debug, Clone, Copy)]
pub(super) struct Money(pub(super) Pence);
/// Which sides.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sided(pub(super) Sides);
/// Men to a press.
#[derive(Debug, Clone, Copy)]
pub(super) struct Manned(pub(super) Crew);
/// How the text is set.
#[derive(Debug, Clone, Copy)]
pub(super) struct Set(pub(super) SetBy);

/// Reads a number or text with a reader of text.
struct Read<F>(F, &'static str);

impl<T, E: fmt::Display, F: Fn(&str) -> Result<T, E>> Visitor<'_> for Read<F> {
    type Value = T;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.1)
    }

    fn visit_str<D: de::Error>(self, text: &str) -> Result<T, D> {
        (self.0)(text).map_err(D::custom)
    }

    fn visit_i64<D: de::Error>(self, number: i64) -> Result<T, D> {
        (self.0)(&number.to_string()).map_err(D::custom)
    }

    fn visit_f64<D: de::Error>(self, number: f64) -> Result<T, D> {
        (self.0)(&number.to_string()).map_err(D::custom)
    }
}

impl<'d> Deserialize<'d> for Range {
    fn deserialize<D: Deserializer<'d>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(Read(Spread::parse, "a number, or a range such as \"150..250\"")).map(Self)
    }
}

/// Ens of a sheet, which may be told as a product.
fn ens<'d, D: Deserializer<'d>>(from: D) -> Result<Option<Range>, D::Error> {
    let read = Read(super::asked::typed_ens, "a number, a range, or a product such as \"36x44x16\"");
    from.deserialize_any(read).map(|s| Some(Range(s)))
}

impl<'d> Deserialize<'d> for Money {
    fn deserialize<D: Deserializer<'d>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(Read(Pence::parse, "a sum of money in quotes, such as \"10s 6d\"")).map(Self)
    }
}

/// One of two words.
fn one_of<'d, D: Deserializer<'d>, T: Copy>(from: D, words: [(&'static str, T); 2]) -> Result<T, D::Error> {
    let [(first, _), (second, _)] = words;
    let read = |text: &str| {
        let found = words.into_iter().find(|(word, _)| *word == text).map(|(_, value)| value);
        found.ok_or_else(|| format!("\"{text}\" is neither \"{first}\" nor \"{second}\"; write one of these"))
    };
    from.deserialize_any(Read(read, "one of two words in quotes"))
}

impl<'d> Deserialize<'d> for Sided {
    fn deserialize<D: Deserializer<'d>>(from: D) -> Result<Self, D::Error> {
        one_of(from, [("both", Sides::Both), ("one", Sides::One)]).map(Self)
    }
}

impl<'d> Deserialize<'d> for Manned {
    fn deserialize<D: Deserializer<'d>>(from: D) -> Result<Self, D::Error> {
        one_of(from, [("full", Crew::Full), ("half", Crew::Half)]).map(Self)
    }
}

impl<'d> Deserialize<'d> for Set {
    fn deserialize<D: Deserializer<'d>>(from: D) -> Result<Self, D::Error> {
        one_of(from, [("pages", SetBy::Pages), ("formes", SetBy::Formes)]).map(Self)
    }
}

/// Reads a plan.
///
/// # Errors
/// What was wrong, with the line and the column.
pub(super) fn parse(text: &str) -> Result<PlanFile> {
    toml::from_str(text).map_err(|e| {
        let message = e.message().trim().replace('\n', "; ");
        let Some(span) = e.span() else { return anyhow!("{message}") };
        let before = text.get(..span.start).unwrap_or(text);
        let line = before.matches('\n').count() + 1;
        let column = before.rsplit('\n').next().unwrap_or_default().chars().count() + 1;
        anyhow!("line {line}, column {column}: {message}")
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_example_is_a_plan() {
        let plan = parse(EXAMPLE).unwrap();
        assert_eq!((plan.copies, plan.places.len()), (Some(750), 2));
        assert!(plan.plan().unwrap().checked().is_ok());
        assert_eq!(plan.rates.ens.unwrap().0, Spread::exactly(25_344.0));
    }

    #[test]
    fn what_is_wrong_is_told_with_its_place() {
        let told = |text: &str| format!("{:#}", parse(text).unwrap_err());
        let unknown = told("copies = 3\nshets = 4\n");
        assert!(
            unknown.starts_with("line 2, column 1: unknown field `shets`") && unknown.contains("`sheets`"),
            "{unknown}"
        );
        let range = told("[rates]\nimpressions = \"250..x\"\n");
        assert!(range.starts_with("line 2, column 15: character 6: \"x\" is no number"), "{range}");
        assert!(told("sides = \"three\"").contains("neither \"both\" nor \"one\""));
        assert!(told("[prices]\nream = 10").contains("no sum of money"));
        assert!(told("copies = = 3").starts_with("line 1, column 10"), "{}", told("copies = = 3"));
        assert!(told("copies = -3").contains("column 10"));
    }
}

//! `reglet date`: what a numeral or a dating clause says, and whether the dates of one sheet agree.

mod record;
mod sheet;
mod year;

pub(in crate::cmd) use record::DateRecord;

use super::told::Json;
use anyhow::{Context as _, Result, bail};
use clap::Args;
use clap::builder::{PossibleValue, PossibleValuesParser, TypedValueParser};
use std::ops::RangeInclusive;
use std::process::ExitCode;
use trade::clause::{ClauseError, Place};
use trade::numerals::{Counting, HAND_PRESS, chronogram};
use trade::reckoning::{Role, Statement, StatementError, statement};

/// What does a date say, and do the dates on one sheet agree?
///
/// A single year in Roman letters is read in every way that printers used; if no hand-press sheet can bear it, you are told what it
/// probably meant, and by which one slip of the compositor. A dating clause ("Given the nineteenth day of February, in the five
/// and twentieth year of Our Reign") is turned into the days that satisfy it. Several dates are held against each other: which
/// agree, which contradict, and the fewest slips that would reconcile them. Nothing is corrected silently.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples, from an invented printer at Merrin:
  reglet date MDDCI
  reglet date 'imprint: MDDCI' 'text: Thursday the nineteenth day of February 1701' 'text: the fourteenth year of our reign' 'event: 12 January 1701'

Exit codes: 0 the date can be, or the dates agree; 1 they contradict each other, or no sheet can bear the date; 2 a date could not
be read.")]
pub struct Date {
    /// A date as it is printed, in quotation marks if it has spaces. Before it may stand what it is: imprint:, text:, licence:,
    /// event:, not before:, not after:. A licence or an event comes before printing; the others are its date.
    #[arg(required = true, value_name = "DATE")]
    dates: Vec<String>,
    /// Years in which the sheet can have been printed, as 1640..1720. Without it, those of the hand press, 1450..1830.
    #[arg(long, value_name = "FROM..TO", value_parser = window)]
    between: Option<RangeInclusive<i32>>,
    /// Where it was printed: that decides when the year began, and when the New Style was taken.
    #[arg(long, value_parser = places(), default_value = Place::England.name())]
    place: Place,
    /// Add up the capitals of a sentence that are numerals: a chronogram.
    #[arg(long, conflicts_with_all = ["between", "place"])]
    chronogram: bool,
    /// In a chronogram, W counts 10, as two V's.
    #[arg(long, requires = "chronogram")]
    double_v: bool,
    /// In a chronogram, Y counts 2, as in the Low Countries.
    #[arg(long, requires = "chronogram")]
    y_as_two: bool,
    #[command(flatten)]
    json: Json,
}

/// A place by its name, each told in the help.
fn places() -> impl TypedValueParser<Value = Place> {
    let names = Place::ALL.map(|place| PossibleValue::new(place.name()).help(place.meaning()));
    PossibleValuesParser::new(names).try_map(|name| Place::named(&name).ok_or("no such place"))
}

/// As typed: 1640..1720.
fn window(text: &str) -> Result<RangeInclusive<i32>, String> {
    let wrong = || {
        format!(
            "\"{text}\" is no stretch of years; expected two from 1400 to 1900, the earlier first, as 1640..1720"
        )
    };
    let (from, to) = text.split_once("..").ok_or_else(wrong)?;
    let year = |t: &str| t.trim().parse::<i32>().ok().filter(|y| (1400..=1900).contains(y)).ok_or_else(wrong);
    let (from, to) = (year(from)?, year(to)?);
    if from > to { Err(wrong()) } else { Ok(from..=to) }
}

impl Date {
    /// Reads the dates and says what they say.
    ///
    /// # Errors
    /// A date that cannot be read, with what was expected; a result that cannot be written.
    pub fn run(&self) -> Result<ExitCode> {
        self.json.check(None, None)?;
        let (record, words) = if self.chronogram { self.of_chronogram()? } else { self.of_dates()? };
        self.json.tell(&record, &words)?;
        Ok(ExitCode::from(u8::from(!record.can_be)))
    }

    fn of_chronogram(&self) -> Result<(DateRecord, String)> {
        let [text] = &self.dates[..] else {
            bail!(
                "--chronogram takes one sentence, and {} were given: put it in quotation marks",
                self.dates.len()
            )
        };
        let counting = Counting { double_v: self.double_v, y_as_two: self.y_as_two };
        let told = chronogram(text, counting)
            .with_context(|| format!("\"{text}\": no capital in it is a numeral, or it is no sentence"))?;
        Ok(year::of_chronogram(text, &told))
    }

    fn of_dates(&self) -> Result<(DateRecord, String)> {
        let statements: Vec<Statement> = self.dates.iter().map(|d| one(d)).collect::<Result<_>>()?;
        if let [single] = &statements[..]
            && let [part] = &single.elements[..]
            && let trade::clause::Element::Year { written: trade::clause::Written::Roman(text), .. } =
                &part.element
        {
            return year::of_numeral(text, self.between.as_ref());
        }
        sheet::of_dates(&statements, self.place, self.between.as_ref())
    }
}

/// One date with what it is.
fn one(typed: &str) -> Result<Statement> {
    let with_role = typed.split_once(':').and_then(|(before, text)| {
        let name = before.trim().to_lowercase();
        Role::ALL.into_iter().find(|r| r.name() == name).map(|role| (role, text))
    });
    let (role, text) = with_role.unwrap_or((Role::Imprint, typed));
    let text = text.trim();
    statement(role, text).map_err(|error| {
        let perhaps = perhaps_chronogram(text, &error);
        anyhow::Error::new(error).context(format!("\"{text}\" cannot be read{perhaps}"))
    })
}

/// That a sentence without a date may be a chronogram, where its capitals come to a year of the hand press.
fn perhaps_chronogram(text: &str, error: &StatementError) -> String {
    let year = chronogram(text, Counting::default()).map_or(0, |c| c.year.cast_signed());
    let is_sentence = text.split_whitespace().count() > 1 && text.chars().any(char::is_lowercase);
    if matches!(error, StatementError::Clause(ClauseError::NoDate { .. }))
        && is_sentence
        && HAND_PRESS.contains(&year)
    {
        format!(" as a date; as a chronogram (--chronogram) its capitals come to {year}")
    } else {
        String::new()
    }
}

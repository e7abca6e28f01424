//! `reglet calendar`: days turned from one calendar into another, feasts, terms, reigns, and when the New Style was taken.

mod answers;
mod record;
mod words;

pub(in crate::cmd) use record::{CalendarRecord, Stretch};
pub(in crate::cmd) use words::{element_words, stretch_words};

use super::told::Json;
use anyhow::Result;
use clap::{Args, Subcommand, ValueEnum};
use std::process::ExitCode;

/// Turn days from one calendar into another; Easter, feasts and terms of a year; reigns; when a country took the New Style.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples, for a sheet that an invented printer at Merrin dated \"30 January 1648\":
  reglet calendar convert '30 January 1649' --in old-style
  reglet calendar feasts 1649

Exit codes: 0 told, 1 there is no such thing (a country that is not listed), 2 it could not be read.")]
pub struct Calendar {
    #[command(subcommand)]
    what: What,
    #[command(flatten)]
    json: Json,
}

/// What is asked.
#[derive(Debug, Subcommand)]
enum What {
    /// What a day is called in each calendar, its weekday, its day number, and the year of the reign.
    Convert(OfDay),
    /// The day of the week.
    Weekday(OfDay),
    /// Easter and what hangs on it, quarter days and saints' days of a year.
    Feasts(OfYear),
    /// The law terms at Westminster in a year.
    Terms(OfYear),
    /// Kings and queens from 1485 to 1837, or the years of one of them, or who reigned on a day.
    Reigns {
        /// A name as "Charles II" or "Car. 2", or a day as "29 May 1660"; all, without one.
        who: Option<String>,
    },
    /// When a country took the New Style.
    NewStyle {
        /// The country, as France or Bavaria; all, without one.
        country: Option<String>,
    },
}

/// A day.
#[derive(Debug, Args)]
struct OfDay {
    /// The day, as '30 January 1649', 1649-01-30 or '1 January 4713 BC', the year beginning with 1 January; or a Julian day number, as
    /// 2323385.
    day: String,
    /// The calendar in which it is given.
    #[arg(long = "in", value_enum, default_value_t = InStyle::British)]
    style: InStyle,
}

/// A year.
#[derive(Debug, Args)]
struct OfYear {
    /// The year, from 1 January.
    #[arg(value_parser = clap::value_parser!(i32).range(1..=2100))]
    year: i32,
    /// The calendar.
    #[arg(long = "in", value_enum, default_value_t = InStyle::British)]
    style: InStyle,
}

/// A calendar, as it is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum InStyle {
    /// As in England: Old Style to 2 September 1752, then New Style.
    British,
    /// Old Style, the Julian calendar.
    #[value(name = "old-style")]
    Old,
    /// New Style, the Gregorian calendar.
    #[value(name = "new-style")]
    New,
}

impl From<InStyle> for trade::calendar::Calendar {
    fn from(style: InStyle) -> Self {
        match style {
            InStyle::British => Self::british(),
            InStyle::Old => Self::JULIAN,
            InStyle::New => Self::GREGORIAN,
        }
    }
}

impl Calendar {
    /// Answers.
    ///
    /// # Errors
    /// A day that cannot be read or never was, with what was expected; a result that cannot be written.
    pub fn run(&self) -> Result<ExitCode> {
        self.json.check(None, None)?;
        let (record, words) = match &self.what {
            What::Convert(of) => answers::convert(&of.day, of.style.into())?,
            What::Weekday(of) => answers::weekday(&of.day, of.style.into())?,
            What::Feasts(of) => answers::feasts(of.year, of.style.into())?,
            What::Terms(of) => answers::terms(of.year)?,
            What::Reigns { who } => answers::reigns(who.as_deref())?,
            What::NewStyle { country } => answers::new_style(country.as_deref()),
        };
        self.json.tell(&record, &words)?;
        Ok(ExitCode::from(u8::from(record.is_empty())))
    }
}

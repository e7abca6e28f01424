//! `reglet schema`: the JSON Schema of what commands write with `--json`.

use anyhow::Result;
use clap::{Args, ValueEnum};
use std::process::ExitCode;

/// Print the JSON Schema of the record that a command writes with `--json`.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  reglet schema
  reglet schema blocks")]
pub struct Schema {
    /// Which record.
    #[arg(value_enum, default_value_t = Of::Compare)]
    of: Of,
}

/// A record that is written as JSON.
#[derive(Debug, Clone, Copy, ValueEnum)]
enum Of {
    /// `compare`, of two photographs.
    Compare,
    /// `compare`, of three photographs or more.
    CompareMany,
    /// `blocks`.
    Blocks,
    /// `calendar`.
    Calendar,
    /// `date`.
    Date,
    /// `figures`.
    Figures,
    /// `format`.
    Format,
    /// `gatherings`.
    Gatherings,
    /// `imposition`.
    Imposition,
    /// `measure`, of one photograph.
    Measure,
    /// `measure`, of two photographs or more.
    MeasureMany,
    /// `presswork`.
    Presswork,
    /// `survival`.
    Survival,
    /// `type`.
    Type,
}

impl Schema {
    /// Prints the schema.
    ///
    /// # Errors
    /// None in practice; a schema that cannot be written as JSON would be one.
    pub fn run(&self) -> Result<ExitCode> {
        let schema = match self.of {
            Of::Compare => schemars::schema_for!(publish::record::Record),
            Of::CompareMany => schemars::schema_for!(publish::record::ManyRecord),
            Of::Blocks => schemars::schema_for!(publish::record::BlocksRecord),
            Of::Calendar => schemars::schema_for!(super::calendar::CalendarRecord),
            Of::Date => schemars::schema_for!(super::date::DateRecord),
            Of::Figures => schemars::schema_for!(super::figures::FiguresRecord),
            Of::Format => schemars::schema_for!(super::format::FormatRecord),
            Of::Gatherings => schemars::schema_for!(super::gatherings::GatheringsRecord),
            Of::Imposition => schemars::schema_for!(super::imposition::ImpositionRecord),
            Of::Measure => schemars::schema_for!(publish::record::MeasuresRecord),
            Of::MeasureMany => schemars::schema_for!(publish::record::ManyMeasuresRecord),
            Of::Presswork => schemars::schema_for!(super::presswork::PressworkRecord),
            Of::Survival => schemars::schema_for!(super::survival::SurvivalRecord),
            Of::Type => schemars::schema_for!(super::types::TypeRecord),
        };
        crate::say::result(&serde_json::to_string_pretty(&schema)?)?;
        Ok(ExitCode::SUCCESS)
    }
}

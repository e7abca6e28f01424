//! `reglet schema`: the JSON Schema of what commands write with `--json`.

use anyhow::Result;
use clap::Args;
use std::process::ExitCode;

/// Print the JSON Schema of the record that a command writes with `--json`: of `compare`, unless another is asked for.
#[derive(Debug, Args)]
#[allow(clippy::struct_excessive_bools, reason = "each is an option of its own on the command line")]
pub struct Schema {
    /// Of the record of three photographs or more.
    #[arg(long)]
    many: bool,
    /// Of the record of `blocks --json`.
    #[arg(long, conflicts_with = "many")]
    blocks: bool,
    /// Of the record of `date --json`.
    #[arg(long, conflicts_with_all = ["many", "blocks"])]
    date: bool,
    /// Of the record of `calendar --json`.
    #[arg(long, conflicts_with_all = ["many", "blocks", "date"])]
    calendar: bool,
}

impl Schema {
    /// Prints the schema.
    ///
    /// # Errors
    /// None in practice; a schema that cannot be written as JSON would be one.
    pub fn run(&self) -> Result<ExitCode> {
        let schema = if self.blocks {
            schemars::schema_for!(publish::record::BlocksRecord)
        } else if self.date {
            schemars::schema_for!(super::date::DateRecord)
        } else if self.calendar {
            schemars::schema_for!(super::calendar::CalendarRecord)
        } else if self.many {
            schemars::schema_for!(publish::record::ManyRecord)
        } else if self.reckoned.presswork {
            schemars::schema_for!(super::presswork::PressworkRecord)
        } else if self.reckoned.figures {
            schemars::schema_for!(super::figures::FiguresRecord)
        } else if self.reckoned.survival {
            schemars::schema_for!(super::survival::SurvivalRecord)
        } else {
            schemars::schema_for!(publish::record::Record)
        };
        crate::say::result(&serde_json::to_string_pretty(&schema)?)?;
        Ok(ExitCode::SUCCESS)
    }
}

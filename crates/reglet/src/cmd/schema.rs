//! `reglet schema`: the JSON Schema of what the commands write with `--json`.

use anyhow::Result;
use clap::Args;
use std::process::ExitCode;

/// Print the JSON Schema of the record that a command writes with --json: `compare`, unless another is named.
#[derive(Debug, Args)]
pub struct Schema {
    /// Of the record of three photographs or more.
    #[arg(long)]
    many: bool,
    /// Of the record of `blocks --json`.
    #[arg(long, conflicts_with = "many")]
    blocks: bool,
    #[command(flatten)]
    reckoned: Reckoned,
}

/// The commands that reckon.
#[derive(Debug, Args)]
struct Reckoned {
    /// Of the record of `presswork --json`.
    #[arg(long, conflicts_with_all = ["many", "blocks"])]
    presswork: bool,
    /// Of the record of `figures --json`.
    #[arg(long, conflicts_with_all = ["many", "blocks", "presswork"])]
    figures: bool,
    /// Of the record of `survival --json`.
    #[arg(long, conflicts_with_all = ["many", "blocks", "presswork", "figures"])]
    survival: bool,
}

impl Schema {
    /// Prints the schema.
    ///
    /// # Errors
    /// None in practice; a schema that cannot be written as JSON would be one.
    pub fn run(&self) -> Result<ExitCode> {
        let schema = if self.blocks {
            schemars::schema_for!(publish::record::BlocksRecord)
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

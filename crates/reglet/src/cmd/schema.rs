//! `reglet schema`: the JSON Schema of what commands write with `--json`.

use anyhow::Result;
use clap::Args;
use std::process::ExitCode;

/// Print the JSON Schema of the record that a command writes with `--json`; without an option, that of `compare`.
#[derive(Debug, Args)]
pub struct Schema {
    /// Of the record of three photographs or more.
    #[arg(long)]
    many: bool,
    /// Of the record of `blocks --json`.
    #[arg(long, conflicts_with = "many")]
    blocks: bool,
    /// Of the record of `type --json`.
    #[arg(long = "type", conflicts_with_all = ["many", "blocks"])]
    types: bool,
    /// Of the record of `format --json`.
    #[arg(long, conflicts_with_all = ["many", "blocks", "types"])]
    format: bool,
    /// Of the record of `gatherings --json`.
    #[arg(long, conflicts_with_all = ["many", "blocks", "types", "format"])]
    gatherings: bool,
    /// Of the record of `imposition --json`.
    #[arg(long, conflicts_with_all = ["many", "blocks", "types", "format", "gatherings"])]
    imposition: bool,
}

impl Schema {
    /// Prints the schema.
    ///
    /// # Errors
    /// None in practice; a schema that cannot be written as JSON would be one.
    pub fn run(&self) -> Result<ExitCode> {
        let schema = if self.blocks {
            schemars::schema_for!(publish::record::BlocksRecord)
        } else if self.types {
            schemars::schema_for!(super::types::TypeRecord)
        } else if self.format {
            schemars::schema_for!(super::format::FormatRecord)
        } else if self.gatherings {
            schemars::schema_for!(super::gatherings::GatheringsRecord)
        } else if self.imposition {
            schemars::schema_for!(super::imposition::ImpositionRecord)
        } else if self.many {
            schemars::schema_for!(publish::record::ManyRecord)
        } else {
            schemars::schema_for!(publish::record::Record)
        };
        crate::say::result(&serde_json::to_string_pretty(&schema)?)?;
        Ok(ExitCode::SUCCESS)
    }
}

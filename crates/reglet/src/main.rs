//! The command line of Reglet.
//!
//! Results go to standard output, progress and errors to standard error. Exit codes: 0 a verdict was
//! reached, 1 undetermined, 2 the work could not be done.

use clap::{Parser, Subcommand};
use std::process::ExitCode;

/// Lays photographs of hand-press sheets together and says what was printed from what.
#[derive(Debug, Parser)]
#[command(name = "reglet", version, about, after_help = CAUTION)]
struct Arguments {
    #[command(subcommand)]
    command: Command,
}

const CAUTION: &str = "What Reglet finds is evidence, not authentication or valuation. Follow the holding \
    library's handling rules, and consult a conservator before you touch a sheet.";

#[derive(Debug, Subcommand)]
enum Command {
    Blocks(reglet::cmd::Blocks),
    Calendar(reglet::cmd::Calendar),
    Compare(reglet::cmd::Compare),
    Date(reglet::cmd::Date),
    Demo(reglet::cmd::Demo),
    Figures(reglet::cmd::Figures),
    Measure(reglet::cmd::Measure),
    Presswork(Box<reglet::cmd::Presswork>),
    Survival(reglet::cmd::Survival),
    Format(reglet::cmd::Format),
    Gatherings(reglet::cmd::Gatherings),
    Imposition(reglet::cmd::Imposition),
    Print(reglet::cmd::Print),
    Schema(reglet::cmd::Schema),
    Type(reglet::cmd::Type),
}

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    reglet::stop::watch();
    let done = match &arguments.command {
        Command::Blocks(blocks) => blocks.run(),
        Command::Calendar(calendar) => calendar.run(),
        Command::Compare(compare) => compare.run(),
        Command::Date(date) => date.run(),
        Command::Demo(demo) => demo.run(),
        Command::Figures(figures) => figures.run(),
        Command::Measure(measure) => measure.run(),
        Command::Presswork(presswork) => presswork.run(),
        Command::Survival(survival) => survival.run(),
        Command::Format(format) => format.run(),
        Command::Gatherings(gatherings) => gatherings.run(),
        Command::Imposition(imposition) => imposition.run(),
        Command::Print(print) => print.run(),
        Command::Schema(schema) => schema.run(),
        Command::Type(types) => types.run(),
    };
    match done {
        Ok(code) => code,
        Err(error) => {
            reglet::say::error(&error);
            ExitCode::from(2)
        }
    }
}

//! The chores of the house: `cargo xtask check` and its parts.

#![allow(clippy::print_stdout, clippy::print_stderr, reason = "a command line tool speaks to a terminal")]

mod bench;
mod check;

use std::process::ExitCode;

use clap::{Parser, Subcommand};

/// Checks and benchmarks of the house.
#[derive(Debug, Parser)]
#[command(name = "cargo xtask", about)]
struct Arguments {
    #[command(subcommand)]
    chore: Chore,
}

#[derive(Debug, Subcommand)]
enum Chore {
    /// Everything below, in turn: what the test command runs before the tests.
    Check,
    /// Format, lints and documentation.
    Code,
    /// The licence of every dependency against the list of those we take.
    Licences,
    /// The arrows between our crates, and what the computing crates may use.
    Rooms,
    /// Pairs with known truth, and the table of what must be reached.
    #[command(subcommand)]
    Bench(bench::Task),
}

fn main() -> ExitCode {
    let done = match Arguments::parse().chore {
        Chore::Check => check::all(),
        Chore::Code => check::code(),
        Chore::Licences => check::licences(),
        Chore::Rooms => check::rooms(),
        Chore::Bench(task) => bench::run(task),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(e) => {
            eprintln!("{e:#}");
            ExitCode::FAILURE
        }
    }
}

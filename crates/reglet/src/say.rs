//! What the program says: results to standard output, the rest to standard error.

use anyhow::{Context as _, Result};
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use std::io::{ErrorKind, IsTerminal as _, Write as _};
use std::time::Duration;

/// Prints a result. A reader that went away (a closed pipe) is no error of ours.
///
/// # Errors
/// When standard output takes nothing: a full disk, most often.
pub fn result(text: &str) -> Result<()> {
    let mut out = std::io::stdout().lock();
    let written =
        out.write_all(text.as_bytes()).and_then(|()| out.write_all(b"\n")).and_then(|()| out.flush());
    match written {
        Err(e) if e.kind() != ErrorKind::BrokenPipe => {
            Err(e).context("the result cannot be written to standard output; is the disk full?")
        }
        _ => Ok(()),
    }
}

/// Adds a list under its title, if there is anything in it.
pub(crate) fn list(out: &mut Vec<String>, title: &str, items: &[String]) {
    if !items.is_empty() {
        out.push(String::new());
        out.push(title.to_owned());
        out.extend(items.iter().map(|i| format!("  - {i}")));
    }
}

/// Prints an error with its causes on one line.
pub fn error(error: &anyhow::Error) {
    writeln!(std::io::stderr(), "reglet: {error:#}").ok();
}

/// What is being done just now, on one line of a terminal, or as plain lines elsewhere.
#[derive(Debug)]
pub struct Progress {
    bar: Option<ProgressBar>,
    quiet: bool,
}

impl Progress {
    /// Shows progress unless `quiet`.
    pub fn new(quiet: bool) -> Self {
        let bar = (!quiet && std::io::stderr().is_terminal()).then(|| {
            let bar = ProgressBar::with_draw_target(None, ProgressDrawTarget::stderr());
            if let Ok(style) = ProgressStyle::with_template("{spinner} {msg} ({elapsed})") {
                bar.set_style(style);
            }
            bar.enable_steady_tick(Duration::from_millis(100));
            bar
        });
        Self { bar, quiet }
    }

    /// Says what begins now.
    pub fn step(&self, what: &str) {
        match &self.bar {
            Some(bar) => bar.set_message(what.to_owned()),
            None if !self.quiet => {
                writeln!(std::io::stderr(), "{what} …").ok();
            }
            None => {}
        }
    }

    /// Clears the line.
    pub fn end(&self) {
        if let Some(bar) = &self.bar {
            bar.finish_and_clear();
        }
    }
}

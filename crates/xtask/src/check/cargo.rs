//! Cargo, run and asked.

use std::path::PathBuf;
use std::process::Command;

use anyhow::{Context, ensure};
use serde::Deserialize;

/// What `cargo metadata --format-version 1` says, as far as the checks need it.
/// (The format: *The Cargo Book*, "cargo metadata".)
#[derive(Debug, Deserialize)]
pub(crate) struct Metadata {
    /// Every package of the dependency tree, ours included.
    pub(crate) packages: Vec<Package>,
    /// Where the workspace lies.
    pub(crate) workspace_root: PathBuf,
}

/// One package of the tree.
#[derive(Debug, Deserialize)]
pub(crate) struct Package {
    /// Its name.
    pub(crate) name: String,
    /// Its version.
    pub(crate) version: String,
    /// Its licence as an SPDX expression, where it gives one.
    pub(crate) license: Option<String>,
    /// Where it was fetched from; none for a package of our own.
    pub(crate) source: Option<String>,
    /// What it asks for.
    pub(crate) dependencies: Vec<Dependency>,
}

/// One line of a package's dependencies.
#[derive(Debug, Deserialize)]
pub(crate) struct Dependency {
    /// The package asked for.
    pub(crate) name: String,
    /// "dev", "build", or none for a normal one.
    pub(crate) kind: Option<String>,
}

/// The dependency tree as the lock file fixes it.
pub(crate) fn metadata() -> anyhow::Result<Metadata> {
    let out = command()
        .args(["metadata", "--format-version", "1", "--locked"])
        .output()
        .context("cargo metadata could not be started")?;
    ensure!(out.status.success(), "cargo metadata failed:\n{}", String::from_utf8_lossy(&out.stderr));
    serde_json::from_slice(&out.stdout).context("the answer of cargo metadata could not be read")
}

/// Runs cargo with its output shown; an error names the command that failed.
pub(crate) fn run(arguments: &[&str], environment: &[(&str, &str)]) -> anyhow::Result<()> {
    let line = format!("cargo {}", arguments.join(" "));
    println!("-- {line}");
    let status = command()
        .args(arguments)
        .envs(environment.iter().copied())
        .status()
        .with_context(|| format!("`{line}` could not be started"))?;
    ensure!(status.success(), "`{line}` failed ({status})");
    Ok(())
}

/// The cargo that runs us, so that a chosen toolchain stays the chosen one.
fn command() -> Command {
    Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()))
}

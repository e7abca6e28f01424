//! What must hold before the tests are worth running.

mod cargo;
mod licences;
mod rooms;

pub(crate) use licences::check as licences;
pub(crate) use rooms::check as rooms;

/// Every check in turn, the quick ones first; stops at the first that fails.
pub(crate) fn all() -> anyhow::Result<()> {
    rooms()?;
    licences()?;
    code()
}

/// Format, lints and documentation, in the profile in which everything is built.
pub(crate) fn code() -> anyhow::Result<()> {
    cargo::run(&["fmt", "--all", "--check"], &[])?;
    let lints = ["clippy", "--release", "--locked", "--workspace", "--all-targets", "--", "-D", "warnings"];
    cargo::run(&lints, &[])?;
    let doc = ["doc", "--release", "--locked", "--workspace", "--no-deps", "--document-private-items"];
    cargo::run(&doc, &[("RUSTDOCFLAGS", "-D warnings")])
}

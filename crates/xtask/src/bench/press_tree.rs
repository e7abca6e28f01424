//! Which press printed the photographs of a set.

use super::set::root;

/// The git tree of the press's crate, and "changed" behind it where files differ from it: what was printed by the same tree
/// need not be printed again.
pub(crate) fn press_tree() -> String {
    let git = |args: &[&str]| {
        let out = std::process::Command::new("git").args(args).current_dir(root()).output().ok()?;
        out.status.success().then(|| String::from_utf8_lossy(&out.stdout).trim().to_owned())
    };
    let tree = git(&["rev-parse", "HEAD:crates/press"]).unwrap_or_else(|| "changed".to_owned());
    let clean = git(&["status", "--porcelain", "--", "crates/press"]).is_some_and(|s| s.is_empty());
    if clean { tree } else { format!("{tree} changed") }
}

/// Whether what was printed by one press is what the press of now would print.
pub(crate) fn prints_the_same(made_by: &str, now: &str) -> bool {
    made_by == now && !now.ends_with("changed")
}

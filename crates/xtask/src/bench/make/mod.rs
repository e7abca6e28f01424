//! Makes the sets.

mod real;

use std::path::Path;

use anyhow::Context as _;

use super::pair::write_json;
use super::set::{Set, real_photographs};

/// Makes a set in its folder under `out`, unless it is there.
pub(crate) fn make(set: Set, _pairs: usize, out: &Path) -> anyhow::Result<()> {
    let folder = set.folder(out);
    std::fs::create_dir_all(&folder).with_context(|| format!("cannot make {}", folder.display()))?;
    let pairs = match set {
        Set::Real => real::pairs(&real_photographs(), &folder)?,
        Set::Dev | Set::Sealed => anyhow::bail!("not yet"),
    };
    write_json(&folder.join("pairs.json"), &pairs)?;
    eprintln!("{} pairs in {}", pairs.len(), folder.display());
    Ok(())
}

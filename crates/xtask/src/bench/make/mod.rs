//! Makes the sets.

mod plan;
mod real;
mod simulated;
mod truth;

use std::path::Path;
use std::time::Instant;

use anyhow::Context as _;

use super::pair::write_json;
use super::set::{Set, real_photographs};

/// Makes a set in its folder under `out`; what is there and still good stays, unless `again`.
pub(crate) fn make(set: Set, pairs: usize, out: &Path, again: bool) -> anyhow::Result<()> {
    let folder = set.folder(out);
    std::fs::create_dir_all(&folder).with_context(|| format!("cannot make {}", folder.display()))?;
    let start = Instant::now();
    let pairs = match set {
        Set::Real => real::pairs(&real_photographs(), &folder)?,
        Set::Dev | Set::Sealed => simulated::pairs(set, pairs, &folder, again)?,
    };
    write_json(&folder.join("pairs.json"), &pairs)?;
    eprintln!("{} pairs in {} ({:.0} s)", pairs.len(), folder.display(), start.elapsed().as_secs_f64());
    Ok(())
}

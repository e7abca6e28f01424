//! Where the results go: never over a photograph, and never over the page of other photographs.

use super::compare::Opened;
use crate::files::Named;
use anyhow::{Result, bail};
use std::fs;
use std::path::{Path, PathBuf};

/// Refuses, before anything is computed, to write one result over a photograph or over the other result, and plates into
/// a folder of other files.
///
/// # Errors
/// Names the file and says what to do.
pub(in crate::cmd) fn check(
    photographs: &[Named],
    page: Option<&Path>,
    json: Option<&Path>,
    plates: Option<&Path>,
) -> Result<()> {
    if let Some(folder) = plates {
        let lies_in = |file: &Path| {
            let real = |p: &Path| fs::canonicalize(p).ok();
            real(file).is_some_and(|file| file.parent().map(Path::to_owned) == real(folder))
        };
        if photographs.iter().any(|p| lies_in(&p.path)) {
            bail!("{}: a photograph lies in this folder; name another for the plates", folder.display());
        }
        super::plates::check(folder)?;
    }
    for out in [page, json].into_iter().flatten() {
        if out.is_dir() {
            bail!("{}: this is a folder; name a file to write to", out.display());
        }
        if photographs.iter().any(|p| is_one_file(&p.path, out)) {
            bail!("{}: this is one of the photographs; name another file to write to", out.display());
        }
    }
    if let (Some(page), Some(json)) = (page, json)
        && (page == json || is_one_file(page, json))
    {
        bail!("{}: the page and the JSON cannot go to one file; name two", page.display());
    }
    Ok(())
}

/// Refuses, before anything is computed, to write a result over what was read, over a folder or over another result. Results
/// that go to standard output (`-`) are no files.
///
/// # Errors
/// Names the file and says what to do.
pub(in crate::cmd) fn check_written(read: &[&Path], written: &[&Path]) -> Result<()> {
    let files: Vec<&Path> = written.iter().copied().filter(|p| *p != Path::new("-")).collect();
    for (i, out) in files.iter().enumerate() {
        if out.is_dir() {
            bail!("{}: this is a folder; name a file to write to", out.display());
        }
        if read.iter().any(|file| is_one_file(file, out)) {
            bail!("{}: this is the file that is read; name another to write to", out.display());
        }
        if files[..i].iter().any(|other| other == out || is_one_file(other, out)) {
            bail!("{}: two results cannot go to one file; name two", out.display());
        }
    }
    Ok(())
}

/// Whether both names lead to one plain file.
fn is_one_file(a: &Path, b: &Path) -> bool {
    let real = |p: &Path| fs::canonicalize(p).ok().filter(|p| p.is_file());
    real(a).is_some_and(|a| real(b) == Some(a))
}

/// Names for a page of the same two photographs' names that are tried.
const MOST_PAGES: usize = 1000;

/// Where the page of two photographs goes when none was said: where the user stands, named after both.
pub(in crate::cmd) fn default_page(folder: &Path, a: &Opened, b: &Opened) -> PathBuf {
    let name = format!("{}-with-{}", a.named.stem(), b.named.stem());
    free(folder, &name, &[&a.about.sha256, &b.about.sha256])
}

/// Where the page of a measured side goes when none was said: where the user stands, named after its photograph.
pub(in crate::cmd) fn page_of_one(folder: &Path, named: &Named, sha256: &str) -> PathBuf {
    free(folder, &format!("{}-measured", named.stem()), &[sha256])
}

/// A page of this name: one of other photographs than those of these sums is let stand, and one of the same is written anew.
fn free(folder: &Path, name: &str, sums: &[&str]) -> PathBuf {
    let may_be_written = |path: &PathBuf| match fs::read_to_string(path) {
        Ok(there) => sums.iter().all(|sum| there.contains(sum)),
        Err(e) => e.kind() == std::io::ErrorKind::NotFound,
    };
    let first = folder.join(format!("{name}.html"));
    if may_be_written(&first) {
        return first;
    }
    let mut numbered = (2..MOST_PAGES).map(|n| folder.join(format!("{name}-{n}.html")));
    numbered.find(may_be_written).unwrap_or(first)
}

/// Where the page of many photographs goes when none was said: where the user stands, named after the first and how many
/// there are, and with an `ending`. A page that is there is let stand.
pub(in crate::cmd) fn page_of_many(photographs: &[Named], ending: &str) -> PathBuf {
    let first = photographs.first().map_or_else(|| "copies".to_owned(), Named::stem);
    let name = format!("{first}-and-{}-{ending}", photographs.len().saturating_sub(1));
    let plain = PathBuf::from(format!("{name}.html"));
    let mut numbered = (2..MOST_PAGES).map(|n| PathBuf::from(format!("{name}-{n}.html")));
    if plain.exists() { numbered.find(|path| !path.exists()).unwrap_or(plain) } else { plain }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::ffi::OsStr;

    #[test]
    fn a_photograph_is_never_written_over() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        fs::write(at("a.jpg"), b"x").unwrap();
        fs::write(at("b.jpg"), b"y").unwrap();
        let both = ["a.jpg", "b.jpg"].map(|n| Named::parse(at(n).as_os_str()));
        let roundabout = folder.path().join(".").join("b.jpg");
        for (page, json) in [(Some(at("a.jpg")), None), (None, Some(roundabout))] {
            let told = check(&both, page.as_deref(), json.as_deref(), None).unwrap_err().to_string();
            assert!(told.contains("one of the photographs"), "{told}");
        }
        let new = at("new.html");
        assert!(check(&both, Some(&new), None, None).is_ok());
        assert!(check(&both, Some(&new), Some(&new), None).unwrap_err().to_string().contains("name two"));
        assert!(check(&both, Some(folder.path()), None, None).unwrap_err().to_string().contains("folder"));
        let told = check(&both, None, None, Some(folder.path())).unwrap_err().to_string();
        assert!(told.contains("a photograph lies in this folder"), "{told}");
        let none = [OsStr::new("-"), OsStr::new("-")].map(Named::parse);
        assert!(check(&none, None, Some(Path::new("-")), None).is_ok());
    }
}

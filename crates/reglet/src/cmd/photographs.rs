//! Which photographs are meant: files, all those of a folder, or those that a pattern fits.

use crate::files::Named;
use anyhow::{Context as _, Result, anyhow, bail};
use sheet::decode::Format;
use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};

/// The photographs named, two at least, as of [`one_or_more`].
///
/// # Errors
/// As of [`one_or_more`], and fewer than two in all.
pub(in crate::cmd) fn meant(names: &[OsString]) -> Result<Vec<Named>> {
    let out = one_or_more(names)?;
    if out.len() < 2 {
        bail!("one photograph alone cannot be compared: name two or more, or a folder of them");
    }
    Ok(out)
}

/// The photographs named, in the order they were named in; those of a folder or a pattern by their names.
///
/// # Errors
/// A folder that cannot be read or holds no photograph, a pattern that none fits.
pub(in crate::cmd) fn one_or_more(names: &[OsString]) -> Result<Vec<Named>> {
    let mut out = Vec::new();
    for name in names {
        let path = Path::new(name);
        if path.is_dir() {
            out.extend(of_folder(path)?.into_iter().map(|p| Named::parse(p.as_os_str())));
        } else if let Some(pattern) = name.to_str().filter(|n| is_pattern(n) && !path.exists()) {
            out.extend(fitting(pattern)?.into_iter().map(|p| Named::parse(p.as_os_str())));
        } else {
            out.push(Named::parse(name));
        }
    }
    Ok(out)
}

/// A command as it would be typed again: what was said, then the photographs.
pub(in crate::cmd) fn typed(
    command: &str,
    said: impl Iterator<Item = String>,
    photographs: &[OsString],
) -> String {
    let quoted = |t: &str| {
        let plain = t.chars().all(|c| c.is_alphanumeric() || "._-/#".contains(c));
        if plain { t.to_owned() } else { format!("'{}'", t.replace('\'', "'\\''")) }
    };
    // Without folders: a page may be sent to others, and how a disk is laid out is nobody's business.
    let names = photographs.iter().map(|n| quoted(&Named::parse(n).short()));
    said.chain(names).fold(command.to_owned(), |typed, part| typed + " " + &part)
}

fn is_pattern(name: &str) -> bool {
    name.contains(['*', '?', '['])
}

/// The files of a folder whose extension is that of a photograph, by name. Pages of a PDF are named one by one.
fn of_folder(folder: &Path) -> Result<Vec<PathBuf>> {
    let entries =
        fs::read_dir(folder).with_context(|| format!("{}: the folder cannot be read", folder.display()))?;
    let mut found = Vec::new();
    for entry in entries {
        let path = entry.with_context(|| format!("{}: the folder cannot be read", folder.display()))?.path();
        if path.is_file() && is_photograph(&path) {
            found.push(path);
        }
    }
    found.sort();
    if found.is_empty() {
        bail!(
            "{}: there is no photograph in this folder (JPEG, PNG, TIFF, WebP, JPEG 2000)",
            folder.display()
        );
    }
    Ok(found)
}

fn is_photograph(path: &Path) -> bool {
    let extension = path.extension().and_then(|e| e.to_str()).map(str::to_lowercase);
    let kinds = [Format::Jpeg, Format::Png, Format::Tiff, Format::WebP, Format::Jpeg2000];
    extension.is_some_and(|e| kinds.iter().any(|kind| kind.extensions().contains(&e.as_str())))
}

/// The files that a pattern fits, by name.
fn fitting(pattern: &str) -> Result<Vec<PathBuf>> {
    let paths = glob::glob(pattern).map_err(|e| anyhow!("{pattern}: this is no pattern ({e})"))?;
    let mut found: Vec<PathBuf> = paths.filter_map(Result::ok).filter(|p| p.is_file()).collect();
    found.sort();
    if found.is_empty() {
        bail!("{pattern}: no file fits this pattern");
    }
    Ok(found)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn folders_and_patterns_stand_for_their_photographs() {
        let folder = tempfile::tempdir().unwrap();
        for name in ["b.jpg", "a.JPG", "c.tif", "notes.txt", "page.pdf"] {
            fs::write(folder.path().join(name), b"x").unwrap();
        }
        let names = |asked: &[&Path]| -> Vec<String> {
            let asked: Vec<OsString> = asked.iter().map(|p| p.as_os_str().to_owned()).collect();
            meant(&asked).unwrap().iter().map(Named::short).collect()
        };
        assert_eq!(names(&[folder.path()]), ["a.JPG", "b.jpg", "c.tif"]);
        let one = folder.path().join("c.tif");
        assert_eq!(names(&[&one, &folder.path().join("*.jpg")]), ["c.tif", "b.jpg"]);
        let told = |asked: &Path| meant(&[asked.as_os_str().to_owned()]).unwrap_err().to_string();
        assert!(told(&one).contains("one photograph alone"));
        assert!(told(&folder.path().join("*.gif")).contains("no file fits"));
        let empty = tempfile::tempdir().unwrap();
        assert!(told(empty.path()).contains("no photograph in this folder"));
    }
}

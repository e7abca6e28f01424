//! The folder of plates: written whole, and never over what is not ours.

use crate::files::write_whole;
use anyhow::{Context as _, Result, bail};
use publish::plates::{LIST_HEAD, Plate, list};
use publish::record::PROGRAM;
use std::fs;
use std::path::Path;

/// The list of a folder's plates.
const LIST: &str = "plates.txt";

/// Refuses, before anything is computed, a folder that holds anything but plates of an earlier run.
///
/// # Errors
/// Names the folder and says what to do.
pub(in crate::cmd) fn check(folder: &Path) -> Result<()> {
    if !folder.exists() {
        return Ok(());
    }
    if !folder.is_dir() {
        bail!("{}: this is a file; name a folder for the plates", folder.display());
    }
    let mut there =
        fs::read_dir(folder).with_context(|| format!("{}: the folder cannot be read", folder.display()))?;
    if there.next().is_some() && earlier(folder).is_none() {
        bail!("{}: this folder holds other files; name a new one for the plates", folder.display());
    }
    Ok(())
}

/// The names of the plates of an earlier run; `None` where there was none.
fn earlier(folder: &Path) -> Option<Vec<String>> {
    let text = fs::read_to_string(folder.join(LIST)).ok()?;
    let names = text.lines().filter_map(|line| line.split_once("  ").map(|(name, _)| name.trim()));
    text.starts_with(LIST_HEAD).then(|| {
        names
            .filter(|n| Path::new(n).extension().is_some_and(|e| e == "png") && !n.contains(['/', '\\']))
            .map(str::to_owned)
            .collect()
    })
}

/// Draws plates into a folder, which takes the place of an earlier run's. `draw` hands them over one by one; `notes` stand
/// under their list.
///
/// # Errors
/// A folder that cannot be written to.
pub(in crate::cmd) fn write(
    folder: &Path,
    command: &str,
    notes: &[String],
    draw: impl FnOnce(&mut dyn FnMut(Plate) -> Result<()>) -> Result<()>,
) -> Result<()> {
    let parent = folder.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or_else(|| Path::new("."));
    fs::create_dir_all(parent).with_context(|| format!("{}: the folder cannot be made", parent.display()))?;
    let aside = tempfile::Builder::new()
        .prefix(".reglet-")
        .tempdir_in(parent)
        .with_context(|| format!("{}: the folder cannot be written to", parent.display()))?;
    let _noted = crate::stop::Aside::note(aside.path());
    let mut names: Vec<(String, String)> = Vec::new();
    draw(&mut |plate| {
        write_whole(&aside.path().join(&plate.name), &plate.png)?;
        names.push((plate.name, plate.shows));
        Ok(())
    })?;
    write_whole(&aside.path().join(LIST), list(PROGRAM, command, &names, notes).as_bytes())?;
    put_in_place(aside.path(), folder)
}

/// Moves what was written aside to where it is wanted; plates of an earlier run go first.
fn put_in_place(aside: &Path, folder: &Path) -> Result<()> {
    let failed = |what: &Path| format!("{}: cannot be put in place", what.display());
    fs::create_dir_all(folder).with_context(|| failed(folder))?;
    for name in earlier(folder).unwrap_or_default() {
        fs::remove_file(folder.join(&name)).ok();
    }
    for entry in fs::read_dir(aside).with_context(|| failed(folder))? {
        let entry = entry.with_context(|| failed(folder))?;
        let to = folder.join(entry.file_name());
        fs::rename(entry.path(), &to).with_context(|| failed(&to))?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_an_empty_folder_or_one_of_plates_is_written_to() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        assert!(check(&at("new")).is_ok() && check(folder.path()).is_ok());
        fs::write(at("mine.txt"), b"x").unwrap();
        assert!(check(&at("mine.txt")).unwrap_err().to_string().contains("this is a file"));
        assert!(check(folder.path()).unwrap_err().to_string().contains("other files"));
        let plates =
            [("first.png".to_owned(), "The first.".to_owned()), ("place-01.png".to_owned(), "p".to_owned())];
        fs::write(at(LIST), list("reglet 1", "reglet compare a b", &plates, &[])).unwrap();
        assert!(check(folder.path()).is_ok());
        assert_eq!(earlier(folder.path()).unwrap(), ["first.png", "place-01.png"]);
    }

    #[test]
    fn plates_of_an_earlier_run_go_and_nothing_else() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        let aside = tempfile::tempdir().unwrap();
        for name in ["place-01.png", "place-02.png", "notes.md"] {
            fs::write(at(name), b"old").unwrap();
        }
        let plates = ["place-01.png", "place-02.png"].map(|n| (n.to_owned(), "p".to_owned()));
        fs::write(at(LIST), list("reglet 1", "c", &plates, &["copy 1: a.jpg".to_owned()])).unwrap();
        fs::write(aside.path().join("place-01.png"), b"new").unwrap();
        put_in_place(aside.path(), folder.path()).unwrap();
        assert_eq!(fs::read(at("place-01.png")).unwrap(), b"new");
        assert!(!at("place-02.png").exists() && at("notes.md").exists());
    }
}

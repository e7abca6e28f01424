//! Files in and out: reading what the user named, writing results whole or not at all.

use anyhow::{Context as _, Result, bail};
use std::fs;
use std::io::Write as _;
use std::num::NonZeroU32;
use std::path::{Path, PathBuf};

/// A photograph as the user names it: a file, and of a file with pages one page (`file.pdf#3`).
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Named {
    /// As typed.
    pub(crate) text: String,
    pub(crate) path: PathBuf,
    pub(crate) page: Option<NonZeroU32>,
}

impl Named {
    /// Takes a name apart. A name that exists as it stands is never split.
    pub(crate) fn parse(text: &str) -> Self {
        let whole = Self { text: text.to_owned(), path: PathBuf::from(text), page: None };
        if whole.path.exists() {
            return whole;
        }
        match text.rsplit_once('#').map(|(path, page)| (path, page.parse::<NonZeroU32>())) {
            Some((path, Ok(page))) => Self { path: PathBuf::from(path), page: Some(page), ..whole },
            _ => whole,
        }
    }

    /// The name without the folders it lies in, with the page.
    pub(crate) fn short(&self) -> String {
        let name =
            self.path.file_name().map_or_else(|| self.text.clone(), |n| n.to_string_lossy().into_owned());
        self.page.map_or_else(|| name.clone(), |page| format!("{name}#{page}"))
    }

    /// The extension without its dot, as typed.
    pub(crate) fn extension(&self) -> Option<String> {
        self.path.extension().map(|e| e.to_string_lossy().into_owned())
    }

    /// The file's bytes.
    pub(crate) fn read(&self) -> Result<Vec<u8>> {
        let path = &self.path;
        let what = match fs::metadata(path) {
            Ok(what) => what,
            Err(e) if e.kind() == std::io::ErrorKind::NotFound => {
                bail!("{}: there is no such file; check the name and the folder", path.display())
            }
            Err(e) => bail!("{}: cannot be read ({e}); check its permissions", path.display()),
        };
        if what.is_dir() {
            bail!("{}: this is a folder; name one photograph in it", path.display());
        }
        fs::read(path)
            .map_err(|e| anyhow::anyhow!("{}: cannot be read ({e}); check its permissions", path.display()))
    }
}

/// Writes a file whole: beside its place first, then synced and renamed, so that a crash or a full
/// disk leaves either the old file or the new one.
///
/// A link is followed, so that it stays a link. What is there and is no file (a device, a pipe) is
/// written to as it stands: a rename would put a file in its place, and for root that is `/dev/null`
/// gone for the whole machine.
pub(crate) fn write_whole(path: &Path, bytes: &[u8]) -> Result<()> {
    let real = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let path = real.as_path();
    if fs::metadata(path).is_ok_and(|there| !there.is_file() && !there.is_dir()) {
        return fs::OpenOptions::new()
            .write(true)
            .open(path)
            .and_then(|mut device| device.write_all(bytes))
            .with_context(|| format!("{}: cannot be written to", path.display()));
    }
    let folder = match path.parent() {
        Some(p) if !p.as_os_str().is_empty() => p,
        _ => Path::new("."),
    };
    fs::create_dir_all(folder).with_context(|| format!("{}: the folder cannot be made", folder.display()))?;
    let mut aside = tempfile::Builder::new()
        .prefix(".reglet-")
        .tempfile_in(folder)
        .with_context(|| format!("{}: cannot be written to; check its permissions", folder.display()))?;
    let _noted = crate::stop::Aside::note(aside.path());
    aside
        .write_all(bytes)
        .and_then(|()| aside.as_file().sync_all())
        .with_context(|| format!("{}: cannot be written; is the disk full?", path.display()))?;
    let file = aside.persist(path).with_context(|| format!("{}: cannot be put in place", path.display()))?;
    allow_reading(&file);
    Ok(())
}

/// Temporary files are private; a report is meant to be passed on. What cannot be widened stays
/// private, which harms nothing.
#[cfg(unix)]
fn allow_reading(file: &fs::File) {
    use std::os::unix::fs::PermissionsExt as _;
    file.set_permissions(fs::Permissions::from_mode(0o644)).ok();
}

#[cfg(not(unix))]
fn allow_reading(_: &fs::File) {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_is_split_off_only_where_the_file_does_not_exist_as_named() {
        let n = Named::parse("orders.pdf#3");
        assert_eq!((n.path, n.page), (PathBuf::from("orders.pdf"), NonZeroU32::new(3)));
        let plain = Named::parse("no#page");
        assert_eq!((plain.path, plain.page), (PathBuf::from("no#page"), None));
        let folder = tempfile::tempdir().unwrap();
        let odd = folder.path().join("a#2");
        fs::write(&odd, b"x").unwrap();
        assert_eq!(Named::parse(odd.to_str().unwrap()).page, None);
    }

    #[test]
    fn writing_replaces_whole_and_leaves_nothing_beside() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("new/report.html");
        write_whole(&path, b"one").unwrap();
        write_whole(&path, b"two").unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"two");
        assert_eq!(fs::read_dir(path.parent().unwrap()).unwrap().count(), 1);
    }

    #[cfg(unix)]
    #[test]
    fn links_stay_links_and_pipes_stay_pipes() {
        use std::os::unix::fs::{FileTypeExt as _, symlink};
        let folder = tempfile::tempdir().unwrap();
        let (file, link, pipe) =
            (folder.path().join("file"), folder.path().join("link"), folder.path().join("pipe"));
        fs::write(&file, b"old").unwrap();
        symlink("file", &link).unwrap();
        write_whole(&link, b"new").unwrap();
        assert_eq!(fs::read(&file).unwrap(), b"new");
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
        assert!(std::process::Command::new("mkfifo").arg(&pipe).status().unwrap().success());
        let reader = std::thread::spawn({
            let pipe = pipe.clone();
            move || fs::read(pipe)
        });
        write_whole(&pipe, b"through").unwrap();
        assert_eq!(reader.join().unwrap().unwrap(), b"through");
        assert!(fs::metadata(&pipe).unwrap().file_type().is_fifo());
    }

    #[test]
    fn a_folder_and_a_missing_file_are_told_apart() {
        let folder = tempfile::tempdir().unwrap();
        let name = folder.path().to_str().unwrap();
        assert!(Named::parse(name).read().unwrap_err().to_string().contains("this is a folder"));
        let missing = format!("{name}/none.jpg");
        assert!(Named::parse(&missing).read().unwrap_err().to_string().contains("no such file"));
    }
}

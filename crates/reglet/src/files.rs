//! Files in and out: reading what the user named, writing results whole or not at all.

use anyhow::{Context as _, Result, anyhow, bail};
use sheet::decode::{DecodeError, Limits};
use std::ffi::OsStr;
use std::fs;
use std::io::{ErrorKind, Read as _, Write as _};
use std::num::NonZeroU32;
use std::path::{Path, PathBuf};

/// A photograph as the user names it: a file, and of a file with pages one page (`file.pdf#3`).
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Named {
    pub(crate) path: PathBuf,
    pub(crate) page: Option<NonZeroU32>,
}

impl Named {
    /// Takes a name apart. A name that exists as it stands is never split.
    pub(crate) fn parse(text: &OsStr) -> Self {
        let whole = Self { path: PathBuf::from(text), page: None };
        if whole.path.exists() {
            return whole;
        }
        match split(text) {
            Some((path, page)) if page.parse::<NonZeroU32>().is_ok() => {
                Self { path: PathBuf::from(path), page: page.parse().ok() }
            }
            _ => whole,
        }
    }

    /// The name as typed; what is no text in it is replaced.
    pub(crate) fn text(&self) -> String {
        self.with_page(&self.path.to_string_lossy())
    }

    /// The name without the folders it lies in, with the page.
    pub(crate) fn short(&self) -> String {
        self.path.file_name().map_or_else(|| self.text(), |n| self.with_page(&n.to_string_lossy()))
    }

    fn with_page(&self, name: &str) -> String {
        self.page.map_or_else(|| name.to_owned(), |page| format!("{name}#{page}"))
    }

    /// The name without folders and extension, and of a file with pages that of the page.
    pub(crate) fn stem(&self) -> String {
        let name = self.path.file_stem().map_or_else(|| "sheet".into(), |s| s.to_string_lossy().into_owned());
        self.page.map_or_else(|| name.clone(), |page| format!("{name}-page-{page}"))
    }

    /// The extension without its dot, as typed.
    pub(crate) fn extension(&self) -> Option<String> {
        self.path.extension().map(|e| e.to_string_lossy().into_owned())
    }

    /// The file's bytes, of which there may be as many as are decoded by default.
    ///
    /// # Errors
    /// Names the file, says what was wrong and what to do.
    pub(crate) fn read(&self) -> Result<Vec<u8>> {
        let path = &self.path;
        let what = fs::metadata(path).map_err(|e| self.not_read(&e))?;
        if what.is_dir() {
            bail!("{}: this is a folder; name one photograph in it", path.display());
        }
        let most = Limits::default().max_bytes;
        let too_large = |bytes: u64| DecodeError::TooManyBytes { bytes, max_bytes: most };
        if what.len() > most {
            return Err(too_large(what.len())).with_context(|| self.text());
        }
        let mut bytes = Vec::with_capacity(what.len() as usize);
        let file = fs::File::open(path).map_err(|e| self.not_read(&e))?;
        // What is no plain file, as a device, tells no length and may have no end.
        file.take(most + 1).read_to_end(&mut bytes).map_err(|e| self.not_read(&e))?;
        if bytes.len() as u64 > most {
            return Err(too_large(bytes.len() as u64)).with_context(|| self.text());
        }
        Ok(bytes)
    }

    /// Why the file could not be read, and what to do.
    fn not_read(&self, error: &std::io::Error) -> anyhow::Error {
        let name = self.path.to_string_lossy();
        let missing = error.kind() == ErrorKind::NotFound;
        let at_page = split(self.path.as_os_str()).filter(|(path, _)| missing && Path::new(path).exists());
        if let Some((path, page)) = at_page {
            return anyhow!("{path}: \"#{page}\" names no page; pages are counted from 1, as in {path}#1");
        }
        match error.kind() {
            _ if name.is_empty() => anyhow!("a name of a photograph is empty; name two files"),
            _ if name == "-" => anyhow!("standard input is not read; name two files"),
            _ if name.contains("://") => {
                anyhow!("{name}: web addresses are not fetched; save the photograph and name the file")
            }
            ErrorKind::NotFound => anyhow!("{name}: there is no such file; check the name and the folder"),
            ErrorKind::PermissionDenied => anyhow!("{name}: it may not be read; check its permissions"),
            _ => anyhow!("{name}: cannot be read ({error}); check the name and the disk"),
        }
    }
}

/// The most of a table or a plan that is read.
const MOST_TEXT: u64 = 16 << 20;

/// The text of a table or a plan that a person wrote.
///
/// # Errors
/// Names the file, says what was wrong and what to do.
pub(crate) fn read_text(path: &Path) -> Result<String> {
    let name = path.display();
    let not_read = |e: &std::io::Error| match e.kind() {
        ErrorKind::NotFound => anyhow!("{name}: there is no such file; check the name and the folder"),
        ErrorKind::PermissionDenied => anyhow!("{name}: it may not be read; check its permissions"),
        _ => anyhow!("{name}: cannot be read ({e}); check the name and the disk"),
    };
    if fs::metadata(path).map_err(|e| not_read(&e))?.is_dir() {
        bail!("{name}: this is a folder; name a file in it");
    }
    let mut bytes = Vec::new();
    let file = fs::File::open(path).map_err(|e| not_read(&e))?;
    file.take(MOST_TEXT + 1).read_to_end(&mut bytes).map_err(|e| not_read(&e))?;
    if bytes.len() as u64 > MOST_TEXT {
        bail!("{name}: more than {} megabytes; is this the right file?", MOST_TEXT >> 20);
    }
    String::from_utf8(bytes).map_err(|e| {
        let at = e.utf8_error().valid_up_to();
        anyhow!("{name}: byte {at} is not text in UTF-8; save the file as plain text (CSV or TOML) in UTF-8")
    })
}

/// What stands before and behind the last `#` of a name, of one that is text.
fn split(name: &OsStr) -> Option<(&str, &str)> {
    name.to_str()?.rsplit_once('#')
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
        // The error of the library would name a file that the user never heard of.
        .map_err(|e| anyhow!("{}: the folder cannot be written to ({})", folder.display(), e.kind()))?;
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
        let parse = |name: &str| Named::parse(OsStr::new(name));
        let n = parse("orders.pdf#3");
        assert_eq!((n.path, n.page), (PathBuf::from("orders.pdf"), NonZeroU32::new(3)));
        let plain = parse("no#page");
        assert_eq!((plain.path, plain.page), (PathBuf::from("no#page"), None));
        let folder = tempfile::tempdir().unwrap();
        let odd = folder.path().join("a#2");
        fs::write(&odd, b"x").unwrap();
        assert_eq!(Named::parse(odd.as_os_str()).page, None);
    }

    #[cfg(unix)]
    #[test]
    fn names_that_are_no_text_are_names() {
        use std::os::unix::ffi::OsStrExt as _;
        let folder = tempfile::tempdir().unwrap();
        let latin = folder.path().join(OsStr::from_bytes(b"gar\xe7on.jpg"));
        fs::write(&latin, b"x").unwrap();
        assert_eq!(Named::parse(latin.as_os_str()).read().unwrap(), b"x");
        assert!(Named::parse(latin.as_os_str()).short().starts_with("gar"));
    }

    #[test]
    fn what_cannot_be_read_is_told_with_the_remedy() {
        let folder = tempfile::tempdir().unwrap();
        let book = folder.path().join("book.pdf");
        fs::write(&book, b"x").unwrap();
        let told = |name: &str| Named::parse(OsStr::new(name)).read().unwrap_err().to_string();
        assert!(told(&format!("{}#0", book.display())).contains("counted from 1"));
        assert!(told("").contains("empty") && told("-").contains("standard input"));
        assert!(told("https://library.example/a.jpg").contains("not fetched"));
    }

    #[test]
    fn a_text_is_read_or_the_remedy_told() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("table.csv");
        fs::write(&path, "item,copies\n").unwrap();
        assert_eq!(read_text(&path).unwrap(), "item,copies\n");
        fs::write(&path, b"gar\xe7on").unwrap();
        assert!(read_text(&path).unwrap_err().to_string().contains("byte 3 is not text in UTF-8"));
        assert!(read_text(folder.path()).unwrap_err().to_string().contains("this is a folder"));
        assert!(read_text(&folder.path().join("none")).unwrap_err().to_string().contains("no such file"));
    }

    #[test]
    fn a_file_larger_than_is_decoded_is_not_read() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("vast.tif");
        // A file of holes: long, but of no weight on the disk.
        fs::File::create(&path).unwrap().set_len(Limits::default().max_bytes + 1).unwrap();
        let told = format!("{:#}", Named::parse(path.as_os_str()).read().unwrap_err());
        assert!(told.contains("vast.tif") && told.contains("more than"), "{told}");
    }

    #[cfg(unix)]
    #[test]
    fn a_file_that_may_not_be_read_is_named() {
        use std::os::unix::fs::PermissionsExt as _;
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("kept.jpg");
        fs::write(&path, b"x").unwrap();
        fs::set_permissions(&path, fs::Permissions::from_mode(0o0)).unwrap();
        match Named::parse(path.as_os_str()).read() {
            // Nothing is closed to root.
            Ok(_) => println!("skipped: this user may read everything"),
            Err(e) => assert!(e.to_string().contains("check its permissions"), "{e}"),
        }
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
        let told = |p: &Path| Named::parse(p.as_os_str()).read().unwrap_err().to_string();
        assert!(told(folder.path()).contains("this is a folder"));
        assert!(told(&folder.path().join("none.jpg")).contains("no such file"));
    }
}

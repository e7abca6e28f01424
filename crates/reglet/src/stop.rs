//! Stopping cleanly: what is half written is taken away before the program ends.

use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

/// Files and folders being written aside just now.
static ASIDE: Mutex<Vec<PathBuf>> = Mutex::new(Vec::new());

/// Exit code of a program that was interrupted: 128 and the number of the signal (POSIX shells).
const INTERRUPTED: i32 = 130;

/// From now on an interruption removes what is half written and ends the program.
pub fn watch() {
    // A second handler cannot be set; then the usual end comes, and only a hidden file may stay.
    ctrlc::set_handler(|| {
        for path in ASIDE.lock().unwrap_or_else(PoisonError::into_inner).iter() {
            // A folder of plates goes with what is in it.
            if std::fs::remove_file(path).is_err() {
                std::fs::remove_dir_all(path).ok();
            }
        }
        #[allow(clippy::exit, reason = "the one place where the program ends from outside its own flow")]
        std::process::exit(INTERRUPTED);
    })
    .ok();
}

/// Notes a file or folder that is being written, until the note is dropped.
#[derive(Debug)]
pub(crate) struct Aside(PathBuf);

impl Aside {
    pub(crate) fn note(path: &Path) -> Self {
        ASIDE.lock().unwrap_or_else(PoisonError::into_inner).push(path.to_owned());
        Self(path.to_owned())
    }
}

impl Drop for Aside {
    fn drop(&mut self) {
        ASIDE.lock().unwrap_or_else(PoisonError::into_inner).retain(|p| p != &self.0);
    }
}

//! The reference programs that Reglet is checked against: Python, with general-purpose libraries.

use std::io::{Read as _, Write as _};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// The top of the repository.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// The Python that is used: `$REGLET_PYTHON`, or the one of `target/venv`. Whether it works is not asked.
pub fn python() -> PathBuf {
    std::env::var_os("REGLET_PYTHON").map_or_else(|| root().join("target/venv/bin/python"), PathBuf::from)
}

/// The Python, if it can import these modules (`"scipy, skimage"`); else a line on standard output says that a test was
/// skipped.
pub fn python_with(modules: &str) -> Option<PathBuf> {
    let python = python();
    let ready = Command::new(&python).args(["-c", &format!("import {modules}")]).output();
    if ready.is_ok_and(|o| o.status.success()) {
        return Some(python);
    }
    #[allow(clippy::print_stdout, reason = "a test that is skipped says so")]
    {
        println!("skipped: no Python with {modules}");
    }
    None
}

/// What a script of `tests/reference` answers to `input`.
///
/// # Panics
/// When the script cannot be run or fails: then a test has failed.
pub fn script(python: &Path, name: &str, arguments: &[String], input: &[u8]) -> Vec<u8> {
    let child = Command::new(python)
        .arg(root().join("tests/reference").join(name))
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn();
    let mut child = child.unwrap_or_else(|e| panic!("{}: {e}", python.display()));
    // A script that fails early closes its end; its exit tells more than that.
    child.stdin.take().map(|mut pipe| pipe.write_all(input).ok());
    let mut answer = Vec::new();
    let read = child.stdout.take().map(|mut pipe| pipe.read_to_end(&mut answer));
    let ended = child.wait();
    assert!(
        read.is_some_and(|r| r.is_ok()) && ended.is_ok_and(|status| status.success()),
        "{name} {arguments:?} failed"
    );
    answer
}

/// That a record, JSON, of `what` was asked, keeps to a JSON Schema; asked of nobody where there is no Python with jsonschema.
///
/// # Panics
/// Where it does not, with what is wrong; and as [`script`].
#[track_caller]
pub fn keeps_to_schema(what: &str, schema: &[u8], record: &[u8]) {
    let Some(python) = python_with("jsonschema") else { return };
    let both = [b"[", schema, b",", record, b"]"].concat();
    let wrong = script(&python, "keeps_to_schema.py", &[], &both);
    assert!(wrong.is_empty(), "{what}: {}", String::from_utf8_lossy(&wrong));
}

/// Runs a kernel of `tests/reference/kernels.py` on `input`; `None` where there is no Python with SciPy and
/// scikit-image.
///
/// # Panics
/// As [`script`].
pub fn kernel(arguments: &[String], input: &[u8]) -> Option<Vec<f32>> {
    let python = python_with("scipy, skimage")?;
    let answer = script(&python, "kernels.py", arguments, input);
    let (numbers, rest) = answer.as_chunks::<4>();
    assert!(rest.is_empty(), "whole numbers of four bytes");
    Some(numbers.iter().map(|&b| f32::from_le_bytes(b)).collect())
}

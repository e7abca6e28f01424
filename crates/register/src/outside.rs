//! For tests: what reference libraries in Python give for the same numbers.
#![allow(clippy::disallowed_methods, reason = "a test asks a program outside")]

use std::io::{Read as _, Write as _};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// Runs a kernel of `tests/reference/kernels.py` on `input`; `None`, and a line that says so, where
/// there is no Python with SciPy and scikit-image (`$REGLET_PYTHON`, or `target/venv`).
pub(crate) fn kernel(arguments: &[String], input: &[u8]) -> Option<Vec<f32>> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let named = std::env::var_os("REGLET_PYTHON").map(PathBuf::from);
    let python = named.unwrap_or_else(|| root.join("target/venv/bin/python"));
    let ready = Command::new(&python).args(["-c", "import scipy, skimage"]).output();
    if !ready.is_ok_and(|o| o.status.success()) {
        println!("skipped: no Python with SciPy and scikit-image");
        return None;
    }
    let mut child = Command::new(python)
        .arg(root.join("tests/reference/kernels.py"))
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    child.stdin.take().unwrap().write_all(input).unwrap();
    let mut bytes = Vec::new();
    child.stdout.take().unwrap().read_to_end(&mut bytes).unwrap();
    assert!(child.wait().unwrap().success());
    Some(bytes.chunks_exact(4).map(|b| f32::from_le_bytes(b.try_into().unwrap())).collect())
}

/// A plane of something like type, the same every time: a small xorshift drives dots and strokes.
pub(crate) fn speckled(width: usize, height: usize) -> sheet::Plane<u8> {
    let mut state = 0x2545_f491_u32;
    let mut next = move || {
        state ^= state << 13;
        state ^= state >> 17;
        state ^= state << 5;
        state
    };
    let mut plane = sheet::Plane::filled(width, height, 12u8);
    for _ in 0..width * height / 90 {
        let (x, y) = (next() as usize % (width - 8), next() as usize % (height - 12));
        let (w, h, ink) = (1 + next() as usize % 6, 1 + next() as usize % 10, 120 + (next() % 130) as u8);
        for row in y..y + h {
            plane.row_mut(row)[x..x + w].fill(ink);
        }
    }
    plane
}

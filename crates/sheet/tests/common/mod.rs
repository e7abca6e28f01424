//! Where the fixtures of the decoding tests lie, and how to read them.
#![allow(dead_code, reason = "every test file uses a part of it")]
#![allow(clippy::unwrap_used, clippy::disallowed_methods, reason = "helpers of tests, which read fixtures")]

use std::path::PathBuf;

use sheet::Plane;

fn folder() -> PathBuf {
    PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/fixtures/decode"))
}

/// Names of all fixtures that have an expected brightness beside them, in order.
pub(crate) fn fixtures() -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(folder())
        .unwrap()
        .filter_map(|entry| entry.unwrap().file_name().to_str()?.strip_suffix(".pgm").map(str::to_owned))
        .collect();
    names.sort();
    names
}

/// The bytes of a fixture.
pub(crate) fn fixture(name: &str) -> Vec<u8> {
    std::fs::read(folder().join(name)).unwrap()
}

/// The expected brightness of a fixture: a binary PGM as Pillow writes it.
pub(crate) fn pgm(name: &str) -> Plane<u8> {
    let bytes = fixture(&format!("{name}.pgm"));
    let mut parts = bytes.splitn(4, u8::is_ascii_whitespace);
    assert_eq!(parts.next(), Some(&b"P5"[..]));
    let mut number = || std::str::from_utf8(parts.next().unwrap()).unwrap().parse::<usize>().unwrap();
    let (width, height) = (number(), number());
    Plane::from_vec(width, height, bytes[bytes.len() - width * height..].to_vec()).unwrap()
}

//! Whatever the bytes, the decoder answers: with a picture or an error, never with a panic.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop at what should not be")]

mod common;

use std::sync::LazyLock;

use common::{fixture, fixtures};
use proptest::collection::vec;
use proptest::prelude::*;
use sheet::decode::{DecodeRequest, Limits, decode};

/// The fixtures of every kind, read once.
static FILES: LazyLock<Vec<Vec<u8>>> =
    LazyLock::new(|| fixtures().iter().map(|name| fixture(name)).collect());

/// One way of spoiling a file.
#[derive(Debug, Clone)]
enum Spoil {
    /// Overwrite the byte at this share of the file.
    Set(f64, u8),
    /// Flip a bit.
    Flip(f64, u8),
    /// Overwrite four bytes with a number that has broken many a decoder.
    Number(f64, u32),
    /// Cut the rest off.
    Cut(f64),
    /// Take out some bytes.
    Remove(f64, usize),
    /// Repeat some bytes.
    Repeat(f64, usize),
}

fn spoil() -> impl Strategy<Value = Spoil> {
    let number = prop_oneof![
        Just(0),
        Just(1),
        Just(u32::MAX),
        Just(u32::MAX.swap_bytes() >> 1),
        Just(0x7FFF_FFFF),
        Just(0x0000_FFFF),
        Just(0xFFFF_0000),
        any::<u32>()
    ];
    let place = || {
        // Headers decide more than pixels do.
        prop_oneof![0.0..0.2f64, 0.0..1.0f64]
    };
    prop_oneof![
        4 => (place(), any::<u8>()).prop_map(|(p, v)| Spoil::Set(p, v)),
        4 => (place(), 0..8u8).prop_map(|(p, b)| Spoil::Flip(p, b)),
        3 => (place(), number).prop_map(|(p, v)| Spoil::Number(p, v)),
        1 => (0.0..1.0f64).prop_map(Spoil::Cut),
        1 => (place(), 1..40usize).prop_map(|(p, n)| Spoil::Remove(p, n)),
        1 => (place(), 1..40usize).prop_map(|(p, n)| Spoil::Repeat(p, n)),
    ]
}

fn spoiled(mut bytes: Vec<u8>, how: &[Spoil]) -> Vec<u8> {
    for one in how {
        let at = |share: f64| (share * bytes.len() as f64) as usize;
        let end = |from: usize, n: usize| (from + n).min(bytes.len());
        match *one {
            _ if bytes.is_empty() => break,
            Spoil::Set(p, v) => {
                let i = at(p);
                bytes[i] = v;
            }
            Spoil::Flip(p, bit) => {
                let i = at(p);
                bytes[i] ^= 1 << bit;
            }
            Spoil::Number(p, v) => {
                let (from, to) = (at(p), end(at(p), 4));
                bytes[from..to].copy_from_slice(&v.to_be_bytes()[..to - from]);
            }
            Spoil::Cut(p) => {
                let i = at(p);
                bytes.truncate(i);
            }
            Spoil::Remove(p, n) => {
                let (from, to) = (at(p), end(at(p), n));
                bytes.drain(from..to);
            }
            Spoil::Repeat(p, n) => {
                let part = bytes[at(p)..end(at(p), n)].to_vec();
                let i = at(p);
                bytes.splice(i..i, part);
            }
        }
    }
    bytes
}

/// A megapixel is enough for a file of some kilobytes, and keeps the tests fast.
fn ask() -> DecodeRequest {
    DecodeRequest {
        limits: Limits { max_pixels: 1_000_000, ..Limits::default() },
        ..DecodeRequest::default()
    }
}

proptest! {
    // A case takes some microseconds. `PROPTEST_CASES` asks for more: a million found nothing further.
    #![proptest_config(ProptestConfig {
        cases: 8 * ProptestConfig::default().cases,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn spoiled_files_are_answered(which in any::<prop::sample::Index>(), how in vec(spoil(), 1..6)) {
        let file = which.get(&FILES).clone();
        let _ = decode(&spoiled(file, &how), &ask());
    }

    #[test]
    fn random_bytes_are_answered(head in any::<prop::sample::Index>(), keep in 0..64usize, tail in vec(any::<u8>(), 0..2000)) {
        // The beginning of a real file leads the bytes past the first check.
        let file = head.get(&FILES);
        let bytes = [&file[..keep.min(file.len())], &tail].concat();
        let _ = decode(&bytes, &ask());
        let _ = decode(&tail, &ask());
    }
}

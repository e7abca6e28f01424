//! Replays on the stable compiler what fuzzing found worth keeping (`fuzz/README.md`).
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not be")]
#![allow(clippy::disallowed_methods, reason = "a test on a corpus must read it")]

use sheet::decode::{DecodeRequest, Limits, decode, decode_in_colour, decode_rgb};
use std::num::NonZeroU32;

/// The page that the fuzz target asks for, too.
fn page(bytes: &[u8]) -> Option<NonZeroU32> {
    NonZeroU32::new(bytes.len() as u32 % 4)
}

#[test]
fn every_file_of_the_corpus_is_answered_within_its_limits() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../fuzz/corpus/decode");
    let limits = Limits { max_pixels: 1_000_000, ..Limits::default() };
    let (mut files, mut pictures) = (0, 0);
    for entry in std::fs::read_dir(folder).unwrap() {
        let bytes = std::fs::read(entry.unwrap().path()).unwrap();
        files += 1;
        let ask = DecodeRequest { limits, page: page(&bytes), ..DecodeRequest::default() };
        let colours = decode_rgb(&bytes, &ask).is_ok();
        if let Ok(photograph) = decode(&bytes, &ask) {
            assert!(photograph.luminance.data().len() as u64 <= limits.max_pixels);
            assert!(colours, "what has brightness has colours");
            assert!(decode_in_colour(&bytes, &ask).is_ok_and(|(both, _)| both == photograph));
            pictures += 1;
        }
    }
    println!("{files} files, {pictures} of them pictures");
    assert!(files > 0);
}

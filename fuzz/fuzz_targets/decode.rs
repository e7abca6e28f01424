//! Decoding answers any bytes with a picture or an error, within the limits it was given.
#![no_main]

use libfuzzer_sys::fuzz_target;
use sheet::decode::{DecodeRequest, Limits, decode};

fuzz_target!(|bytes: &[u8]| {
    let limits = Limits { max_pixels: 1_000_000, ..Limits::default() };
    let ask = DecodeRequest { limits, ..DecodeRequest::default() };
    if let Ok(photograph) = decode(bytes, &ask) {
        assert!(photograph.luminance.data().len() as u64 <= limits.max_pixels);
    }
});

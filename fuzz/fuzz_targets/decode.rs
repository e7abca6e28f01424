//! Decoding answers any bytes with a picture or an error, within the limits it was given; in brightness and in colour,
//! of the only page, the largest, or one that is asked for.
#![no_main]

use libfuzzer_sys::fuzz_target;
use sheet::decode::{DecodeRequest, Limits, decode, decode_in_colour, decode_rgb};
use std::num::NonZeroU32;

fuzz_target!(|bytes: &[u8]| {
    let limits = Limits { max_pixels: 1_000_000, ..Limits::default() };
    let page = NonZeroU32::new(bytes.len() as u32 % 4);
    let ask = DecodeRequest { limits, page, ..DecodeRequest::default() };
    let colours = decode_rgb(bytes, &ask);
    if let Ok(photograph) = decode(bytes, &ask) {
        assert!(photograph.luminance.data().len() as u64 <= limits.max_pixels);
        assert!(colours.is_ok(), "what has brightness has colours");
        assert!(decode_in_colour(bytes, &ask).is_ok_and(|(both, _)| both == photograph));
    }
});

//! Bytes inside the page: `data:` addresses (RFC 2397) in base64 (RFC 4648, §4).

const ALPHABET: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/// The address that holds `bytes` as the media type `media`.
pub(super) fn data_uri(media: &str, bytes: &[u8]) -> String {
    let mut out = format!("data:{media};base64,");
    base64(&mut out, bytes);
    out
}

/// Bytes as base64, added to a text.
pub(super) fn base64(out: &mut String, bytes: &[u8]) {
    out.reserve(bytes.len().div_ceil(3) * 4);
    for group in bytes.chunks(3) {
        let bits = group.iter().fold(0u32, |bits, b| (bits << 8) | u32::from(*b)) << (8 * (3 - group.len()));
        for i in 0..4 {
            let sextet = (bits >> (18 - 6 * i)) & 63;
            out.push(if i <= group.len() { char::from(ALPHABET[sextet as usize]) } else { '=' });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_test_vectors_of_rfc_4648() {
        for (plain, coded) in [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg=="),
            ("fooba", "Zm9vYmE="),
            ("foobar", "Zm9vYmFy"),
        ] {
            assert_eq!(data_uri("text/plain", plain.as_bytes()), format!("data:text/plain;base64,{coded}"));
        }
    }
}

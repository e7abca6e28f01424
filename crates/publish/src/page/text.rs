//! Text and numbers, safe to stand in HTML.

use std::fmt::{self, Display, Formatter};

/// Text as the content of an element or of a quoted attribute: `& < > " '` are escaped
/// (WHATWG HTML, §13.3), and control characters, which HTML cannot hold, become U+FFFD.
pub(crate) struct Text<'a>(pub(crate) &'a str);

impl Display for Text<'_> {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        for c in self.0.chars() {
            match c {
                '&' => f.write_str("&amp;")?,
                '<' => f.write_str("&lt;")?,
                '>' => f.write_str("&gt;")?,
                '"' => f.write_str("&quot;")?,
                '\'' => f.write_str("&#39;")?,
                '\n' | '\t' => fmt::Write::write_char(f, c)?,
                c if c.is_control() => f.write_str("\u{fffd}")?,
                c => fmt::Write::write_char(f, c)?,
            }
        }
        Ok(())
    }
}

/// A number with a set count of decimals and a true minus sign; "unknown" when it is not finite.
pub(super) fn number(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return "unknown".into();
    }
    let digits = format!("{:.decimals$}", value.abs());
    let rounds_to_nothing = digits.bytes().all(|b| matches!(b, b'0' | b'.'));
    if value < 0.0 && !rounds_to_nothing { format!("\u{2212}{digits}") } else { digits }
}

/// A weight with its sign, as it speaks for one origin or against it; "none" of none.
pub(super) fn weight_words(log10: Option<f64>) -> String {
    log10.map_or_else(|| "none".to_owned(), |w| format!("{}{}", if w > 0.0 { "+" } else { "" }, number(w, 1)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn markup_in_a_name_stays_text() {
        let name = "<img src=x onerror='alert(1)'> & \"co\".jpg\u{1b}";
        assert_eq!(
            Text(name).to_string(),
            "&lt;img src=x onerror=&#39;alert(1)&#39;&gt; &amp; &quot;co&quot;.jpg\u{fffd}"
        );
    }

    #[test]
    fn minus_signs_are_minus_signs_and_nothing_has_none() {
        assert_eq!(number(-0.25, 2), "\u{2212}0.25");
        assert_eq!(number(-0.001, 2), "0.00");
        assert_eq!(number(3.0, 1), "3.0");
        assert_eq!(number(f64::NAN, 1), "unknown");
    }
}

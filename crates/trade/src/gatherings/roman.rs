//! Roman numerals of paginations: small or capital, in the plain modern way. (What printers did with them in imprints is
//! another matter.)

/// Small or capital.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Case {
    /// xij.
    Small,
    /// XII.
    Capital,
}

const VALUES: [(&str, u32); 13] = [
    ("M", 1000),
    ("CM", 900),
    ("D", 500),
    ("CD", 400),
    ("C", 100),
    ("XC", 90),
    ("L", 50),
    ("XL", 40),
    ("X", 10),
    ("IX", 9),
    ("V", 5),
    ("IV", 4),
    ("I", 1),
];

/// The value of a numeral, four-fold runs and a last j allowed; none for what is no numeral.
pub(super) fn read(text: &str) -> Option<(u32, Case)> {
    let case = if text.chars().all(char::is_lowercase) {
        Case::Small
    } else if text.chars().all(char::is_uppercase) {
        Case::Capital
    } else {
        return None;
    };
    let upper = text.to_uppercase().replace('J', "I");
    let mut rest = upper.as_str();
    let mut sum = 0_u32;
    let mut before = u32::MAX;
    while !rest.is_empty() {
        let (numeral, value) = VALUES.iter().find(|(n, _)| rest.starts_with(n))?;
        if *value > before {
            return None;
        }
        before = *value;
        sum = sum.checked_add(*value)?;
        rest = &rest[numeral.len()..];
    }
    (sum > 0).then_some((sum, case))
}

/// A number as a numeral.
pub(super) fn written(mut n: u32, case: Case) -> String {
    let mut out = String::new();
    for (numeral, value) in VALUES {
        while n >= value {
            out.push_str(numeral);
            n -= value;
        }
    }
    if case == Case::Small { out.to_lowercase() } else { out }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numerals_are_written_and_read_back() {
        for n in 1..=4000 {
            assert_eq!(read(&written(n, Case::Small)), Some((n, Case::Small)));
        }
        assert_eq!(read("CXXII"), Some((122, Case::Capital)));
        assert_eq!(read("viiij"), None.or(read("viiii")));
        assert_eq!(read("xiij"), Some((13, Case::Small)));
        for wrong in ["", "Xii", "IIX", "abc", "VX"] {
            assert_eq!(read(wrong), None, "{wrong}");
        }
    }
}

//! Pounds, shillings and pence. Livres, sols and deniers have the same proportions.

use schemars::JsonSchema;
use serde::Serialize;
use std::fmt;

/// Money, in pence: 12 to the shilling, 240 to the pound.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, JsonSchema)]
pub struct Pence(pub f64);

/// Why a sum of money is not taken.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum MoneyError {
    /// It could not be read.
    #[error(
        "character {at}: \"{found}\" is no sum of money; write pounds, shillings and pence as in 2l 10s 6d, £2 10s, 10s or 14d"
    )]
    NoMoney {
        /// Where, in characters from 1.
        at: usize,
        /// What stands there.
        found: String,
    },
}

/// More than any printer saw; so that sums stay numbers.
const MOST: f64 = 1e9;

impl Pence {
    /// Reads `2l 10s 6d`, `£2 10s`, `10s`, `14d`, `7.5d`: pounds (£ or l), shillings (s), pence (d), each once at most and in
    /// this order.
    ///
    /// # Errors
    /// What cannot be read, with its place.
    pub fn parse(text: &str) -> Result<Self, MoneyError> {
        let all: Vec<char> = text.chars().collect();
        let wrong = |at: usize| MoneyError::NoMoney {
            at: at + 1,
            found: all.get(at..).unwrap_or_default().iter().take(24).collect::<String>().trim().to_owned(),
        };
        let (mut pence, mut at, mut last) = (0.0, 0, f64::INFINITY);
        let skip = |mut at: usize| {
            while all.get(at).is_some_and(|c| c.is_whitespace()) {
                at += 1;
            }
            at
        };
        at = skip(at);
        while at < all.len() {
            let began = at;
            let is_pound = all[at] == '£';
            at = skip(at + usize::from(is_pound));
            let from = at;
            while all.get(at).is_some_and(|&c| c.is_ascii_digit() || c == '.') {
                at += 1;
            }
            let number: f64 = all[from..at].iter().collect::<String>().parse().map_err(|_| wrong(began))?;
            at = skip(at);
            let worth = match all.get(at) {
                _ if is_pound => 240.0,
                Some('l' | 'L' | '£') => 240.0,
                Some('s' | 'S') => 12.0,
                Some('d' | 'D') => 1.0,
                _ => return Err(wrong(began)),
            };
            at += usize::from(!is_pound);
            if worth >= last || number > MOST {
                return Err(wrong(began));
            }
            last = worth;
            pence += number * worth;
            at = skip(at);
        }
        if last.is_infinite() { Err(wrong(0)) } else { Ok(Self(pence)) }
    }
}

impl fmt::Display for Pence {
    /// Pence to the hundredth below a shilling; above, to the nearest penny.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.0 < 12.0 {
            let text = format!("{:.2}", self.0);
            return write!(f, "{}d", text.trim_end_matches('0').trim_end_matches('.'));
        }
        let all = self.0.round() as u64;
        let (pounds, shillings, pence) = (all / 240, all / 12 % 20, all % 12);
        let parts = [
            (pounds > 0, format!("£{pounds}")),
            (shillings > 0, format!("{shillings}s")),
            (pence > 0, format!("{pence}d")),
        ];
        write!(f, "{}", parts.into_iter().filter(|p| p.0).map(|p| p.1).collect::<Vec<_>>().join(" "))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn money_is_read_and_said_again() {
        for (text, pence) in [
            ("10s", 120.0),
            ("14d", 14.0),
            ("£2 10s 6d", 606.0),
            ("2l 10s", 600.0),
            (" 7.5d ", 7.5),
            ("1£", 240.0),
        ] {
            assert_eq!(Pence::parse(text).unwrap(), Pence(pence), "{text}");
        }
        for (pence, text) in
            [(606.0, "£2 10s 6d"), (120.0, "10s"), (7.44, "7.44d"), (5.2, "5.2d"), (0.0, "0d"), (240.4, "£1")]
        {
            assert_eq!(Pence(pence).to_string(), text);
        }
    }

    #[test]
    fn what_is_no_money_is_told_with_its_place() {
        let told = |text: &str| Pence::parse(text).unwrap_err().to_string();
        assert!(told("10").starts_with("character 1: \"10\" is no sum of money"));
        assert!(told("10s 5").starts_with("character 5: \"5\""));
        assert!(told("5d 10s").starts_with("character 4:"));
        assert!(told("").starts_with("character 1:") && told("£").starts_with("character 1:"));
    }
}

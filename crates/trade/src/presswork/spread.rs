//! A rate that is known within a range only.

use schemars::JsonSchema;
use serde::Serialize;
use std::fmt;

/// A number that lies between two others: anywhere alike, or most likely at a third.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Spread {
    /// The least.
    pub low: f64,
    /// The most likely; null where all between are alike.
    pub likely: Option<f64>,
    /// The most.
    pub high: f64,
}

/// Why a range is not taken.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum SpreadError {
    /// A part is no number.
    #[error(
        "character {at}: \"{found}\" is no number; write one (200), the least and the most (150..250), or with the most likely between them (150..200..250)"
    )]
    NoNumber {
        /// Where it stands, in characters from 1.
        at: usize,
        /// What stands there.
        found: String,
    },
    /// The numbers fall.
    #[error("{text}: the numbers of a range rise from the least to the most")]
    Falls {
        /// The range.
        text: String,
    },
    /// A number is negative.
    #[error("{text}: a rate, a time or a share is never less than 0")]
    Negative {
        /// The range.
        text: String,
    },
}

/// No rate, time or number of the trade is larger; so that sums of many stay numbers.
const MOST: f64 = 1e12;

impl Spread {
    /// A number that is known.
    pub const fn exactly(value: f64) -> Self {
        Self { low: value, likely: None, high: value }
    }

    /// Anywhere between two numbers.
    pub const fn between(low: f64, high: f64) -> Self {
        Self { low, likely: None, high }
    }

    /// Between two numbers, and most likely a third.
    pub const fn about(low: f64, likely: f64, high: f64) -> Self {
        Self { low, likely: Some(likely), high }
    }

    /// Reads `200`, `150..250` or `150..200..250`; thousands may be parted by commas or spaces.
    ///
    /// # Errors
    /// What is no number, with its place; numbers that fall or are negative.
    pub fn parse(text: &str) -> Result<Self, SpreadError> {
        let mut at = 1;
        let mut numbers = Vec::new();
        for part in text.split("..") {
            let plain: String = part.chars().filter(|c| !matches!(c, ',' | ' ' | '_')).collect();
            // Only digits, a point and a sign: not what else a computer takes for a number, as "inf".
            let is_plain = plain.chars().all(|c| c.is_ascii_digit() || c == '.' || c == '-');
            let number = plain.parse::<f64>().ok().filter(|x| is_plain && x.abs() <= MOST);
            let found = || part.trim().chars().take(24).collect();
            numbers.push(number.ok_or_else(|| SpreadError::NoNumber { at, found: found() })?);
            at += part.chars().count() + 2;
        }
        let told = || text.trim().chars().take(60).collect::<String>();
        let spread = match numbers[..] {
            [x] => Self::exactly(x),
            [low, high] => Self::between(low, high),
            [low, likely, high] => Self::about(low, likely, high),
            _ => return Err(SpreadError::NoNumber { at: 1, found: told() }),
        };
        spread.checked().map_err(|e| match e {
            SpreadError::Negative { .. } => SpreadError::Negative { text: told() },
            _ => SpreadError::Falls { text: told() },
        })
    }

    /// The same, if its numbers rise from 0 or more and are numbers.
    ///
    /// # Errors
    /// Numbers that fall, are negative or none.
    pub fn checked(self) -> Result<Self, SpreadError> {
        let text = self.to_string();
        if self.low < 0.0 {
            return Err(SpreadError::Negative { text });
        }
        let likely = self.likely.unwrap_or(self.low);
        if self.low <= likely && likely <= self.high && self.low <= self.high && self.high <= MOST {
            // Of one number nothing is more likely than another.
            Ok(Self { likely: self.likely.filter(|_| self.low < self.high), ..self })
        } else {
            Err(SpreadError::Falls { text })
        }
    }

    /// The most likely, or the middle.
    pub fn middle(&self) -> f64 {
        self.likely.unwrap_or_else(|| f64::midpoint(self.low, self.high))
    }

    /// Whether it is one number.
    pub fn is_known(&self) -> bool {
        self.high - self.low <= 0.0
    }

    /// The value below which this share (0 to 1) of draws lies: evenly between the ends, or by the triangle over them whose
    /// top is at the most likely.
    pub fn at(&self, share: f64) -> f64 {
        let width = self.high - self.low;
        let Some(likely) = self.likely.filter(|_| width > 0.0) else {
            return self.low + share * width;
        };
        let rising = likely - self.low;
        if share * width < rising {
            self.low + (share * width * rising).sqrt()
        } else {
            self.high - ((1.0 - share) * width * (self.high - likely)).sqrt()
        }
    }
}

impl fmt::Display for Spread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.likely {
            _ if self.is_known() => write!(f, "{}", self.low),
            None => write!(f, "{}..{}", self.low, self.high),
            Some(likely) => write!(f, "{}..{likely}..{}", self.low, self.high),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ranges_are_read_and_said_again() {
        for text in ["200", "150..250", "150..200..250", "0.5..1"] {
            assert_eq!(Spread::parse(text).unwrap().to_string(), text);
        }
        assert_eq!(Spread::parse("2..2..2").unwrap(), Spread::exactly(2.0));
        assert_eq!(Spread::parse("25,344").unwrap(), Spread::exactly(25_344.0));
        let told = |text: &str| Spread::parse(text).unwrap_err().to_string();
        assert!(told("150..x").starts_with("character 6: \"x\" is no number"), "{}", told("150..x"));
        assert!(told("250..150").contains("rise") && told("1..5..3").contains("rise"));
        assert!(told("-3").contains("never less than 0") && told("inf").contains("no number"));
        assert!(told("1..2..3..4").contains("no number") && told("").contains("no number"));
    }

    #[test]
    fn quantiles_of_a_triangle_worked_by_hand() {
        // Over 0..1 with its top at 1 the distribution is x²: half lies below √½. At 0 it is 1 − (1−x)².
        assert!((Spread::about(0.0, 1.0, 1.0).at(0.5) - 0.5_f64.sqrt()).abs() < 1e-12);
        assert!((Spread::about(0.0, 0.0, 1.0).at(0.5) - (1.0 - 0.5_f64.sqrt())).abs() < 1e-12);
        assert!((Spread::between(10.0, 20.0).at(0.25) - 12.5).abs() < 1e-12);
        assert!((Spread::about(5.0, 5.0, 5.0).at(0.7) - 5.0).abs() < 1e-12);
    }
}

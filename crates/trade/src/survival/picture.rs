//! A study drawn: the counts with what the laws expect, and the estimates with their intervals.

use super::Survival;

/// The picture, as SVG.
pub fn picture(_told: &Survival) -> String {
    String::new()
}

//! Small pieces of the page that several of its parts use.

use super::{BlockModel, Sign};
use crate::page::FrameBox;
use crate::page::data_uri::data_uri;
use crate::page::looking::position;
use crate::pictures::Small;

/// A number in Roman figures, as states are numbered.
pub(crate) fn roman(n: usize) -> String {
    u32::try_from(n).ok().and_then(trade::numerals::spell).unwrap_or_default()
}

/// The number of a damage in its ring, as a link to its row.
pub(super) fn ring(block: &BlockModel, damage: usize) -> String {
    format!(
        "<a class=\"ring\" href=\"#damage-{}-{damage}\"><span class=\"unseen\">damage </span>{damage}</a>",
        block.number
    )
}

/// Several, as they are counted.
pub(super) fn rings(block: &BlockModel, damages: &[usize]) -> String {
    damages.iter().map(|&d| ring(block, d)).collect::<Vec<_>>().join(" ")
}

/// The sign that a damage is there, is not, or cannot be judged, with the word.
pub(super) fn sign(of: Sign) -> String {
    let word = of.word();
    format!("<i class=\"sign {word}\"></i><span class=\"unseen\">{word}</span>")
}

/// A picture that stands where it is.
pub(super) fn image(small: &Small, alt: &str) -> String {
    let [w, h] = small.size_px;
    format!(
        "<img width=\"{w}\" height=\"{h}\" alt=\"{alt}\" src=\"{}\">",
        data_uri("image/jpeg", &small.jpeg)
    )
}

/// Corners about a place of a picture.
pub(super) fn spot(within: FrameBox) -> String {
    format!("<i class=\"spot\" style=\"{}\"></i>", position(within))
}

/// Impressions by their numbers, from 1.
pub(super) fn numbers(of: &[usize]) -> String {
    let mut from_0: Vec<usize> = of.iter().map(|n| n.saturating_sub(1)).collect();
    from_0.sort_unstable();
    crate::many::numbers(&from_0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn states_are_numbered_as_kings_are() {
        assert_eq!([1, 4, 9, 14, 40].map(roman), ["I", "IV", "IX", "XIV", "XL"]);
    }
}

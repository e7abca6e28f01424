//! Where the watermark falls on a leaf.

use super::Way;
use crate::imposition::{Extent, Head, LaidPage, schemes};
use schemars::JsonSchema;
use serde::Serialize;
use std::fmt;
use std::str::FromStr;
use thiserror::Error;

/// How far down the leaf.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Down {
    /// At the head, cut by its edge or fold.
    Head,
    /// A quarter or a third of the way down.
    Upper,
    /// Half way.
    Middle,
    /// Three quarters, or two thirds.
    Lower,
    /// At the foot, cut by its edge or fold.
    Foot,
}

/// How far across the leaf.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Across {
    /// In the spine fold, cut by it.
    Spine,
    /// Well within the leaf.
    Middle,
    /// At the fore-edge, cut by it.
    ForeEdge,
}

/// A place on a leaf.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
pub struct Place {
    /// How far down.
    pub down: Down,
    /// How far across.
    pub across: Across,
}

/// The places by the names that a user types.
const NAMES: [(&str, Down, Across); 15] = [
    ("centre", Down::Middle, Across::Middle),
    ("head", Down::Head, Across::Middle),
    ("upper", Down::Upper, Across::Middle),
    ("lower", Down::Lower, Across::Middle),
    ("foot", Down::Foot, Across::Middle),
    ("spine", Down::Middle, Across::Spine),
    ("spine-head", Down::Head, Across::Spine),
    ("spine-upper", Down::Upper, Across::Spine),
    ("spine-lower", Down::Lower, Across::Spine),
    ("spine-foot", Down::Foot, Across::Spine),
    ("edge", Down::Middle, Across::ForeEdge),
    ("edge-head", Down::Head, Across::ForeEdge),
    ("edge-upper", Down::Upper, Across::ForeEdge),
    ("edge-lower", Down::Lower, Across::ForeEdge),
    ("edge-foot", Down::Foot, Across::ForeEdge),
];

impl Place {
    /// The name as it is typed: "spine-head".
    pub fn name(self) -> &'static str {
        NAMES.iter().find(|(_, d, a)| (*d, *a) == (self.down, self.across)).map_or("centre", |(n, ..)| n)
    }

    /// Every name.
    pub fn names() -> impl Iterator<Item = &'static str> {
        NAMES.iter().map(|(name, ..)| *name)
    }

    /// Whether another place is this one, or the next up or down on the same side: a mark is some centimetres large, and
    /// was not always sewn at the very centre of its half of the mould.
    pub fn is_near(self, other: Self) -> bool {
        self.across == other.across && (self.down as i8 - other.down as i8).abs() <= 1
    }
}

impl FromStr for Place {
    type Err = PlaceError;

    fn from_str(text: &str) -> Result<Self, PlaceError> {
        let wanted = text.trim().to_lowercase().replace([' ', '_'], "-");
        let wanted = if wanted == "center" { "centre".to_owned() } else { wanted };
        NAMES
            .iter()
            .find(|(name, ..)| *name == wanted)
            .map(|&(_, down, across)| Self { down, across })
            .ok_or_else(|| PlaceError {
                text: text.to_owned(),
                names: Self::names().collect::<Vec<_>>().join(", "),
            })
    }
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let down = match self.down {
            Down::Head => "at the head",
            Down::Upper => "in the upper half",
            Down::Middle => "half way down",
            Down::Lower => "in the lower half",
            Down::Foot => "at the foot",
        };
        match (self.across, self.down) {
            (Across::Middle, Down::Middle) => f.write_str("in the centre of the leaf"),
            (Across::Middle, Down::Head | Down::Foot) => write!(f, "{down}, midway across"),
            (Across::Middle, _) => write!(f, "{down} of the leaf"),
            (Across::Spine, _) => write!(f, "in the spine fold, {down}"),
            (Across::ForeEdge, _) => write!(f, "at the fore-edge, {down}"),
        }
    }
}

/// A place that has no name here: choose one of the names.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("\"{text}\" is no place on a leaf; say one of {names}")]
pub struct PlaceError {
    text: String,
    names: String,
}

/// Where on which leaf a mark falls.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
pub struct OnLeaf {
    /// The gathering of the sheet, from 0.
    pub gathering: usize,
    /// The leaf of it, from 1.
    pub leaf: u16,
    /// The place.
    pub place: Place,
}

/// Where the watermark falls when a whole sheet is made up in this way, one list for each half of the sheet that the mark
/// may lie in, and for each scheme that is known.
///
/// The mark lies in the centre of one half of the sheet: a quarter of the long side and half of the short side from the
/// edges (Koninklijke Bibliotheek, handbook of the Short-Title Catalogue Netherlands, field 4062, under 1°: seen). From
/// there on it is geometry: which leaves meet at that point.
pub fn watermark(way: Way) -> Vec<Vec<OnLeaf>> {
    let whole = schemes().into_iter().filter(|s| s.way == way && s.extent == Extent::Whole);
    whole
        .flat_map(|s| {
            let rows = s.formes.into_iter().next().map(|f| f.rows).unwrap_or_default();
            [1_usize, 3].map(|quarter| at_quarter(way, &rows, quarter))
        })
        .collect()
}

/// The leaves at so many quarters of the long side and half of the short one.
fn at_quarter(way: Way, rows: &[Vec<LaidPage>], quarter: usize) -> Vec<OnLeaf> {
    let (down, across) = (rows.len(), rows.first().map_or(0, Vec::len));
    let single = way.leaves() == 1;
    // In quarters of a leaf from the far edge and from the left hand.
    let (y, x) = match way.upright() {
        super::Side::Long => (quarter * down, 2 * across),
        super::Side::Short => (2 * down, quarter * across),
    };
    let mut found = Vec::new();
    for (r, row) in rows.iter().enumerate() {
        for (c, laid) in row.iter().enumerate() {
            let within = |at: usize, cell: usize| at.checked_sub(4 * cell).filter(|&rest| rest <= 4);
            let (Some(from_top), Some(from_left)) = (within(y, r), within(x, c)) else { continue };
            // On the stone everything is reversed: the spine of an upright recto lies to the right hand.
            let spine_right = laid.is_recto == (laid.head == Head::Up);
            let from_spine = if spine_right { 4 - from_left } else { from_left };
            let from_head = if laid.head == Head::Up { from_top } else { 4 - from_top };
            let place = Place {
                down: [Down::Head, Down::Upper, Down::Middle, Down::Lower, Down::Foot][from_head],
                across: match from_spine {
                    0 if !single => Across::Spine,
                    4 if !single => Across::ForeEdge,
                    _ => Across::Middle,
                },
            };
            found.push(OnLeaf { gathering: laid.gathering, leaf: laid.leaf, place });
        }
    }
    found.sort_unstable();
    found
}

/// Every place at which a mark may fall in this way, without repetition.
pub fn watermark_places(way: Way) -> Vec<Place> {
    let mut places: Vec<Place> = watermark(way).into_iter().flatten().map(|on| on.place).collect();
    places.sort_unstable();
    places.dedup();
    places
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::format::ChainLines;

    /// Koninklijke Bibliotheek, handbook of the Short-Title Catalogue Netherlands, field 4062 (seen): chain-lines and
    /// watermark of every format of its table.
    #[test]
    fn chain_lines_and_watermarks_are_where_the_published_table_has_them() {
        use ChainLines::{Horizontal, Vertical};
        let table = [
            (Way::BroadsideUpright, Horizontal, "upper"),
            (Way::Folio, Vertical, "centre"),
            (Way::Quarto, Horizontal, "spine"),
            (Way::Octavo, Vertical, "spine-head"),
            (Way::TwelvesLong, Vertical, "head"),
            // The table says a third of the fore-edge; a quarter of the long side is a quarter of such a leaf.
            (Way::TwelvesCommon, Horizontal, "edge-upper"),
            (Way::Sixteens, Horizontal, "edge-head"),
            (Way::Eighteens, Vertical, "centre"),
            (Way::TwentyFoursLong, Vertical, "edge"),
            (Way::TwentyFoursCommon, Horizontal, "spine-head"),
        ];
        for (way, chains, place) in table {
            assert_eq!(way.chain_lines(), chains, "{way}");
            let places = watermark_places(way);
            assert!(places.contains(&place.parse().unwrap()), "{way}: {places:?}");
        }
    }

    /// Gaskell, figures 44-66, from memory: in the common 12° the mark lies on leaves 7 and 8, or 11 and 12.
    #[test]
    fn in_the_common_twelves_two_leaves_share_the_mark() {
        let leaves: Vec<Vec<u16>> = watermark(Way::TwelvesCommon)[..2]
            .iter()
            .map(|half| half.iter().map(|on| on.leaf).collect())
            .collect();
        assert_eq!(leaves, [[7, 8], [11, 12]]);
    }

    /// In quarto two leaves share it, in octavo four: Aldis, *The Printed Book* (1916), tells the places (seen).
    #[test]
    fn quarto_and_octavo_share_the_mark_among_conjugates() {
        assert!(watermark(Way::Quarto).iter().all(|half| half.len() == 2));
        assert!(watermark(Way::Octavo).iter().all(|half| half.len() == 4));
        assert_eq!(watermark_places(Way::Octavo).len(), 1);
    }

    #[test]
    fn every_name_of_a_place_reads_back() {
        for name in Place::names() {
            assert_eq!(name.parse::<Place>().unwrap().name(), name);
        }
        assert_eq!("Spine Head".parse::<Place>().unwrap().name(), "spine-head");
        assert!("gutter".parse::<Place>().unwrap_err().to_string().contains("spine-head"));
    }
}

//! The formats, and the ways in which a sheet is parted to make them.

use crate::lengths::Band;
use crate::paper::Sheet;
use schemars::JsonSchema;
use serde::Serialize;
use std::fmt;

/// A way of parting the whole sheet into leaves. One format may have several ways.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// 1°, the long side of the sheet upright.
    BroadsideUpright,
    /// 1°, the short side of the sheet upright.
    BroadsideAcross,
    /// 2°.
    Folio,
    /// 4°.
    Quarto,
    /// 8°.
    Octavo,
    /// 12°, common: the long side in thirds.
    TwelvesCommon,
    /// 12°, long: the long side in sixths.
    TwelvesLong,
    /// 16°.
    Sixteens,
    /// 18°.
    Eighteens,
    /// 24°, long: the short side in thirds, the long side in eighths.
    TwentyFoursLong,
    /// 24°, common: the long side in quarters upright, the short side in sixths.
    TwentyFoursCommon,
    /// 24°, the short side in quarters upright, the long side in sixths.
    TwentyFoursBroad,
    /// 32°.
    ThirtyTwos,
    /// 64°.
    SixtyFours,
}

/// A side of the sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Side {
    /// The longer one.
    Long,
    /// The shorter one; chain-lines run along it.
    Short,
}

/// How chain-lines run in an upright leaf.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ChainLines {
    /// Up and down.
    Vertical,
    /// Across, as the lines of type.
    Horizontal,
}

/// What parts a sheet, in one row.
struct Parting {
    way: Way,
    number: u16,
    name: &'static str,
    /// Which side of the sheet runs up and down in the leaf.
    upright: Side,
    /// Into how many the upright side is parted, and the other.
    down: u16,
    across: u16,
}

const fn parting(
    way: Way,
    number: u16,
    name: &'static str,
    upright: Side,
    down: u16,
    across: u16,
) -> Parting {
    Parting { way, number, name, upright, down, across }
}

/// Leaf sizes and chain-lines of 1°, 2°, 4°, 8° and 16°: Roberts and Etherington, *Bookbinding and the Conservation of
/// Books*, "chain lines"; National Diet Library, *Incunabula*, chapter 3. Of 12°, 18° and 24° the chain-lines:
/// Koninklijke Bibliotheek, handbook of the Short-Title Catalogue Netherlands, field 4062 (seen); its "24° long" and "24°"
/// are the only partings into 24 that put the chain-lines and the watermark where that table has them.
/// `TwentyFoursBroad`, 32° and 64°: from memory, after Gaskell, figures 44-66 (not seen).
const PARTINGS: [Parting; 14] = [
    parting(Way::BroadsideUpright, 1, "1° upright", Side::Long, 1, 1),
    parting(Way::BroadsideAcross, 1, "1° across", Side::Short, 1, 1),
    parting(Way::Folio, 2, "2°", Side::Short, 1, 2),
    parting(Way::Quarto, 4, "4°", Side::Long, 2, 2),
    parting(Way::Octavo, 8, "8°", Side::Short, 2, 4),
    parting(Way::TwelvesCommon, 12, "12° common", Side::Long, 3, 4),
    parting(Way::TwelvesLong, 12, "12° long", Side::Short, 2, 6),
    parting(Way::Sixteens, 16, "16°", Side::Long, 4, 4),
    parting(Way::Eighteens, 18, "18°", Side::Short, 3, 6),
    parting(Way::TwentyFoursLong, 24, "24° long", Side::Short, 3, 8),
    parting(Way::TwentyFoursCommon, 24, "24° common", Side::Long, 4, 6),
    parting(Way::TwentyFoursBroad, 24, "24° broad", Side::Short, 4, 6),
    parting(Way::ThirtyTwos, 32, "32°", Side::Short, 4, 8),
    parting(Way::SixtyFours, 64, "64°", Side::Long, 8, 8),
];

impl Way {
    /// Every way, from the largest leaf to the smallest.
    pub fn all() -> impl Iterator<Item = Self> {
        PARTINGS.iter().map(|p| p.way)
    }

    /// Every way of a format by its number (12 for 12°); none for a number that is no format known here.
    pub fn of(number: u16) -> impl Iterator<Item = Self> {
        PARTINGS.iter().filter(move |p| p.number == number).map(|p| p.way)
    }

    /// The numbers of the formats known here, in order.
    pub fn numbers() -> Vec<u16> {
        let mut numbers: Vec<u16> = PARTINGS.iter().map(|p| p.number).collect();
        numbers.dedup();
        numbers
    }

    fn parting(self) -> &'static Parting {
        // The table has a row for every way, in the order in which they are named.
        &PARTINGS[self as usize]
    }

    /// The number of the format, which is the number of leaves that a sheet makes.
    pub fn leaves(self) -> u16 {
        self.parting().number
    }

    /// The name: "8°", "12° common".
    pub fn name(self) -> &'static str {
        self.parting().name
    }

    /// How chain-lines run in the leaf, in a sheet whose chain-lines run along its short side.
    pub fn chain_lines(self) -> ChainLines {
        match self.parting().upright {
            Side::Short => ChainLines::Vertical,
            Side::Long => ChainLines::Horizontal,
        }
    }

    /// Which side of the sheet runs up and down in the leaf.
    pub fn upright(self) -> Side {
        self.parting().upright
    }

    /// Rows and columns of leaves, in a sheet laid so that its leaves stand upright.
    pub fn rows_and_columns(self) -> (u16, u16) {
        (self.parting().down, self.parting().across)
    }

    /// Height and width of the untrimmed leaf.
    pub fn leaf(self, sheet: &Sheet) -> (Band, Band) {
        let p = self.parting();
        let (upright, other) = match p.upright {
            Side::Long => (sheet.long, sheet.short),
            Side::Short => (sheet.short, sheet.long),
        };
        (upright.divided(p.down), other.divided(p.across))
    }

    /// The folds, in words.
    pub fn folds(self) -> &'static str {
        match self {
            Self::BroadsideUpright | Self::BroadsideAcross => "not folded",
            Self::Folio => "one fold",
            Self::Quarto => "two folds",
            Self::Octavo => "three folds",
            Self::TwelvesCommon => {
                "a third cut off across the sheet; eight leaves folded three times, the off-cut twice"
            }
            Self::TwelvesLong => {
                "two columns of the six cut off; eight leaves folded three times, the off-cut twice"
            }
            Self::Sixteens => "cut in two, and each half folded three times; or four folds",
            Self::Eighteens => {
                "cut in parts, each made up of a folded piece and one or more off-cuts laid in it"
            }
            Self::TwentyFoursLong | Self::TwentyFoursCommon | Self::TwentyFoursBroad => {
                "cut in two or three, and each part folded by itself"
            }
            Self::ThirtyTwos => "cut in four, and each quarter folded three times; or five folds",
            Self::SixtyFours => "cut in eight, and each part folded three times",
        }
    }
}

impl fmt::Display for Way {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

impl fmt::Display for ChainLines {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Vertical => "vertical",
            Self::Horizontal => "horizontal",
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_has_every_way_in_its_place_and_parts_the_sheet_into_as_many_leaves_as_its_number() {
        for (i, p) in PARTINGS.iter().enumerate() {
            assert_eq!(p.way as usize, i);
            assert_eq!(p.down * p.across, p.number, "{}", p.name);
        }
        assert_eq!(Way::of(12).count(), 2);
        assert_eq!(Way::of(13).count(), 0);
        assert_eq!(Way::numbers(), [1, 2, 4, 8, 12, 16, 18, 24, 32, 64]);
    }
}

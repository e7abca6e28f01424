//! In which forme each page of a gathering stands: by the format, and by how many of its leaves make a sheet.

use crate::format::Way;
use crate::imposition::{Extent, FormeName, schemes};
use schemars::JsonSchema;
use serde::Serialize;

/// How a gathering is made of sheets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case", tag = "of")]
pub enum Made {
    /// One sheet, or a part of one that is printed with others from two formes.
    Sheet,
    /// So many sheets, one laid in another.
    SheetsQuired {
        /// How many.
        sheets: u16,
    },
    /// Half a sheet, printed from one forme.
    HalfSheet,
    /// It cannot be told: no way is known in which a sheet of this format makes such a gathering.
    NotTold,
}

/// Where the two pages of a leaf stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Formes {
    /// The sheet of the gathering, from 1, the outermost first.
    pub sheet: u16,
    /// The forme of the front.
    pub recto: FormeName,
    /// The forme of the back.
    pub verso: FormeName,
}

/// What gatherings the sheets and half-sheets of a format make.
#[derive(Debug)]
pub(super) struct Making {
    format: u16,
    whole: Vec<u16>,
    half: Vec<u16>,
}

impl Making {
    /// Of a format by its number.
    pub(super) fn of(format: u16) -> Self {
        let (mut whole, mut half) = (Vec::new(), Vec::new());
        let ways: Vec<Way> = Way::of(format).collect();
        for s in schemes().into_iter().filter(|s| ways.contains(&s.way)) {
            match s.extent {
                Extent::Whole => whole.extend(s.gatherings),
                Extent::Half => half.extend(s.gatherings),
            }
        }
        Self { format, whole, half }
    }

    /// How a gathering of so many leaves is made. Where a whole sheet and a half-sheet both may make it, the whole sheet is
    /// meant: a half-sheet then looks alike.
    pub(super) fn made(&self, leaves: u16) -> Made {
        if self.whole.contains(&leaves) {
            Made::Sheet
        } else if self.half.contains(&leaves) {
            Made::HalfSheet
        } else if self.format > 1 && leaves > self.format && leaves.is_multiple_of(self.format) {
            Made::SheetsQuired { sheets: leaves / self.format }
        } else {
            Made::NotTold
        }
    }
}

/// The formes of the n-th leaf (from 1) of a gathering of so many, in a format.
///
/// In every scheme known here the outer forme of a sheet holds its pages 1, 4, 5, 8, 9 and so on. In quired sheets half the
/// leaves of each sheet lie before the middle and half behind it. (Cowie, *Printer's Pocket-Book and Manual*, "Of
/// Imposing", for folio in quires: seen.)
pub(super) fn formes(made: Made, format: u16, leaf: u16, leaves: u16) -> Option<Formes> {
    let in_sheet = |sheet: u16, position: u16| {
        let recto = if position % 2 == 1 { FormeName::Outer } else { FormeName::Inner };
        let verso = if position % 2 == 1 { FormeName::Inner } else { FormeName::Outer };
        Formes { sheet, recto, verso }
    };
    match made {
        Made::Sheet => Some(in_sheet(1, leaf)),
        Made::HalfSheet => {
            Some(Formes { sheet: 1, recto: FormeName::HalfSheet, verso: FormeName::HalfSheet })
        }
        Made::SheetsQuired { .. } => {
            let half = format / 2;
            let before = leaf.min(leaves + 1 - leaf);
            let (sheet, position) = ((before - 1) / half + 1, (before - 1) % half + 1);
            Some(in_sheet(sheet, if before == leaf { position } else { format + 1 - position }))
        }
        Made::NotTold => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use FormeName::{Inner, Outer};

    #[test]
    fn the_outer_forme_holds_pages_1_4_5_8_of_every_scheme() {
        for s in schemes().into_iter().filter(|s| s.extent == Extent::Whole) {
            for laid in s.formes[0].rows.iter().flatten() {
                let page = laid.leaf * 2 - u16::from(laid.is_recto);
                assert!([0, 1].contains(&(page % 4)), "{} {:?}", s.way, s.gatherings);
            }
        }
    }

    /// Cowie (seen): two sheets in folio quired: outer sheet 1 and 8, 7 and 2; inner sheet 3 and 6, 5 and 4.
    #[test]
    fn folio_in_fours_lies_as_cowie_has_it() {
        let making = Making::of(2);
        let made = making.made(4);
        assert_eq!(made, Made::SheetsQuired { sheets: 2 });
        let all: Vec<_> = (1..=4).filter_map(|leaf| formes(made, 2, leaf, 4)).collect();
        assert_eq!(all.iter().map(|f| f.sheet).collect::<Vec<_>>(), [1, 2, 2, 1]);
        // Pages 1 and 8 outer of sheet 1, 3 and 6 outer of sheet 2.
        assert_eq!(all.iter().map(|f| f.recto).collect::<Vec<_>>(), [Outer, Outer, Inner, Inner]);
        assert_eq!(all.iter().map(|f| f.verso).collect::<Vec<_>>(), [Inner, Inner, Outer, Outer]);
    }

    #[test]
    fn gatherings_are_sheets_half_sheets_or_quires_by_their_format() {
        let made = |format, leaves| Making::of(format).made(leaves);
        assert_eq!(made(8, 8), Made::Sheet);
        assert_eq!(made(8, 4), Made::HalfSheet);
        assert_eq!(made(4, 8), Made::SheetsQuired { sheets: 2 });
        assert_eq!(made(12, 6), Made::HalfSheet);
        assert_eq!(made(12, 8), Made::Sheet);
        assert_eq!(made(8, 6), Made::NotTold);
        let quired: Vec<_> = (1..=8).filter_map(|l| formes(made(4, 8), 4, l, 8)).map(|f| f.sheet).collect();
        assert_eq!(quired, [1, 1, 2, 2, 2, 2, 1, 1]);
    }
}

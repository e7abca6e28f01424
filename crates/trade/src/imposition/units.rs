//! The pieces of paper that every scheme is made of: each is folded by itself, and its outer side read on the stone.

use super::Head;

/// A piece that is folded by itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Unit {
    /// One leaf, not folded.
    Leaf,
    /// Two leaves side by side: one fold.
    Folio,
    /// Four leaves in two rows: two folds.
    Quarto,
    /// Eight leaves in two rows: three folds.
    Octavo,
    /// Four leaves in one row: two folds, both up and down.
    Strip,
    /// Eight leaves in four rows of two: two folds across, then one up and down.
    Oblong,
}

/// A page of a unit and where its head lies: up as a positive number, down as a negative one.
type Laid = i16;

impl Unit {
    /// The outer side as its pages lie on the stone, read by one who stands before it: the first page at the lower left
    /// hand, and the heads of rows that are folded on each other together.
    ///
    /// Folio: Cowie, *Printer's Pocket-Book and Manual*, "Of Imposing" (seen). Quarto, octavo, the strip of the common
    /// 12°: from memory, after Smith, *The Printer's Grammar* (1755), and Gaskell, figures 44-60. The oblong of eight
    /// leaves: named by Povey, *Studies in Bibliography* 9, "Twenty-Fours with Three Signatures" (seen), laid out here. All
    /// are held to be right because they fold right (`tests/folding.rs`).
    fn outer(self) -> &'static [&'static [Laid]] {
        match self {
            Self::Leaf => &[&[1]],
            Self::Folio => &[&[1, 4]],
            Self::Quarto => &[&[-4, -5], &[1, 8]],
            Self::Octavo => &[&[-8, -9, -12, -5], &[1, 16, 13, 4]],
            Self::Strip => &[&[1, 8, 5, 4]],
            Self::Oblong => &[&[-4, -13], &[5, 12], &[-8, -9], &[1, 16]],
        }
    }

    /// Rows and columns.
    pub(super) fn size(self) -> (usize, usize) {
        let rows = self.outer();
        (rows.len(), rows[0].len())
    }

    /// Row, column, page (from 1) and head of every page of the outer side, or of the inner, as turning the paper sideways brings
    /// it up; of a unit that is turned round, its feet to where its heads were.
    pub(super) fn pages(
        self,
        turned: bool,
        is_inner: bool,
    ) -> impl Iterator<Item = (usize, usize, u16, Head)> {
        let (rows, columns) = self.size();
        self.outer().iter().enumerate().flat_map(move |(r, row)| {
            row.iter().enumerate().map(move |(c, &laid)| {
                let head = if (laid > 0) == turned { Head::Down } else { Head::Up };
                let page = laid.unsigned_abs();
                let (c, page) = if is_inner { (columns - 1 - c, behind(page)) } else { (c, page) };
                let (r, c) = if turned { (rows - 1 - r, columns - 1 - c) } else { (r, c) };
                (r, c, page, head)
            })
        })
    }
}

/// The page on the other side of the leaf.
pub(super) fn behind(page: u16) -> u16 {
    if page.is_multiple_of(2) { page - 1 } else { page + 1 }
}

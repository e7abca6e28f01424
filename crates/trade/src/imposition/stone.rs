//! A plan laid out on the stone: the outer side from its pieces, the other from how the sheet is turned.

use super::plans::{Piece, Plan};
use super::units::behind;
use super::{Extent, Forme, FormeName, Head, Imposition, LaidPage, Turn};

type Places = Vec<Vec<Option<LaidPage>>>;

/// Lays out a plan.
pub(super) fn laid(plan: &Plan) -> Imposition {
    let (rows, columns) = plan.way.rows_and_columns();
    let (rows, columns) = (usize::from(rows), usize::from(columns));
    let mut front: Places = vec![vec![None; columns]; rows];
    for piece in &plan.pieces {
        for (r, c, page, head) in piece.unit.pages(piece.turned, piece.is_inner) {
            front[piece.row + r][piece.column + c] =
                Some(page_of(&plan.gathered, sheet_page(piece, page), head));
        }
    }
    let back = turned(&front, plan);
    let formes = match plan.extent {
        Extent::Whole => vec![forme(FormeName::Outer, front), forme(FormeName::Inner, back)],
        Extent::Half => halves(&front, &back),
    };
    Imposition {
        way: plan.way,
        format: plan.way.name(),
        extent: plan.extent,
        gatherings: plan.gathered.clone(),
        formes,
        turn: plan.turn,
        making_up: plan.making_up,
    }
}

/// The page of the sheet that is the piece's own n-th.
fn sheet_page(piece: &Piece, own: u16) -> u16 {
    let mut left = own;
    for &(first, last) in &piece.pages {
        let here = last + 1 - first;
        if left <= here {
            return first + left - 1;
        }
        left -= here;
    }
    // A piece holds as many pages as its unit has: the tests fold every scheme.
    own
}

/// A page with its gathering and leaf.
fn page_of(gathered: &[u16], page: u16, head: Head) -> LaidPage {
    let mut leaf = page.div_ceil(2);
    let mut gathering = 0;
    for &leaves in gathered {
        if leaf <= leaves {
            break;
        }
        leaf -= leaves;
        gathering += 1;
    }
    LaidPage { page, gathering, leaf, is_recto: page % 2 == 1, head }
}

/// The other side: the page behind each, where it lies on the stone. On paper the sides are the stone's looking-glass
/// images, so a sheet turned sideways puts the first column behind the last.
fn turned(front: &Places, plan: &Plan) -> Places {
    let (rows, columns) = (front.len(), front[0].len());
    let mut back: Places = vec![vec![None; columns]; rows];
    for (r, row) in front.iter().enumerate() {
        for (c, laid) in row.iter().enumerate() {
            let Some(laid) = laid else { continue };
            let (r, c, head) = match plan.turn {
                Turn::Sideways => (r, columns - 1 - c, laid.head),
                Turn::EndOverEnd => (rows - 1 - r, c, laid.head.turned()),
            };
            back[r][c] = Some(page_of(&plan.gathered, behind(laid.page), head));
        }
    }
    back
}

/// The forme of a half-sheet, with both sides in it: each fills the places that the other leaves free. Where both claim a place,
/// the first has it while the heap is printed, and the second has it when the heap is turned: pages are moved between.
fn halves(front: &Places, back: &Places) -> Vec<Forme> {
    let (first, second) = (both(front, back), both(back, front));
    let is_moved = first != second;
    let mut formes = vec![forme(FormeName::HalfSheet, first)];
    if is_moved {
        formes.push(forme(FormeName::HalfSheetMoved, second));
    }
    formes
}

fn both(these: &Places, those: &Places) -> Places {
    let row = |(a, b): (&Vec<Option<LaidPage>>, &Vec<Option<LaidPage>>)| {
        a.iter().zip(b).map(|(a, b)| a.or(*b)).collect()
    };
    these.iter().zip(those).map(row).collect()
}

fn forme(name: FormeName, places: Places) -> Forme {
    Forme { name, rows: places.into_iter().map(|row| row.into_iter().flatten().collect()).collect() }
}

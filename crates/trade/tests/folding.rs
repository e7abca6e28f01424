//! Every scheme of imposition, cut and folded as paper: it must come out as pages 1 to 2n, heads up, spine at the left.
//!
//! The folding here knows nothing of the tables of the crate. It takes what the formes print, as the looking-glass image
//! of the stone, and folds that.

#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on has failed")]

use trade::format::Way;
use trade::imposition::{Extent, FormeName, Head, Imposition, Turn, schemes};

/// A printed face of paper.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Face {
    page: u16,
    head_up: bool,
}

/// A leaf of paper lying flat: what is printed on the side that looks up, and on the side below.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Leaf {
    above: Face,
    below: Face,
}

/// Piles of leaves in rows and columns; the leaf that lies uppermost is first.
type Paper = Vec<Vec<Vec<Leaf>>>;

/// What a forme prints: the sheet laid on the stone and taken up, looked at with its printed side upwards.
fn printed(rows: &[Vec<trade::imposition::LaidPage>]) -> Vec<Vec<Face>> {
    rows.iter()
        .map(|row| row.iter().rev().map(|p| Face { page: p.page, head_up: p.head == Head::Up }).collect())
        .collect()
}

/// The sheet printed on both sides, the outer forme upwards.
fn sheet(imposed: &Imposition) -> Paper {
    let above = printed(&imposed.formes[0].rows);
    let other = printed(&imposed.formes.last().unwrap().rows);
    let (rows, columns) = (above.len(), above[0].len());
    let below = |r: usize, c: usize| match imposed.turn {
        // Seen through the paper from above, left and right change places again, and heads stay.
        Turn::Sideways => other[r][columns - 1 - c],
        // Turned over the far edge: seen through the paper, rows change places and heads lie the other way.
        Turn::EndOverEnd => {
            let face = other[rows - 1 - r][c];
            Face { head_up: !face.head_up, ..face }
        }
    };
    (0..rows)
        .map(|r| (0..columns).map(|c| vec![Leaf { above: above[r][c], below: below(r, c) }]).collect())
        .collect()
}

/// A pile turned over as one, about an upright or a level axis.
fn over(pile: &[Leaf], level_axis: bool) -> Vec<Leaf> {
    let turn = |face: Face| if level_axis { Face { head_up: !face.head_up, ..face } } else { face };
    pile.iter().rev().map(|l| Leaf { above: turn(l.below), below: turn(l.above) }).collect()
}

fn laid_on(upper: Vec<Leaf>, lower: Vec<Leaf>) -> Vec<Leaf> {
    [upper, lower].concat()
}

/// Folds the left half over the right half, or under it.
fn fold_left(paper: &Paper, on_top: bool) -> Paper {
    let half = paper[0].len() / 2;
    paper
        .iter()
        .map(|row| {
            (0..half)
                .map(|c| {
                    let (moved, stays) = (over(&row[half - 1 - c], false), row[half + c].clone());
                    if on_top { laid_on(moved, stays) } else { laid_on(stays, moved) }
                })
                .collect()
        })
        .collect()
}

/// Folds the upper half over the lower half, or under it.
fn fold_upper(paper: &Paper, on_top: bool) -> Paper {
    let half = paper.len() / 2;
    (0..half)
        .map(|r| {
            paper[half - 1 - r]
                .iter()
                .zip(&paper[half + r])
                .map(|(moved, stays)| {
                    let moved = over(moved, true);
                    if on_top { laid_on(moved, stays.clone()) } else { laid_on(stays.clone(), moved) }
                })
                .collect()
        })
        .collect()
}

/// A fold of the upper half on the lower, or of the left on the right.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Fold {
    Upper,
    Left,
}

/// The folds of a piece by its rows and columns, the last of which makes the spine.
fn folds(rows: usize, columns: usize) -> Vec<Fold> {
    use Fold::{Left, Upper};
    match (rows, columns) {
        (1, 1) => vec![],
        (1, 2) => vec![Left],
        (2, 2) => vec![Upper, Left],
        (2, 4) => vec![Left, Upper, Left],
        (1, 4) => vec![Left, Left],
        (4, 2) => vec![Upper, Upper, Left],
        other => panic!("no piece of {other:?}"),
    }
}

/// The leaves of a piece in reading order. Whether a fold goes over or under is the folder's choice, and so is which way
/// up, and which side up, the piece is taken in hand: he turns it until page runs into page.
fn folded(piece: &Paper) -> Option<Vec<Leaf>> {
    let folds = folds(piece.len(), piece[0].len());
    for choice in 0..(1_u32 << folds.len()) * 4 {
        let mut paper = piece.clone();
        if choice & 1 == 1 {
            // Taken by the other end.
            paper.reverse();
            for row in &mut paper {
                row.reverse();
                for pile in row.iter_mut() {
                    for leaf in pile {
                        leaf.above.head_up = !leaf.above.head_up;
                        leaf.below.head_up = !leaf.below.head_up;
                    }
                }
            }
        }
        if choice & 2 == 2 {
            for row in &mut paper {
                row.reverse();
                for pile in row.iter_mut() {
                    *pile = over(pile, false);
                }
            }
        }
        for (i, fold) in folds.iter().enumerate() {
            let on_top = choice >> (i + 2) & 1 == 1;
            paper = match fold {
                Fold::Left => fold_left(&paper, on_top),
                Fold::Upper => fold_upper(&paper, on_top),
            };
        }
        let pile = paper.remove(0).remove(0);
        let reads = pile.iter().all(|l| {
            l.above.head_up && l.below.head_up && l.above.page % 2 == 1 && l.below.page == l.above.page + 1
        });
        if reads && pile.windows(2).all(|w| w[0].below.page < w[1].above.page) {
            return Some(pile);
        }
    }
    None
}

/// Rows and columns of a cut: first row, first column, rows, columns.
type Cut = (usize, usize, usize, usize);

/// Pieces after others: what they are laid into is counted on.
fn after(first: Vec<(Cut, Option<usize>)>, then: &[(Cut, Option<usize>)]) -> Vec<(Cut, Option<usize>)> {
    let n = first.len();
    first.into_iter().chain(then.iter().map(|(c, into)| (*c, into.map(|i| i + n)))).collect()
}

/// The scissors: which pieces a sheet of each format is cut into, and into which each is laid (its index; none: it is the
/// outermost of a gathering). Written down apart from the crate's own plans.
fn cuts(imposed: &Imposition) -> Vec<(Cut, Option<usize>)> {
    let twelve = |c| [((1, c, 2, 4), None), ((0, c, 1, 4), Some(0))];
    let long = |r: usize| [((r, 0, 2, 4), None), ((r, 4, 2, 2), Some(0))];
    let six = |c| [((1, c, 2, 2), None), ((0, c, 1, 2), Some(0))];
    let apart = |pieces: &[Cut]| pieces.iter().map(|&p| (p, None)).collect::<Vec<_>>();
    match (imposed.way, imposed.extent, imposed.gatherings.as_slice()) {
        (Way::BroadsideUpright | Way::BroadsideAcross, ..) => apart(&[(0, 0, 1, 1)]),
        (Way::Folio, Extent::Whole, _) => apart(&[(0, 0, 1, 2)]),
        (Way::Folio, Extent::Half, _) => apart(&[(0, 0, 1, 1), (0, 1, 1, 1)]),
        (Way::Quarto, Extent::Whole, _) => apart(&[(0, 0, 2, 2)]),
        (Way::Quarto, Extent::Half, _) => apart(&[(0, 0, 1, 2), (1, 0, 1, 2)]),
        (Way::Octavo, Extent::Whole, _) => apart(&[(0, 0, 2, 4)]),
        (Way::Octavo, Extent::Half, _) => apart(&[(0, 0, 2, 2), (0, 2, 2, 2)]),
        (Way::TwelvesCommon, Extent::Whole, [12]) => twelve(0).to_vec(),
        (Way::TwelvesCommon, Extent::Whole, _) => apart(&[(1, 0, 2, 4), (0, 0, 1, 4)]),
        (Way::TwelvesCommon, Extent::Half, _) => after(six(0).to_vec(), &six(2)),
        // On paper the columns of the stone are reversed: the off-cut of the long 12° lies at the left.
        (Way::TwelvesLong, Extent::Whole, [12]) => vec![((0, 2, 2, 4), None), ((0, 0, 2, 2), Some(0))],
        (Way::TwelvesLong, Extent::Whole, _) => apart(&[(0, 2, 2, 4), (0, 0, 2, 2)]),
        (Way::TwelvesLong, Extent::Half, _) => {
            vec![((1, 2, 1, 4), None), ((1, 0, 1, 2), Some(0)), ((0, 2, 1, 4), None), ((0, 0, 1, 2), Some(2))]
        }
        (Way::Sixteens, Extent::Whole, [16]) => vec![((2, 0, 2, 4), None), ((0, 0, 2, 4), Some(0))],
        (Way::Sixteens, ..) => apart(&[(2, 0, 2, 4), (0, 0, 2, 4)]),
        (Way::Eighteens, Extent::Half, _) => {
            let copy = |side: usize, middle: usize, single: usize| {
                [
                    ((1, side, 2, 2), None),
                    ((0, side, 1, 2), Some(0)),
                    ((middle, 2, 1, 2), Some(1)),
                    ((0, single, 1, 1), Some(2)),
                ]
            };
            after(copy(4, 2, 3).to_vec(), &copy(0, 1, 2))
        }
        (Way::Eighteens, _, [6, 6, 6]) => after(after(six(0).to_vec(), &six(2)), &six(4)),
        (Way::Eighteens, _, [12, 6]) => after(twelve(2).to_vec(), &six(0)),
        (Way::Eighteens, ..) => vec![
            ((1, 2, 2, 4), None),
            ((0, 2, 1, 4), Some(0)),
            ((1, 0, 2, 2), Some(1)),
            ((0, 0, 1, 2), Some(2)),
        ],
        // On paper the columns of the stone are reversed: the outer strip lies at the right.
        (Way::TwentyFoursLong, _, [8, ..]) => {
            vec![((1, 4, 2, 4), None), ((1, 0, 2, 4), None), ((0, 4, 1, 4), None), ((0, 0, 1, 4), Some(2))]
        }
        (Way::TwentyFoursLong, ..) => after(twelve(0).to_vec(), &twelve(4)),
        (Way::TwentyFoursCommon | Way::TwentyFoursBroad, _, [12, 12] | [12]) => {
            let mirrored = |pieces: [(Cut, Option<usize>); 2]| {
                pieces.map(|((r, c, rows, columns), into)| ((r, 6 - c - columns, rows, columns), into))
            };
            after(mirrored(long(2)).to_vec(), &mirrored(long(0)))
        }
        (Way::TwentyFoursCommon | Way::TwentyFoursBroad, ..) => {
            apart(&[(0, 0, 4, 2), (0, 2, 4, 2), (0, 4, 4, 2)])
        }
        (Way::ThirtyTwos, ..) => apart(&[(0, 0, 2, 4), (0, 4, 2, 4), (2, 0, 2, 4), (2, 4, 2, 4)]),
        (Way::SixtyFours, ..) => {
            let all: Vec<Cut> = (0..4).flat_map(|r| [(2 * r, 0, 2, 4), (2 * r, 4, 2, 4)]).collect();
            apart(&all)
        }
    }
}

/// The gatherings that come of a printed sheet, in the order of their first pages.
fn made_up(imposed: &Imposition) -> Vec<Vec<Leaf>> {
    let paper = sheet(imposed);
    let cuts = cuts(imposed);
    let told = |what: &str| format!("{} {:?} {:?}: {what}", imposed.way, imposed.extent, imposed.gatherings);
    let mut piles: Vec<Vec<Leaf>> = Vec::new();
    for ((row, column, rows, columns), _) in &cuts {
        let piece: Paper =
            paper[*row..row + rows].iter().map(|r| r[*column..column + columns].to_vec()).collect();
        piles.push(folded(&piece).unwrap_or_else(|| panic!("{}", told("a piece does not fold"))));
    }
    // The innermost first, so that what is laid in goes along.
    for (i, (_, into)) in cuts.iter().enumerate().rev() {
        if let Some(into) = into {
            let inset = std::mem::take(&mut piles[i]);
            let middle = piles[*into].len() / 2;
            piles[*into].splice(middle..middle, inset);
        }
    }
    piles.retain(|p| !p.is_empty());
    piles.sort_by_key(|p| p[0].above.page);
    piles
}

#[test]
fn every_scheme_folds_into_its_pages_in_order() {
    let all = schemes();
    assert_eq!(all.len(), 34, "{:?}", all.iter().map(|s| (s.way, s.extent)).collect::<Vec<_>>());
    for imposed in &all {
        let told = format!("{} {:?} {:?}", imposed.way, imposed.extent, imposed.gatherings);
        let piles = made_up(imposed);
        let lengths: Vec<u16> = piles.iter().map(|p| p.len() as u16).collect();
        let pages: Vec<u16> = piles.iter().flatten().flat_map(|l| [l.above.page, l.below.page]).collect();
        let wanted: Vec<u16> = (1..=imposed.pages()).collect();
        match imposed.extent {
            Extent::Whole => {
                assert_eq!(lengths, imposed.gatherings, "{told}");
                assert_eq!(pages, wanted, "{told}");
            }
            // Cut in two, a half-sheet is there twice.
            Extent::Half => {
                let mut twice = wanted.clone();
                twice.extend(wanted);
                let mut sorted = pages.clone();
                sorted.sort_unstable();
                twice.sort_unstable();
                assert_eq!(sorted, twice, "{told}");
                let gathered: Vec<u16> =
                    imposed.gatherings.iter().flat_map(|&leaves| [leaves, leaves]).collect();
                assert_eq!(lengths, gathered, "{told}");
                for pile in &piles {
                    let first = pile[0].above.page;
                    let run: Vec<u16> = pile.iter().flat_map(|l| [l.above.page, l.below.page]).collect();
                    let wanted: Vec<u16> = (first..first + 2 * pile.len() as u16).collect();
                    assert_eq!(run, wanted, "{told}");
                }
            }
        }
    }
}

/// Two pages exchanged on the stone: no folding of such a sheet comes out right, so the test above can fail.
#[test]
fn a_forme_with_two_pages_exchanged_does_not_fold() {
    let mut octavo = schemes().into_iter().find(|s| s.way == Way::Octavo).unwrap();
    let row = &mut octavo.formes[0].rows[1];
    row.swap(0, 1);
    let piece: Paper = sheet(&octavo);
    assert!(folded(&piece).is_none());
}

/// Savage, *Dictionary of the Art of Printing* (1841), "Imposing" (seen): of every two pages that lie side by side across a
/// back, the folios add up to one more than there are pages. His sums: folio 5, quarto 9, octavo 17, duodecimo 25,
/// sixteens 33, eighteens 37, where the sheet is one gathering.
#[test]
fn folios_beside_each_other_add_up_as_savage_says() {
    let sums = [
        (Way::Folio, 5),
        (Way::Quarto, 9),
        (Way::Octavo, 17),
        (Way::TwelvesCommon, 25),
        (Way::Sixteens, 33),
        (Way::Eighteens, 37),
    ];
    for (way, sum) in sums {
        let one = schemes()
            .into_iter()
            .find(|s| s.way == way && s.extent == Extent::Whole && s.gatherings.len() == 1)
            .unwrap();
        for row in one.formes.iter().flat_map(|f| &f.rows) {
            for pair in row.chunks(2) {
                assert_eq!(pair[0].page + pair[1].page, sum, "{way}");
            }
        }
    }
}

/// Half a sheet of 18°: four pages change rows before the second side is printed, and no other does. From memory, after Smith, *The
/// Printer's Grammar* (1755): they are the four lowermost in the middle, 7 and 12, 8 and 11.
#[test]
fn in_the_half_sheet_of_eighteens_four_pages_are_moved() {
    let half = schemes().into_iter().find(|s| s.way == Way::Eighteens && s.extent == Extent::Half).unwrap();
    let names: Vec<FormeName> = half.formes.iter().map(|f| f.name).collect();
    assert_eq!(names, [FormeName::HalfSheet, FormeName::HalfSheetMoved]);
    let mut moved = Vec::new();
    for (r, (row, then)) in half.formes[0].rows.iter().zip(&half.formes[1].rows).enumerate() {
        for (c, (before, after)) in row.iter().zip(then).enumerate() {
            if before != after {
                moved.push((r, c, before.page, after.page));
            }
        }
    }
    assert_eq!(moved, [(1, 2, 8, 12), (1, 3, 11, 7), (2, 2, 7, 11), (2, 3, 12, 8)]);
    // No other half-sheet needs it.
    let others = schemes().into_iter().filter(|s| s.extent == Extent::Half && s.way != Way::Eighteens);
    assert!(others.into_iter().all(|s| s.formes.len() == 1));
}

/// Cowie, *Printer's Pocket-Book and Manual*, "Of Imposing" (seen): a sheet in folio has 1 and 4 in the outer forme and 3
/// and 2 in the inner, from the left hand.
#[test]
fn the_sheet_of_folio_lies_as_cowie_has_it() {
    let folio = schemes().into_iter().find(|s| s.way == Way::Folio).unwrap();
    let pages = |i: usize| folio.formes[i].rows[0].iter().map(|p| p.page).collect::<Vec<_>>();
    assert_eq!((pages(0), pages(1)), (vec![1, 4], vec![3, 2]));
    assert_eq!(folio.formes[0].name, FormeName::Outer);
}

/// From memory, after Gaskell's and Smith's figures: the formes of a sheet of 8° and of the common 12°, and the half-sheet
/// of 8°.
#[test]
fn octavo_and_twelves_lie_as_the_manuals_have_them() {
    let pages = |way: Way, extent: Extent, forme: usize| -> Vec<Vec<u16>> {
        let of = schemes().into_iter().find(|s| s.way == way && s.extent == extent).unwrap();
        of.formes[forme].rows.iter().map(|row| row.iter().map(|p| p.page).collect()).collect()
    };
    assert_eq!(pages(Way::Octavo, Extent::Whole, 0), [[8, 9, 12, 5], [1, 16, 13, 4]]);
    assert_eq!(pages(Way::Octavo, Extent::Whole, 1), [[6, 11, 10, 7], [3, 14, 15, 2]]);
    assert_eq!(
        pages(Way::TwelvesCommon, Extent::Whole, 0),
        [[12, 13, 16, 9], [8, 17, 20, 5], [1, 24, 21, 4]]
    );
    assert_eq!(
        pages(Way::TwelvesCommon, Extent::Whole, 1),
        [[10, 15, 14, 11], [6, 19, 18, 7], [3, 22, 23, 2]]
    );
    assert_eq!(pages(Way::Octavo, Extent::Half, 0), [[4, 5, 6, 3], [1, 8, 7, 2]]);
}

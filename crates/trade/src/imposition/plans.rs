//! The schemes: which pieces a sheet is cut into, which pages each holds, and how half a sheet is turned.

use super::units::Unit;
use super::{Extent, Turn};
use crate::format::Way;

/// A piece in its place on the outer side, with the pages it holds in the order in which it folds.
pub(super) struct Piece {
    pub(super) unit: Unit,
    pub(super) row: usize,
    pub(super) column: usize,
    pub(super) turned: bool,
    /// Whether its inner side lies on the outer side of the sheet: the other copy of a piece that lies there too.
    pub(super) is_inner: bool,
    pub(super) pages: Vec<(u16, u16)>,
}

/// A scheme.
pub(super) struct Plan {
    pub(super) way: Way,
    pub(super) extent: Extent,
    /// Leaves of each gathering that comes of it, in order.
    pub(super) gathered: Vec<u16>,
    pub(super) turn: Turn,
    pub(super) pieces: Vec<Piece>,
    pub(super) making_up: &'static str,
}

fn piece(unit: Unit, row: usize, column: usize, pages: &[(u16, u16)]) -> Piece {
    Piece { unit, row, column, turned: false, is_inner: false, pages: pages.to_vec() }
}

fn turned(piece: Piece) -> Piece {
    Piece { turned: true, ..piece }
}

fn inner(piece: Piece) -> Piece {
    Piece { is_inner: true, ..piece }
}

/// Pages moved on by so many, for a second or third gathering of one sheet.
fn later(pieces: Vec<Piece>, pages: u16) -> Vec<Piece> {
    let on = |(a, b): (u16, u16)| (a + pages, b + pages);
    pieces.into_iter().map(|p| Piece { pages: p.pages.iter().map(|&r| on(r)).collect(), ..p }).collect()
}

/// The twelve leaves of the common 12° at a column: an octavo, and above it the off-cut with its heads to the cut.
fn twelve(column: usize) -> Vec<Piece> {
    vec![
        piece(Unit::Octavo, 1, column, &[(1, 8), (17, 24)]),
        turned(piece(Unit::Strip, 0, column, &[(9, 16)])),
    ]
}

/// The twelve leaves of the long 12° at a row: an octavo, and beside it the off-cut as a quarto.
fn long_twelve(row: usize) -> Vec<Piece> {
    vec![piece(Unit::Octavo, row, 0, &[(1, 8), (17, 24)]), piece(Unit::Quarto, row, 4, &[(9, 16)])]
}

/// Eight leaves in the uppermost row, as two strips of four of which the second lies in the first; their pages from the first on.
fn strips(first: u16) -> [Piece; 2] {
    let on = |page: u16| first - 1 + page;
    [
        turned(piece(Unit::Strip, 0, 0, &[(on(1), on(4)), (on(13), on(16))])),
        turned(piece(Unit::Strip, 0, 4, &[(on(5), on(12))])),
    ]
}

/// Six leaves in three rows of two at a column: a quarto, and above it the off-cut as a folio.
fn six(column: usize) -> Vec<Piece> {
    vec![piece(Unit::Quarto, 1, column, &[(1, 4), (9, 12)]), turned(piece(Unit::Folio, 0, column, &[(5, 8)]))]
}

/// Octavos by themselves, at these rows and columns.
fn octavos(places: &[(usize, usize)]) -> Vec<Piece> {
    places
        .iter()
        .zip(0_u16..)
        .map(|(&(row, column), i)| piece(Unit::Octavo, row, column, &[(16 * i + 1, 16 * i + 16)]))
        .collect()
}

fn whole(way: Way, gathered: &[u16], pieces: Vec<Piece>, making_up: &'static str) -> Plan {
    Plan { way, extent: Extent::Whole, gathered: gathered.to_vec(), turn: Turn::Sideways, pieces, making_up }
}

fn half(way: Way, turn: Turn, gathered: &[u16], pieces: Vec<Piece>, making_up: &'static str) -> Plan {
    Plan { way, extent: Extent::Half, gathered: gathered.to_vec(), turn, pieces, making_up }
}

const INSET: &str = "cut off the strip, fold both parts, lay the folded off-cut into the middle";
const BY_ITSELF: &str = "cut the sheet, fold each part by itself; each is a gathering of its own";

/// The plans for whole sheets.
///
/// That a sheet of 12° makes 12, or 8 and 4; of 16° eights; of 18° 18, 12 and 6, or three sixes; of 24° two twelves or
/// three eights: Koninklijke Bibliotheek, handbook of the Short-Title Catalogue Netherlands, field 4062 (seen). Where each
/// part lies on the sheet: common practice, no source; shops differed. The long 24° in three eights is reckoned from the pieces:
/// no manual was seen that draws it.
fn whole_sheets() -> Vec<Plan> {
    use Unit::{Folio, Leaf, Oblong, Octavo, Quarto, Strip};
    let mut plans = vec![
        whole(Way::BroadsideUpright, &[1], vec![piece(Leaf, 0, 0, &[(1, 2)])], "not folded"),
        whole(Way::BroadsideAcross, &[1], vec![piece(Leaf, 0, 0, &[(1, 2)])], "not folded"),
        whole(Way::Folio, &[2], vec![piece(Folio, 0, 0, &[(1, 4)])], "fold once"),
        whole(Way::Quarto, &[4], vec![piece(Quarto, 0, 0, &[(1, 8)])], "fold twice"),
        whole(Way::Octavo, &[8], octavos(&[(0, 0)]), "fold three times"),
        whole(Way::TwelvesCommon, &[12], twelve(0), INSET),
        whole(
            Way::TwelvesCommon,
            &[8, 4],
            vec![piece(Octavo, 1, 0, &[(1, 16)]), turned(piece(Strip, 0, 0, &[(17, 24)]))],
            BY_ITSELF,
        ),
        whole(Way::TwelvesLong, &[12], long_twelve(0), INSET),
        whole(
            Way::TwelvesLong,
            &[8, 4],
            vec![piece(Octavo, 0, 0, &[(1, 16)]), piece(Quarto, 0, 4, &[(17, 24)])],
            BY_ITSELF,
        ),
        whole(Way::Sixteens, &[8, 8], octavos(&[(2, 0), (0, 0)]), BY_ITSELF),
        whole(
            Way::Sixteens,
            &[16],
            vec![piece(Octavo, 2, 0, &[(1, 8), (25, 32)]), piece(Octavo, 0, 0, &[(9, 24)])],
            "cut the sheet in two, fold each half, lay one into the middle of the other",
        ),
    ];
    plans.extend(eighteens());
    plans.extend([
        whole(
            Way::TwentyFoursLong,
            &[12, 12],
            [twelve(0), later(twelve(4), 24)].into_iter().flatten().collect(),
            "cut the sheet in two; make up each half as a common 12°",
        ),
        whole(
            Way::TwentyFoursLong,
            &[8, 8, 8],
            octavos(&[(1, 0), (1, 4)]).into_iter().chain(strips(33)).collect(),
            "cut off the strip and cut it in two; fold each eight by itself, and of the strip one half into the other",
        ),
        whole(Way::ThirtyTwos, &[8; 4], octavos(&[(2, 0), (2, 4), (0, 0), (0, 4)]), BY_ITSELF),
        whole(
            Way::SixtyFours,
            &[8; 8],
            octavos(&[(6, 0), (6, 4), (4, 0), (4, 4), (2, 0), (2, 4), (0, 0), (0, 4)]),
            BY_ITSELF,
        ),
    ]);
    for way in [Way::TwentyFoursCommon, Way::TwentyFoursBroad] {
        plans.push(whole(
            way,
            &[12, 12],
            [long_twelve(2), later(long_twelve(0), 24)].into_iter().flatten().collect(),
            "cut the sheet in two; make up each half as a long 12°",
        ));
        let eights =
            [0_u16, 1, 2].map(|i| piece(Oblong, 0, usize::from(i) * 2, &[(16 * i + 1, 16 * i + 16)]));
        plans.push(whole(way, &[8, 8, 8], eights.into(), BY_ITSELF));
    }
    plans
}

/// The three plans of 18°.
fn eighteens() -> [Plan; 3] {
    use Unit::{Folio, Octavo, Quarto, Strip};
    [
        whole(
            Way::Eighteens,
            &[6, 6, 6],
            [six(0), later(six(2), 12), later(six(4), 24)].into_iter().flatten().collect(),
            "cut the sheet in three; of each third cut off the strip and lay it, folded, into the middle",
        ),
        whole(
            Way::Eighteens,
            &[12, 6],
            [twelve(0), later(six(4), 24)].into_iter().flatten().collect(),
            "cut off six leaves; make up the twelve as a common 12°, the six by laying the folded pair into the four",
        ),
        whole(
            Way::Eighteens,
            &[18],
            vec![
                piece(Octavo, 1, 0, &[(1, 8), (29, 36)]),
                turned(piece(Strip, 0, 0, &[(9, 12), (25, 28)])),
                piece(Quarto, 1, 4, &[(13, 16), (21, 24)]),
                turned(piece(Folio, 0, 4, &[(17, 20)])),
            ],
            "cut the sheet in four parts of 8, 4, 4 and 2 leaves; fold each, lay each into the middle of the one before",
        ),
    ]
}

/// The plans for half-sheets: every page in one forme, the heap turned and printed again with it, then cut in two.
///
/// The half-sheet of 8°: from memory, after Gaskell. That half-sheets of 12° were turned end over end as well as sideways:
/// common practice, no source.
fn half_sheets() -> Vec<Plan> {
    use Unit::{Folio, Leaf, Quarto, Strip};
    let cut = "cut the printed sheet in two: each half is a whole gathering, so two copies";
    let inset =
        "cut the printed sheet in two; of each half cut off the strip and lay it, folded, into the middle";
    let mut plans = vec![
        half(Way::Folio, Turn::Sideways, &[1], vec![piece(Leaf, 0, 0, &[(1, 2)])], cut),
        half(Way::Quarto, Turn::EndOverEnd, &[2], vec![piece(Folio, 1, 0, &[(1, 4)])], cut),
        half(Way::Octavo, Turn::Sideways, &[4], vec![piece(Quarto, 0, 0, &[(1, 8)])], cut),
        half(Way::TwelvesCommon, Turn::Sideways, &[6], six(0), inset),
        half(
            Way::TwelvesLong,
            Turn::EndOverEnd,
            &[6],
            vec![piece(Strip, 1, 0, &[(1, 4), (9, 12)]), piece(Folio, 1, 4, &[(5, 8)])],
            inset,
        ),
        half(Way::Sixteens, Turn::EndOverEnd, &[8], octavos(&[(2, 0)]), cut),
        half_eighteens(),
        half(Way::TwentyFoursLong, Turn::Sideways, &[12], twelve(0), inset),
        half(Way::ThirtyTwos, Turn::EndOverEnd, &[8, 8], octavos(&[(2, 0), (2, 4)]), cut),
        half(Way::SixtyFours, Turn::EndOverEnd, &[8; 4], octavos(&[(6, 0), (6, 4), (4, 0), (4, 4)]), cut),
    ];
    for way in [Way::TwentyFoursCommon, Way::TwentyFoursBroad] {
        plans.push(half(way, Turn::EndOverEnd, &[12], long_twelve(2), inset));
    }
    plans
}

/// Half a sheet of 18°, nine leaves: four pairs and one leaf by itself, which is the middle one.
///
/// Three pairs lie at one side of the sheet and their backs at the other. The fourth lies in the middle, where a sheet that is
/// turned sideways falls on itself: one copy of it shows its outer side, the other its inner, and before the second side is printed
/// the four pages change rows. (That the four lowermost pages in the middle, 7, 12 and 8, 11, change places after the white paper
/// is worked off: from memory, after Smith, *The Printer's Grammar* (1755). How heads lie: reckoned.)
fn half_eighteens() -> Plan {
    use Unit::{Folio, Leaf, Quarto};
    let fourth = [(7, 8), (11, 12)];
    half(
        Way::Eighteens,
        Turn::Sideways,
        &[9],
        vec![
            piece(Quarto, 1, 0, &[(1, 4), (15, 18)]),
            turned(piece(Folio, 0, 0, &[(5, 6), (13, 14)])),
            piece(Folio, 2, 2, &fourth),
            turned(inner(piece(Folio, 1, 2, &fourth))),
            turned(piece(Leaf, 0, 2, &[(9, 10)])),
        ],
        "cut the printed sheet in three, and the middle third in two pairs and two single leaves; of each side third cut off the strip, \
         and lay into the four leaves the pair of the strip, into that a pair of the middle, and into that a single leaf",
    )
}

/// Every plan, in the order of the formats, whole sheets before half-sheets.
pub(super) fn plans() -> Vec<Plan> {
    let mut plans = whole_sheets();
    plans.extend(half_sheets());
    plans.sort_by_key(|p| (p.way, p.extent));
    plans
}

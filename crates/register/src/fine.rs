//! Fine placement: coarse to fine over grids of windows, held together by a smooth field.

use crate::crease::{Crease, find};
use crate::needed::needed;
use crate::patches::{Grid, Round, measure};
use crate::settle::settled;
use crate::{Guide, Motion, PaperMap, Pyramid};

/// Resolutions at which the three rounds work, in samples to the inch: places are found at the
/// first, followed at the second, measured at the third.
const ROUND_PPI: [f64; 3] = [75.0, 150.0, 300.0];
/// Sides of the windows, distances between them and reaches of the search, in millimetres. The
/// last round's windows are the fixed 3 mm patches whose residual is reported (DESIGN §5).
const SIDE_MM: [f64; 3] = [6.0, 4.0, 3.0];
const STEP_MM: [f64; 3] = [5.0, 3.3, 2.5];
const REACH_MM: [f64; 3] = [2.5, 0.7, 0.17];
/// Resolution above which nothing is gained for a setting of type.
const ENOUGH_PPI: f64 = 340.0;
/// Windows below this many samples a side hold too little to be placed.
const FEWEST_SAMPLES: usize = 12;
/// Distance between the field's nodes and width of the neighbourhood that holds it, in mm. Cockles
/// are 30 mm and longer; a line of type is 4 to 6 mm high and must not bend the field.
const NODE_MM: f64 = 6.0;
const WIDTH_MM: f64 = 7.0;
/// How often creases are moved to where the print beside them says, at most.
const ROUNDS_OF_SETTLING: usize = 3;

/// The rounds that two photographs' resolutions allow, coarsest first; `px_per_mm` is A's
/// resolution and `scale` the pixels of B to a pixel of A.
pub(crate) fn rounds(a: &Pyramid, b: &Pyramid, px_per_mm: f64, scale: f64) -> Vec<Round> {
    let ppi_a = px_per_mm * 25.4;
    let finest = ppi_a.min(ppi_a * scale).min(ENOUGH_PPI);
    let mut out: Vec<Round> = Vec::new();
    for i in 0..3 {
        let target = ROUND_PPI[i].min(finest * 1.1);
        let level_a = nearest_level(ppi_a / target, a.depth());
        let unit = 2f64.powi(level_a as i32);
        let level_b = nearest_level(unit * scale, b.depth());
        let per_mm = px_per_mm / unit;
        let round = Round {
            level_a,
            level_b,
            side: ((SIDE_MM[i] * per_mm).round() as usize).max(FEWEST_SAMPLES),
            step: (STEP_MM[i] * per_mm).max(2.0),
            reach: (REACH_MM[i] * per_mm).ceil().max(2.0) as usize,
        };
        out.push(round);
    }
    out
}

/// The level of a pyramid of `depth` whose reduction is nearest to `reduction`, the finer one where
/// in doubt.
pub(crate) fn nearest_level(reduction: f64, depth: usize) -> usize {
    (reduction.max(1.0).log2() + 0.35).floor().clamp(0.0, (depth - 1) as f64) as usize
}

/// Everything measured in the last round, and the map it gave.
pub(crate) struct Fine {
    pub(crate) map: PaperMap,
    pub(crate) grid: Grid,
    pub(crate) round: Round,
}

/// First round only: enough to tell a true placement from a chance one.
pub(crate) fn first_round(a: &Pyramid, b: &Pyramid, start: &PaperMap, px_per_mm: f64, round: &Round) -> Fine {
    let grid = measure(a, b, start, round, None);
    let map = with_field(start, &grid, &[], a, px_per_mm);
    Fine { map, grid, round: *round }
}

/// The rounds after the first. Creases are looked for when the second has shown them, and again when the last
/// has shown them sharply.
pub(crate) fn later_rounds(
    a: &Pyramid,
    b: &Pyramid,
    first: Fine,
    guide: &Guide<'_>,
    rounds: &[Round],
) -> Fine {
    let px_per_mm = guide.px_per_mm;
    let last = rounds.iter().skip(1).fold(first, |so_far, round| {
        let grid = measure(a, b, &so_far.map, round, Some(&so_far.grid));
        let creases = creases(&grid, &so_far.map, guide);
        let map = with_field(&so_far.map, &grid, &creases, a, px_per_mm);
        Fine { map, grid, round: *round }
    });
    let mut fine = last;
    for _ in 0..ROUNDS_OF_SETTLING {
        let Some(creases) = settled(a, b, &fine.map, &fine.round, px_per_mm) else { break };
        // What lies between where a crease was thought to run and where it runs is looked for anew.
        let moved = with_field(&fine.map, &fine.grid, &creases, a, px_per_mm);
        let grid = measure(a, b, &moved, &fine.round, Some(&fine.grid));
        let map = with_field(&moved, &grid, &creases, a, px_per_mm);
        fine = Fine { map, grid, round: fine.round };
    }
    fine
}

fn creases(grid: &Grid, map: &PaperMap, guide: &Guide<'_>) -> Vec<Crease> {
    let px_per_mm = guide.px_per_mm;
    let motion = Motion::of_windows(grid, &[], WIDTH_MM * px_per_mm);
    let to_fold = |at| guide.to_fold(at, map);
    let found =
        find(motion.samples(), px_per_mm, motion.usual_scatter(), grid.side(), guide.line_guide(), &to_fold);
    needed(motion.samples(), grid.side(), found, WIDTH_MM * px_per_mm)
}

fn with_field(map: &PaperMap, grid: &Grid, creases: &[Crease], a: &Pyramid, px_per_mm: f64) -> PaperMap {
    let motion = Motion::of_windows(grid, creases, WIDTH_MM * px_per_mm);
    let (w, h) = (a.full().width() as f64, a.full().height() as f64);
    motion
        .field(w, h, NODE_MM * px_per_mm)
        .map_or_else(|| map.clone(), |paper| PaperMap { view: map.view, paper })
}

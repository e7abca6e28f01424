//! Two impressions of a cut, compared.

use super::laid::lay;
use super::pieces::{Piece, pieces, together};
use super::record::{Altered, BlockComparison, PieceFound};
use super::windows::{Window, Windows, again, windows};
use super::{BlockSigns, BlockVerdict, Cut, LaidCut, weight};
use register::composition;
use sheet::{Point, Rect};

/// Two impressions compared, and how the second lies on the first.
#[derive(Debug, Clone)]
pub struct BlocksCompared {
    /// What is told.
    pub comparison: BlockComparison,
    /// How the second lies on the first; `None` where they could not be laid together.
    pub laid: Option<LaidCut>,
}

/// Masses as alike as this are of one design: of real look-alikes all but one of another design have less, all but six close
/// copies more (of twelve and eighteen, `shared/real`; docs/benchmarks.md).
const ONE_DESIGN: f64 = 0.58;

/// Compares two impressions of a cut.
pub fn compare_cuts(a: &Cut, b: &Cut) -> BlocksCompared {
    let Ok(laid) = lay(a, b) else {
        let either_way = composition(&a.ink, &b.ink).max(composition(&a.ink, &b.mirrored().ink));
        return BlocksCompared { comparison: not_laid(a, b, either_way), laid: None };
    };
    let composition = composition(&a.ink, &laid.second.ink);
    let seen = windows(a, &laid.second, &laid.laid);
    let signs = BlockSigns::of(&seen.all, seen.drift, laid.laid.scale);
    let weighed = signs.map(|signs| weight::weigh(&signs));
    let likeness = signs.map_or(0.0, |s| s.likeness);
    let mut verdict = weighed.map_or(BlockVerdict::Undetermined, |w| verdict(w, composition, likeness));
    let mut parts = Vec::new();
    let mut altered = Vec::new();
    match verdict {
        BlockVerdict::SameBlock => altered = changed(a, &seen),
        // What is not clear as a whole is no clearer in parts that were chosen for lying well.
        BlockVerdict::Undetermined => {}
        _ => parts = shared(a, &laid, &seen),
    }
    if !altered.is_empty() || parts.iter().any(|p: &PieceFound| p.verdict.is_one_block()) {
        verdict = BlockVerdict::SameBlockAltered;
    }
    if laid.is_mirrored && verdict.is_one_block() {
        // No block prints the other way round: a photograph does, or what is set off on another sheet.
        verdict = BlockVerdict::Undetermined;
    }
    let weight_log10 = weighed.filter(|_| verdict != BlockVerdict::DifferentDesign);
    let (size_ratio, size_is_true) = size_ratio(a, b, &laid);
    let comparison = BlockComparison {
        verdict,
        weight_log10,
        weight_basis: weight_log10.map(|_| weight::basis()),
        sentence: verdict.sentence().to_owned(),
        reasons: reasons(signs.as_ref(), composition, laid.is_mirrored, &parts, &altered),
        signs,
        composition,
        is_mirrored: laid.is_mirrored,
        size_ratio: Some(size_ratio),
        size_is_true,
        pieces: parts,
        altered,
    };
    BlocksCompared { comparison, laid: Some(laid) }
}

/// What is told of two that share too little to be laid together.
fn not_laid(a: &Cut, b: &Cut, composition: f64) -> BlockComparison {
    let verdict = if !a.is_legible() || !b.is_legible() {
        BlockVerdict::Undetermined
    } else if composition >= ONE_DESIGN {
        BlockVerdict::ReCut
    } else {
        BlockVerdict::DifferentDesign
    };
    BlockComparison {
        verdict,
        weight_log10: None,
        weight_basis: None,
        sentence: verdict.sentence().to_owned(),
        reasons: vec![format!(
            "No size, turn and shift brings the strokes of the two together; as wholes they are alike to {composition:.2} of 1."
        )],
        signs: None,
        composition,
        is_mirrored: false,
        size_ratio: None,
        size_is_true: false,
        pieces: Vec::new(),
        altered: Vec::new(),
    }
}

/// Windows as alike as this, where the motion puts them, are of one design, too: of pairs of other designs that could be
/// laid at all none has more than 0.31 (development set, and `shared/real`).
const STROKES_OF_ONE_DESIGN: f64 = 0.4;

/// The verdict on a whole, or on a piece.
fn verdict(weight: f64, composition: f64, likeness: f64) -> BlockVerdict {
    if weight >= weight::ENOUGH {
        BlockVerdict::SameBlock
    } else if weight > -weight::ENOUGH {
        BlockVerdict::Undetermined
    } else if composition >= ONE_DESIGN || likeness >= STROKES_OF_ONE_DESIGN {
        BlockVerdict::ReCut
    } else {
        BlockVerdict::DifferentDesign
    }
}

/// Pieces of a composite that lie on each other, each laid and judged by its own windows.
fn shared(a: &Cut, laid: &LaidCut, seen: &Windows) -> Vec<PieceFound> {
    pieces(seen)
        .into_iter()
        .filter_map(|piece: Piece| {
            let within: Vec<Rect> = piece.windows.iter().map(|&i| seen.place(i)).collect();
            let alone = again(a, &laid.second, &laid.laid, seen, &within);
            let signs = BlockSigns::of(&alone.all, alone.drift, laid.laid.scale)?;
            let weight = weight::weigh(&signs);
            let place = piece.place.moved(a.corner);
            let box_a_px = [place.x, place.y, place.w, place.h];
            Some(PieceFound {
                box_a_px,
                verdict: verdict(weight, 1.0, 1.0),
                weight_log10: Some(weight),
                signs,
            })
        })
        .collect()
}

/// Windows this unlike, where both show strokes, may be a part that is not the same.
const UNLIKE: f32 = 0.35;
/// Such a part has so many windows, of which most are unlike.
const FEWEST: usize = 30;
const LEAST_SHARE: f64 = 0.03;

/// Parts of one block that are not the same.
fn changed(a: &Cut, seen: &Windows) -> Vec<Altered> {
    let strokes = seen.all.iter().filter(|w| w.shows_strokes()).count();
    let unlike = |w: &Window| w.shows_strokes() && w.score[0] < UNLIKE && w.score[1] < 2.0 * UNLIKE;
    together(seen, unlike)
        .into_iter()
        .filter(|g| g.len() >= FEWEST && g.len() as f64 >= LEAST_SHARE * strokes as f64)
        .filter_map(|g| {
            let place = seen.around(&g)?.moved(a.corner);
            let share = g.len() as f64 / strokes.max(1) as f64;
            Some(Altered { box_a_px: [place.x, place.y, place.w, place.h], share })
        })
        .collect()
}

/// The second's width and height by those of the first.
fn size_ratio(a: &Cut, b: &Cut, laid: &LaidCut) -> ([f64; 2], bool) {
    let middle = a.body.centre();
    let half = Point::new(a.body.w / 4.0, a.body.h / 4.0);
    let to = |x: f64, y: f64| laid.laid.map.to_b(middle + Point::new(x, y));
    let across = to(half.x, 0.0).distance(to(-half.x, 0.0)) / (2.0 * half.x);
    let down = to(0.0, half.y).distance(to(0.0, -half.y)) / (2.0 * half.y);
    let scales = a.scale.as_ref().zip(b.scale.as_ref());
    let k = scales.map(|(a, b)| a.ppi.px_per_mm() / b.ppi.px_per_mm());
    ([across, down].map(|r| r * k.unwrap_or(1.0)), k.is_some())
}

fn reasons(
    signs: Option<&BlockSigns>,
    composition: f64,
    is_mirrored: bool,
    parts: &[PieceFound],
    altered: &[Altered],
) -> Vec<String> {
    let mut say = Vec::new();
    match signs {
        Some(s) => {
            say.push(format!(
                "Of {} small windows in which both show strokes, half are alike to {:.2} of 1 and more where the paper's motion \
                 puts them, four in five to {:.2}.",
                s.windows, s.likeness, s.poorest
            ));
            say.push(format!(
                "The strokes of {:.0} percent of them were found there; half of these lie within {:.2} px of their neighbours' \
                 smooth motion.",
                100.0 * s.found, s.wandering_px
            ));
        }
        None => say.push("Too little of either shows strokes.".to_owned()),
    }
    say.push(format!("As wholes the two are alike to {composition:.2} of 1."));
    if is_mirrored {
        say.push(
            "The second prints the other way round, as a copy does that was traced onto the wood.".to_owned(),
        );
    }
    for part in parts.iter().filter(|p| p.verdict.is_one_block()) {
        let [x, y, w, h] = part.box_a_px;
        say.push(format!("One part, {w:.0} x {h:.0} px at {x:.0}, {y:.0} of the first, lies on its like; the rest does not."));
    }
    for part in altered {
        let [x, y, w, h] = part.box_a_px;
        say.push(format!(
            "A part, {w:.0} x {h:.0} px at {x:.0}, {y:.0} of the first, holds {:.0} percent of the strokes and is not the same.",
            100.0 * part.share
        ));
    }
    say
}

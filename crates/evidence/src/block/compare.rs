//! Two impressions of a cut, compared.

use super::altered::{BETTER_SAYS, TwoParts, sawn_off, two_parts};
use super::cast::perhaps_a_cast;
use super::design::design;
use super::edges::{as_large, edges};
use super::laid::lay;
use super::lines::{alike_within, lines};
use super::reasons::reasons;
use super::record::{Altered, AlteredHow, BlockComparison, PieceFound, Wandering};
use super::sight::Sight;
use super::size::Size;
use super::strokes::StrokeWindow;
use super::windows::{Windows, windows};
use super::{BlockSigns, BlockVerdict, Cut, DesignSigns, LaidCut, weight};
use crate::rank::median;
use sheet::{Point, Rect};

/// Two impressions compared, and how the second lies on the first.
#[derive(Debug, Clone)]
pub struct BlocksCompared {
    /// What is told.
    pub comparison: BlockComparison,
    /// How the second lies on the first; `None` where they could not be laid together.
    pub laid: Option<LaidCut>,
    /// What windows of strokes say, each by itself; none where they could not be laid together.
    pub strokes: Vec<StrokeWindow>,
    /// What is seen of some of them.
    pub sights: Vec<Sight>,
}

/// Compares two impressions of a cut.
pub fn compare_cuts(a: &Cut, b: &Cut) -> BlocksCompared {
    let Ok(laid) = lay(a, b) else {
        return BlocksCompared {
            comparison: not_laid(a, b),
            laid: None,
            strokes: Vec::new(),
            sights: Vec::new(),
        };
    };
    let seen = windows(a, &laid.second, &laid.laid);
    let strokes = strokes(a, &laid, &seen);
    let signs = signs(a, &laid, &seen, &strokes, a.body);
    let design = design(a, b, Some(&laid), Some(&seen.over));
    let weighed = signs.as_ref().map(weight::weigh);
    let mut told = BlockComparison {
        signs,
        is_mirrored: laid.is_mirrored,
        wandering: wandering(a, &seen),
        edges_per_mille: edges(a, &laid),
        ..about(design, signs.as_ref())
    };
    let size = Size::of(a, b, &laid);
    (told.size_ratio, told.size_is_true) = (Some(size.ratio), size.scale_sd.is_some());
    told.verdict = weighed.map_or(BlockVerdict::Undetermined, |w| verdict(w, told.design_log10));
    if told.edges_per_mille.is_none_or(|e| !as_large(a, e))
        || told.verdict == BlockVerdict::DifferentDesign && is_faint(a, b)
    {
        told.verdict = BlockVerdict::Undetermined;
    }
    if let Some(parts) = two_parts(&strokes, seen.side)
        && let Some(piece) = judged(a, &laid, &parts)
    {
        if piece.verdict.is_one_block() {
            told.verdict = BlockVerdict::SameBlockAltered;
            told.altered.extend(worse(a, &parts));
        }
        told.pieces.push(piece);
    } else if told.verdict == BlockVerdict::SameBlock
        && let Some(strip) = sawn_off(a, &seen.over, &strokes, told.edges_per_mille)
    {
        told.verdict = BlockVerdict::SameBlockAltered;
        told.altered.push(strip);
    }
    if laid.is_mirrored && told.verdict.is_one_block() {
        // No block prints the other way round: a photograph does, or what is set off on another sheet.
        told.verdict = BlockVerdict::Undetermined;
    }
    if told.verdict.is_one_block() {
        told.size_doubt = size.doubt();
    }
    if told.size_is_true && told.verdict == BlockVerdict::SameBlock {
        told.perhaps_a_cast = perhaps_a_cast(size.ratio);
    }
    told.weight_log10 = weighed.filter(|_| told.verdict != BlockVerdict::DifferentDesign);
    told.weight_basis = told.weight_log10.map(|_| weight::basis());
    told.verdict.sentence().clone_into(&mut told.sentence);
    told.reasons = reasons(&told, &size);
    BlocksCompared { comparison: told, laid: Some(laid), strokes, sights: seen.sights }
}

/// What is told of two as wholes, before anything else is.
fn about(design: DesignSigns, signs: Option<&BlockSigns>) -> BlockComparison {
    BlockComparison {
        verdict: BlockVerdict::Undetermined,
        weight_log10: None,
        weight_basis: None,
        sentence: String::new(),
        reasons: Vec::new(),
        signs: None,
        composition: design.composition,
        design_log10: design.weight(signs),
        design,
        is_mirrored: false,
        size_ratio: None,
        size_is_true: false,
        edges_per_mille: None,
        wandering: None,
        size_doubt: None,
        perhaps_a_cast: None,
        pieces: Vec::new(),
        altered: Vec::new(),
    }
}

/// What is told of two that share too little to be laid together.
fn not_laid(a: &Cut, b: &Cut) -> BlockComparison {
    let mut told = about(design(a, b, None, None), None);
    if a.is_legible() && b.is_legible() && !is_faint(a, b) && told.design.grey < GREY {
        told.verdict = one_design(told.design_log10);
    }
    told.verdict.sentence().clone_into(&mut told.sentence);
    told.reasons = vec![format!(
        "No size, turn and shift brings the strokes of the two together; as wholes they are alike to {:.2} of 1.",
        told.composition
    )];
    told
}

/// Greyness from which two that could not be laid are not told apart as wholes. Of 27 simulated impressions of one block that could not
/// be laid 18 are greyer, of 32 sound ones of two designs four.
const GREY: f64 = 0.75;

/// One has so much less ink than the other that of its design hardly anything may be seen (common practice, no source).
const FAINT: f64 = 0.4;

/// Whether one of the two took so little ink that another design is not to be told from a bad impression.
fn is_faint(a: &Cut, b: &Cut) -> bool {
    let [p, q] = [a, b].map(Cut::inked);
    p.min(q) < FAINT * p.max(q)
}

/// The verdict on a whole by its weight and that of its design.
fn verdict(weight: f64, design_log10: f64) -> BlockVerdict {
    if weight >= weight::ENOUGH {
        BlockVerdict::SameBlock
    } else if weight > -weight::ENOUGH {
        BlockVerdict::Undetermined
    } else {
        one_design(design_log10)
    }
}

/// Weight of the masses, either way, from which it is told whether two blocks show one design: five to one, as of blocks.
const ENOUGH_OF_DESIGN: f64 = 0.7;

/// The verdict on two that are not of one block.
fn one_design(design_log10: f64) -> BlockVerdict {
    if design_log10 >= ENOUGH_OF_DESIGN {
        BlockVerdict::ReCut
    } else if design_log10 <= -ENOUGH_OF_DESIGN {
        BlockVerdict::DifferentDesign
    } else {
        BlockVerdict::Undetermined
    }
}

/// What windows of strokes say.
fn strokes(a: &Cut, laid: &LaidCut, seen: &Windows) -> Vec<StrokeWindow> {
    let coarser = laid.laid.scale.min(1.0);
    seen.beside.iter().map(|w| StrokeWindow::of(w, coarser, a.unit())).collect()
}

/// All signs of a cut, or of the part of it in a box.
fn signs(
    a: &Cut,
    laid: &LaidCut,
    seen: &Windows,
    strokes: &[StrokeWindow],
    place: Rect,
) -> Option<BlockSigns> {
    let of_lines = lines(a.ink.full(), &seen.over, place, a.unit());
    BlockSigns::of(seen, strokes, of_lines, place.w.max(place.h), laid.laid.scale)
}

/// The better of two parts, laid and weighed by itself: the rest has bent what was found of it.
fn judged(a: &Cut, laid: &LaidCut, parts: &TwoParts) -> Option<PieceFound> {
    let part = a.part(parts.place, parts.better_within);
    let again = lay(&part, &laid.second).ok().filter(|again| !again.is_mirrored)?;
    let seen = windows(&part, &again.second, &again.laid);
    let signs = signs(&part, &again, &seen, &strokes(&part, &again, &seen), part.body)?;
    let weight = weight::weigh(&signs);
    let place = part.body.moved(a.corner);
    Some(PieceFound {
        box_a_px: [place.x, place.y, place.w, place.h],
        verdict: if signs.windows_say < BETTER_SAYS {
            BlockVerdict::Undetermined
        } else {
            verdict(weight, f64::INFINITY)
        },
        weight_log10: Some(weight),
        signs,
    })
}

/// The worse of two parts, where it is a rectangle.
fn worse(a: &Cut, parts: &TwoParts) -> Option<Altered> {
    let place = parts.place.moved(a.corner);
    (!parts.better_within).then_some(Altered {
        box_a_px: [place.x, place.y, place.w, place.h],
        share: parts.worse_share,
        what: AlteredHow::CutAnew,
    })
}

/// How far lines wander, and how far from each other they still wander alike.
fn wandering(a: &Cut, seen: &Windows) -> Option<Wandering> {
    let residuals: Vec<(Point, Point)> =
        seen.all.iter().filter(|w| w.shows_strokes()).filter_map(|w| Some((w.at, w.residual?))).collect();
    if residuals.is_empty() {
        return None;
    }
    let amount = median(residuals.iter().map(|r| r.1.length()).collect());
    let alike_within = alike_within(&residuals, seen.step);
    let per_mille = |px: f64| 1000.0 * px / a.body.w;
    let mm = |px: f64| a.scale.as_ref().map(|s| px / s.ppi.px_per_mm());
    Some(Wandering {
        per_mille: per_mille(amount),
        mm: mm(amount),
        alike_within_per_mille: alike_within.map(per_mille),
        alike_within_mm: alike_within.and_then(mm),
    })
}

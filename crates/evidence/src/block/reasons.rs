//! Why a verdict on two cuts was given, in plain words.

use super::record::{Altered, BlockComparison, PieceFound, Wandering};
use super::size::Size;
use super::{BlockSigns, PlacesKept};

/// The reasons, of a comparison in which all else is told, of two laid cuts, and of their size.
pub(super) fn reasons(told: &BlockComparison, size: &Size) -> Vec<String> {
    let mut say = Vec::new();
    match &told.signs {
        Some(signs) => of_strokes(signs, told.wandering.as_ref(), &mut say),
        None => say.push("Too little of either shows strokes.".to_owned()),
    }
    say.push(size.words());
    say.extend(told.size_doubt.clone());
    say.push(format!("As wholes the two are alike to {:.2} of 1.", told.composition));
    if told.is_mirrored {
        say.push(
            "The second prints the other way round: a copy traced onto the wood does, and so does a photograph that was \
             mirrored, or ink set off onto another sheet."
                .to_owned(),
        );
    }
    say.extend(told.pieces.iter().map(of_piece));
    say.extend(told.altered.iter().map(of_alteration));
    say.extend(told.perhaps_a_cast.clone());
    say
}

fn of_strokes(s: &BlockSigns, wandering: Option<&Wandering>, say: &mut Vec<String>) {
    say.push(format!(
        "Of {} small windows in which both show strokes, half are alike to {:.2} of 1 and more where the paper's motion puts \
         them, four in five to {:.2}.",
        s.windows, s.likeness, s.poorest
    ));
    if let Some(w) = wandering {
        let within = match (w.alike_within_mm, w.alike_within_per_mille) {
            (Some(mm), _) => format!("; windows up to {mm:.1} mm from each other lie off alike"),
            (_, Some(share)) => {
                format!(
                    "; windows up to {share:.0} thousandths of the cut's width from each other lie off alike"
                )
            }
            _ => String::new(),
        };
        let amount = match w.mm {
            Some(mm) => format!("{mm:.2} mm"),
            None => format!("{:.1} thousandths of the cut's width", w.per_mille),
        };
        say.push(format!(
            "The strokes of {:.0} percent of them were found there; half of these lie within {amount} of their neighbours' \
             smooth motion{within}.",
            100.0 * s.found
        ));
    }
    if s.sight != 0.0 {
        let [mean, poorest] = [s.sight, s.sight_poorest].map(|odds| odds.abs().exp());
        let mean_speaks = if s.sight > 0.0 { "for" } else { "against" };
        let poorest_speak = if s.sight_poorest > 0.0 {
            format!("for it by no more than {poorest:.1} to one")
        } else {
            format!("against it by {poorest:.1} to one and more")
        };
        say.push(format!(
            "Looked at one by one as pictures, windows speak {mean_speaks} one block by {mean:.1} to one in the mean, the poorest \
             fifth of them {poorest_speak}."
        ));
    }
    let places = |what: &str, p: PlacesKept| {
        let PlacesKept { kept, moved, gone } = p;
        format!(
            "Of {} {what} of the first, where the second shows strokes too, {kept} are where they were, {moved} stand a little \
             off, {gone} are not found.",
            p.all()
        )
    };
    if s.lines.forks.all() > 0 {
        say.push(places("forks and crossings of lines", s.lines.forks));
    }
    if s.lines.ends.all() > 0 {
        say.push(places("ends of lines", s.lines.ends));
    }
    if s.lines.fields > 0 {
        say.push(format!(
            "Both have as many lines in {} of {} fields of hatching.",
            s.lines.fields_equal, s.lines.fields
        ));
    }
}

fn of_piece(piece: &PieceFound) -> String {
    let [x, y, w, h] = piece.box_a_px;
    if piece.verdict.is_one_block() {
        format!(
            "One part, {w:.0} x {h:.0} px at {x:.0}, {y:.0} of the first, lies on its like; the rest does not."
        )
    } else {
        format!(
            "One part, {w:.0} x {h:.0} px at {x:.0}, {y:.0} of the first, lies better than the rest, and not as one block."
        )
    }
}

fn of_alteration(part: &Altered) -> String {
    let [x, y, w, h] = part.box_a_px;
    format!(
        "A part, {w:.0} x {h:.0} px at {x:.0}, {y:.0} of the first, holds {:.0} percent of the strokes: {}.",
        100.0 * part.share,
        part.what.words()
    )
}

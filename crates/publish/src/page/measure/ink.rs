//! The map of the ink: where the words took more of it, and where less.

use std::fmt::Write as _;

use super::MeasuresModel;

/// Shares from which on a place has the next darker tone, and the words for it.
const TONES: [(f64, &str); 5] = [
    (0.0, "less than half of a well inked word"),
    (0.5, "half and more"),
    (0.75, "three quarters and more"),
    (0.9, "well inked"),
    (1.1, "more than well inked"),
];

/// The section; nothing of a side whose ink was not told.
pub(super) fn section(model: &MeasuresModel) -> String {
    if model.ink.is_empty() {
        return String::new();
    }
    let [w, h] = model.side.size_px.map(f64::from);
    let mut cells = String::new();
    for (place, share) in &model.ink {
        let _ = write!(
            cells,
            "<rect class=\"tone-{}\" x=\"{:.1}\" y=\"{:.1}\" width=\"{:.1}\" height=\"{:.1}\"><title>{:.0} percent</title></rect>",
            tone(*share),
            place.x * w,
            place.y * h,
            place.w * w,
            place.h * h,
            100.0 * share
        );
    }
    let mut legend = String::new();
    for (k, (_, words)) in TONES.iter().enumerate() {
        let _ = writeln!(
            legend,
            "<li><svg viewBox=\"0 0 20 14\" aria-hidden=\"true\"><rect class=\"tone-{k}\" width=\"20\" height=\"14\"/></svg>{words}</li>"
        );
    }
    let least = model.ink.iter().map(|i| i.1).fold(f64::INFINITY, f64::min);
    let most = model.ink.iter().map(|i| i.1).fold(0.0, f64::max);
    format!(
        "<section class=\"lines\" id=\"ink\">\n<h2>The ink</h2>\n<p>Of each place of the text, the ink of its words against that of well \
         inked words of their size: from {:.0} to {:.0} percent. Where nothing is drawn no word was found.</p>\n\
         <div class=\"ink-map\">\n<svg viewBox=\"0 0 {w} {h}\" role=\"img\" aria-label=\"Map of the ink of the text\">{cells}</svg>\n\
         <ul class=\"legend\" aria-label=\"What the tones mean\">\n{legend}</ul>\n</div>\n</section>\n",
        100.0 * least,
        100.0 * most
    )
}

/// The tone of a share, from 0.
fn tone(share: f64) -> usize {
    TONES.iter().rposition(|(from, _)| share >= *from).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn more_ink_has_a_darker_tone() {
        assert_eq!([0.0, 0.49, 0.5, 0.8, 1.0, 1.4].map(tone), [0, 0, 1, 2, 3, 4]);
    }
}

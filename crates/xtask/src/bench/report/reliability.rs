//! The reliability plot: the weight that was stated against the weight that the counts support.

use std::fmt::Write as _;

use crate::bench::score::{Weighed, pooled};

/// Side of the square, and its margin, in SVG units.
const SIDE: f64 = 360.0;
const MARGIN: f64 = 48.0;
/// Colours of the house: one setting teal, two settings ochre, what joins them warm black.
const SAME: &str = "#0B6470";
const DIFFERENT: &str = "#B4610F";
const INK: &str = "#2A2623";

/// Both axes in log10 units from `-reach` to `reach`; what lies beyond is drawn on the edge.
struct Axes {
    reach: f64,
}

impl Axes {
    fn x(&self, v: f64) -> f64 {
        MARGIN + SIDE * (v.clamp(-self.reach, self.reach) + self.reach) / (2.0 * self.reach)
    }

    fn y(&self, v: f64) -> f64 {
        MARGIN + SIDE * (self.reach - v.clamp(-self.reach, self.reach)) / (2.0 * self.reach)
    }
}

/// The plot as SVG; `None` unless there are pairs of both kinds.
///
/// Steps of the best monotone calibration (see [`pooled`]) over the stated weights; on the diagonal
/// a weight means what it says. Ticks on the edges are the pairs themselves.
pub(crate) fn plot(weights: &[Weighed], title: &str) -> Option<String> {
    let steps = pooled(weights)?;
    let largest = weights.iter().map(|w| w.log10.abs()).filter(|v| v.is_finite()).fold(0.0, f64::max);
    let axes = Axes { reach: largest.ceil().max(3.0) };
    let (size, end, reach) = (SIDE + 2.0 * MARGIN, MARGIN + SIDE, axes.reach);
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {size} {size}\" font-family=\"serif\" \
         font-size=\"12\" fill=\"{INK}\">\n<title>{title}</title>\n\
         <rect width=\"{size}\" height=\"{size}\" fill=\"#FFFFFF\"/>\n\
         <rect x=\"{MARGIN}\" y=\"{MARGIN}\" width=\"{SIDE}\" height=\"{SIDE}\" fill=\"none\" stroke=\"{INK}\"/>\n\
         <line x1=\"{MARGIN}\" y1=\"{end}\" x2=\"{end}\" y2=\"{MARGIN}\" stroke=\"{INK}\" stroke-dasharray=\"3 4\"/>\n"
    );
    let every = (reach / 4.0).ceil() as i32;
    for v in (-(reach as i32)..=reach as i32).filter(|v| v % every == 0) {
        let (x, y) = (axes.x(f64::from(v)), axes.y(f64::from(v)));
        put(
            &mut svg,
            format_args!("<text x=\"{x:.1}\" y=\"{}\" text-anchor=\"middle\">{v}</text>", end + 16.0),
        );
        put(
            &mut svg,
            format_args!("<text x=\"{}\" y=\"{:.1}\" text-anchor=\"end\">{v}</text>", MARGIN - 8.0, y + 4.0),
        );
    }
    for w in weights {
        let (x, from, colour) =
            if w.same { (axes.x(w.log10), MARGIN, SAME) } else { (axes.x(w.log10), end - 8.0, DIFFERENT) };
        let to = from + 8.0;
        put(
            &mut svg,
            format_args!(
                "<line x1=\"{x:.1}\" y1=\"{from}\" x2=\"{x:.1}\" y2=\"{to}\" stroke=\"{colour}\" stroke-opacity=\"0.5\"/>"
            ),
        );
    }
    for s in &steps {
        let (x1, x2, y) = (axes.x(s.from), axes.x(s.to).max(axes.x(s.from) + 1.0), axes.y(s.log10));
        put(
            &mut svg,
            format_args!(
                "<line x1=\"{x1:.1}\" y1=\"{y:.1}\" x2=\"{x2:.1}\" y2=\"{y:.1}\" stroke=\"{INK}\" stroke-width=\"2.5\"/>"
            ),
        );
    }
    let (middle, same) = (size / 2.0, weights.iter().filter(|w| w.same).count());
    put(
        &mut svg,
        format_args!(
            "<text x=\"{middle}\" y=\"{}\" text-anchor=\"middle\">log10 weight as stated</text>",
            size - 12.0
        ),
    );
    put(
        &mut svg,
        format_args!(
            "<text transform=\"translate(14 {middle}) rotate(-90)\" text-anchor=\"middle\">log10 weight the counts support</text>"
        ),
    );
    put(
        &mut svg,
        format_args!(
            "<text x=\"{MARGIN}\" y=\"20\">{title}</text>\n<text x=\"{MARGIN}\" y=\"38\"><tspan fill=\"{SAME}\">ticks above: {same} in one \
             setting</tspan>; <tspan fill=\"{DIFFERENT}\">below: {} in two</tspan></text>",
            weights.len() - same
        ),
    );
    svg += "</svg>\n";
    Some(svg)
}

/// Adds a line; writing to a string cannot fail.
fn put(svg: &mut String, line: std::fmt::Arguments<'_>) {
    if writeln!(svg, "{line}").is_err() {
        svg.push('\n');
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_pair_has_its_tick_and_nothing_leaves_the_page() {
        let weights: Vec<_> = [(2.0, true), (1.0, true), (f64::NEG_INFINITY, false), (1.5, false)]
            .map(|(log10, same)| Weighed { log10, same })
            .to_vec();
        let svg = plot(&weights, "a set").unwrap();
        assert_eq!(svg.matches("stroke-opacity").count(), 4);
        assert!(!svg.contains("inf") && !svg.contains("NaN"));
        assert_eq!(plot(&weights[..2], "a set"), None);
    }
}

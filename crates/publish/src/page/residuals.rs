//! The map of the residual: a stroke for every patch of print.

use std::fmt::Write as _;

use super::PageModel;
use super::data_uri::data_uri;
use super::text::{Text, number};
use crate::pictures::{HATCHED, ResidualMap};

/// Width of the map in its own units.
const WIDTH: f64 = 1000.0;

/// The section; nothing where there is no map.
pub(super) fn section(model: &PageModel) -> String {
    let Some(map) = model.residuals.as_ref().filter(|map| !map.patches.is_empty()) else {
        return String::new();
    };
    let judged = map.patches.iter().filter(|p| p.displacement.is_some()).count();
    let unjudged = map.patches.len() - judged;
    let hatched = match unjudged {
        0 => String::new(),
        1 => " One patch that could not be found again is hatched.".to_owned(),
        n => format!(" The {n} patches that could not be found again are hatched."),
    };
    format!(
        "<section class=\"text residuals\">\n<h2>What moved on its own</h2>\n<p>Of every patch of print, a stroke from \
         where the smooth motion of the paper puts it to where it was found in the second; {}. In one setting the strokes \
         are short and point any way; where a line was set again they run along it, and grow. Along a rule a patch may \
         slide: such strokes tell little. One that would be longer still ends in a ring.{hatched}</p>\n{}</section>\n",
        Text(&map.drawn_words),
        drawing(map, judged, unjudged)
    )
}

/// The map itself.
fn drawing(map: &ResidualMap, judged: usize, unjudged: usize) -> String {
    let height = WIDTH * map.shape;
    let (mut strokes, mut rings, mut hatched) = (String::new(), String::new(), String::new());
    let side = map.side * WIDTH;
    for patch in &map.patches {
        let [x, y] = patch.middle.map(|v| v * WIDTH);
        let Some(displacement) = patch.displacement else {
            let wide = side * HATCHED;
            let _ = write!(
                hatched,
                "M{:.1} {:.1}h{wide:.1}v{wide:.1}h-{wide:.1}z",
                x - wide / 2.0,
                y - wide / 2.0
            );
            continue;
        };
        let (end, is_cut) = map.stroke(displacement);
        let [dx, dy] = end.map(|v| v * WIDTH);
        let _ = write!(strokes, "M{x:.1} {y:.1}l{dx:.1} {dy:.1}");
        if is_cut {
            let _ = write!(rings, "<circle cx=\"{:.1}\" cy=\"{:.1}\" r=\"4\"/>", x + dx, y + dy);
        }
    }
    let print = map.print.as_ref().map_or_else(String::new, |bytes| {
        format!("<image width=\"100%\" height=\"100%\" href=\"{}\"/>", data_uri("image/jpeg", bytes))
    });
    format!(
        "<svg class=\"map\" viewBox=\"0 0 {} {}\" role=\"img\" aria-label=\"Map of the residual: {judged} patches with \
         their displacements, {unjudged} not judged\">\n<defs><pattern id=\"hatch\" width=\"7\" height=\"7\" \
         patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><path d=\"M0 0v7\"/></pattern></defs>\n\
         {print}<path class=\"hatched\" d=\"{hatched}\"/><path class=\"strokes\" d=\"{strokes}\"/>\
         <g class=\"strokes\">{rings}</g></svg>\n",
        number(WIDTH, 0),
        number(height, 0),
    )
}

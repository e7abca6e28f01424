//! All that is measured of a side, told on its photograph.

use super::extents::{Extents, extents};
use super::incidents::incidents;
use super::ink::ink;
use super::lies::lies;
use super::lying::{angle, bow, skew};
use super::record::{LineMeasures, Measures, TypeMeasures};
use super::sizes::{SURE, TypeSize, type_sizes};
use super::{Length, Side};
use crate::record::{box_px, to_thousandths};
use sheet::{Line, Point, Turned};
use trade::bodies::gap_says;
use trade::lengths::Mm;

/// No lead is thicker than the gap between long letters, but for what ink squeezed out takes of that, at the foot of the one and at the head of
/// the other: millimetres (up to half of what Studies in Bibliography 43 has for a whole sample: seen).
const SQUASH_MM: f64 = 0.25;

/// Measures a side.
pub fn measures(side: &Side) -> Measures {
    let lines = &side.layout.lines;
    let sizes = type_sizes(&side.layout);
    let skew = skew(lines);
    let size_of = |i: usize| sizes.iter().position(|s| s.lines.contains(&i)).unwrap_or_default();
    let usual = skew.map(|s| s.value);
    Measures {
        skew_degrees: usual.map(to_thousandths),
        skew_sd_degrees: skew.map(|s| to_thousandths(s.sd)),
        types: sizes.iter().map(|s| size(s, side)).collect(),
        lines: lines.iter().enumerate().map(|(i, l)| line(l, size_of(i), usual, side.turned)).collect(),
        lies: lies(side),
        ink: ink(side, &sizes),
        incidents: incidents(side),
    }
}

fn size(of: &TypeSize, side: &Side) -> TypeMeasures {
    let (lines, scale) = (&side.layout.lines, side.scale.as_ref());
    let own: Vec<&Line> = of.lines.iter().map(|&i| &lines[i]).collect();
    let Extents { capitals, ascenders, descenders } = extents(side.ink.full(), &own);
    let mm = |px: Length| scale.map(|s| px.in_mm(s).rounded());
    let twenty_lines_px = of.twenty_lines_px();
    let by_faces_px = of.twenty_lines_by_their_faces_px();
    let line_length_px = of.line_length_px(lines);
    let fits = scale.and_then(|s| of.bodies(s));
    let (bodies, mut bodies_with_leads) = fits.map_or_else(Default::default, |f| (f.solid, f.leaded));
    let twenty_mm = twenty_lines_px.and_then(mm);
    let gap_mm = of.pitch.as_ref().zip(ascenders).zip(descenders).and_then(|((pitch, up), down)| {
        let long = up.plus(down).times(-1.0);
        mm(pitch.px.plus(long))
    });
    if let Some(gap) = gap_mm {
        bodies_with_leads.retain(|l| l.lead.thick_mm.0 <= gap.value + SURE * gap.sd + SQUASH_MM);
    }
    TypeMeasures {
        lines: of.lines.clone(),
        longest_run: of.longest_run(),
        twenty_lines_mm: twenty_mm.map(|l| l.value),
        sd_mm: twenty_mm.map(|l| l.sd),
        twenty_lines_px: twenty_lines_px.map(Length::rounded),
        twenty_lines_by_faces_mm: by_faces_px.and_then(mm),
        twenty_lines_by_faces_px: by_faces_px.map(Length::rounded),
        x_height_px: of.x_height_px.rounded(),
        x_height_mm: mm(of.x_height_px),
        capitals_px: capitals.map(Length::rounded),
        capitals_mm: capitals.and_then(mm),
        ascenders_px: ascenders.map(Length::rounded),
        ascenders_mm: ascenders.and_then(mm),
        descenders_px: descenders.map(Length::rounded),
        descenders_mm: descenders.and_then(mm),
        gap_mm,
        gap_says: gap_mm.map(|gap| gap_says(Mm(gap.value)).to_owned()),
        line_length_px: line_length_px.rounded(),
        line_length_mm: mm(line_length_px),
        bodies,
        bodies_with_leads,
    }
}

fn line(of: &Line, size: usize, skew: Option<f64>, turned: Turned) -> LineMeasures {
    let on_photograph = |p: &Point| {
        let p = turned.on_photograph(*p);
        [p.x, p.y].map(to_thousandths)
    };
    LineMeasures {
        baseline_px: to_the_ends(of).iter().map(on_photograph).collect(),
        x_height_px: to_thousandths(of.x_height.0),
        box_px: box_px(turned.box_on_photograph(of.bounds)),
        size,
        words: of.words.len(),
        against_others_degrees: angle(of).zip(skew).map(|(own, all)| to_thousandths(own - all)),
        bow_px: bow(of).map(to_thousandths),
    }
}

/// The baseline to both ends of its line: it was measured at the middles of pieces, and is drawn on as its next piece runs.
fn to_the_ends(line: &Line) -> Vec<Point> {
    let mut out = line.baseline.clone();
    let ([head, next, ..], [.., before, tail]) = (&line.baseline[..], &line.baseline[..]) else { return out };
    let (from, to) = (line.bounds.x, line.bounds.right());
    let on = |p: &Point, q: &Point, x: f64| Point::new(x, p.y + (q.y - p.y) / (q.x - p.x) * (x - p.x));
    if from < head.x {
        out.insert(0, on(head, next, from));
    }
    if to > tail.x {
        out.push(on(before, tail, to));
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::side::of_one_line;
    use sheet::Plane;

    #[test]
    fn a_baseline_is_told_to_both_ends_of_its_line() {
        let places = [(150.0, 201.0), (250.0, 203.0), (350.0, 204.0)].map(|(x, y)| Point::new(x, y));
        let side = of_one_line(Plane::filled(600, 400, 0u8), places.to_vec(), 20.0);
        let mut line = side.layout.lines[0].clone();
        (line.bounds.x, line.bounds.w) = (100.0, 300.0);
        let drawn = to_the_ends(&line);
        assert_eq!(
            (drawn.len(), drawn[0], drawn[4]),
            (5, Point::new(100.0, 200.0), Point::new(400.0, 204.5))
        );
        (line.bounds.x, line.bounds.w) = (150.0, 200.0);
        assert_eq!(to_the_ends(&line), line.baseline);
    }
}

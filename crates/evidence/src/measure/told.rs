//! All that is measured of a side, told on its photograph.

use super::incidents::incidents;
use super::ink::ink;
use super::lies::lies;
use super::lying::{angle, bow, skew};
use super::record::{LineMeasures, Measures, TypeMeasures};
use super::sizes::{TypeSize, type_sizes};
use super::{Length, Side};
use crate::record::{box_px, to_thousandths};
use sheet::scale::Scale;
use sheet::{Line, Turned};

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
        types: sizes.iter().map(|s| size(s, lines, side.scale.as_ref())).collect(),
        lines: lines.iter().enumerate().map(|(i, l)| line(l, size_of(i), usual, side.turned)).collect(),
        lies: lies(side),
        ink: ink(side, &sizes),
        incidents: incidents(side),
    }
}

fn size(of: &TypeSize, lines: &[Line], scale: Option<&Scale>) -> TypeMeasures {
    let mm = |px: Length| scale.map(|s| px.in_mm(s).rounded());
    let twenty_lines_px = of.twenty_lines_px();
    let by_faces_px = of.twenty_lines_by_their_faces_px();
    let line_length_px = of.line_length_px(lines);
    let fits = scale.and_then(|s| of.bodies(s));
    let (bodies, bodies_with_leads) = fits.map_or_else(Default::default, |f| (f.solid, f.leaded));
    let twenty_mm = twenty_lines_px.and_then(mm);
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
        line_length_px: line_length_px.rounded(),
        line_length_mm: mm(line_length_px),
        bodies,
        bodies_with_leads,
    }
}

fn line(of: &Line, size: usize, skew: Option<f64>, turned: Turned) -> LineMeasures {
    let on_photograph = |p: &sheet::Point| {
        let p = turned.on_photograph(*p);
        [p.x, p.y].map(to_thousandths)
    };
    LineMeasures {
        baseline_px: of.baseline.iter().map(on_photograph).collect(),
        x_height_px: to_thousandths(of.x_height.0),
        box_px: box_px(turned.box_on_photograph(of.bounds)),
        size,
        words: of.words.len(),
        against_others_degrees: angle(of).zip(skew).map(|(own, all)| to_thousandths(own - all)),
        bow_px: bow(of).map(to_thousandths),
    }
}

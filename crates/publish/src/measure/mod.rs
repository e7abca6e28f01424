//! Measured sides: their words, and the model of their page.

mod words;

use crate::page::FrameBox;
use crate::page::measure::{IncidentModel, LineModel, MeasuresModel, SizeModel};
use crate::pictures::{CannotDraw, Tiled};
use crate::record::MeasuredSide;
use crate::report::side;
use evidence::measure::{Incident, LineMeasures, TypeMeasures};
use sheet::Plane;

pub use words::in_words;
pub(crate) use words::{class_words, incident_words};

/// Sets what was measured of a side as a page; `photograph` is that of the side in colour, as a viewer shows it, and `command` made the
/// page.
///
/// # Errors
/// When a picture cannot be encoded.
pub fn measures_model(
    of: &MeasuredSide,
    photograph: &Plane<[u8; 3]>,
    program: &str,
    command: String,
) -> Result<MeasuresModel, CannotDraw> {
    let frame = Frame { width: of.photograph.width_px as f64, height: of.photograph.height_px as f64 };
    let m = &of.measures;
    let lies = m.lies.as_ref();
    Ok(MeasuresModel {
        title: crate::report::name(&of.photograph.file),
        verdict_words: words::verdict(of),
        findings: words::findings(of),
        cautions: of.cautions.clone(),
        warnings: of.warnings.clone(),
        measures: words::figures(of),
        side: side(&of.photograph),
        picture: Tiled::of_photograph(photograph)?,
        sizes: m.types.iter().enumerate().map(|(i, t)| size(i, t)).collect(),
        lines: m.lines.iter().enumerate().map(|(i, l)| line(i, l, &frame)).collect(),
        type_area: lies.map(|l| frame.share(l.type_area_px)),
        page: lies.filter(|l| l.page_is_whole).map(|l| frame.share(l.page_px)),
        ink: m
            .ink
            .iter()
            .flat_map(|i| i.map.cells_px.iter().zip(&i.map.shares))
            .map(|(c, s)| (frame.share(*c), *s))
            .collect(),
        incidents: m.incidents.iter().map(|i| incident(i, &frame)).collect(),
        program: program.to_owned(),
        command,
    })
}

/// The photograph, in which places are told as shares.
struct Frame {
    width: f64,
    height: f64,
}

impl Frame {
    fn share(&self, [x, y, w, h]: [f64; 4]) -> FrameBox {
        FrameBox { x: x / self.width, y: y / self.height, w: w / self.width, h: h / self.height }
    }

    fn point(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        [x / self.width, y / self.height]
    }
}

fn size(i: usize, of: &TypeMeasures) -> SizeModel {
    SizeModel {
        number: i + 1,
        lines: of.lines.len(),
        twenty: words::twenty(of),
        by_faces: words::length(of.twenty_lines_by_faces_mm, of.twenty_lines_by_faces_px),
        from_run: of.longest_run,
        x_height: words::length(of.x_height_mm, Some(of.x_height_px)),
        extents: words::extents(of),
        gap: words::gap(i, of),
        longest: words::length(of.line_length_mm, Some(of.line_length_px)),
        bodies: words::bodies(of),
    }
}

fn line(i: usize, of: &LineMeasures, frame: &Frame) -> LineModel {
    LineModel {
        number: i + 1,
        size: of.size + 1,
        words: of.words,
        falls: of.against_others_degrees,
        bow_px: of.bow_px,
        frame: frame.share(of.box_px),
        baseline: of.baseline_px.iter().map(|p| frame.point(*p)).collect(),
    }
}

fn incident(of: &Incident, frame: &Frame) -> IncidentModel {
    IncidentModel {
        class_words: class_words(of.class).to_owned(),
        score: of.score,
        frame: frame.share(of.box_px),
        ends: of.ends_px.map(|ends| ends.map(|p| frame.point(p))),
        where_words: incident_words(of),
    }
}

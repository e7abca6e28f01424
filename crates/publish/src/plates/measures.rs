//! Plates of a measured side: the side with its lines traced and what is to be looked at numbered, and each such place by itself.

use super::Plate;
use crate::measure::{class_words, incident_words};
use crate::pictures::{CannotDraw, Canvas, INK, WHITE, png};
use crate::record::MeasuredSide;
use sheet::{Plane, Ppi, Rect};

/// About a place so many times its size is shown, and x-heights of the text at least; without one pixels.
const ABOUT: f64 = 3.0;
const LEAST_X_HEIGHTS: f64 = 9.0;
const LEAST_PX: f64 = 160.0;
/// Breadth of a drawn line, and height of a number, as shares of the longer side.
const LINE: f64 = 0.0006;
const NUMBER: f64 = 0.011;

/// Hands the plates of a measured side to `put` one by one; `photograph` is that of the side in colour, as a viewer shows it.
///
/// # Errors
/// When a picture cannot be encoded, or with what `put` fails.
pub fn of_measures<E: From<CannotDraw>>(
    of: &MeasuredSide,
    photograph: &Plane<[u8; 3]>,
    mut put: impl FnMut(Plate) -> Result<(), E>,
) -> Result<(), E> {
    let ppi: Option<Ppi> = of.photograph.scale.as_ref().map(|s| s.ppi);
    let marked = png(&marked(of, photograph)?, ppi)?;
    put(Plate { name: "side.png".to_owned(), shows: shows(of), png: marked })?;
    for (i, incident) in of.measures.incidents.iter().enumerate() {
        let [x, y, w, h] = incident.box_px;
        let shows = format!(
            "{}: {}, {}; score {:.2}. A candidate to be confirmed.",
            i + 1,
            class_words(incident.class),
            incident_words(incident),
            incident.score
        );
        let part =
            about(photograph, Rect::new(x, y, w, h), of.measures.types.first().map(|t| t.x_height_px.value));
        let name = format!("incident-{:02}.png", i + 1);
        put(Plate { name, shows, png: png(&part, ppi)? })?;
    }
    Ok(())
}

fn shows(of: &MeasuredSide) -> String {
    let name = crate::report::name(&of.photograph.file);
    let incidents = match of.measures.incidents.len() {
        0 => String::new(),
        _ => "; what is to be looked at is framed, or of creases dashed, and numbered".to_owned(),
    };
    format!("{name}: {} baselines traced, the type area dashed{incidents}.", of.measures.lines.len())
}

/// The photograph with all that was measured drawn on it.
fn marked(of: &MeasuredSide, photograph: &Plane<[u8; 3]>) -> Result<Plane<[u8; 3]>, CannotDraw> {
    let (w, h) = (photograph.width(), photograph.height());
    let mut canvas = Canvas::blank(w, h).ok_or(CannotDraw)?;
    canvas.lay(photograph, 0, 0);
    let longer = w.max(h) as f64;
    let line = (LINE * longer).max(1.0);
    for traced in &of.measures.lines {
        canvas.stroke(&traced.baseline_px, 2.6 * line, WHITE, false);
        canvas.stroke(&traced.baseline_px, line, INK, false);
    }
    if let Some(lies) = &of.measures.lies {
        let r = lies.type_area_px;
        let corners = [
            [r[0], r[1]],
            [r[0] + r[2], r[1]],
            [r[0] + r[2], r[1] + r[3]],
            [r[0], r[1] + r[3]],
            [r[0], r[1]],
        ];
        canvas.stroke(&corners, line, INK, true);
    }
    let high = (NUMBER * longer).max(9.0);
    for (i, incident) in of.measures.incidents.iter().enumerate() {
        let [x, y, w, h] = incident.box_px;
        let gap = 2.0 * line;
        if let Some([from, to]) = incident.ends_px {
            canvas.stroke(&[from, to], 3.0 * line, WHITE, false);
            canvas.stroke(&[from, to], 1.5 * line, INK, true);
            canvas.ring(i + 1, [f64::midpoint(from[0], to[0]), f64::midpoint(from[1], to[1])], high);
            continue;
        }
        canvas.frame([x - gap, y - gap, w + 2.0 * gap, h + 2.0 * gap], 1.5 * line);
        canvas.ring(i + 1, [x - gap - high, y - gap], high);
    }
    Ok(canvas.done())
}

/// A place and what is about it.
fn about(photograph: &Plane<[u8; 3]>, place: Rect, x_height: Option<f64>) -> Plane<[u8; 3]> {
    let least = x_height.map_or(LEAST_PX, |x| LEAST_X_HEIGHTS * x);
    let (c, [w, h]) = (place.centre(), [place.w, place.h].map(|side| (ABOUT * side).max(least)));
    let whole = Rect::new(0.0, 0.0, photograph.width() as f64, photograph.height() as f64);
    let part = Rect::new(c.x - w / 2.0, c.y - h / 2.0, w, h).shared(whole).unwrap_or(whole);
    photograph.crop(part.x as usize, part.y as usize, (part.w as usize).max(1), (part.h as usize).max(1))
}

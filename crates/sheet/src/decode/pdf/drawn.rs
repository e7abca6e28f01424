//! The pictures that a page of a PDF draws, and how it places them.
//!
//! ISO 32000-1: 8.3 (coordinate systems), 8.8 (external objects), 8.10 (form XObjects).

use lopdf::content::Content;
use lopdf::{Dictionary, Document, Object, ObjectId, Stream};

use super::super::Turning;

/// The matrix [a b c d e f] that maps x, y to ax + cy + e, bx + dy + f.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Matrix([f64; 6]);

impl Matrix {
    const NOTHING: Self = Self([1.0, 0.0, 0.0, 1.0, 0.0, 0.0]);

    /// From six numbers; `None` of anything else.
    fn from_objects(objects: &[Object]) -> Option<Self> {
        let mut m = [0.0; 6];
        for (to, from) in m.iter_mut().zip(objects.get(..6)?) {
            *to = f64::from(from.as_float().ok()?);
        }
        Some(Self(m))
    }

    /// This matrix, then `after`.
    fn then(self, after: Self) -> Self {
        let ([a, b, c, d, e, f], [k, l, m, n, o, p]) = (self.0, after.0);
        Self([
            a * k + b * m,
            a * l + b * n,
            c * k + d * m,
            c * l + d * n,
            e * k + f * m + o,
            e * l + f * n + p,
        ])
    }

    /// Width and height, in points, of the unit square when placed: how large a picture is drawn.
    pub(super) fn size(self) -> (f64, f64) {
        let [a, b, c, d, ..] = self.0;
        (a.hypot(b), c.hypot(d))
    }

    /// How the stored rows and columns of the picture lie on the page, to the nearest right angle. A
    /// picture fills the unit square with its first row on top; y runs up the page.
    pub(super) fn turning(self) -> Turning {
        let [a, b, c, d, ..] = self.0;
        let down = (-c, d); // the way down the columns, with y down as on the screen
        let quarters = if down.1.abs() >= down.0.abs() {
            if down.1 >= 0.0 { 0 } else { 2 }
        } else if down.0 < 0.0 {
            1
        } else {
            3
        };
        Turning { mirrored: a * d - b * c < 0.0, quarters }
    }
}

/// A picture on a page.
#[derive(Debug)]
pub(super) struct Drawn<'a> {
    pub(super) stream: &'a Stream,
    pub(super) matrix: Matrix,
}

impl Drawn<'_> {
    /// Square points that it covers.
    pub(super) fn area(&self) -> f64 {
        let (w, h) = self.matrix.size();
        w * h
    }
}

/// An entry of a page, or of the nearest of its ancestors that has it (7.7.3.4).
pub(super) fn inherited<'a>(document: &'a Document, page: ObjectId, key: &[u8]) -> Option<&'a Object> {
    /// Deeper trees of pages are loops.
    const DEEPEST: usize = 64;
    let mut node = document.get_dictionary(page).ok()?;
    for _ in 0..DEEPEST {
        if let Ok(found) = node.get_deref(key, document) {
            return Some(found);
        }
        node = node.get_deref(b"Parent", document).ok()?.as_dict().ok()?;
    }
    None
}

/// What a page shows.
#[derive(Debug, Default)]
pub(super) struct Shown<'a> {
    /// Every picture, in the order drawn.
    pub(super) pictures: Vec<Drawn<'a>>,
    /// Whether it sets type, hidden or not.
    pub(super) text: bool,
}

/// Square points of the page: its media box, US letter when it has none that can be read.
pub(super) fn page_area(document: &Document, page: ObjectId) -> f64 {
    let corners = || {
        let found = inherited(document, page, b"MediaBox")?.as_array().ok()?;
        let number = |i: usize| Some(f64::from(document.dereference(found.get(i)?).ok()?.1.as_float().ok()?));
        Some([number(0)?, number(1)?, number(2)?, number(3)?])
    };
    corners().map_or(612.0 * 792.0, |[left, low, right, high]| ((right - left) * (high - low)).abs())
}

/// The pictures that the page draws, and whether it sets type.
pub(super) fn shown(document: &Document, page: ObjectId) -> Shown<'_> {
    /// Text and drawing of a page that holds a photograph are short.
    const MOST_BYTES: usize = 16 << 20;
    let mut shown = Shown::default();
    let Ok(content) = document.get_page_content_with_limit(page, MOST_BYTES) else { return shown };
    let resources = inherited(document, page, b"Resources").and_then(|r| r.as_dict().ok());
    let mut walk = Walk { document, shown: &mut shown, forms_left: 256, bytes_left: MOST_BYTES };
    walk.content(&content, resources, Matrix::NOTHING, 0);
    shown
}

/// A walk through the operators of a page and of the forms it draws, with bounds against attacks.
struct Walk<'a, 'b> {
    document: &'a Document,
    shown: &'b mut Shown<'a>,
    forms_left: usize,
    bytes_left: usize,
}

impl<'a> Walk<'a, '_> {
    fn content(&mut self, content: &[u8], resources: Option<&'a Dictionary>, start: Matrix, depth: u8) {
        let Ok(content) = Content::decode(content) else { return };
        let mut matrix = start;
        let mut saved = Vec::new();
        for operation in &*content.operations {
            match operation.operator.as_str() {
                "q" => saved.push(matrix),
                "Q" => matrix = saved.pop().unwrap_or(start),
                "cm" => {
                    if let Some(m) = Matrix::from_objects(&operation.operands) {
                        matrix = m.then(matrix);
                    }
                }
                "Do" => {
                    let name = operation.operands.first().and_then(|o| o.as_name().ok());
                    if let Some(stream) = name.and_then(|n| self.named(resources, n)) {
                        self.object(stream, resources, matrix, depth);
                    }
                }
                "Tj" | "TJ" | "'" | "\"" => self.shown.text = true,
                _ => {}
            }
        }
    }

    fn named(&self, resources: Option<&'a Dictionary>, name: &[u8]) -> Option<&'a Stream> {
        let objects = resources?.get_deref(b"XObject", self.document).ok()?.as_dict().ok()?;
        objects.get_deref(name, self.document).ok()?.as_stream().ok()
    }

    fn object(&mut self, stream: &'a Stream, around: Option<&'a Dictionary>, matrix: Matrix, depth: u8) {
        /// Forms within forms; a form may also draw itself.
        const DEEPEST: u8 = 8;
        match stream.dict.get(b"Subtype").and_then(Object::as_name) {
            Ok(b"Image") => self.shown.pictures.push(Drawn { stream, matrix }),
            Ok(b"Form") if depth < DEEPEST && self.forms_left > 0 => {
                self.forms_left -= 1;
                let own = stream.dict.get_deref(b"Matrix", self.document).and_then(Object::as_array);
                let own = own.ok().and_then(|m| Matrix::from_objects(m)).unwrap_or(Matrix::NOTHING);
                let resources = stream.dict.get_deref(b"Resources", self.document).and_then(Object::as_dict);
                let Ok(content) = stream.get_plain_content_with_limit(self.bytes_left) else { return };
                self.bytes_left -= content.len().min(self.bytes_left);
                self.content(&content, resources.ok().or(around), own.then(matrix), depth + 1);
            }
            _ => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn placements_are_turnings() {
        for (m, expected) in [
            ([300.0, 0.0, 0.0, 400.0, 5.0, 6.0], (false, 0)),
            ([0.0, -300.0, 400.0, 0.0, 0.0, 0.0], (false, 1)),
            ([-300.0, 0.0, 0.0, -400.0, 0.0, 0.0], (false, 2)),
            ([0.0, 300.0, -400.0, 0.0, 0.0, 0.0], (false, 3)),
            ([-300.0, 0.0, 0.0, 400.0, 0.0, 0.0], (true, 0)),
            ([300.0, 0.0, 0.0, -400.0, 0.0, 0.0], (true, 2)),
        ] {
            let Turning { mirrored, quarters } = Matrix(m).turning();
            assert_eq!((mirrored, quarters), expected, "{m:?}");
            assert_eq!(Matrix(m).size(), (300.0, 400.0));
        }
    }

    #[test]
    fn matrices_act_one_after_the_other() {
        let scale = Matrix([2.0, 0.0, 0.0, 3.0, 0.0, 0.0]);
        let shift = Matrix([1.0, 0.0, 0.0, 1.0, 10.0, 20.0]);
        assert_eq!(scale.then(shift), Matrix([2.0, 0.0, 0.0, 3.0, 10.0, 20.0]));
        assert_eq!(shift.then(scale), Matrix([2.0, 0.0, 0.0, 3.0, 20.0, 60.0]));
    }
}

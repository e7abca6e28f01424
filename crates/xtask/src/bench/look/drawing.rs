//! A sheet to draw on: photographs, boxes, and words in the press's own type.

use anyhow::Context as _;
use press::{Face, Founts};
use sheet::{Plane, Rect};
use tiny_skia::{
    Color, FillRule, FilterQuality, Paint, PathBuilder, Pixmap, PixmapPaint, Stroke, StrokeDash, Transform,
};

/// The face that words are drawn in.
const FACE: Face = Face::PicaRoman;

/// How a box is drawn.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pen {
    /// Red, green, blue.
    pub colour: [u8; 3],
    /// Breadth of the line, pixels.
    pub breadth: f32,
    /// Length of dashes and gaps; `None` for a whole line.
    pub dash: Option<f32>,
}

/// A drawing, and how many of its pixels go to one of what is drawn.
pub(super) struct Drawing {
    pixmap: Pixmap,
    founts: Founts,
}

impl Drawing {
    /// A white sheet.
    pub(super) fn new(width: u32, height: u32) -> anyhow::Result<Self> {
        let mut pixmap = Pixmap::new(width, height).context("the picture has no size")?;
        pixmap.fill(Color::WHITE);
        Ok(Self { pixmap, founts: Founts::open()? })
    }

    /// Draws a photograph with its top left corner at (x, y), `scale` pixels to one of its own.
    pub(super) fn photograph(
        &mut self,
        picture: &Plane<u8>,
        x: f32,
        y: f32,
        scale: f64,
    ) -> anyhow::Result<()> {
        // Halved first, or a fine photograph drawn small would be a choice of stray pixels.
        let (mut small, mut scale) = (picture.clone(), scale);
        while scale <= 0.5 {
            (small, scale) = (small.halved(), scale * 2.0);
        }
        let mut drawn =
            Pixmap::new(small.width() as u32, small.height() as u32).context("the photograph has no size")?;
        for (rgba, &grey) in drawn.data_mut().chunks_exact_mut(4).zip(small.data()) {
            rgba.copy_from_slice(&[grey, grey, grey, 255]);
        }
        let place = Transform::from_row(scale as f32, 0.0, 0.0, scale as f32, x, y);
        let paint = PixmapPaint { quality: FilterQuality::Bilinear, ..PixmapPaint::default() };
        self.pixmap.draw_pixmap(0, 0, drawn.as_ref(), &paint, place, None);
        Ok(())
    }

    /// Outlines a box.
    pub(super) fn outline(&mut self, r: Rect, pen: Pen) {
        let Some(rect) =
            tiny_skia::Rect::from_xywh(r.x as f32, r.y as f32, r.w.max(1.0) as f32, r.h.max(1.0) as f32)
        else {
            return;
        };
        let dash = pen.dash.and_then(|d| StrokeDash::new(vec![d, d], 0.0));
        let stroke = Stroke { width: pen.breadth, dash, ..Stroke::default() };
        self.pixmap.stroke_path(
            &PathBuilder::from_rect(rect),
            &paint(pen.colour),
            &stroke,
            Transform::identity(),
            None,
        );
    }

    /// Writes words with their baseline starting at (x, y), `size` pixels to the body; gives where they end.
    pub(super) fn words(&mut self, text: &str, x: f64, y: f64, size: f64, colour: [u8; 3]) -> f64 {
        let mut pen = x;
        for glyph in text.chars() {
            let Some(cast) = self.founts.cast(FACE, glyph) else {
                pen += 0.3 * size;
                continue;
            };
            let mut path = PathBuilder::new();
            for line in &cast.outline.0 {
                for (i, p) in line.iter().enumerate() {
                    let (px, py) = ((pen + p.x * size) as f32, (y + p.y * size) as f32);
                    if i == 0 { path.move_to(px, py) } else { path.line_to(px, py) }
                }
                path.close();
            }
            if let Some(path) = path.finish() {
                self.pixmap.fill_path(&path, &paint(colour), FillRule::Winding, Transform::identity(), None);
            }
            pen += cast.width * size;
        }
        pen
    }

    /// Writes the drawing as a PNG.
    pub(super) fn save(&self, to: &std::path::Path) -> anyhow::Result<()> {
        let rgb: Vec<u8> = self.pixmap.data().chunks_exact(4).flat_map(|p| [p[0], p[1], p[2]]).collect();
        let (width, height) = (self.pixmap.width(), self.pixmap.height());
        image::save_buffer(to, &rgb, width, height, image::ExtendedColorType::Rgb8)
            .with_context(|| format!("cannot write {}", to.display()))
    }
}

/// Plain colour.
fn paint([r, g, b]: [u8; 3]) -> Paint<'static> {
    let mut paint = Paint::default();
    paint.set_color_rgba8(r, g, b, 255);
    paint
}

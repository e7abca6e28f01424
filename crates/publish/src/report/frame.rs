//! Places of the first photograph on the frame that is shown.

use crate::page::FrameBox;
use crate::record::Photographed;
use sheet::{Point, Rect, Turned};

/// The first photograph set upright, as the page shows it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Frame {
    pub(super) turned: Turned,
    /// Width and height as it stands upright.
    pub(super) size: [f64; 2],
}

impl Frame {
    pub(crate) fn of(p: &Photographed) -> Self {
        let turned = Turned::new(p.quarters_turned, p.width_px, p.height_px);
        let whole = turned.upright_box(Rect::new(0.0, 0.0, p.width_px as f64, p.height_px as f64));
        Self { turned, size: [whole.w, whole.h] }
    }

    /// A box of the photograph as shares of the frame.
    pub(crate) fn share(&self, [x, y, w, h]: [f64; 4]) -> FrameBox {
        self.upright_share(self.turned.upright_box(Rect::new(x, y, w, h)))
    }

    /// A box of the photograph set upright as shares of the frame.
    pub(super) fn upright_share(&self, b: Rect) -> FrameBox {
        let [width, height] = self.size;
        FrameBox { x: b.x / width, y: b.y / height, w: b.w / width, h: b.h / height }
    }

    /// A box of the photograph on the photograph set upright.
    pub(crate) fn upright(&self, b: Rect) -> Rect {
        self.turned.upright_box(b)
    }

    /// How far along a line's box a place along the line is, as a share of its length.
    pub(super) fn along(&self, [x, y, w, h]: [f64; 4], along: f64) -> f64 {
        let (from, length) = if self.turned.quarters() % 2 == 1 { (y, h) } else { (x, w) };
        let share = ((along - from) / length.max(1.0)).clamp(0.0, 1.0);
        let p = self.turned.upright(Point::new(x + w * share, y + h * share));
        let line = self.turned.upright_box(Rect::new(x, y, w, h));
        ((p.x - line.x) / line.w.max(1.0)).clamp(0.0, 1.0)
    }
}

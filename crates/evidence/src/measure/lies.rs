//! How the type lies on the page.

use super::record::Lies;
use super::{Length, Side};
use crate::record::{box_px, to_thousandths};
use sheet::{PatchKind, Rect};

/// A page that ends nearer the edge of the picture than this share of its longer side may go on beyond it.
const AT_THE_EDGE: f64 = 0.004;
/// How surely the edges of the page, and of the type area, are known: shares of the longer side of the picture.
const EDGE_SD: f64 = 0.002;

/// Margins and type area; `None` of a side without lines.
pub(super) fn lies(side: &Side) -> Option<Lies> {
    let area = type_area(side)?;
    let page = side.page;
    let (width, height) = (side.ink.full().width() as f64, side.ink.full().height() as f64);
    let longer = width.max(height);
    let near = AT_THE_EDGE * longer;
    let page_is_whole =
        page.x > near && page.y > near && width - page.right() > near && height - page.bottom() > near;
    let margins =
        [area.x - page.x, area.y - page.y, page.right() - area.right(), page.bottom() - area.bottom()];
    let mm = |px: f64| Some(Length { value: px, sd: EDGE_SD * longer }.in_mm(side.scale.as_ref()?).rounded());
    Some(Lies {
        page_px: box_px(side.turned.box_on_photograph(page)),
        page_is_whole,
        type_area_px: box_px(side.turned.box_on_photograph(area)),
        type_area_mm: mm(area.w).zip(mm(area.h)).map(|(w, h)| [w, h]),
        margins_px: margins.map(to_thousandths),
        margins_mm: side.scale.is_some().then(|| margins.map(|m| mm(m).unwrap_or_default())),
        share: to_thousandths((area.area() / page.area().max(1.0)).min(1.0)),
    })
}

/// The box of all that the forme printed; `None` of a side without lines.
fn type_area(side: &Side) -> Option<Rect> {
    let layout = &side.layout;
    let made = |kind: PatchKind| !matches!(kind, PatchKind::Unknown);
    let patches = layout.not_type.iter().filter(|p| made(p.kind)).map(|p| p.bounds);
    let boxes =
        layout.lines.iter().map(|l| l.bounds).chain(patches).chain(layout.cuts.iter().map(|c| c.bounds));
    let all = boxes.reduce(Rect::united)?;
    (!layout.lines.is_empty()).then_some(all)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::side::of_one_line;
    use sheet::scale::{Scale, ScaleSource};
    use sheet::{Plane, Point, Ppi};

    #[test]
    fn margins_are_from_the_type_to_the_edge_of_the_page() {
        let mut side = of_one_line(
            Plane::filled(1000, 800, 0u8),
            vec![Point::new(300.0, 400.0), Point::new(700.0, 400.0)],
            20.0,
        );
        side.page = Rect::new(100.0, 50.0, 800.0, 700.0);
        side.scale = Some(Scale { ppi: Ppi(254.0), relative_sd: 0.01, source: ScaleSource::StatedPpi });
        let found = lies(&side).unwrap();
        assert!(found.page_is_whole);
        let expected = [200.0, 308.0, 200.0, 334.0];
        assert!(found.margins_px.iter().zip(expected).all(|(m, e)| (m - e).abs() < 1e-9), "{found:?}");
        assert!((found.margins_mm.unwrap()[0].value - 20.0).abs() < 1e-9);
        assert!((found.type_area_mm.unwrap()[0].value - 40.0).abs() < 1e-9);
        side.page = Rect::new(0.0, 0.0, 1000.0, 800.0);
        assert!(!lies(&side).unwrap().page_is_whole);
        side.layout.lines.clear();
        assert_eq!(lies(&side), None);
    }
}

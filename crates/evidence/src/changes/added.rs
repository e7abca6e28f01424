//! Print of the second impression where the first has paper.

use crate::reading::Reading;
use crate::record::{Change, ChangeClass, box_px};
use register::Laid;
use sheet::Rect;

/// Share of ink below which a place is bare.
const BARE: f64 = 0.01;

/// Words of the second photograph that fall where the first has no print.
pub(super) fn added(a: &Reading, b: &Reading, laid: &Laid, x_height: f64) -> Vec<Change> {
    b.layout
        .lines
        .iter()
        .flat_map(|l| &l.words)
        .filter_map(|w| {
            let corners: Option<Vec<_>> = w.bounds.corners().into_iter().map(|p| laid.map.to_a(p)).collect();
            let there = Rect::around(corners?)?;
            let inside = there.x >= 0.0
                && there.y >= 0.0
                && there.right() < a.ink.full().width() as f64
                && there.bottom() < a.ink.full().height() as f64;
            let on_page = a.page.shared(there).is_some_and(|s| s.area() > 0.9 * there.area());
            if !inside || !on_page {
                return None;
            }
            let taken = a
                .layout
                .lines
                .iter()
                .flat_map(|l| &l.words)
                .any(|v| v.bounds.grown(0.3 * x_height).shared(there).is_some());
            let bare = a.ink_share(there) < BARE;
            (!taken && bare).then(|| Change {
                class: ChangeClass::SortAdded,
                // A blot or a note in ink looks the same: seen, but not sure.
                score: 0.45,
                box_a_px: box_px(there),
                box_b_px: box_px(w.bounds),
                size_mm: None,
                size_x_heights: None,
                line: None,
            })
        })
        .collect()
}

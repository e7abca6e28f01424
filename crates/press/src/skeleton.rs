//! The skeleton of a forme: what stays in the chase when the type of a page is taken out, and prints with the next.

use serde::{Deserialize, Serialize};
use sheet::Rect;

use crate::setting::{Cut, CutKind, Line, Setting};
use crate::text::Role;

/// Headlines, rules, border and furniture of a forme. Places are those of the [`Setting`], mm.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Skeleton {
    /// The headlines, with the page numbers beside them.
    pub headlines: Vec<Line>,
    /// Rules, and the ornaments of the border.
    pub cuts: Vec<Cut>,
    /// The wood about the type page: head-stick, foot-stick, and the sticks at its left and right. It stands lower than
    /// the type, and prints only where it is inked and no frisket covers it.
    pub furniture: [Rect; 4],
}

impl Setting {
    /// What would stay in the chase.
    pub fn skeleton(&self) -> Skeleton {
        Skeleton {
            headlines: self.lines.iter().filter(|l| is_headline(l)).cloned().collect(),
            cuts: self.cuts.iter().filter(|c| is_of_skeleton(c)).cloned().collect(),
            furniture: self.furniture(),
        }
    }

    /// The wood about the type page, as in [`Skeleton::furniture`].
    pub(crate) fn furniture(&self) -> [Rect; 4] {
        let (page, wide) = (self.page, self.layout.margin.0);
        let across = |y: f64| Rect::new(page.x - wide, y, page.w + 2.0 * wide, wide);
        [
            across(page.y - wide),
            across(page.bottom()),
            Rect::new(page.x - wide, page.y, wide, page.h),
            Rect::new(page.right(), page.y, wide, page.h),
        ]
    }

    /// The setting in a skeleton that was standing: its own headlines, rules and border give way. Of headlines that are
    /// not as many, the page's own stay.
    #[must_use]
    pub fn in_skeleton(mut self, skeleton: &Skeleton) -> Self {
        let own = self.lines.iter_mut().filter(|l| is_headline(l));
        if own.count() == skeleton.headlines.len() {
            let own = self.lines.iter_mut().filter(|l| is_headline(l));
            own.zip(&skeleton.headlines).for_each(|(own, standing)| own.clone_from(standing));
        }
        self.cuts.retain(|c| !is_of_skeleton(c));
        self.cuts.extend(skeleton.cuts.iter().cloned());
        self
    }
}

fn is_headline(line: &Line) -> bool {
    line.role == Role::Headline
}

fn is_of_skeleton(cut: &Cut) -> bool {
    matches!(cut.kind, CutKind::Rule | CutKind::Ornament { .. })
}

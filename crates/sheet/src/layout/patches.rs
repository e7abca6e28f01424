//! What is not type: cuts, initials, borders, rules.

use super::columns::Inked;
use super::fit::Fitted;
use super::runs::{Component, Pieces};
use crate::Plane;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What a patch of ink that is not type seems to be. A proposal from its shape alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum PatchKind {
    /// A picture or a large ornament.
    Cut,
    /// A thin straight line.
    Rule,
    /// A long narrow band of ornament, or a frame about other things.
    Border,
    /// A large letter or small square cut beside the beginning of a line of type.
    Initial,
    /// Ink that is none of these: dirt, a page's edge, handwriting, a stamp.
    Unknown,
}

/// A patch in pixels of the level.
#[derive(Debug, Clone, Copy)]
pub(super) struct Rough {
    pub(super) kind: PatchKind,
    pub(super) left: f64,
    pub(super) top: f64,
    pub(super) right: f64,
    pub(super) bottom: f64,
    /// Pixels of ink in it.
    pub(super) area: f64,
}

impl Rough {
    fn of(c: &Component) -> Self {
        Self {
            kind: PatchKind::Unknown,
            left: f64::from(c.left),
            top: f64::from(c.top),
            right: f64::from(c.right),
            bottom: f64::from(c.bottom),
            area: f64::from(c.area),
        }
    }

    pub(super) fn width(&self) -> f64 {
        self.right - self.left
    }

    pub(super) fn height(&self) -> f64 {
        self.bottom - self.top
    }

    /// Whether both, grown by `by`, meet.
    fn near(&self, o: &Self, by: f64) -> bool {
        self.left < o.right + by
            && o.left < self.right + by
            && self.top < o.bottom + by
            && o.top < self.bottom + by
    }

    /// Whether most of a line lies in its box.
    fn holds(&self, l: &Fitted) -> bool {
        let y = l.baseline(f64::midpoint(l.left, l.right)) - l.x_height / 2.0;
        let across = self.right.min(l.right) - self.left.max(l.left);
        y > self.top && y < self.bottom && across >= 0.7 * l.width()
    }

    fn join(&mut self, o: &Self) {
        self.left = self.left.min(o.left);
        self.top = self.top.min(o.top);
        self.right = self.right.max(o.right);
        self.bottom = self.bottom.max(o.bottom);
        self.area += o.area;
    }
}

/// Where ink lies, on a grid of x-heights.
struct Ground {
    /// 0 bare, 1 inked, 2 inked by a large free component.
    cells: Plane<u8>,
    cell: f64,
}

impl Ground {
    fn of(pieces: &Pieces, x_height: f64, free: &[bool]) -> Self {
        let cell = x_height.max(2.0).floor();
        let n = cell as usize;
        let mut cells = Plane::filled(pieces.width.div_ceil(n).max(1), pieces.height.div_ceil(n).max(1), 0u8);
        for run in &pieces.runs {
            let part = run.part as usize;
            let value = if free[part] && is_large(&pieces.parts[part], x_height) { 2 } else { 1 };
            let row = cells.row_mut(run.y as usize / n);
            for c in &mut row[run.from as usize / n..=(run.to as usize - 1) / n] {
                *c = value.max(*c);
            }
        }
        Self { cells, cell }
    }

    /// Share of a line's band that lies on large ink, or between such ink.
    fn share_under(&self, line: &Fitted) -> f64 {
        let n = (line.width() / self.cell).ceil().max(1.0);
        let mut under = 0.0;
        for i in 0..n as usize {
            let x = line.left + (i as f64 + 0.5) * line.width() / n;
            let y = line.baseline(x) - line.x_height / 2.0;
            let (column, row) = ((x / self.cell) as isize, (y / self.cell) as isize);
            let near = |dx: isize, dy: isize| self.cells.at_clamped(column + dx, row + dy) == 2;
            under +=
                f64::from(u8::from(near(0, 0) || near(-1, 0) && near(1, 0) || near(0, -1) && near(0, 1)));
        }
        under / n
    }

    /// Shares of the cells of a patch's box that hold any ink, and that hold ink of large free components.
    fn inked_shares(&self, patch: &Rough) -> [f64; 2] {
        let place = |v: f64, n: usize| ((v / self.cell) as usize).min(n - 1);
        let (left, right) = (place(patch.left, self.cells.width()), place(patch.right, self.cells.width()));
        let (top, bottom) = (place(patch.top, self.cells.height()), place(patch.bottom, self.cells.height()));
        let cells = || (top..=bottom).flat_map(|y| &self.cells.row(y)[left..=right]);
        let share = |n: usize| n as f64 / ((right - left + 1) * (bottom - top + 1)) as f64;
        [1, 2].map(|least| share(cells().filter(|c| **c >= least).count()))
    }
}

/// Parts what is not type from the lines: gathers the patches, and drops the lines that are strokes of
/// a cut. A patch that stands about lines (a frame, a page's black edge) leaves them alone: they are
/// long for it and fill it.
pub(super) fn parted(
    pieces: &Pieces,
    x_height: f64,
    free: &[bool],
    lines: Vec<Inked>,
) -> (Vec<Inked>, Vec<Rough>) {
    let patches = patches(pieces, x_height, free);
    let ground = Ground::of(pieces, x_height, free);
    let mut kept: Vec<bool> = lines.iter().map(|l| ground.share_under(&l.line) < 0.5).collect();
    for patch in patches.iter().filter(|p| p.height() > 3.0 * x_height && p.width() > 3.0 * x_height) {
        let inside: Vec<usize> = (0..lines.len()).filter(|&i| patch.holds(&lines[i].line)).collect();
        let long = inside.iter().map(|&i| &lines[i].line).filter(|l| l.width() >= 0.4 * patch.width());
        let filled: f64 = long.map(|l| 2.0 * l.x_height).sum();
        let [inked, by_large] = ground.inked_shares(patch);
        if filled < 0.3 * patch.height() && inked >= CUT_INKED && by_large >= CUT_BY_LARGE {
            for i in inside {
                kept[i] = false;
            }
        }
    }
    let mut kept = kept.into_iter();
    let lines = lines.into_iter().filter(|_| kept.next().unwrap_or(false)).collect();
    (lines, patches)
}

/// A cut has ink in at least this share of cells of an x-height; a frame or a page's edge with print far
/// from it has less.
const CUT_INKED: f64 = 0.55;
/// And in at least this share of them ink of its own large pieces. Of 90 cuts and initials of real photographs all but two
/// have 0.22 or more; rules between columns and under them, whose box holds a page of text, 0.04 to 0.07.
const CUT_BY_LARGE: f64 = 0.15;

/// Whether a component is too large for a letter of the main type.
fn is_large(c: &Component, x_height: f64) -> bool {
    c.width().max(c.height()) > 3.6 * x_height
}

/// Gathers the free components that are too large for type into patches, each with the small ones
/// that lie in it.
fn patches(pieces: &Pieces, x_height: f64, free: &[bool]) -> Vec<Rough> {
    let large = |c: &Component| is_large(c, x_height);
    let mut out: Vec<Rough> = Vec::new();
    for (c, _) in pieces.parts.iter().zip(free).filter(|(c, free)| **free && large(c)) {
        let mut patch = Rough::of(c);
        // Joining may bring it near others: until nothing changes.
        while let Some(i) = out.iter().position(|p| p.near(&patch, 0.7 * x_height)) {
            let other = out.swap_remove(i);
            patch.join(&other);
        }
        out.push(patch);
    }
    for (c, _) in pieces.parts.iter().zip(free).filter(|(c, free)| **free && !large(c)) {
        let (x, y) = c.middle();
        if let Some(p) = out.iter_mut().find(|p| x >= p.left && x < p.right && y >= p.top && y < p.bottom) {
            p.area += f64::from(c.area);
        }
    }
    for patch in &mut out {
        patch.kind = kind(patch, x_height);
    }
    out
}

/// The kind of a patch by its shape.
fn kind(patch: &Rough, x_height: f64) -> PatchKind {
    let (w, h) = (patch.width() / x_height, patch.height() / x_height);
    let (long, thin) = (w.max(h), w.min(h));
    let fill = patch.area / (patch.width() * patch.height());
    if thin < 1.0 && long > 6.0 * thin {
        PatchKind::Rule
    } else if (fill < 0.1 && thin > 6.0) || (long > 4.0 * thin && thin > 1.0) {
        PatchKind::Border
    } else if fill > 0.1 && long < 16.0 && long < 2.5 * thin {
        PatchKind::Initial
    } else if fill > 0.1 && thin > 4.0 {
        PatchKind::Cut
    } else {
        PatchKind::Unknown
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::runs;

    const X_HEIGHT: usize = 10;

    /// Three columns of nine lines of letters, with ink drawn about them; the lines that are kept.
    fn kept_beside(draw: impl Fn(&mut Plane<u8>)) -> usize {
        let mut ink = Plane::filled(640, 260, 0u8);
        let mut lines = Vec::new();
        for (column, line) in (0..3).flat_map(|c| (0..9).map(move |l| (c, l))) {
            let (left, top) = (20 + 210 * column, 20 + 24 * line);
            for letter in (0..180 / 9).map(|k| left + 9 * k) {
                (top..top + X_HEIGHT).for_each(|y| ink.row_mut(y)[letter..letter + 6].fill(255));
            }
            let (from, to) = (left as f64, (left + 180) as f64);
            let fitted = Fitted::straight(from, to, (top + X_HEIGHT) as f64, 0.0, X_HEIGHT as f64);
            lines.push(Inked { line: fitted, slant: 0.0, stretches: Vec::new(), pass: 1, cut: true });
        }
        draw(&mut ink);
        let pieces = runs::pieces(&ink, 90);
        let free: Vec<bool> = pieces.parts.iter().map(|c| is_large(c, X_HEIGHT as f64)).collect();
        parted(&pieces, X_HEIGHT as f64, &free, lines).0.len()
    }

    #[test]
    fn rules_between_columns_and_under_them_are_no_cut() {
        let rules = |ink: &mut Plane<u8>| {
            for x in [208, 418] {
                (14..236).for_each(|y| ink.row_mut(y)[x..x + 2].fill(255));
            }
            (240..242).for_each(|y| ink.row_mut(y)[10..620].fill(255));
        };
        assert_eq!(kept_beside(rules), 27);
    }

    #[test]
    fn strokes_of_a_cut_are_no_lines() {
        // Hatched between the lines, from edge to edge.
        let hatching = |ink: &mut Plane<u8>| {
            for y in (12..240).step_by(24) {
                (y..y + 4).for_each(|y| ink.row_mut(y)[10..620].fill(255));
            }
            (12..240).for_each(|y| ink.row_mut(y)[10..14].fill(255));
        };
        assert_eq!(kept_beside(hatching), 0);
    }
}

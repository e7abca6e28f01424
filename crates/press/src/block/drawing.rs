//! A design as it is drawn on the wood: from the front to the back, so that what lies behind stops at what
//! stands before it.

use sheet::{Point, Rect};

use super::curve::{across, closed, resampled, towards, unit};
use super::stroke::{Knot, Path, Stroke, StrokeKind};
use super::taken::Taken;
use crate::chance::Chance;
use crate::fount::Outline;
use crate::noise::Noise;

/// From knot to knot, in mm.
pub(super) const STEP: f64 = 0.35;

/// The hand of one cutter in one design: widths in mm.
#[derive(Debug, Clone, Copy)]
pub(super) struct Hand {
    /// Contours.
    pub line: f64,
    /// Shading.
    pub fine: f64,
    /// From one line of shading to the next.
    pub apart: f64,
    /// How far a line strays from where it was meant to run.
    pub sway: f64,
}

impl Hand {
    /// The hand for a block whose middle size is `size` mm: small blocks are cut finer, but not in proportion.
    fn drawn(size: f64, chance: &mut Chance) -> Self {
        let coarse = (size / 55.0).clamp(0.45, 2.2).powf(0.45) * chance.between(0.82, 1.25);
        Self {
            line: (0.34 * coarse).clamp(0.2, 0.58),
            fine: (0.22 * coarse).clamp(0.13, 0.36),
            apart: (0.64 * coarse * chance.between(0.9, 1.2)).clamp(0.42, 1.15),
            sway: chance.between(0.05, 0.13),
        }
    }
}

/// How a line is to be drawn.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pen {
    pub kind: StrokeKind,
    pub width: f64,
    /// The length over which it thins, at its start and at its end, in mm.
    pub taper: [f64; 2],
    pub field: u16,
    pub inks: bool,
}

impl Pen {
    pub(super) fn new(kind: StrokeKind, width: f64) -> Self {
        Self { kind, width, taper: [0.0, 0.0], field: 0, inks: true }
    }

    pub(super) fn taper(self, start: f64, end: f64) -> Self {
        Self { taper: [start, end], ..self }
    }

    pub(super) fn white(self) -> Self {
        Self { inks: false, ..self }
    }
}

/// Lines of shading: where they stop is told by the region and by what is taken.
#[derive(Debug, Clone, Copy)]
pub(super) struct Shading {
    /// Which way the lines run, in radians.
    pub angle: f64,
    /// How far a line bows from straight at 10 mm from the middle, in mm.
    pub bow: f64,
    /// From line to line, in mm.
    pub apart: f64,
    /// Width of the lines, in mm.
    pub width: f64,
    /// Second field laid over the first.
    pub crossing: bool,
}

/// The block being drawn.
#[derive(Debug)]
pub(super) struct Drawing {
    pub bounds: Rect,
    pub chance: Chance,
    pub hand: Hand,
    /// White things on a black ground, drawn from the back to the front; else black lines on white.
    pub on_black: bool,
    strokes: Vec<Stroke>,
    taken: Taken,
    /// Insides of the things being drawn: what is drawn in them stays in them.
    within: Vec<Taken>,
    fields: u16,
    sway: [Noise; 2],
    press: Noise,
}

impl Drawing {
    pub(super) fn new(bounds: Rect, seed: u64) -> Self {
        let mut chance = Chance::new(seed, "design of a block");
        let hand = Hand::drawn((bounds.w * bounds.h).sqrt(), &mut chance);
        Self {
            bounds,
            hand,
            on_black: false,
            strokes: Vec::new(),
            taken: Taken::none(bounds.grown(3.0)),
            within: Vec::new(),
            fields: 0,
            sway: [Noise::new(seed, "hand across", 3.2), Noise::new(seed, "hand down", 3.2)],
            press: Noise::new(seed, "width of lines", 1.7),
            chance,
        }
    }

    /// What has been drawn, as far as the wood goes.
    pub(super) fn strokes(self) -> Vec<Stroke> {
        let mut strokes = super::clip::within(self.strokes, self.bounds.grown(0.25));
        strokes.iter_mut().enumerate().for_each(|(i, s)| s.id = i as u32);
        strokes
    }

    /// A new field of shading.
    pub(super) fn field(&mut self) -> u16 {
        self.fields += 1;
        self.fields
    }

    pub(super) fn contour(&self) -> Pen {
        Pen::new(StrokeKind::Contour, self.hand.line)
    }

    pub(super) fn sprig(&self) -> Pen {
        Pen::new(StrokeKind::Sprig, self.hand.fine).taper(0.5, 0.9)
    }

    /// Whether something stands in front there.
    pub(super) fn is_taken(&self, p: Point) -> bool {
        self.taken.at(p)
    }

    fn push(&mut self, kind: StrokeKind, field: u16, inks: bool, path: Path) {
        let id = self.strokes.len() as u32;
        self.strokes.push(Stroke { id, kind, field, inks, path });
    }

    /// A line, hidden where something stands in front. Sides longer than the step are divided, not rounded.
    pub(super) fn line(&mut self, path: &[Point], pen: Pen) {
        let hide = !self.on_black && pen.inks;
        // Taken out for the while, because drawing changes the list of strokes.
        let within = std::mem::take(&mut self.within);
        self.drawn(path, pen, |taken, p| hide && (taken.at(p) || !within.iter().all(|w| w.holds(p))));
        self.within = within;
    }

    /// A line that nothing hides.
    pub(super) fn line_above(&mut self, path: &[Point], pen: Pen) {
        self.drawn(path, pen, |_, _| false);
    }

    fn drawn(&mut self, path: &[Point], pen: Pen, hidden: impl Fn(&Taken, Point) -> bool) {
        let path = resampled(path, STEP);
        let lengths: Vec<f64> = path
            .iter()
            .scan(None::<(Point, f64)>, |last, &p| {
                let run = last.map_or(0.0, |(q, run)| run + p.distance(q));
                *last = Some((p, run));
                Some(run)
            })
            .collect();
        let whole = lengths.last().copied().unwrap_or(0.0);
        let thinned = |run: f64, over: f64| {
            if over > 0.0 { 0.32 + 0.68 * (run / over.min(0.8 * whole).max(1e-6)).min(1.0) } else { 1.0 }
        };
        let mut piece: Vec<Knot> = Vec::new();
        let mut pieces: Vec<Vec<Knot>> = Vec::new();
        for (&p, &run) in path.iter().zip(&lengths) {
            if hidden(&self.taken, p) {
                pieces.push(std::mem::take(&mut piece));
                continue;
            }
            let sway = Point::new(self.sway[0].rough(p.x, p.y), self.sway[1].rough(p.x, p.y));
            // A rule is drawn along a straight-edge.
            let free = if pen.kind == StrokeKind::Frame { 0.14 } else { 0.5 };
            let weight = 1.0 + free * self.press.at(p.x, p.y);
            let width =
                pen.width * weight * thinned(run, pen.taper[0]).min(thinned(whole - run, pen.taper[1]));
            let by = if pen.kind == StrokeKind::Frame { 0.9 } else { 2.0 };
            piece.push(Knot { at: p + sway * (by * self.hand.sway), width });
        }
        pieces.push(piece);
        for knots in pieces.into_iter().filter(|k| k.len() > 1) {
            let long: f64 = knots.windows(2).map(|k| k[0].at.distance(k[1].at)).sum();
            if long > 0.3 {
                self.push(pen.kind, pen.field, pen.inks, Path::Line(knots));
            }
        }
    }

    /// A closed line.
    pub(super) fn ring(&mut self, ring: &[Point], pen: Pen) {
        let mut path = ring.to_vec();
        path.extend(ring.first().copied());
        self.line(&path, pen);
    }

    /// An area left standing, or taken out when `inks` is false. Holes run the other way round.
    pub(super) fn area(&mut self, lines: Vec<Vec<Point>>, inks: bool) {
        self.area_of(StrokeKind::Solid, lines, inks);
    }

    pub(super) fn area_of(&mut self, kind: StrokeKind, lines: Vec<Vec<Point>>, inks: bool) {
        let sway = self.sway;
        let by = 2.0 * self.hand.sway;
        let whole = Outline(lines)
            .divided(0.6)
            .mapped(|p| p + Point::new(sway[0].rough(p.x, p.y), sway[1].rough(p.x, p.y)) * by);
        if !whole.0.is_empty() {
            self.push(kind, 0, inks, Path::Area(whole.0));
        }
    }

    /// Marks the inside of a closed line as standing in front of all that follows, with `white` mm left round it.
    pub(super) fn take(&mut self, ring: &[Point], white: f64) {
        let grown = Outline(vec![ring.to_vec()]).spread(white);
        self.taken.fill(&grown.0, true);
    }

    /// Marks the inside of several closed lines, holes among them, as standing in front of all that follows.
    pub(super) fn take_all(&mut self, rings: &[Vec<Point>]) {
        self.taken.fill(rings, true);
    }

    /// For a picture within a ring: what is outside is taken until [`Self::restore`] is given what this returns.
    pub(super) fn emblem_ground(&mut self, ring: &[Point], all: Rect) -> Taken {
        let before = self.taken.clone();
        self.only_within(ring, all);
        before
    }

    /// Ends a picture within a ring.
    pub(super) fn restore(&mut self, before: Taken) {
        self.taken = before;
    }

    /// Everything but the inside of a closed line is taken, beside what was.
    pub(super) fn only_within(&mut self, ring: &[Point], all: Rect) {
        let mut free = Taken::none(all.grown(3.0));
        free.fill(&[all.grown(2.9).corners().to_vec()], true);
        free.fill(&[ring.to_vec()], false);
        self.taken.add(&free);
    }

    /// A thing with an outline: on a white ground its contour, with its ground taken; on a black one a white area.
    /// `inner` draws what is seen within it.
    pub(super) fn thing(&mut self, ring: &[Point], width: f64, inner: impl FnOnce(&mut Self)) {
        if self.on_black {
            // A thin black line keeps it from what it lies over.
            let apart = Pen::new(StrokeKind::Contour, 0.8 * width);
            self.area(vec![ring.to_vec()], false);
            self.ring(ring, apart);
            inner(self);
        } else {
            self.inside(ring, inner);
            self.ring(ring, Pen::new(StrokeKind::Contour, width));
            self.take(ring, 0.08);
        }
    }

    /// Draws what stays inside a closed line.
    pub(super) fn inside(&mut self, ring: &[Point], inner: impl FnOnce(&mut Self)) {
        let Some(bounds) = Rect::around(ring.iter().copied()) else { return };
        let mut inside = Taken::none(bounds.grown(0.2));
        inside.fill(&Outline(vec![ring.to_vec()]).spread(0.1).0, true);
        self.within.push(inside);
        inner(self);
        self.within.pop();
    }

    /// A thing in solid black.
    pub(super) fn black(&mut self, ring: &[Point]) {
        if self.on_black {
            self.area(vec![ring.to_vec()], false);
        } else if !ring.iter().all(|&p| self.taken.at(p)) {
            self.area(vec![ring.to_vec()], true);
            self.take(ring, 0.12);
        }
    }

    /// Parallel lines over a region (a closed line), bowed, with ragged ends; `tone` (0..1) widens them, and stops
    /// them where it is below a tenth.
    pub(super) fn shade(&mut self, region: &[Point], shading: Shading, tone: impl Fn(Point) -> f64) {
        let Some(bounds) = Rect::around(region.iter().copied()) else { return };
        let mut inside = Taken::none(bounds.grown(1.0));
        inside.fill(&[region.to_vec()], true);
        let (u, middle) = (towards(shading.angle), bounds.centre());
        let v = across(u);
        let reach = bounds.w.hypot(bounds.h) / 2.0;
        let field = self.field();
        let kind = if shading.crossing { StrokeKind::CrossHatch } else { StrokeKind::Hatch };
        let rows = (reach / shading.apart).ceil() as i32;
        for row in -rows..=rows {
            let drift = self.chance.normal(0.09) * shading.apart;
            let lean = self.chance.normal(0.012);
            let start = self.chance.unit() * STEP;
            let steps = (2.0 * reach / STEP) as i32;
            let mut run: Vec<(Point, f64)> = Vec::new();
            for i in 0..=steps {
                let s = f64::from(i) * STEP - reach + start;
                let off =
                    f64::from(row) * shading.apart + drift + lean * s + shading.bow * (s / 10.0).powi(2);
                let p = middle + u * s + v * off;
                let dark = if inside.at(p) && bounds.holds(p) { tone(p) } else { 0.0 };
                let free = dark > 0.1 && (self.on_black || !self.taken.at(p));
                if free {
                    run.push((p, dark));
                } else {
                    let done = std::mem::take(&mut run);
                    self.hatch_line(&done, kind, field, shading.width);
                }
            }
            self.hatch_line(&run, kind, field, shading.width);
        }
    }

    fn hatch_line(&mut self, run: &[(Point, f64)], kind: StrokeKind, field: u16, width: f64) {
        // The knife stops a little before or at the edge, not all at once.
        let short = |chance: &mut Chance| (chance.unit().powi(2) * 2.6) as usize;
        let (first, last) = (short(&mut self.chance), short(&mut self.chance));
        if run.len() < first + last + 3 {
            return;
        }
        let run = &run[first..run.len() - last];
        let heavier = 1.0 + self.chance.normal(0.12);
        let n = run.len();
        let knots = run
            .iter()
            .enumerate()
            .map(|(i, &(p, dark))| {
                let sway = Point::new(self.sway[0].rough(p.x, p.y), self.sway[1].rough(p.x, p.y));
                let end = (i.min(n - 1 - i) as f64 / 2.5).min(1.0);
                let weight = heavier * (0.62 + 0.55 * dark) * (1.0 + 0.4 * self.press.at(p.x, p.y));
                Knot { at: p + sway * (1.6 * self.hand.sway), width: width * weight * (0.55 + 0.45 * end) }
            })
            .collect();
        self.push(kind, field, true, Path::Line(knots));
    }

    /// Strokes that start on a line and run from it at an angle to its right-hand side (`side` 1) or left (-1),
    /// thinning to a point: the commonest shading of all. `lean` is the angle from the square, in radians;
    /// `long` the length at a share of the line; `white` cuts them into black.
    pub(super) fn comb(
        &mut self,
        edge: &[Point],
        side: f64,
        lean: f64,
        white: bool,
        long: impl Fn(f64) -> f64,
    ) {
        self.comb_of(edge, side, lean, white, self.hand.apart, long);
    }

    pub(super) fn comb_of(
        &mut self,
        edge: &[Point],
        side: f64,
        lean: f64,
        white: bool,
        apart: f64,
        long: impl Fn(f64) -> f64,
    ) {
        let whole = super::curve::length(edge);
        let n = (whole / apart).floor() as usize;
        if n < 2 {
            return;
        }
        let field = self.field();
        let bend = self.chance.about(0.35);
        for i in 0..n {
            let share = (i as f64 + 0.5 + self.chance.normal(0.1)) / n as f64;
            let (p, d) = super::curve::at(edge, share);
            let mut heading = across(d) * side;
            let (s, c) = (lean * side).sin_cos();
            heading = Point::new(c * heading.x - s * heading.y, s * heading.x + c * heading.y);
            let reach = long(share) * (1.0 + self.chance.normal(0.13));
            if reach < 0.45 {
                continue;
            }
            let tip = p + heading * reach;
            let middle = p + heading * (0.5 * reach) + across(heading) * (bend * reach * 0.3);
            let path = super::curve::smooth(&[p + heading * 0.05, middle, tip], STEP);
            let width = self.hand.fine * (1.0 + self.chance.normal(0.12)) * if white { 1.05 } else { 1.15 };
            let mut pen = Pen::new(StrokeKind::Hatch, width).taper(0.0, 0.75 * reach);
            pen.field = field;
            if white {
                self.line_above(&path, pen.white());
            } else {
                self.line(&path, pen);
            }
        }
    }

    /// A band along a path, shaded along one side.
    pub(super) fn band(&mut self, path: &[Point], half: impl Fn(f64) -> f64, shaded: f64) {
        let both = super::curve::sides(path, &half);
        let ring = closed(&both);
        let (line, apart) = (self.hand.line, 0.85 * self.hand.apart);
        self.thing(&ring, line, |d| {
            if shaded > 0.0 {
                d.comb_of(&both[1], -1.0, 0.5, false, apart, |t| 1.1 * shaded * half(t));
            }
        });
    }

    /// A short stroke at a place.
    pub(super) fn tick(&mut self, at: Point, angle: f64, long: f64) {
        let d = towards(angle) * (long / 2.0);
        let bulge = across(unit(d)) * (0.12 * long);
        let pen = self.sprig().taper(0.3 * long, 0.5 * long);
        self.line(&super::curve::smooth(&[at - d, at + bulge, at + d], STEP.min(long / 4.0)), pen);
    }
}

//! The places at which copies of one setting differ, and which of them agree there.

use super::Pair;
use super::alike::{InkAt, Seen};
use super::readings::{Found, Readings, settle};
use crate::record::{Change, ChangeClass, LineFinding, box_px, rect};
use crate::standing::Standing;
use rayon::prelude::*;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use sheet::Rect;
use std::collections::BTreeMap;

/// What the copies of one setting share and do not share.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct SharedDifferences {
    /// The places that differ, down the frame's page.
    pub variants: Vec<Variant>,
    /// The copies grouped so that those of a group agree at every place that could be judged in them.
    pub groups: Vec<Vec<usize>>,
}

/// A place at which copies of one setting differ.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Variant {
    /// The copy on whose photograph the place is told.
    pub frame: usize,
    /// The place: x, y, w, h in pixels of that photograph.
    pub box_px: [f64; 4],
    /// The line of that copy it lies in, counted from 1; null outside the lines.
    pub line: Option<usize>,
    /// What kind of difference, from the frame to the copy that shows it most surely.
    pub class: ChangeClass,
    /// How surely, 0 to 1.
    pub score: f64,
    /// Copies that agree there with each other, each list one reading; the frame's comes first.
    pub readings: Vec<Vec<usize>>,
    /// Copies in which it is not clear, or could not be judged.
    pub unclear: Vec<usize>,
}

/// Small places so near to each other, x-heights, are the strokes of one letter: in one copy both were found, in another one.
const ONE_LETTER: f64 = 0.3;
/// Breadth of a letter, x-heights.
const LETTER: f64 = 1.2;
/// Places are one if they share this much of the smaller.
const ONE_PLACE: f64 = 0.3;
/// A difference is shared if so many copies have it.
const SHARED: usize = 2;

/// The copies of one setting, and what is known of them.
#[expect(missing_debug_implementations, reason = "what it is asked by are functions")]
pub struct OneSetting<'s> {
    /// The copy on whose photograph places are told.
    pub frame: usize,
    /// All copies of the setting.
    pub copies: &'s [usize],
    /// Pairs that were laid together, also of other copies.
    pub pairs: &'s [Pair],
    /// Whether two copies that were not laid together agree is told from their ink; where this shows none it is taken that
    /// they do if what differs is of one kind.
    pub ink: &'s InkAt<'s>,
    /// Where a box of a copy's photograph lies on the frame's; `None` where that is not known.
    pub on_frame: &'s OnFrame<'s>,
}

/// Where a box of a copy's photograph lies on the frame's.
pub type OnFrame<'f> = dyn Fn(usize, [f64; 4]) -> Option<[f64; 4]> + Sync + 'f;

/// What differs among the copies of one setting.
pub fn shared_differences(setting: &OneSetting<'_>) -> SharedDifferences {
    let places = places(setting);
    let read = places.par_iter().filter_map(|place| read(place, setting));
    let mut variants: Vec<Variant> = read.collect();
    variants.sort_by(|p, q| p.line.cmp(&q.line).then(p.box_px[0].total_cmp(&q.box_px[0])));
    let groups = groups(setting.copies, &variants);
    SharedDifferences { variants, groups }
}

/// A place at which some pairs of copies were found to differ.
struct Place<'c> {
    /// On the frame's photograph, pixels.
    on_frame: Rect,
    /// The frame's line.
    line: Option<usize>,
    found: Vec<Finding<'c>>,
}

/// What was found of one pair.
#[derive(Clone, Copy)]
struct Finding<'c> {
    copies: [usize; 2],
    change: &'c Change,
    /// The pair's verdict moved for it.
    is_sure: bool,
}

/// All places, and who differs there.
fn places<'c>(setting: &OneSetting<'c>) -> Vec<Place<'c>> {
    let mut places = Vec::new();
    let within = |p: &&Pair| p.copies.iter().all(|copy| setting.copies.contains(copy));
    let all: Vec<&Pair> = setting.pairs.iter().filter(within).collect();
    // Places are told as the frame's own pairs have them, where these found them.
    let (own, others): (Vec<_>, Vec<_>) = all.into_iter().partition(|p| p.copies[0] == setting.frame);
    for is_sure in [true, false] {
        for pair in own.iter().chain(&others) {
            let found = &pair.comparison;
            for change in if is_sure { &found.changes } else { &found.doubtful } {
                let finding = Finding { copies: pair.copies, change, is_sure };
                let Some(on_frame) = setting.on_the_frame(pair, change) else { continue };
                let line = if pair.copies[0] == setting.frame {
                    change.line
                } else {
                    line_at(on_frame, own.first().map_or(&[][..], |p| &p.comparison.lines))
                };
                note(&mut places, Place { on_frame, line, found: vec![finding] });
            }
        }
    }
    places
}

impl OneSetting<'_> {
    /// Where a change of a pair lies on the frame.
    fn on_the_frame(&self, pair: &Pair, change: &Change) -> Option<Rect> {
        let [a, b] = pair.copies;
        if a == self.frame {
            Some(rect(change.box_a_px))
        } else if b == self.frame {
            Some(rect(change.box_b_px))
        } else {
            (self.on_frame)(a, change.box_a_px).map(rect)
        }
    }

    /// The pair of two copies, if they were laid together.
    fn pair(&self, a: usize, b: usize) -> Option<&Pair> {
        self.pairs.iter().find(|p| p.copies == [a, b] || p.copies == [b, a])
    }

    /// Whether the line of a place could be judged in a pair, as far as its number on the pair's first is known.
    fn is_judged(&self, place: &Place<'_>, pair: &Pair) -> bool {
        let of_first = || place.found.iter().find(|f| f.copies[0] == pair.copies[0])?.change.line;
        let line = if pair.copies[0] == self.frame { place.line } else { of_first() };
        let standing = line.and_then(|n| pair.comparison.lines.get(n - 1)).map(|l| l.standing);
        standing.is_none_or(|s| s != Standing::Unjudged)
    }

    /// The box of a line of the frame.
    fn line(&self, number: Option<usize>) -> Option<Rect> {
        let own = self.pairs.iter().filter(|p| p.copies[0] == self.frame);
        own.filter_map(|p| p.comparison.lines.get(number? - 1)).map(|l| rect(l.box_a_px)).next()
    }
}

/// The number of the line that a place lies in.
fn line_at(place: Rect, lines: &[LineFinding]) -> Option<usize> {
    let shared = |line: &&LineFinding| rect(line.box_a_px).shared(place).map_or(0.0, Rect::area);
    let most = lines.iter().max_by(|p, q| shared(p).total_cmp(&shared(q)))?;
    (2.0 * shared(&most) > place.area()).then_some(most.number)
}

impl Place<'_> {
    fn holds(&self, at: Rect) -> bool {
        let shared = self.on_frame.shared(at);
        shared.is_some_and(|s| s.area() > ONE_PLACE * self.on_frame.area().min(at.area()))
    }

    /// What was found of two copies.
    fn of(&self, a: usize, b: usize) -> Option<&Finding<'_>> {
        self.found.iter().find(|f| f.copies == [a, b] || f.copies == [b, a])
    }

    /// What was found most surely.
    fn surest(&self) -> Option<&Finding<'_>> {
        self.found
            .iter()
            .max_by(|p, q| p.is_sure.cmp(&q.is_sure).then(p.change.score.total_cmp(&q.change.score)))
    }

    /// Whether a doubtful place is one that copies share because they are of one state. Off the lines they share what is no
    /// print: an edge, set-off, a ruled line; and sorts that seem to stand elsewhere are often the paper's doing.
    fn may_be_shared(&self) -> bool {
        let place_alone = [ChangeClass::SortMoved, ChangeClass::LineRespaced];
        self.surest()
            .is_some_and(|f| f.change.line.is_some() && (f.is_sure || !place_alone.contains(&f.change.class)))
    }

    /// The copy against which most others were found to differ: the frame, where it is as good as any.
    fn base(&self, frame: usize) -> usize {
        let mut weights: BTreeMap<usize, usize> = BTreeMap::new();
        for finding in &self.found {
            for copy in finding.copies {
                *weights.entry(copy).or_default() += 1 + usize::from(finding.is_sure);
            }
        }
        if self.found.iter().any(|f| f.is_sure && f.copies.contains(&frame)) {
            return frame;
        }
        let best =
            weights.into_iter().max_by_key(|&(copy, weight)| (weight, copy == frame, usize::MAX - copy));
        best.map_or(frame, |(copy, _)| copy)
    }
}

/// Adds what was found to the place it lies in, or as a place of its own.
fn note<'c>(places: &mut Vec<Place<'c>>, new: Place<'c>) {
    let x_height = new.found.first().map_or(0.0, |f| x_height(f.change, new.on_frame));
    let near = new.on_frame.grown(ONE_LETTER * x_height);
    let is_small = new.on_frame.w < LETTER * x_height;
    // What is doubtful beside a sure place is of that place.
    let is_doubtful = new.found.iter().all(|f| !f.is_sure);
    let is_one = |p: &&mut Place<'_>| {
        p.line == new.line
            && (p.holds(new.on_frame) || (is_small || is_doubtful) && near.shared(p.on_frame).is_some())
    };
    match places.iter_mut().find(is_one) {
        Some(place) => {
            // What is doubtful makes no sure place larger.
            if !is_doubtful || place.found.iter().all(|f| !f.is_sure) {
                place.on_frame = place.on_frame.united(new.on_frame);
            }
            place.found.extend(new.found);
        }
        None => places.push(new),
    }
}

/// x-height of the frame, pixels, as the size of a change tells it that lies there on the frame; 0 where it is not known.
fn x_height(change: &Change, on_frame: Rect) -> f64 {
    change.size_x_heights.filter(|size| size[1] > 0.0).map_or(0.0, |size| on_frame.h / size[1])
}

/// Settles which copies agree at a place; `None` where that shows no difference that others share.
fn read(place: &Place<'_>, setting: &OneSetting<'_>) -> Option<Variant> {
    let base = place.base(setting.frame);
    let mut found = Found { frame: base, ..Found::default() };
    for &copy in setting.copies.iter().filter(|&&copy| copy != base) {
        let list = match (setting.pair(base, copy), place.of(base, copy)) {
            (Some(_), Some(finding)) if finding.is_sure => &mut found.differing,
            (Some(pair), None) if setting.is_judged(place, pair) => &mut found.like,
            _ => &mut found.open,
        };
        list.push(copy);
    }
    let is_of_frame = base == setting.frame && !found.differing.is_empty();
    if !is_of_frame {
        // Doubtful, or found of others alone: two at least must share it.
        let doubtful = found.open.iter().copied().filter(|&copy| place.of(base, copy).is_some());
        let doubtful: Vec<usize> = doubtful.collect();
        found.open.retain(|copy| !doubtful.contains(copy));
        found.differing.extend(doubtful);
        if found.differing.len() < SHARED || !place.may_be_shared() {
            return None;
        }
    }
    let line = setting.line(place.line);
    let mut seen = Seen::new(place.on_frame, line.unwrap_or(place.on_frame), setting.ink);
    let class = |copy: usize| place.of(base, copy).map(|f| f.change.class);
    let agree = |a: usize, b: usize| match setting.pair(a, b) {
        Some(_) => !place.of(a, b).is_some_and(|f| f.is_sure),
        None => class(a) == class(b),
    };
    let Readings { mut readings, unclear } = settle(found, &mut seen, agree);
    if !is_of_frame && readings.iter().filter(|r| r.len() >= SHARED).count() < 2 {
        return None;
    }
    // The frame's reading first, and the frame first in it.
    for reading in &mut readings {
        reading.sort_by_key(|&copy| (copy != setting.frame, copy));
    }
    readings.sort_by_key(|reading| !reading.contains(&setting.frame));
    let surest = place.surest()?;
    Some(Variant {
        frame: setting.frame,
        box_px: box_px(place.on_frame),
        line: place.line,
        class: surest.change.class,
        score: surest.change.score,
        readings,
        unclear,
    })
}

/// Copies that agree wherever both could be judged, those with most to judge first.
fn groups(setting: &[usize], variants: &[Variant]) -> Vec<Vec<usize>> {
    let reading = |copy: usize, v: &Variant| v.readings.iter().position(|r| r.contains(&copy));
    let mut order: Vec<usize> = setting.to_vec();
    order.sort_by_key(|&copy| (variants.iter().filter(|v| v.unclear.contains(&copy)).count(), copy));
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for copy in order {
        let disagrees = |other: usize| {
            variants.iter().any(|v| {
                let both = reading(copy, v).zip(reading(other, v));
                both.is_some_and(|(own, theirs)| own != theirs)
            })
        };
        match groups.iter_mut().find(|group| !group.iter().any(|&other| disagrees(other))) {
            Some(group) => group.push(copy),
            None => groups.push(vec![copy]),
        }
    }
    for group in &mut groups {
        group.sort_unstable();
    }
    groups.sort();
    groups
}

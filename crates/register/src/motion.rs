//! The paper's motion as it can be told from chosen print only.
//!
//! Where lines were set again, the print there says nothing of the paper. A [`Motion`] is built
//! from the print that is trusted and asked about the rest.

use crate::Field;
use crate::crease::{Crease, side_of};
use crate::patches::Grid;
use crate::sides::heard;
use crate::smooth::{Agreed, Neighbours, Sample, agreed};
use rayon::prelude::*;
use sheet::Point;

/// Trusted displacements, ready to be asked what the paper does at any place. Pixels of A.
#[derive(Debug, Clone)]
pub struct Motion {
    samples: Vec<Sample>,
    /// Print is asked on one side of these only.
    creases: Vec<Crease>,
    width: f64,
}

/// Neighbours wanted before an answer is given; the neighbourhood widens until there are so many.
const WANTED: usize = 24;
/// A window this near to a crease, in its own sides, lies on both sides of it.
const ASTRIDE: f64 = 0.4;
/// Places at which the usual scatter is looked at.
const USUAL_PLACES: usize = 200;
/// Fewest neighbours that tell of a place whose own print is left out.
const FEWEST: usize = 10;
/// Nodes of a part of the paper are told so many spacings beyond the creases that bound it: two are asked for what lies at
/// a crease, and what a crease may hide is asked some millimetres beyond it.
const NODES_BEYOND: f64 = 5.0;
/// Neighbours are taken within this many widths.
const REACH_IN_WIDTHS: f64 = 2.0;

impl Motion {
    /// From pieces of print as they were found: the place of each, its displacement, and the standard
    /// deviation of that along x and y.
    pub fn of_prints(
        prints: impl IntoIterator<Item = (Point, Point, [f64; 2])>,
        creases: &[Crease],
        width: f64,
    ) -> Self {
        let samples = prints.into_iter().map(|(at, shift, sd)| sample(at, shift, sd)).collect();
        Self { samples, creases: creases.to_vec(), width }
    }

    /// From every window of a grid that was found well and lies on one side of each crease.
    pub(crate) fn of_windows(grid: &Grid, creases: &[Crease], width: f64) -> Self {
        let sound = grid.found().filter(|m| m.is_sound()).map(|m| sample(m.at, m.shift, m.sd));
        Self::cut(sound, grid.side(), creases, width)
    }

    /// From those displacements of windows, `side` wide, that lie on one side of each crease.
    pub(crate) fn cut(
        samples: impl Iterator<Item = Sample>,
        side: f64,
        creases: &[Crease],
        width: f64,
    ) -> Self {
        let astride = ASTRIDE * side;
        let samples = samples.filter(|s| creases.iter().all(|c| c.beyond(s.at).abs() > astride)).collect();
        Self { samples, creases: creases.to_vec(), width }
    }

    /// The same print, heard across one of the creases.
    pub(crate) fn across(&self, crease: usize) -> Self {
        let mut out = self.clone();
        out.creases.remove(crease);
        out
    }

    /// How far each print lies from where all others than itself say. `None` where too few are left.
    pub(crate) fn left_over(&self, prints: &[(Point, Point)]) -> Vec<Option<f64>> {
        let cells = Neighbours::new(&self.samples, self.width);
        prints
            .par_iter()
            .map_init(Vec::new, |near, &(at, shift)| {
                let width = self.gather(&cells, at, |s| s.at != at, near);
                agreed(at, near, width).map(|told| told.shift.distance(shift))
            })
            .collect()
    }

    /// The motion at each place as the print tells it that lies farther than `apart`, pixels of A, along a row or a column:
    /// windows that share no ink. `None` where there is too little.
    pub fn without(&self, places: &[Point], apart: f64) -> Vec<Option<Agreed>> {
        let cells = Neighbours::new(&self.samples, self.width);
        places
            .par_iter()
            .map_init(Vec::new, |near, &at| {
                let is_apart = |d: Point| d.x.abs().max(d.y.abs()) > apart;
                let kept = self.on_sides(side_of(&self.creases, at), |s| is_apart(s.at - at));
                near.clear();
                cells.within(at, REACH_IN_WIDTHS * self.width, kept, near);
                (near.len() >= FEWEST).then(|| agreed(at, near, self.width)).flatten()
            })
            .collect()
    }

    /// The trusted displacements.
    pub(crate) fn samples(&self) -> &[Sample] {
        &self.samples
    }

    /// Number of trusted displacements.
    pub fn len(&self) -> usize {
        self.samples.len()
    }

    /// Whether nothing is trusted.
    pub fn is_empty(&self) -> bool {
        self.samples.is_empty()
    }

    /// The motion at each place of a print (its place on A and its displacement), told by trusted print at
    /// places for which `keep(number of the print, place)` holds: so a line can be kept from speaking for
    /// itself. Beside a crease only the print on one side is heard. `None` where too little is left.
    pub fn expected(
        &self,
        prints: &[(Point, Point)],
        keep: impl Fn(usize, Point) -> bool + Sync,
    ) -> Vec<Option<Agreed>> {
        let cells = Neighbours::new(&self.samples, self.width);
        let usual = self.usual_scatter();
        prints
            .par_iter()
            .enumerate()
            .map_init(Vec::new, |near, (i, &(at, shift))| {
                let width = self.gather(&cells, at, |s| keep(i, s.at), near);
                heard(at, shift, near, width, usual)
            })
            .collect()
    }

    /// How much print commonly scatters about its neighbours' smooth motion: the median over places
    /// spread evenly among the print.
    pub(crate) fn usual_scatter(&self) -> f64 {
        let cells = Neighbours::new(&self.samples, self.width);
        let step = (self.samples.len() / USUAL_PLACES).max(1);
        let mut scatters: Vec<f64> = (0..self.samples.len())
            .into_par_iter()
            .step_by(step)
            .map_init(Vec::new, |near, i| {
                let at = self.samples[i].at;
                let width = self.gather(&cells, at, |_| true, near);
                agreed(at, near, width).map(|a| a.scatter)
            })
            .flatten()
            .collect();
        if scatters.is_empty() {
            return 0.0;
        }
        let middle = scatters.len() / 2;
        *scatters.select_nth_unstable_by(middle, f64::total_cmp).1
    }

    /// The motion over a photograph of the given size as a field with nodes `spacing` apart.
    pub fn field(&self, width: f64, height: f64, spacing: f64) -> Option<Field> {
        let (across, down) = ((width / spacing).ceil() as usize + 1, (height / spacing).ceil() as usize + 1);
        let cells = Neighbours::new(&self.samples, self.width);
        let still = Point::new(0.0, 0.0);
        let nodes = |sides: usize, everywhere: bool| -> Vec<Point> {
            (0..across * down)
                .into_par_iter()
                .map_init(Vec::new, |near, i| {
                    let at = Point::new((i % across) as f64 * spacing, (i / across) as f64 * spacing);
                    if !everywhere && self.is_far_from(sides, at, NODES_BEYOND * spacing) {
                        return still;
                    }
                    let width = self.gather_on(sides, &cells, at, |_| true, near);
                    agreed(at, near, width).map_or(still, |a| a.shift)
                })
                .collect()
        };
        let mut all: Vec<usize> = self.samples.iter().map(|s| side_of(&self.creases, s.at)).collect();
        all.sort_unstable();
        all.dedup();
        // Where no print lies the first part is asked.
        let parts = all.into_iter().enumerate().map(|(i, sides)| (sides, nodes(sides, i == 0))).collect();
        Field::cut((across, down), spacing, &self.creases, parts)
    }

    /// Whether all within `reach` of a place lies on other sides of the creases.
    fn is_far_from(&self, sides: usize, at: Point, reach: f64) -> bool {
        self.creases.iter().enumerate().any(|(i, crease)| {
            let beyond = crease.beyond(at);
            (if sides >> i & 1 == 1 { -beyond } else { beyond }) > reach
        })
    }

    /// Puts the neighbours of a place, on its own side of every crease, into `near`, from a neighbourhood that
    /// widens until there are enough; gives its width.
    fn gather(
        &self,
        cells: &Neighbours<'_>,
        at: Point,
        keep: impl Fn(&Sample) -> bool,
        near: &mut Vec<Sample>,
    ) -> f64 {
        self.gather_on(side_of(&self.creases, at), cells, at, keep, near)
    }

    /// As [`Self::gather`], on the sides given.
    fn gather_on(
        &self,
        sides: usize,
        cells: &Neighbours<'_>,
        at: Point,
        keep: impl Fn(&Sample) -> bool,
        near: &mut Vec<Sample>,
    ) -> f64 {
        let wanted = WANTED.min(self.samples.len());
        let mut width = self.width;
        // Eight widenings by half are a factor of 25: the whole of any sheet.
        for _ in 0..8 {
            near.clear();
            cells.within(at, REACH_IN_WIDTHS * width, self.on_sides(sides, &keep), near);
            if near.len() >= wanted {
                break;
            }
            width *= 1.5;
        }
        width
    }

    /// Whether print lies on these sides of the creases and `keep` accepts it.
    fn on_sides(&self, sides: usize, keep: impl Fn(&Sample) -> bool) -> impl Fn(&Sample) -> bool {
        move |s| (self.creases.is_empty() || side_of(&self.creases, s.at) == sides) && keep(s)
    }
}

/// Matching is never better than a few hundredths of a pixel, however sharp the print: variance in
/// square pixels of A.
const LEAST_VARIANCE: f64 = 0.05;

fn sample(at: Point, shift: Point, sd: [f64; 2]) -> Sample {
    Sample { at, shift, weight: 1.0 / (sd[0].max(sd[1]).powi(2) + LEAST_VARIANCE) }
}

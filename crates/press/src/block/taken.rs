//! Which ground of a block is taken by things drawn in front: a fine map of yes and no.

use sheet::{Point, Rect};

/// Cells to the millimetre: a tenth of a millimetre is less than the thinnest line.
const PER_MM: f64 = 10.0;

/// The ground of a block.
#[derive(Debug, Clone)]
pub(super) struct Taken {
    origin: Point,
    width: usize,
    height: usize,
    cells: Vec<bool>,
}

impl Taken {
    /// Ground of which nothing is taken.
    pub(super) fn none(of: Rect) -> Self {
        let (width, height) = ((of.w * PER_MM).ceil() as usize + 1, (of.h * PER_MM).ceil() as usize + 1);
        Self { origin: Point::new(of.x, of.y), width, height, cells: vec![false; width * height] }
    }

    /// Whether a place is taken; outside of the ground everything is.
    pub(super) fn at(&self, p: Point) -> bool {
        let (x, y) = ((p.x - self.origin.x) * PER_MM, (p.y - self.origin.y) * PER_MM);
        if x < 0.0 || y < 0.0 || x >= self.width as f64 || y >= self.height as f64 {
            return true;
        }
        self.cells[y as usize * self.width + x as usize]
    }

    /// Whether a place is taken; outside of the ground nothing is.
    pub(super) fn holds(&self, p: Point) -> bool {
        let (x, y) = ((p.x - self.origin.x) * PER_MM, (p.y - self.origin.y) * PER_MM);
        x >= 0.0
            && y >= 0.0
            && x < self.width as f64
            && y < self.height as f64
            && self.cells[y as usize * self.width + x as usize]
    }

    /// Takes what is taken in another map of the same ground as well.
    pub(super) fn add(&mut self, other: &Self) {
        debug_assert_eq!(self.cells.len(), other.cells.len(), "two maps of one ground");
        self.cells.iter_mut().zip(&other.cells).for_each(|(a, b)| *a |= b);
    }

    /// Takes the inside of closed lines (non-zero rule), or gives it back.
    pub(super) fn fill(&mut self, lines: &[Vec<Point>], taken: bool) {
        let local: Vec<Vec<Point>> =
            lines.iter().map(|l| l.iter().map(|&p| (p - self.origin) * PER_MM).collect()).collect();
        let Some(bounds) = Rect::around(local.iter().flatten().copied()) else { return };
        let top = bounds.y.floor().max(0.0) as usize;
        let low = (bounds.bottom().ceil().max(0.0) as usize).min(self.height);
        let mut crossings: Vec<(f64, i32)> = Vec::new();
        for y in top..low {
            let level = y as f64 + 0.5;
            crossings.clear();
            for line in &local {
                let ends = line.iter().cycle().skip(1);
                for (a, b) in line.iter().zip(ends) {
                    if (a.y <= level) != (b.y <= level) {
                        let x = a.x + (level - a.y) / (b.y - a.y) * (b.x - a.x);
                        crossings.push((x, if b.y > a.y { 1 } else { -1 }));
                    }
                }
            }
            crossings.sort_by(|a, b| a.0.total_cmp(&b.0));
            let mut winding = 0;
            for pair in crossings.windows(2) {
                winding += pair[0].1;
                if winding != 0 {
                    let from = pair[0].0.round().clamp(0.0, self.width as f64) as usize;
                    let to = pair[1].0.round().clamp(0.0, self.width as f64) as usize;
                    self.cells[y * self.width + from..y * self.width + to.max(from)].fill(taken);
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_square_is_taken_inside_and_free_outside() {
        let mut taken = Taken::none(Rect::new(0.0, 0.0, 20.0, 20.0));
        let square = Rect::new(5.0, 5.0, 4.0, 4.0).corners().to_vec();
        taken.fill(std::slice::from_ref(&square), true);
        assert!(taken.at(Point::new(7.0, 7.0)) && !taken.at(Point::new(4.0, 7.0)));
        assert!(!taken.at(Point::new(9.5, 7.0)) && taken.at(Point::new(-1.0, 3.0)));
        taken.fill(&[square], false);
        assert!(!taken.at(Point::new(7.0, 7.0)));
    }
}

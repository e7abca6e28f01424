//! Do differing places stand in a straight line?
//!
//! A fold, a tear or a scratch spoils one word after another along its way; what was done to single sorts stands where
//! it stands.

use super::word::WordDifference;
use sheet::{Point, Rect};

/// The places of a page that differ, by their words.
#[derive(Debug, Clone, Default)]
pub(super) struct Places {
    /// Middle of each, pixels of the first, and the number of its word.
    all: Vec<(Point, usize)>,
}

/// How many words have a differing place on a straight line through a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Aligned {
    /// In the direction that has most.
    pub(super) most: f64,
    /// In the middle one of all directions: what chance gives.
    pub(super) usual: f64,
}

/// Places lighter than this are not counted, square x-heights.
const LEAST_MASS: f64 = 0.01;
/// How far a line is followed to either side, and how far off it a place may stand, x-heights.
const FAR: f64 = 14.0;
const OFF: f64 = 0.45;
/// Directions tried.
const DIRECTIONS: usize = 24;

impl Places {
    /// Takes in the places of word number `word`.
    pub(super) fn add(&mut self, word: usize, difference: &WordDifference) {
        let heavy = difference.places_of_ink().filter(|p| p.lost + p.gained >= LEAST_MASS);
        self.all.extend(heavy.map(|p| (p.bounds.centre(), word)));
    }

    /// How a place of word number `word` stands in line with those of other words.
    pub(super) fn through(&self, place: Rect, word: usize, x_height: f64) -> Aligned {
        let middle = place.centre();
        let near: Vec<(Point, usize)> = self
            .all
            .iter()
            .filter(|(p, w)| *w != word && p.distance(middle) < FAR * x_height)
            .map(|&(p, w)| (p - middle, w))
            .collect();
        let mut counts: Vec<usize> = (0..DIRECTIONS)
            .map(|k| {
                let (sin, cos) = (std::f64::consts::PI * k as f64 / DIRECTIONS as f64).sin_cos();
                let on_line = near.iter().filter(|(d, _)| (-d.x * sin + d.y * cos).abs() < OFF * x_height);
                let mut words: Vec<usize> = on_line.map(|&(_, w)| w).collect();
                words.sort_unstable();
                words.dedup();
                words.len()
            })
            .collect();
        counts.sort_unstable();
        let middle_two = (counts[DIRECTIONS / 2 - 1] + counts[DIRECTIONS / 2]) as f64;
        Aligned { most: counts[DIRECTIONS - 1] as f64, usual: middle_two / 2.0 }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_of_places_is_a_row_and_scattered_ones_are_none() {
        let row = Places { all: (0..8).map(|i| (Point::new(30.0 * i as f64, 42.0 * i as f64), i)).collect() };
        let on = row.through(Rect::new(119.0, 167.0, 2.0, 2.0), 4, 20.0);
        assert!(on.most >= 6.0 && on.usual <= 1.0, "{on:?}");
        let off = row.through(Rect::new(200.0, 20.0, 2.0, 2.0), 9, 20.0);
        assert!(off.most <= 2.0, "{off:?}");
    }

    #[test]
    fn places_of_one_word_count_once() {
        let word = Places { all: (0..5).map(|i| (Point::new(20.0 * f64::from(i), 0.0), 7)).collect() };
        let seen = word.through(Rect::new(-30.0, -1.0, 2.0, 2.0), 3, 20.0);
        assert!((seen.most - 1.0).abs() < 1e-9, "{seen:?}");
    }
}

//! Reported places against true changes.

use sheet::Rect;

/// A true change as the boxes of the printed words it lies in, pixels of each photograph.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Planted {
    /// On the first photograph; `None` when it is not on it.
    pub a: Option<Rect>,
    /// On the second.
    pub b: Option<Rect>,
    /// Whether both photographs show enough ink to judge it.
    pub judgeable: bool,
}

/// A place as a tool reports it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Place {
    /// On the first photograph.
    pub a: Rect,
    /// On the second.
    pub b: Rect,
}

/// How the places of one pair fared.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(crate) struct ChangeCount {
    /// True changes that can be judged.
    pub judgeable: usize,
    /// Of these, those met by a reported place.
    pub found: usize,
    /// Reported places that meet no true change, judgeable or not.
    pub false_places: usize,
}

/// A reported place higher than this many heights of the word claims more than one word in its line
/// and the next, and finds nothing.
const TALLEST: f64 = 3.0;

/// Whether a reported box points at a word: they share some area, and it is no net thrown over the page.
pub(crate) fn meets(word: Rect, reported: Rect) -> bool {
    word.shared(reported).is_some() && reported.h <= TALLEST * word.h
}

/// Counts found and false places. A change is found when a place meets its word on either photograph.
pub(crate) fn count_changes(planted: &[Planted], reported: &[Place]) -> ChangeCount {
    let points_at = |p: &Planted, r: &Place| {
        p.a.is_some_and(|word| meets(word, r.a)) || p.b.is_some_and(|word| meets(word, r.b))
    };
    let judgeable = planted.iter().filter(|p| p.judgeable);
    ChangeCount {
        judgeable: judgeable.clone().count(),
        found: judgeable.filter(|p| reported.iter().any(|r| points_at(p, r))).count(),
        false_places: reported.iter().filter(|r| !planted.iter().any(|p| points_at(p, r))).count(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn planted(x: f64, judgeable: bool) -> Planted {
        let word = Rect::new(x, 100.0, 60.0, 20.0);
        Planted { a: Some(word), b: Some(word), judgeable }
    }

    fn place(x: f64, y: f64, h: f64) -> Place {
        let r = Rect::new(x, y, 10.0, h);
        Place { a: r, b: r }
    }

    #[test]
    fn found_missed_and_false() {
        let truth = [planted(0.0, true), planted(200.0, true), planted(400.0, false)];
        // One on the first word, one on the word that cannot be judged, one on nothing.
        let told = [place(20.0, 105.0, 10.0), place(410.0, 105.0, 10.0), place(700.0, 105.0, 10.0)];
        let c = count_changes(&truth, &told);
        assert_eq!(c, ChangeCount { judgeable: 2, found: 1, false_places: 1 });
    }

    #[test]
    fn one_photograph_is_enough() {
        let lost = Planted { a: None, ..planted(0.0, true) };
        assert_eq!(count_changes(&[lost], &[place(5.0, 110.0, 5.0)]).found, 1);
        assert_eq!(count_changes(&[lost], &[place(90.0, 110.0, 5.0)]).found, 0);
    }

    #[test]
    fn touching_edges_do_not_meet() {
        assert_eq!(count_changes(&[planted(0.0, true)], &[place(60.0, 100.0, 5.0)]).found, 0);
    }

    #[test]
    fn a_net_over_the_page_finds_nothing() {
        let page = Rect::new(0.0, 0.0, 1000.0, 1000.0);
        let c = count_changes(&[planted(0.0, true)], &[Place { a: page, b: page }]);
        assert_eq!(c, ChangeCount { judgeable: 1, found: 0, false_places: 1 });
    }
}

//! What is usual of the letters of a page.

use super::Letter;

/// What is usual of the letters of lines that stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Usual {
    /// Median correlation of a letter with itself on the other impression.
    best: f64,
}

/// Fewest letters that tell what is usual.
const FEWEST: usize = 20;

impl Usual {
    /// From the letters of all lines that stand; `None` of too few.
    pub(crate) fn of<'l>(letters: impl Iterator<Item = &'l Letter>) -> Option<Self> {
        let mut best: Vec<f64> = letters.map(|l| l.best).collect();
        best.sort_by(f64::total_cmp);
        let n = best.len();
        (n >= FEWEST).then(|| Self { best: best[n / 2] })
    }

    /// Median correlation of a letter with itself on the other impression.
    pub(crate) fn likeness(self) -> f64 {
        self.best
    }
}

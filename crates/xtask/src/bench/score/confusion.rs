//! Verdicts told over verdicts true.

use evidence::Verdict;

/// How often each verdict was given for each truth, failures in a column of their own.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct Confusion {
    told: [[usize; 7]; 6],
}

/// The place of a verdict in the tables.
fn place(verdict: Verdict) -> usize {
    Verdict::ALL.iter().position(|&v| v == verdict).unwrap_or(0)
}

impl Confusion {
    /// Counts one pair; `told` is `None` when the tool failed.
    pub(crate) fn count(&mut self, truth: Verdict, told: Option<Verdict>) {
        self.told[place(truth)][told.map_or(6, place)] += 1;
    }

    /// Pairs of this truth that were told this verdict; `None` for failures.
    pub(crate) fn times(&self, truth: Verdict, told: Option<Verdict>) -> usize {
        self.told[place(truth)][told.map_or(6, place)]
    }

    /// Pairs of this truth.
    pub(crate) fn of(&self, truth: Verdict) -> usize {
        self.told[place(truth)].iter().sum()
    }

    /// All pairs.
    pub(crate) fn all(&self) -> usize {
        self.told.iter().flatten().sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_pair_falls_in_one_cell() {
        let mut c = Confusion::default();
        c.count(Verdict::PartlyReset, Some(Verdict::DifferentSetting));
        c.count(Verdict::PartlyReset, None);
        c.count(Verdict::Undetermined, Some(Verdict::Undetermined));
        assert_eq!(c.times(Verdict::PartlyReset, Some(Verdict::DifferentSetting)), 1);
        assert_eq!(c.times(Verdict::PartlyReset, None), 1);
        assert_eq!((c.of(Verdict::PartlyReset), c.all()), (2, 3));
    }
}

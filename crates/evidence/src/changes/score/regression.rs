//! Logistic regressions on broken lines.

/// A logistic regression on broken lines; `S` are the signs it goes by.
pub(super) struct Regression<S: 'static> {
    pub(super) constant: f64,
    pub(super) terms: &'static [Term<S>],
}

/// A sign, or how far it is beyond a knee, and how much each unit of it speaks for a change.
pub(super) struct Term<S> {
    sign: fn(&S) -> f64,
    beyond: Option<f64>,
    weight: f64,
}

impl<S> Regression<S> {
    /// How surely, 0 to 1; `even` are the log odds at which a change is as likely as not.
    pub(super) fn probability(&self, signs: &S, even: f64) -> f64 {
        logistic(self.log_odds(signs) - even)
    }

    fn log_odds(&self, signs: &S) -> f64 {
        self.constant + self.terms.iter().map(|t| t.of(signs)).sum::<f64>()
    }
}

impl<S> Term<S> {
    fn of(&self, signs: &S) -> f64 {
        let value = (self.sign)(signs);
        self.weight * self.beyond.map_or(value, |knee| (value - knee).max(0.0))
    }
}

/// Short names for the tables.
pub(super) const fn line<S>(sign: fn(&S) -> f64, weight: f64) -> Term<S> {
    Term { sign, beyond: None, weight }
}

pub(super) const fn knee<S>(sign: fn(&S) -> f64, beyond: f64, weight: f64) -> Term<S> {
    Term { sign, beyond: Some(beyond), weight }
}

pub(crate) fn logistic(x: f64) -> f64 {
    1.0 / (1.0 + (-x).exp())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn logistic_is_even_at_nothing_and_sure_far_off() {
        assert!((logistic(0.0) - 0.5).abs() < 1e-12);
        assert!(logistic(-30.0) < 1e-9 && logistic(30.0) > 1.0 - 1e-9);
    }

    #[test]
    fn a_regression_adds_its_lines_and_what_is_beyond_its_knees() {
        const ALL: Regression<[f64; 2]> =
            Regression { constant: -1.0, terms: &[line(|s| s[0], 2.0), knee(|s| s[1], 0.5, -4.0)] };
        assert!((ALL.log_odds(&[1.5, 0.25]) - 2.0).abs() < 1e-12);
        assert!((ALL.log_odds(&[1.5, 0.75]) - 1.0).abs() < 1e-12);
    }
}

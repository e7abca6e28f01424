//! The plain straight line through counts of damage by year, and the year at which it reaches a count.
//!
//! Least squares, N = a + b t, and inverse prediction from it (Draper & Smith, *Applied Regression Analysis*, 3rd ed. 1998,
//! § 3.2; Fieller, *J. R. Stat. Soc. B* 16, 1954). It is here for comparison: it takes counts for normal with one spread, the
//! line for straight between and beyond the dated sheets, and every count for as sure as another, none of which a block
//! promises. What `dates` says rests on none of it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use statrs::distribution::{ContinuousCDF, StudentsT};

/// A straight line through counts.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Line {
    /// Dated impressions it goes through.
    pub points: usize,
    /// Their mean year.
    pub mean_year: f64,
    /// The count of the line at the mean year: the mean count.
    pub count_at_mean: f64,
    /// Damages a year.
    pub per_year: f64,
    /// The residual standard deviation of counts, on `points - 2` degrees of freedom.
    pub residual_sd: f64,
    /// The sum of squares of the years about their mean.
    pub spread_of_years: f64,
}

/// The year at which a line reaches a count.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct InversePrediction {
    /// The year.
    pub year: f64,
    /// Its standard error in years, to first order.
    pub standard_error_years: f64,
    /// The 95 percent interval by that standard error and Student's t.
    pub interval_95_year: [f64; 2],
    /// Fieller's 95 percent interval, which holds to every order; null where the slope is not clear of zero, so that the
    /// line reaches the count anywhere.
    pub fieller_95_year: Option<[f64; 2]>,
}

/// The least-squares line through years and counts. `None` of fewer than three points, of lists that differ in length, or of
/// years that are all one.
pub fn line(years: &[f64], counts: &[f64]) -> Option<Line> {
    let points = years.len();
    if points < 3 || counts.len() != points {
        return None;
    }
    let n = points as f64;
    let mean_year = years.iter().sum::<f64>() / n;
    let count_at_mean = counts.iter().sum::<f64>() / n;
    let about = || years.iter().zip(counts).map(|(t, c)| (t - mean_year, c - count_at_mean));
    let spread_of_years: f64 = about().map(|(t, _)| t * t).sum();
    if spread_of_years <= 0.0 {
        return None;
    }
    let per_year = about().map(|(t, c)| t * c).sum::<f64>() / spread_of_years;
    let squares: f64 = about().map(|(t, c)| (c - per_year * t) * (c - per_year * t)).sum();
    let residual_sd = (squares / (n - 2.0)).sqrt();
    Some(Line { points, mean_year, count_at_mean, per_year, residual_sd, spread_of_years })
}

impl Line {
    /// The year at which the line reaches a count, as of one more impression. `None` of a level line.
    pub fn year_of(&self, count: f64) -> Option<InversePrediction> {
        let (n, b) = (self.points as f64, self.per_year);
        let t = student_975(n - 2.0)?;
        let above = count - self.count_at_mean;
        let from_mean = above / b;
        if !from_mean.is_finite() {
            return None;
        }
        let year = self.mean_year + from_mean;
        let spread = self.spread_of_years;
        let standard_error_years =
            self.residual_sd / b.abs() * (1.0 + 1.0 / n + from_mean * from_mean / spread).sqrt();
        let half = t * standard_error_years;
        // Where the count lies within t standard errors of prediction: a quadratic in the year.
        let g = t * t * self.residual_sd * self.residual_sd / (b * b * spread);
        let fieller_95_year = (g < 1.0).then(|| {
            let root = t * self.residual_sd / b.abs()
                * (from_mean * from_mean / spread + (1.0 - g) * (1.0 + 1.0 / n)).sqrt();
            [-root, root].map(|half| self.mean_year + (from_mean + half) / (1.0 - g))
        });
        Some(InversePrediction {
            year,
            standard_error_years,
            interval_95_year: [year - half, year + half],
            fieller_95_year,
        })
    }
}

/// The quantile of Student's t that leaves 2.5 percent above.
fn student_975(freedom: f64) -> Option<f64> {
    StudentsT::new(0.0, 1.0, freedom).ok().map(|t| t.inverse_cdf(0.975))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn is(got: f64, wanted: f64, within: f64) {
        assert!((got - wanted).abs() <= within, "{got} for {wanted}");
    }

    #[test]
    fn the_worked_example_comes_out_digit_by_digit() {
        // Worked by hand in the project's collected facts, § 7.2 (invented counts).
        let line = line(&[1590.0, 1600.0, 1610.0, 1620.0], &[12.0, 31.0, 52.0, 69.0]).unwrap();
        is(line.mean_year, 1605.0, 1e-12);
        is(line.count_at_mean, 41.0, 1e-12);
        is(line.spread_of_years, 500.0, 1e-12);
        is(line.per_year, 960.0 / 500.0, 1e-12);
        // The squares of the residuals -0.2, -0.4, 1.4, -0.8 add up to 2.80.
        is(line.residual_sd * line.residual_sd, 1.40, 1e-10);
        is(line.residual_sd, 1.18, 0.005);
        let told = line.year_of(60.0).unwrap();
        is(told.year, 1614.9, 0.05);
        is(told.year, 1605.0 + 19.0 / 1.92, 1e-9);
        is(told.standard_error_years, 0.74, 0.005);
        is(told.interval_95_year[1] - told.year, 3.2, 0.05);
        is(student_975(2.0).unwrap(), 4.303, 0.0005);
    }

    #[test]
    fn fieller_reaches_further_from_the_dated_sheets() {
        let line = line(&[1590.0, 1600.0, 1610.0, 1620.0], &[12.0, 35.0, 49.0, 69.0]).unwrap();
        let told = line.year_of(90.0).unwrap();
        let [low, high] = told.fieller_95_year.unwrap();
        assert!(high - told.year > told.year - low && low < told.year);
    }

    #[test]
    fn a_level_line_reaches_no_count_and_two_points_have_no_spread() {
        let level = line(&[1.0, 2.0, 3.0], &[5.0, 5.0, 5.0]).unwrap();
        assert_eq!(level.year_of(6.0), None);
        assert_eq!(line(&[1.0, 2.0], &[5.0, 6.0]), None);
        assert_eq!(line(&[1.0, 1.0, 1.0], &[5.0, 6.0, 7.0]), None);
    }

    #[test]
    fn a_slope_that_is_not_clear_of_zero_gives_no_bounds() {
        let line = line(&[1.0, 2.0, 3.0, 4.0], &[5.0, 9.0, 4.0, 8.0]).unwrap();
        assert_eq!(line.year_of(6.0).unwrap().fieller_95_year, None);
    }
}

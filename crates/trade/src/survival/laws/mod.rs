//! Laws of how many copies are left of an item, fitted to the items that left at least one ("zero-truncated"), and so how many
//! left none.
//!
//! Each law is fitted by maximum likelihood to the counts that are seen; the number of all items is S divided by the chance
//! of leaving a copy at all. The interval is that of the likelihood of the *whole* (the unseen counted in) as a profile over
//! the number of items (Sanathanan 1972, *Annals of Mathematical Statistics* 43; from memory): numbers whose best likelihood
//! lies within half the 95 percent quantile of chi-square with one degree of freedom.

mod binomial;
mod fit;
mod negative_binomial;
mod poisson;
mod profile;
mod search;

pub use binomial::Binomial;
pub use fit::{ChiSquare, Fitted, Parameter, fitted};
pub use negative_binomial::NegativeBinomial;
pub use poisson::Poisson;
pub(crate) use profile::ln_falling;
pub(crate) use search::highest;

use super::Counts;

/// A law of how many copies are left of an item.
pub trait Law: std::fmt::Debug {
    /// Its name, in the words of a handbook.
    fn name(&self) -> &'static str;
    /// What it takes for granted, and when it misleads.
    fn caution(&self) -> &'static str;
    /// How many numbers are fitted.
    fn parameters(&self) -> u32;
    /// The numbers fitted to the items that left a copy; `None` where the likelihood has no highest place.
    fn fit(&self, counts: &Counts) -> Option<Vec<Parameter>>;
    /// The logarithm of the chance of exactly so many copies, 0 among them.
    fn ln_chance(&self, fitted: &[Parameter], copies: u32) -> f64;
    /// The logarithm of the chance of all counts of items with a copy.
    fn ln_chance_of_all(&self, fitted: &[Parameter], counts: &Counts) -> f64 {
        counts.each().map(|c| c.items as f64 * self.ln_chance(fitted, c.copies)).sum()
    }
    /// The best numbers if there were `all` items in all, seen and unseen.
    fn fit_of_all(&self, counts: &Counts, all: f64) -> Vec<Parameter>;
}

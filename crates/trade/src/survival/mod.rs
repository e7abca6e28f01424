//! What is lost: how many editions (or works, sorts, blocks) there were, reckoned from how many copies are left of each.
//!
//! Start at [`study()`]: [`Counts`] in, a [`Survival`] out, with every estimator beside the others and what each assumes. The
//! estimators one by one: [`chao1`], [`coverage()`], [`further()`], [`zelterman`], the laws of [`laws`], and Greg's reckoning about
//! *Everyman* in [`everyman()`]. [`sorts`] has the small sums for damaged type and ornaments. [`picture()`] draws a study.
//!
//! Nothing here looks at a copy: what is counted, and whether two copies are of one edition, is the scholar's.

mod chao;
mod counts;
mod coverage;
mod everyman;
mod further;
mod interval;
pub mod laws;
mod low_counts;
mod picture;
pub mod sorts;
mod study;
mod table;

pub use chao::chao1;
pub use counts::{CountOf, Counts, CountsError, MOST_COPIES, MOST_ITEMS};
pub use coverage::{Coverage, coverage};
pub use everyman::{EqualEditions, chance_all_differ, everyman, least_editions};
pub use further::{Further, further};
pub use interval::{Estimate, Interval};
pub use low_counts::zelterman;
pub use picture::picture;
pub use study::{Options, Survival, study};
pub use table::TableError;
pub(crate) use table::what_is_broken;

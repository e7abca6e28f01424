//! Kings and queens, and how their years are counted.
//!
//! Year n of a reign runs from the (n-1)th anniversary of its beginning to the eve of the nth; the last is cut by death or
//! deposition (encyclopaedia mirrors, "Regnal years of English monarchs"). Where scholars count otherwise, [`Counting`] says how.

mod joint;
mod table;
mod years;

pub use joint::{JOINT_YEARS, JointYear};
pub use table::{REIGNS, Realm, Reign, Sovereign};
pub use years::{Counting, Counts, Held, joint_year, reigns_on, year};

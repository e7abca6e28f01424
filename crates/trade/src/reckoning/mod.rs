//! All the dates of one sheet, held against each other.
//!
//! [`statement()`] takes what the sheet says, one date at a time; [`reconcile()`] says which agree, which contradict, and by which
//! smallest set of slips they could be made to agree. Nothing is corrected silently: every remedy names what was set, what may
//! have been meant, and why, and [`catalogued()`] writes it as cataloguers do, "MDDCI [that is, 1701]".

mod catalogue;
mod conflict;
mod mend;
mod reconcile;
mod sheet;
mod statement;

pub use catalogue::{catalogued, historical_year, that_is};
pub use conflict::Conflict;
pub use mend::Mended;
pub use reconcile::{MOST_STATEMENTS, ReckoningError, Reconciled, Remedy, Request, reconcile};
pub use statement::{Part, Role, Statement, StatementError, statement};

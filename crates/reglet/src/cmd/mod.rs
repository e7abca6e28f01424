//! The commands, one a file: what was typed, what is done, what is said.

mod compare;
mod schema;

pub use compare::Compare;
pub use schema::Schema;

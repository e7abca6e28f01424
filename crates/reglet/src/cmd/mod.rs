//! The commands, one a file: what was typed, what is done, what is said.

mod compare;
mod demo;
mod print;
mod schema;

pub use compare::Compare;
pub use demo::Demo;
pub use print::Print;
pub use schema::Schema;

//! The commands, one a file: what was typed, what is done, what is said.

mod blocks;
mod compare;
mod demo;
mod outputs;
mod photographs;
mod plates;
mod print;
mod results;
mod scales;
mod schema;

pub use blocks::Blocks;
pub use compare::Compare;
pub use demo::Demo;
pub use print::Print;
pub use schema::Schema;

//! The commands, one a file: what was typed, what is done, what is said.

mod blocks;
mod calendar;
mod compare;
mod date;
mod demo;
mod outputs;
mod photographs;
mod plates;
mod print;
mod scales;
mod schema;

pub use blocks::Blocks;
pub use calendar::Calendar;
pub use compare::Compare;
pub use date::Date;
pub use demo::Demo;
pub use print::Print;
pub use schema::Schema;

//! The commands, one a file: what was typed, what is done, what is said.

mod blocks;
mod compare;
mod demo;
mod format;
mod gatherings;
mod imposition;
mod outputs;
mod photographs;
mod plates;
mod print;
mod scales;
mod schema;
mod told;
mod types;

pub use blocks::Blocks;
pub use compare::Compare;
pub use demo::Demo;
pub use format::Format;
pub use gatherings::Gatherings;
pub use imposition::Imposition;
pub use print::Print;
pub use schema::Schema;
pub use types::Type;

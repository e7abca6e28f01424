//! The commands, one a file: what was typed, what is done, what is said.

mod blocks;
mod compare;
mod demo;
mod figures;
mod outputs;
mod photographs;
mod plates;
mod presswork;
mod print;
mod scales;
mod schema;
mod survival;
mod told;

pub use blocks::Blocks;
pub use compare::Compare;
pub use demo::Demo;
pub use figures::Figures;
pub use presswork::Presswork;
pub use print::Print;
pub use schema::Schema;
pub use survival::Survival;

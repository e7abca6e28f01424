//! The commands, one a file: what was typed, what is done, what is said.

mod blocks;
mod calendar;
mod compare;
mod date;
mod demo;
mod figures;
mod format;
mod gatherings;
mod imposition;
mod lengths;
mod outputs;
mod photographed;
mod photographs;
mod plates;
mod presswork;
mod print;
mod results;
mod scales;
mod schema;
mod survival;
mod told;
mod types;

pub use blocks::Blocks;
pub use calendar::Calendar;
pub use compare::Compare;
pub use date::Date;
pub use demo::Demo;
pub use figures::Figures;
pub use format::Format;
pub use gatherings::Gatherings;
pub use imposition::Imposition;
pub use presswork::Presswork;
pub use print::Print;
pub use schema::Schema;
pub use survival::Survival;
pub use types::Type;

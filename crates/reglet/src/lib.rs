//! What the program `reglet` is made of: its commands, and the page it writes.

pub mod cmd;
mod files;
pub mod page;
mod plates;
mod report;
pub mod say;
pub mod stop;

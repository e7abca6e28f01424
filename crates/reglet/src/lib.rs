//! What the program `reglet` is made of: its commands, its files, what it says.

pub mod cmd;
mod files;
pub mod say;
pub mod stop;

//! What the program `reglet` is made of, apart from its command line.

pub mod page;

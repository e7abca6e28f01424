//! reglet
fn main() {}

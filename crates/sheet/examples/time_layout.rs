//! Times `layout` on a photograph, best of 30 runs: `time_layout PHOTOGRAPH`.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a tool for the people who build this"
)]

#[path = "../tests/support/mod.rs"]
mod support;

use std::time::Instant;

fn main() {
    let args: Vec<String> = std::env::args().collect();
    let ink = sheet::ink(&support::luminance(args[1].as_ref()).unwrap()).darkness.halved();
    let best = (0..30)
        .map(|_| {
            let start = Instant::now();
            std::hint::black_box(sheet::layout(&ink, 2.0));
            start.elapsed().as_secs_f64() * 1e3
        })
        .fold(f64::INFINITY, f64::min);
    println!("{} x {}: {best:.1} ms", ink.width(), ink.height());
}

//! Times `ink` on a photograph, best of 20 runs: `time_ink PHOTOGRAPH`.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a tool for the people who build this"
)]

use sheet::{Plane, ink};
use std::time::Instant;

fn main() {
    let args: Vec<String> = std::env::args().collect();
    let grey = image::open(&args[1]).unwrap().into_luma8();
    let (w, h) = (grey.width() as usize, grey.height() as usize);
    let luminance = Plane::from_vec(w, h, grey.into_raw()).unwrap();
    let best = (0..20)
        .map(|_| {
            let start = Instant::now();
            std::hint::black_box(ink(&luminance));
            start.elapsed().as_secs_f64() * 1e3
        })
        .fold(f64::INFINITY, f64::min);
    println!("{w} x {h}: {best:.1} ms, {:.1} ms per 8 megapixels", best * 8e6 / (w * h) as f64);
}

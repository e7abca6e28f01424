//! Writes the ink of a photograph as a PNG to look at: `look_ink PHOTOGRAPH OUT.png [PAPER.png]`.
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
    let start = Instant::now();
    let found = ink(&luminance);
    println!(
        "{w} x {h}: {:.1} ms, full ink {:.2}, cell {}, page {:?}",
        start.elapsed().as_secs_f64() * 1e3,
        found.full_ink,
        found.cell,
        found.page
    );
    if let Some(path) = args.get(3) {
        let (w, h) = (found.paper.width() as u32, found.paper.height() as u32);
        image::GrayImage::from_raw(w, h, found.paper.data().to_vec()).unwrap().save(path).unwrap();
    }
    let mut bytes = found.darkness.into_vec();
    for v in &mut bytes {
        *v = 255 - *v;
    }
    image::GrayImage::from_raw(w as u32, h as u32, bytes).unwrap().save(&args[2]).unwrap();
}

#![allow(missing_docs)]
use register::{Guide, Pyramid, features, lay};
use sheet::Plane;
use std::time::Instant;
fn ink(p: &str) -> Plane<u8> {
    let g = image::open(p).unwrap().to_luma8();
    let (w, h) = (g.width() as usize, g.height() as usize);
    let g = Plane::from_vec(w, h, g.into_raw()).unwrap();
    let cell = 32;
    let (gw, gh) = (w.div_ceil(cell), h.div_ceil(cell));
    let mut bg = Plane::filled(gw, gh, 0u8);
    for y in 0..gh {
        for x in 0..gw {
            let mut m = 0;
            for yy in y * cell..((y + 1) * cell).min(h) {
                for xx in x * cell..((x + 1) * cell).min(w) {
                    m = m.max(g.at(xx, yy));
                }
            }
            bg.row_mut(y)[x] = m;
        }
    }
    let mut out = Plane::filled(w, h, 0u8);
    for y in 0..h {
        for x in 0..w {
            let b = bg.sample((x as f64 + 0.5) / cell as f64, (y as f64 + 0.5) / cell as f64).max(1.0) * 0.92;
            let d = 1.0 - f32::from(g.at(x, y)) / b;
            out.row_mut(y)[x] = ((d - 0.1).max(0.0) * 2.0 * 255.0).min(255.0) as u8;
        }
    }
    out
}
fn main() {
    let a: Vec<String> = std::env::args().skip(1).collect();
    let ppi: f64 = a.get(2).and_then(|v| v.parse().ok()).unwrap_or(155.0);
    let (pa, pb) = (Pyramid::new(ink(&a[0])), Pyramid::new(ink(&a[1])));
    let t = Instant::now();
    let fa = features(&pa);
    let fb = features(&pb);
    let t1 = t.elapsed();
    let g = Guide { px_per_mm: ppi / 25.4, lines: None };
    match lay(&pa, &fa, &pb, &fb, &g) {
        Err(e) => println!("{e} {:?}", t.elapsed()),
        Ok(l) => {
            let mut r: Vec<f64> =
                l.patches.iter().filter_map(|p| p.residual).map(|p| p.x.hypot(p.y) / g.px_per_mm).collect();
            r.sort_by(f64::total_cmp);
            let q = |f: f64| r[((r.len() - 1) as f64 * f) as usize];
            let mut sc: Vec<f32> = l.patches.iter().map(|p| p.score).collect();
            sc.sort_by(f32::total_cmp);
            println!(
                "feat {:?} all {:?} agreeing {} found {:.2} patches {} judged {} residual mm med {:.4} p75 {:.4} p95 {:.4} score med {:.3} onesided {}",
                t1,
                t.elapsed(),
                l.agreeing,
                l.found_share,
                l.patches.len(),
                r.len(),
                q(0.5),
                q(0.75),
                q(0.95),
                sc[sc.len() / 2],
                l.patches.iter().filter(|p| p.one_sided).count()
            );
        }
    }
}

#![allow(missing_docs)]
use evidence::{Reading, compare};
use std::time::Instant;
fn main() {
    let a: Vec<String> = std::env::args().skip(1).collect();
    let t = Instant::now();
    let read = |p: &str| {
        let ph = sheet::decode::decode(&std::fs::read(p).unwrap(), &sheet::decode::DecodeRequest::default())
            .unwrap();
        Reading::of(&ph.luminance, None)
    };
    let (ra, rb) = rayon::join(|| read(&a[0]), || read(&a[1]));
    let t1 = t.elapsed();
    let c = compare(&ra, &rb).comparison;
    eprintln!(
        "read {t1:?} all {:?} lines {} {} words {} {} xh {:?}",
        t.elapsed(),
        ra.layout.lines.len(),
        rb.layout.lines.len(),
        ra.words.len(),
        rb.words.len(),
        ra.layout.x_height
    );
    if a.len() > 2 {
        println!("{}", serde_json::to_string(&c).unwrap());
    }
    println!(
        "{:?} {:?} resid {:?} {:?} changes {} doubtful {} matched {:?}",
        c.verdict,
        c.weight_log10,
        c.residual.median_px,
        c.residual.median_x_heights,
        c.changes.len(),
        c.doubtful.len(),
        c.words_matched
    );
    for l in &c.lines {
        print!("{:?}:{:?} ", l.standing, l.weight_log10.unwrap_or(0.0));
    }
    println!();
    for r in &c.reasons {
        println!("  {r}");
    }
}

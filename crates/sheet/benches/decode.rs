//! Decoding of an 8-megapixel JPEG to brightness, and to colour for comparison.
#![allow(missing_docs, clippy::expect_used, clippy::print_stdout, reason = "a bench, not a library")]
#![allow(clippy::disallowed_methods, reason = "a bench must read its picture")]

use std::hint::black_box;

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use sheet::decode::{DecodeRequest, decode, decode_rgb};

/// A page of 2448 by 3264 pixels, colour 4:2:0, quality 90, with the detail of print and of grain. Made by
/// `tests/reference/make_bench_jpeg.py` when it is missing; the bench says so and does nothing then.
const PICTURE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../target/bench/page-8-megapixels.jpg");

fn bench(c: &mut Criterion) {
    let Ok(bytes) = std::fs::read(PICTURE) else {
        println!("skipped: make {PICTURE} with tests/reference/make_bench_jpeg.py");
        return;
    };
    let ask = DecodeRequest::default();
    let mut group = c.benchmark_group("decode/jpeg-420");
    group.throughput(Throughput::Elements(2448 * 3264)).sample_size(20);
    group.bench_function("luminance/8Mpx", |b| {
        b.iter(|| {
            let plane = decode(black_box(&bytes), &ask).expect("a sound picture").luminance;
            assert_eq!(plane.data().len(), 2448 * 3264);
            plane
        });
    });
    group.bench_function("rgb/8Mpx", |b| {
        b.iter(|| decode_rgb(black_box(&bytes), &ask).expect("a sound picture"));
    });
    group.finish();
}

criterion_group!(benches, bench);
criterion_main!(benches);

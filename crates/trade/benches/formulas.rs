//! A formula of a thousand gatherings: read, counted out leaf by leaf, checked and written again.
#![allow(missing_docs, clippy::expect_used, reason = "a bench, not a library")]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use trade::gatherings::{collate, read};
use trade::imposition::schemes;

/// A thousand gatherings named singly: every letter of 44 alphabets.
fn singly() -> String {
    let letters = "ABCDEFGHIKLMNOPQRSTVXYZ";
    let all = (1..=44).flat_map(|m| letters.chars().map(move |c| format!("{m}{c}⁸")));
    let items: Vec<String> = all.take(1000).collect();
    format!("8°: {}; $4 signed; pp. 1-16000", items.join(" "))
}

fn bench(c: &mut Criterion) {
    let mut group = c.benchmark_group("formula");
    group.sample_size(20);
    for (name, text, gatherings) in [
        ("run/1000", "8°: 1-1000⁸; $4 signed; pp. 1-16000".to_owned(), 1000),
        ("singly/1000", singly(), 1000),
    ] {
        group.bench_function(name, |b| {
            b.iter(|| {
                let formula = read(black_box(&text)).expect("a sound formula");
                let found = collate(&formula);
                assert_eq!((found.book.gatherings.len(), found.leaves), (gatherings, 8000));
                assert!(found.checks[0].agrees);
                found
            });
        });
    }
    group.finish();
    c.bench_function("imposition/every scheme", |b| b.iter(|| assert_eq!(schemes().len(), 32)));
}

criterion_group!(benches, bench);
criterion_main!(benches);

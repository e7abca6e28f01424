//! A dating clause, read and turned into days; the bound is 1 ms.
#![allow(missing_docs, clippy::expect_used, reason = "a bench, not a library")]

use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use trade::clause::{Place, days, parse};
use trade::numerals::{Prior, meant, read};
use trade::reckoning::{Request, Role, reconcile, statement};

const CLAUSES: [(&str, &str); 4] = [
    ("short", "8 Martii 1648/9"),
    (
        "reign",
        "Given at Our Court at Merrin the nineteenth day of February, in the five and twentieth year of Our Reign",
    ),
    (
        "feast",
        "Monday next after the feast of St Luke, anno Domini millesimo quingentesimo quadragesimo quinto",
    ),
    ("latin", "pridie Kal. Ian. M. DC. LXXIX."),
];

fn bench(c: &mut Criterion) {
    let mut group = c.benchmark_group("clause");
    for (name, text) in CLAUSES {
        group.bench_function(name, |b| {
            b.iter(|| {
                let answer = days(&parse(black_box(text)).expect("a sound clause"), Place::England);
                assert!(!answer.readings.is_empty());
                answer
            });
        });
    }
    group.finish();
    c.bench_function("numeral/MDDCI", |b| {
        b.iter(|| {
            let all = meant(&read(black_box("MDDCI")).expect("a numeral"), &Prior::default());
            assert_eq!(all[0].year, 1701);
            all
        });
    });
    c.bench_function("reckoning/imprint-and-text", |b| {
        let all = [
            (Role::Imprint, "MDDCI"),
            (Role::Text, "Thursday the nineteenth day of February 1701"),
            (Role::Text, "in the fourteenth year of our reign"),
        ];
        let all = all.map(|(role, text)| statement(role, text).expect("a date"));
        b.iter(|| {
            let told = reconcile(black_box(&all), &Request::default()).expect("dates");
            assert_eq!(told.remedies[0].slips[0].set, "MDDCI");
            told
        });
    });
}

criterion_group!(benches, bench);
criterion_main!(benches);

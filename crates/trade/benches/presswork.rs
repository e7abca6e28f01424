//! How fast very many shops are drawn.

#![allow(missing_docs, reason = "criterion makes the functions")]

use criterion::{Criterion, criterion_group, criterion_main};
use trade::presswork::many::many;
use trade::presswork::questions::Deadline;
use trade::presswork::{Plan, Spread};

fn shops(c: &mut Criterion) {
    let mut plan = Plan::new(1000, 20);
    (plan.compositors, plan.presses, plan.crews) = (3, 2, 2);
    plan.rates.ens_per_sheet = Some(Spread::exactly(25_344.0));
    let mut group = c.benchmark_group("presswork");
    group.sample_size(10);
    group.bench_function("many/sheets-20/shops-100000", |b| {
        b.iter(|| {
            let told = many(&plan, 100_000, 1, Some(Deadline::Days(40.0)));
            assert!(told.out.percent_5 <= told.out.percent_95, "quantiles rise");
            told
        });
    });
    group.finish();
}

criterion_group!(benches, shops);
criterion_main!(benches);

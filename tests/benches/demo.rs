//! Benches of what someone waits for: the demo from text to PDF bytes, and its stages.
//!
//! `cargo bench --bench demo`

use criterion::{Criterion, criterion_group, criterion_main};
use rungsheet::source::Text;
use rungsheet::tables::Tables;
use rungsheet::{compute, derive, page, paper, read, sheets};
use std::hint::black_box;

fn demo(bench: &mut Criterion) {
    let bytes = std::fs::read("examples/field-van.toml").expect("run in the project's folder");
    let contents = String::from_utf8(bytes.clone()).expect("text");
    let tables = Tables::builtin();
    let text = Text::new("field-van.toml", contents);
    let build = read::read(&text, tables).0.expect("the demo reads");
    let work = derive::derive(&build).0;
    let (results, findings) = compute::compute(&build, &work, tables);
    let packet = || {
        sheets::packet(&sheets::Basis {
            build: &build,
            work: &work,
            results: &results,
            findings: &findings,
            text: &text,
            bytes: &bytes,
        })
    };
    let document = page::lay_out(&packet()).0;
    bench.bench_function("read", |b| b.iter(|| black_box(read::read(&text, tables))));
    bench.bench_function("derive", |b| b.iter(|| black_box(derive::derive(&build))));
    bench.bench_function("compute", |b| {
        b.iter(|| black_box(compute::compute(&build, &work, tables)));
    });
    bench.bench_function("lay out", |b| b.iter(|| black_box(page::lay_out(&packet()))));
    bench.bench_function("write", |b| b.iter(|| black_box(paper::pdf(&document))));
    bench.bench_function("text to PDF", |b| {
        b.iter(|| {
            let build = read::read(&text, tables).0.expect("the demo reads");
            let work = derive::derive(&build).0;
            let (results, findings) = compute::compute(&build, &work, tables);
            let packet = sheets::packet(&sheets::Basis {
                build: &build,
                work: &work,
                results: &results,
                findings: &findings,
                text: &text,
                bytes: &bytes,
            });
            black_box(paper::pdf(&page::lay_out(&packet).0))
        });
    });
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(20);
    targets = demo
}
criterion_main!(benches);

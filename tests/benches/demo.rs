//! Benches of what someone waits for: the demo from text to PDF bytes, its stages, and the chapters of
//! the computing stage.
//!
//! `cargo bench --bench demo`

use criterion::{Criterion, criterion_group, criterion_main};
use rungsheet::build::Build;
use rungsheet::compute::cure::Made;
use rungsheet::compute::{
    bonding, cure, cut_list, electrics, fasteners, loads, metal, plan, quantities, reserve,
    restraint, steps, weights,
};
use rungsheet::derive::Work;
use rungsheet::source::{Finding, Ledger, Text};
use rungsheet::tables::Tables;
use rungsheet::units::{Duration, Length};
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
    let basis = sheets::Basis {
        build: &build,
        work: &work,
        results: &results,
        findings: &findings,
        text: &text,
        bytes: &bytes,
    };
    let packet = sheets::packet(&basis);
    let document = page::lay_out(&packet).0;
    bench.bench_function("read", |b| b.iter(|| black_box(read::read(&text, tables))));
    bench.bench_function("derive", |b| b.iter(|| black_box(derive::derive(&build))));
    bench.bench_function("compute", |b| {
        b.iter(|| black_box(compute::compute(&build, &work, tables)));
    });
    chapters(bench, &build, &work, &results, tables);
    bench.bench_function("sheets", |b| b.iter(|| black_box(sheets::packet(&basis))));
    bench.bench_function("lay out", |b| b.iter(|| black_box(page::lay_out(&packet))));
    bench.bench_function("PDF", |b| b.iter(|| black_box(paper::pdf(&document))));
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

/// Each chapter by itself, on the results of those before it.
fn chapters(
    bench: &mut Criterion,
    build: &Build,
    work: &Work,
    results: &compute::Results,
    tables: &Tables,
) {
    let ledger = &work.ledger;
    let mut time = |name: &str, chapter: &dyn Fn(&mut Ledger, &mut Vec<Finding>)| {
        bench.bench_function(&format!("compute, {name}"), |b| {
            b.iter(|| chapter(&mut ledger.clone(), &mut Vec::new()));
        });
    };
    time("cut list", &|l, f| {
        black_box(cut_list::cut_list(build, work, results.electrics.as_ref(), tables, l, f));
    });
    time("loads", &|l, f| {
        black_box(loads::loads(build, work, tables, l, f));
    });
    let loaded = results.loads.as_ref().expect("the demo has loads");
    time("bonds", &|l, f| {
        black_box(bonding::bonding(build, work, loaded, tables, l, f));
    });
    time("electrics", &|l, f| {
        black_box(electrics::electrics(build, Length::ZERO, tables, l, f));
    });
    time("fasteners", &|l, _| {
        black_box(fasteners::fasteners(work, tables, l));
    });
    time("metal", &|l, f| {
        let (bonds, screws) = (&results.bonds, &results.fasteners);
        black_box(metal::metal(build, work, loaded, bonds, screws, tables, l, f));
    });
    time("reserve", &|l, f| {
        black_box(reserve::reserve(build, work, &results.fasteners, tables, l, f));
    });
    time("restraint", &|l, f| {
        black_box(restraint::restraint(build, l, f));
    });
    time("weights", &|l, f| {
        black_box(weights::weights(build, work, results.electrics.as_ref(), l, f));
    });
    time("steps", &|l, f| {
        black_box(steps::steps(build, work, tables, l, f));
    });
    let noon = |_: &str| Made::at(Duration::hours(12.0));
    time("cures", &|l, f| {
        black_box(cure::cure(build, work, &results.bonds, tables, &noon, l, f));
    });
    time("plan", &|l, f| {
        let cures = |made: &dyn Fn(&str) -> Made| {
            let (l, f) = (&mut Ledger::new(), &mut Vec::new());
            cure::cure(build, work, &results.bonds, tables, made, l, f)
        };
        black_box(plan::plan(build, &results.steps.steps, &cures, l, f));
    });
    time("quantities", &|l, _| {
        let (cuts, electrics) = (results.cuts.as_ref(), results.electrics.as_ref());
        black_box(quantities::quantities(build, work, cuts, electrics, &results.cures, tables, l));
    });
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(20);
    targets = demo
}
criterion_main!(benches);

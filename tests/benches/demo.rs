//! Benches of what someone waits for: the demo from text to PDF bytes, its stages, the chapters of the
//! computing stage, larger builds, the program from its start, and a hundred build files at once.
//!
//! Ten times the work may take at most fifteen times as long; `--help` is to take under 10 ms, `check`
//! of the demo under 50 ms.
//!
//! `cargo bench --bench demo`

use criterion::{Criterion, SamplingMode, criterion_group, criterion_main};
use rungsheet::build::Build;
use rungsheet::compute::cure::Made;
use rungsheet::compute::{
    bonding, cables, cure, cut_list, electrics, fasteners, fixtures, loads, metal, plan,
    quantities, reserve, restraint, steps, weights, what_if,
};
use rungsheet::derive::Work;
use rungsheet::source::{Finding, Ledger, Text};
use rungsheet::tables::Tables;
use rungsheet::units::{Duration, Length};
use rungsheet::{compute, derive, page, paper, read, sheets};
use std::fmt::Write as _;
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
        beside: &[],
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
    bench.bench_function("text to PDF", |b| b.iter(|| printed(&text, &bytes)));
}

/// From text to the bytes of the PDF.
fn printed(text: &Text, bytes: &[u8]) -> Vec<u8> {
    let document = laid_out(text, bytes);
    black_box(paper::pdf(&document).expect("sound"))
}

fn laid_out(text: &Text, bytes: &[u8]) -> page::model::Document {
    let tables = Tables::builtin();
    let build = read::read(text, tables).0.expect("it reads");
    let work = derive::derive(&build).0;
    let (results, findings) = compute::compute(&build, &work, tables);
    let packet = sheets::packet(&sheets::Basis {
        build: &build,
        work: &work,
        results: &results,
        findings: &findings,
        text,
        bytes,
        beside: &[],
    });
    page::lay_out(&packet).0
}

/// The demo on a roof so many times as long: as many times the panels, tubes, hinges and feet, and
/// parts and steps of its own.
fn grown(times: usize) -> String {
    const LONG: usize = 1650;
    let more = LONG * (times - 1);
    let row = |first: &[usize]| {
        let places = (0..times).flat_map(|k| first.iter().map(move |at| at + k * LONG));
        places.map(|at| at.to_string()).collect::<Vec<_>>().join(", ")
    };
    let demo = std::fs::read_to_string("examples/field-van.toml").expect("run in the folder");
    let pairs = [
        ("length = 3200".to_owned(), format!("length = {}", 3200 + more)),
        ("{ x = 1600, gaps".to_owned(), format!("{{ x = {}, gaps", 1600 + more / 2)),
        ("{ x = 2800, gaps".to_owned(), format!("{{ x = {}, gaps", 2800 + more)),
        ("[2200, 2], [2800, 7]".to_owned(), format!("[{}, 2], [{}, 7]", 2200 + more, 2800 + more)),
        ("x = 2560".to_owned(), format!("x = {}", 2560 + more)),
        ("x = 2500".to_owned(), format!("x = {}", 2500 + more)),
        ("count = 3\nlength = 1040".to_owned(), format!("count = {}\nlength = 1040", 3 * times)),
        ("columns = 3".to_owned(), format!("columns = {}", 3 * times)),
        ("cross-members = 2".to_owned(), format!("cross-members = {}", 3 * times - 1)),
        (
            "at = [110, 610, 1030, 1530]".to_owned(),
            format!("at = [{}]", row(&[110, 610, 1030, 1530])),
        ),
        ("at = [220, 820, 1420]".to_owned(), format!("at = [{}]", row(&[220, 820, 1420]))),
        ("length = 3000".to_owned(), format!("length = {}", 3000 * times)),
        ("length = 2000".to_owned(), format!("length = {}", 2000 * times)),
    ];
    let mut text = pairs.iter().fold(demo, |text, (from, to)| {
        assert!(text.contains(from.as_str()), "{from}");
        text.replacen(from, to, 1)
    });
    for k in 0..times {
        let letter = |n: usize| char::from(b'A' + (n % 26) as u8);
        let mark = format!("Y{}{}", letter(k / 26), letter(k));
        let width = 60 + 5 * (k % 12);
        write!(
            text,
            "\n[[part]]\nmark = \"{mark}\"\nname = \"cover plate {k}\"\nmaterial = \"aluminium-5754-h22\"\n\
             thickness = 2\nlength = {}\nwidth = {width}\ncount = 2\n\
             \n[[hole]]\npart = \"{mark}\"\nface = \"top\"\nx = 20\ny = 20\ndiameter = 5.5\n\
             purpose = \"clearance\"\n\
             \n[[step]]\ntitle = \"Fit cover plate {k}\"\ntime = \"20 min\"\n\
             actions = [\"Put the plate over its hole.\", \"Press the edge down all round.\"]\n",
            120 + 3 * k
        )
        .expect("a String takes it");
    }
    text + "\n[[stock]]\nmaterial = \"aluminium-5754-h22\"\nthickness = 2\nlength = 2000\nwidth = 1000\nprice = \"98.00\"\n"
}

fn larger(bench: &mut Criterion) {
    for times in [1, 6, 10] {
        let contents = grown(times);
        let bytes = contents.clone().into_bytes();
        let text = Text::new("grown.toml", contents);
        let count = laid_out(&text, &bytes).pages.len();
        bench.bench_function(&format!("{times} times the work, {count} sheets"), |b| {
            b.iter(|| printed(&text, &bytes));
        });
    }
}

fn start_up(bench: &mut Criterion) {
    let mut time = |name: &str, arguments: &[&str]| {
        bench.bench_function(name, |b| {
            b.iter(|| {
                let mut program = std::process::Command::new(env!("CARGO_BIN_EXE_rungsheet"));
                let ended = program.args(arguments).output().expect("it runs");
                assert!(ended.status.success());
                black_box(ended)
            });
        });
    };
    time("start, --help", &["--help"]);
    time("start, check of the demo", &["check", "examples/field-van.toml"]);
}

/// A hundred build files in one run, on all processors.
fn batch(bench: &mut Criterion) {
    let folder = tempfile::tempdir().expect("a folder for the build files");
    let demo = std::fs::read_to_string("examples/field-van.toml").expect("run in the folder");
    let files: Vec<_> = (0..100)
        .map(|number| {
            let path = folder.path().join(format!("van-{number:02}.toml"));
            let length = format!("length = {}", 3200 + number);
            let text = demo.replacen("length = 3200", &length, 1);
            assert!(number == 0 || text != demo, "each is a build of its own");
            std::fs::write(&path, text).expect("written");
            path
        })
        .collect();
    let mut group = bench.benchmark_group("100 build files");
    group.sample_size(10).sampling_mode(SamplingMode::Flat);
    for command in ["check", "print"] {
        group.bench_function(command, |b| {
            b.iter(|| {
                let mut program = std::process::Command::new(env!("CARGO_BIN_EXE_rungsheet"));
                program.arg(command).args(&files);
                if command == "print" {
                    program.arg("--output").arg(folder.path());
                }
                let ended = program.output().expect("it runs");
                assert!(ended.status.success(), "{}", String::from_utf8_lossy(&ended.stderr));
                black_box(ended)
            });
        });
    }
    group.finish();
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
    time("cables", &|l, f| {
        black_box(cables::cables(build, work, results.electrics.as_ref(), tables, l, f));
    });
    time("fixtures", &|l, f| {
        black_box(fixtures::fixtures(build, tables, l, f));
    });
    time("what if", &|_, _| {
        black_box(what_if::strips(build, work, tables));
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
        black_box(restraint::restraint(build, tables, l, f));
    });
    time("weights", &|l, f| {
        black_box(weights::weights(build, work, results.electrics.as_ref(), tables, l, f));
    });
    time("steps", &|l, f| {
        black_box(steps::steps(build, work, tables, steps::template::Templates::builtin(), l, f));
    });
    let noon = |_: &str| Made::at(Duration::hours(12.0));
    time("cures", &|l, f| {
        black_box(cure::cure(build, work, &results.bonds, tables, &noon, l, f));
    });
    time("plan", &|l, f| {
        let cures =
            |made: &dyn Fn(&str) -> Made| cure::waits(build, work, &results.bonds, tables, made);
        let by_hour = cure::ByHour::of(build, work, &results.bonds, tables);
        let curing = plan::Curing { all: &cures, by_hour: &by_hour };
        black_box(plan::plan(build, &results.steps.steps, curing, l, f));
    });
    time("quantities", &|l, _| {
        let (cuts, electrics) = (results.cuts.as_ref(), results.electrics.as_ref());
        black_box(quantities::quantities(
            build,
            work,
            cuts,
            electrics,
            results.cables.as_ref(),
            &results.cures,
            tables,
            l,
        ));
    });
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(20);
    targets = demo, larger, start_up, batch
}
criterion_main!(benches);

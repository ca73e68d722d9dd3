//! Whole build files of every topic, made from numbers: each can be read, nothing panics, the laws of every stage
//! hold, and what is printed is sound and the same twice.
//!
//! `WHOLE=3000 cargo test --test all whole::made -- --nocapture` runs more of them, `SHRINK=300` makes a file that
//! fails a plainer one, `WHOLE_FILE=PATH` runs one file.

mod laws;
mod make;

use crate::page::wrongs;
use crate::paper::readback;
use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestCaseError, TestError, TestRng, TestRunner};
use rungsheet::page::{ProblemKind, lay_out};
use rungsheet::source::{Finding, Severity, Span, Text};
use rungsheet::tables::Tables;
use rungsheet::{compute, derive, paper, read, sheets};
use std::collections::BTreeMap;
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

/// What no packet may have: signs without a face, links that lead nowhere, pages that did not settle. Drawings that are
/// cut off come in drafts alone, of parts with holes beside them.
const NEVER: [ProblemKind; 4] = [
    ProblemKind::MissingCharacter,
    ProblemKind::UnknownAnchor,
    ProblemKind::DuplicateAnchor,
    ProblemKind::Unsettled,
];

/// Lots that the cases are drawn in, each from a seed of its own, whatever the number of threads.
const LOTS: usize = 8;

/// Numbers that one file is made from.
const NUMBERS: usize = 400;

/// Of how many cases one is printed.
const PRINTED: u32 = 3;

/// How far cases went, and what was told of them.
#[derive(Default)]
struct Far {
    worked: AtomicUsize,
    stopped: AtomicUsize,
    printed: AtomicUsize,
    pages: AtomicUsize,
    codes: Mutex<BTreeMap<&'static str, usize>>,
}

fn findings_are_sound(contents: &str, findings: &[Finding]) -> Result<(), TestCaseError> {
    for finding in findings {
        let others = finding.others.iter().map(|(span, _)| *span);
        for span in finding.primary.into_iter().chain(others).filter(|span| *span != Span::NONE) {
            prop_assert!(contents.get(span.range()).is_some(), "{span:?} {finding:?}");
        }
        prop_assert!(!finding.message.is_empty() && !finding.message.contains('\n'), "{finding:?}");
        prop_assert!(
            finding.severity != Severity::Stop || !finding.helps.is_empty(),
            "{finding:?}"
        );
    }
    Ok(())
}

/// A number from outside.
fn stated(name: &str, else_this: u32) -> u32 {
    std::env::var(name).ok().and_then(|count| count.parse().ok()).unwrap_or(else_this)
}

/// A file through every stage.
fn holds(contents: &str, print: bool, far: &Far) -> Result<(), TestCaseError> {
    let tables = Tables::builtin();
    let text = Text::new("made.toml", contents);
    let (build, mut findings) = read::read(&text, tables);
    let Some(build) = build else {
        let stops: Vec<_> = findings
            .iter()
            .filter(|finding| finding.severity == Severity::Stop)
            .map(|finding| {
                (
                    finding.rule.code,
                    &finding.message,
                    finding.primary.map(|span| &contents[span.range()]),
                )
            })
            .collect();
        return Err(TestCaseError::fail(format!("it can't be read: {stops:#?}")));
    };
    let (work, more) = derive::derive(&build);
    findings.extend(more);
    let (results, more) = compute::compute(&build, &work, tables);
    findings.extend(more);
    findings_are_sound(contents, &findings)?;
    far.worked.fetch_add(1, Ordering::Relaxed);
    let stopped = findings.iter().any(|finding| finding.severity == Severity::Stop);
    if stopped {
        far.stopped.fetch_add(1, Ordering::Relaxed);
    }
    {
        let mut codes = far.codes.lock().expect("nobody panics with it");
        for finding in &findings {
            *codes.entry(finding.rule.code).or_default() += 1;
        }
    }
    laws::hold(&build, &work, &results, &findings)?;
    if !print {
        return Ok(());
    }
    let made = || {
        let packet = sheets::packet(&sheets::Basis {
            build: &build,
            work: &work,
            results: &results,
            findings: &findings,
            text: &text,
            bytes: contents.as_bytes(),
            beside: &[],
        });
        let (document, problems) = lay_out(&packet);
        let bytes = paper::pdf(&document).expect("a document becomes a file");
        (document, problems, bytes)
    };
    let (document, problems, bytes) = made();
    prop_assert_eq!(wrongs(&document), Vec::<String>::new());
    for problem in &problems {
        prop_assert!(!NEVER.contains(&problem.kind), "{problem}");
        prop_assert!(stopped || problem.kind != ProblemKind::TooLarge, "{problem}");
    }
    prop_assert_eq!(readback::check(&bytes).faults, Vec::<String>::new());
    prop_assert!(made().2 == bytes, "two packets of one file differ");
    let back = paper::recover(&bytes).map_err(|fault| TestCaseError::fail(format!("{fault:?}")))?;
    prop_assert_eq!(back.bytes.as_slice(), contents.as_bytes());
    far.printed.fetch_add(1, Ordering::Relaxed);
    far.pages.fetch_add(document.pages.len(), Ordering::Relaxed);
    Ok(())
}

/// The cases of a lot; what failed, with its file.
fn lot(number: usize, count: u32, far: &Far) -> Option<String> {
    let config = Config {
        cases: count,
        failure_persistence: None,
        max_shrink_iters: stated("SHRINK", 0),
        ..Config::default()
    };
    let rng = TestRng::from_seed(RngAlgorithm::ChaCha, &[number as u8 + 1; 32]);
    let mut runner = TestRunner::new_with_rng(config, rng);
    let cases = (prop::collection::vec(any::<u32>(), NUMBERS), 0..PRINTED);
    let outcome =
        runner.run(&cases, |(numbers, turn)| holds(&make::make(&numbers), turn == 0, far));
    match outcome {
        Ok(()) => None,
        Err(TestError::Fail(why, (numbers, turn))) => {
            let file = std::env::temp_dir().join(format!("made-{number}.toml"));
            std::fs::write(&file, make::make(&numbers)).expect("a file for the failing case");
            Some(format!("lot {number}, printed: {}: {why}\n  {}\n", turn == 0, file.display()))
        }
        Err(error) => Some(format!("lot {number}: {error}\n")),
    }
}

#[test]
fn made_build_files_keep_every_law() {
    let far = Far::default();
    if let Some(path) = std::env::var_os("WHOLE_FILE") {
        let contents = std::fs::read_to_string(path).expect("a file to run");
        holds(&contents, true, &far).unwrap_or_else(|error| panic!("{error}"));
        return;
    }
    let each = stated("WHOLE", 16).div_ceil(LOTS as u32);
    let next = AtomicUsize::new(0);
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    let failed: String = std::thread::scope(|scope| {
        let work = || {
            let mut told = String::new();
            loop {
                let number = next.fetch_add(1, Ordering::Relaxed);
                if number >= LOTS {
                    return told;
                }
                told.extend(lot(number, each, &far));
            }
        };
        let all: Vec<_> = (0..threads.min(LOTS)).map(|_| scope.spawn(work)).collect();
        all.into_iter().map(|one| one.join().expect("panics are caught")).collect()
    });
    let [worked, stopped, printed, pages] = [&far.worked, &far.stopped, &far.printed, &far.pages]
        .map(|count| count.load(Ordering::Relaxed));
    println!("{worked} worked out, {stopped} with a stop, {printed} printed on {pages} pages");
    println!("{:?}", far.codes.lock().expect("done"));
    assert!(failed.is_empty(), "{failed}");
    assert!(printed * 10 > worked && stopped < worked);
}

//! The examples with their numbers and lines damaged, through every stage: each gives a packet, or findings
//! that lie in the file; never a panic.
//!
//! `MUTATIONS=1000000 cargo test --release --test all fail::whole -- --nocapture` runs more of them; a case
//! that fails is told with its number, and `MUTATION=NUMBER` runs that one alone, or with `MUTATIONS` as many from there.

use self::random::below;
use proptest::test_runner::{RngAlgorithm, TestRng};
use rungsheet::source::{Finding, Severity, Span, Text};
use rungsheet::tables::Tables;
use rungsheet::{compute, derive, page, paper, read, sheets};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::atomic::{AtomicUsize, Ordering};

/// An example, and how seldom its damaged kin that can be read go on: to results, and to bytes.
const EXAMPLES: [(&str, usize, usize); 6] = [
    (include_str!("../../examples/galley-shelf.toml"), 2, 16),
    (include_str!("../../examples/canal-tender.toml"), 2, 16),
    (include_str!("../../examples/harbour-trailer.toml"), 120, 1200),
    (include_str!("../../examples/field-van.toml"), 120, 1200),
    (include_str!("../../examples/rescue-minibus.toml"), 120, 1200),
    (include_str!("../../examples/forest-pod.toml"), 120, 1200),
];

/// What takes the place of a number.
const NUMBERS: [&str; 14] = [
    "0", "1", "-1", "0.001", "-0.5", "1e-9", "1e9", "2", "7", "33", "512", "4096", "99999", "0.333",
];

/// Random numbers of the library that the other laws use.
mod random {
    use proptest::prelude::Rng;
    use proptest::test_runner::TestRng;

    /// A number below `most`.
    pub fn below(rng: &mut TestRng, most: usize) -> usize {
        (rng.next_u64() % most.max(1) as u64) as usize
    }
}

/// Places of the numbers in a text, those in comments and names among them.
fn numbers(text: &str) -> Vec<(usize, usize)> {
    let mut places = Vec::new();
    let mut start = None;
    for (at, letter) in text.char_indices().chain([(text.len(), ' ')]) {
        let part = letter.is_ascii_digit() || (letter == '.' && start.is_some());
        match (start, part) {
            (None, true) => start = Some(at),
            (Some(from), false) => {
                places.push((from, at));
                start = None;
            }
            _ => {}
        }
    }
    places
}

fn damage(text: &mut String, rng: &mut TestRng) {
    let places = numbers(text);
    let lines = text.lines().count();
    match below(rng, 12) {
        // Mostly one number for another: what can still be read goes farthest.
        0..=4 if !places.is_empty() => {
            let (from, to) = places[below(rng, places.len())];
            text.replace_range(from..to, NUMBERS[below(rng, NUMBERS.len())]);
        }
        5..=7 if !places.is_empty() => {
            let (from, to) = places[below(rng, places.len())];
            let value: f64 = text[from..to].trim_end_matches('.').parse().unwrap_or(1.0);
            let factor = [0.1, 0.5, 0.9, 0.99, 1.01, 1.1, 2.0, 10.0][below(rng, 8)];
            text.replace_range(from..to, &format!("{}", value * factor));
        }
        8 if !places.is_empty() => {
            let (a, b) = (places[below(rng, places.len())], places[below(rng, places.len())]);
            let other = text[b.0..b.1].to_owned();
            text.replace_range(a.0..a.1, &other);
        }
        9 | 10 if lines > 1 => {
            let gone = below(rng, lines);
            *text = kept(text, |index| index != gone);
        }
        _ if lines > 1 => {
            // A table and what stands under it.
            let from = below(rng, lines);
            let until = from + 1 + below(rng, 6);
            *text = kept(text, |index| index < from || index >= until);
        }
        _ => {}
    }
}

fn kept(text: &str, keep: impl Fn(usize) -> bool) -> String {
    let lines = text.lines().enumerate().filter(|(index, _)| keep(*index));
    lines.flat_map(|(_, line)| [line, "\n"]).collect()
}

fn lie_in(contents: &str, findings: &[Finding]) {
    for finding in findings {
        let others = finding.others.iter().map(|(span, _)| *span);
        for span in finding.primary.into_iter().chain(others).filter(|span| *span != Span::NONE) {
            assert!(contents.get(span.range()).is_some(), "{span:?} {finding:?}");
        }
        assert!(!finding.message.contains('\n') && !finding.message.is_empty(), "{finding:?}");
    }
}

/// How far a case went.
#[derive(Default)]
struct Far {
    read: AtomicUsize,
    worked: AtomicUsize,
    printed: AtomicUsize,
}

fn case(number: usize, far: &Far) -> String {
    let mut seed = [0; 32];
    seed[..8].copy_from_slice(&(number as u64).to_le_bytes());
    let mut rng = TestRng::from_seed(RngAlgorithm::ChaCha, &seed);
    let (example, worked, printed) = EXAMPLES[number % EXAMPLES.len()];
    let mut contents = example.to_owned();
    for _ in 0..=below(&mut rng, 3) {
        damage(&mut contents, &mut rng);
    }
    let turn = number / EXAMPLES.len();
    let ended = catch_unwind(AssertUnwindSafe(|| {
        let tables = Tables::builtin();
        let text = Text::new("damaged.toml", contents.clone());
        let (build, mut findings) = read::read(&text, tables);
        lie_in(&contents, &findings);
        let Some(build) = build else {
            assert!(findings.iter().any(|finding| finding.severity == Severity::Stop));
            return;
        };
        far.read.fetch_add(1, Ordering::Relaxed);
        if !turn.is_multiple_of(worked) {
            return;
        }
        let (work, more) = derive::derive(&build);
        findings.extend(more);
        let (results, more) = compute::compute(&build, &work, tables);
        findings.extend(more);
        lie_in(&contents, &findings);
        for figure in &results.ledger {
            assert!(figure.value.is_finite(), "{} is {}", figure.id, figure.value);
        }
        far.worked.fetch_add(1, Ordering::Relaxed);
        if !turn.is_multiple_of(printed) {
            return;
        }
        let packet = sheets::packet(&sheets::Basis {
            build: &build,
            work: &work,
            results: &results,
            findings: &findings,
            text: &text,
            bytes: contents.as_bytes(),
            beside: &[],
        });
        let (document, _) = page::lay_out(&packet);
        let bytes = paper::pdf(&document).expect("a document becomes a file");
        assert!(bytes.starts_with(b"%PDF-"));
        far.printed.fetch_add(1, Ordering::Relaxed);
    }));
    match ended {
        Ok(()) => String::new(),
        Err(panic) => {
            let words = panic.downcast_ref::<String>().cloned();
            let words = words.or_else(|| panic.downcast_ref::<&str>().map(|&w| w.to_owned()));
            format!("case {number}: {}\n", words.unwrap_or_default())
        }
    }
}

#[test]
fn damaged_examples_give_a_packet_or_findings() {
    let stated = |name: &str| std::env::var(name).ok().and_then(|count| count.parse().ok());
    let (first, count) = match stated("MUTATION") {
        Some(first) => (first, stated("MUTATIONS").unwrap_or(1)),
        None => (0, stated("MUTATIONS").unwrap_or(10_000)),
    };
    let far = Far::default();
    let next = AtomicUsize::new(first);
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    let failed: String = std::thread::scope(|scope| {
        let work = || {
            let mut told = String::new();
            loop {
                let number = next.fetch_add(1, Ordering::Relaxed);
                if number >= first + count {
                    return told;
                }
                told += &case(number, &far);
            }
        };
        let all: Vec<_> = (0..threads).map(|_| scope.spawn(work)).collect();
        all.into_iter().map(|one| one.join().expect("panics are caught")).collect()
    });
    let [read, worked, printed] =
        [&far.read, &far.worked, &far.printed].map(|count| count.load(Ordering::Relaxed));
    println!("{count} damaged: {read} could be read, {worked} were worked out, {printed} printed");
    assert!(failed.is_empty(), "{failed}");
    assert!(count < 1000 || (read > count / 8 && worked > count / 100 && printed > count / 2000));
}

//! Damaged build files: whatever the damage, no panic, and every place lies in the file.

use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use rungsheet::read;
use rungsheet::source::{Severity, Span, Text};
use rungsheet::tables::Tables;

const EXAMPLES: [&str; 2] = [
    include_str!("../../examples/field-van.toml"),
    include_str!("../../examples/harbour-trailer.toml"),
];

/// Pieces that TOML or a quantity gives a meaning to.
const PIECES: [&str; 24] = [
    "[", "]", "[[", "]]", "{", "}", "\"", "\"\"\"", "'", "=", ",", ".", "#", "\n", "\r", "\\", "-",
    "nan", "1e999", "°C", "\u{202E}", "\0", "0x", "true",
];

#[derive(Debug, Clone)]
enum Damage {
    TakeBytes(usize, usize),
    Replace(usize, char),
    Insert(usize, usize),
    TakeLine(usize),
    TwiceLine(usize),
    SwapLines(usize, usize),
    CutOff(usize),
}

fn damage() -> impl Strategy<Value = Damage> {
    let at = 0_usize..10_000;
    prop_oneof![
        (at.clone(), 1_usize..40).prop_map(|(at, count)| Damage::TakeBytes(at, count)),
        (at.clone(), any::<char>()).prop_map(|(at, c)| Damage::Replace(at, c)),
        (at.clone(), 0..PIECES.len()).prop_map(|(at, piece)| Damage::Insert(at, piece)),
        at.clone().prop_map(Damage::TakeLine),
        at.clone().prop_map(Damage::TwiceLine),
        (at.clone(), at.clone()).prop_map(|(a, b)| Damage::SwapLines(a, b)),
        at.prop_map(Damage::CutOff),
    ]
}

fn boundary(text: &str, byte: usize) -> usize {
    (0..=byte.min(text.len())).rev().find(|byte| text.is_char_boundary(*byte)).unwrap_or(0)
}

fn damaged(contents: &str, damage: &Damage) -> String {
    let mut text = contents.to_owned();
    let place = |at: usize| boundary(contents, at % contents.len().max(1));
    let mut lines: Vec<&str> = contents.split_inclusive('\n').collect();
    let count = lines.len().max(1);
    match *damage {
        Damage::TakeBytes(at, length) => {
            let start = place(at);
            text.replace_range(start..boundary(contents, start + length), "");
        }
        Damage::Replace(at, with) => {
            let start = place(at);
            let end = contents[start..].chars().next().map_or(start, |c| start + c.len_utf8());
            text.replace_range(start..end, with.encode_utf8(&mut [0; 4]));
        }
        Damage::Insert(at, piece) => text.insert_str(place(at), PIECES[piece]),
        Damage::CutOff(at) => text.truncate(place(at)),
        Damage::TakeLine(at) if !lines.is_empty() => {
            lines.remove(at % count);
            text = lines.concat();
        }
        Damage::TwiceLine(at) if !lines.is_empty() => {
            lines.insert(at % count, lines[at % count]);
            text = lines.concat();
        }
        Damage::SwapLines(a, b) if !lines.is_empty() => {
            lines.swap(a % count, b % count);
            text = lines.concat();
        }
        Damage::TakeLine(_) | Damage::TwiceLine(_) | Damage::SwapLines(..) => {}
    }
    text
}

#[test]
fn damaged_files_give_findings_that_point_into_them() {
    let config = Config { cases: 3000, failure_persistence: None, ..Config::default() };
    let rng = TestRng::from_seed(RngAlgorithm::ChaCha, &[7; 32]);
    let mut runner = TestRunner::new_with_rng(config, rng);
    let cases = (0..EXAMPLES.len(), proptest::collection::vec(damage(), 1..6));
    let outcome = runner.run(&cases, |(example, damages)| {
        let contents =
            damages.iter().fold(EXAMPLES[example].to_owned(), |text, each| damaged(&text, each));
        let text = Text::new("damaged.toml", contents.clone());
        let (build, findings) = read::read(&text, Tables::builtin());
        let stopped = findings.iter().any(|finding| finding.severity == Severity::Stop);
        prop_assert_eq!(build.is_none(), stopped);
        for finding in &findings {
            let others = finding.others.iter().map(|(span, _)| *span);
            for span in finding.primary.into_iter().chain(others) {
                prop_assert!(contents.get(span.range()).is_some(), "{:?} {finding:?}", span);
                prop_assert!(span != Span::NONE);
            }
            prop_assert!(!finding.message.contains('\n') && !finding.message.is_empty());
            prop_assert!(!finding.helps.is_empty(), "{finding:?}");
        }
        Ok(())
    });
    outcome.unwrap_or_else(|error| panic!("{error}"));
}

proptest! {
    #![proptest_config(Config { cases: 400, failure_persistence: None, ..Config::default() })]

    #[test]
    fn any_bytes_are_opened_and_read_without_a_panic(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        if let Ok(text) = read::open("noise", &bytes) {
            let (build, findings) = read::read(&text, Tables::builtin());
            prop_assert!(build.is_none() && !findings.is_empty());
        }
    }
}

#[test]
fn deep_nesting_is_refused_without_running_out_of_stack() {
    let deep = [
        format!("{} = 1", vec!["a"; 400_000].join(".")),
        format!("[{}]\n", vec!["a"; 400_000].join(".")),
        format!("{}{}", "[[a]]\n".repeat(1000), vec!["b"; 500].join(".") + " = 1"),
        format!("a = {}", "[".repeat(500_000)),
        format!("a = {}", "{a=".repeat(300_000)),
        format!("[{}]\n{} = 1", vec!["a"; 500].join("."), vec!["b"; 500].join(".")),
    ];
    // A small stack: what fits there fits everywhere.
    let worker = std::thread::Builder::new().stack_size(1 << 20).spawn(move || {
        for contents in deep {
            let (build, findings) =
                read::read(&Text::new("deep.toml", contents), Tables::builtin());
            assert!(build.is_none() && !findings.is_empty());
        }
    });
    worker.expect("a thread can be started").join().expect("no overflow");
}

//! `new`: what it writes prints, what is there stays.

use super::Bench;
use crate::support::worked;
use rungsheet::source::Severity;

const STARTS: [&str; 5] = ["bonded", "hinged", "bolted", "electrics", "shelf"];

#[test]
fn every_start_prints_as_it_stands() {
    for start in STARTS {
        for units in ["mm", "in"] {
            let bench = Bench::new();
            let asked = ["new", "--start", start, "--usual", "--units", units];
            bench.run(&asked).code(0).says("It prints as it stands");
            let name = format!("{start}.toml");
            let text = bench.text(&name);
            assert!(
                text.starts_with("#:schema "),
                "{start}: editors find the schema by its first line"
            );
            let stops: Vec<_> = worked(&text)
                .findings
                .into_iter()
                .filter(|f| f.severity == Severity::Stop)
                .collect();
            assert!(stops.is_empty(), "{start}: {stops:#?}");
            bench.run(&["print", &name]).code(0);
            assert!(bench.path(&format!("{start}.pdf")).exists());
            assert!(bench.path("rungsheet.schema.json").exists());
        }
    }
}

#[test]
fn the_list_tells_every_start_there_is() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("templates/starts");
    let files = std::fs::read_dir(folder).expect("starts").count();
    assert_eq!(files, STARTS.len());
    let run = Bench::new().run(&["new", "--list"]).code(0);
    for start in STARTS {
        assert!(run.said().lines().any(|line| line.starts_with(start)), "{start}");
    }
}

#[test]
fn answers_from_lines_and_from_flags_make_one_file() {
    let (lines, flags) = (Bench::new(), Bench::new());
    lines
        .told(
            &["new", "van.toml", "--date", "2026-05-09"],
            "3\nmm\nRoof for \"Olive\"\nolive van\n2510\n100 km/h\n2026-06-06\n",
        )
        .code(0)
        .says("bolted");
    flags
        .run(&[
            "new",
            "van.toml",
            "--usual",
            "--date",
            "2026-05-09",
            "--start",
            "bolted",
            "--title",
            "Roof for \"Olive\"",
            "--vehicle",
            "olive van",
            "--height",
            "2510",
            "--speed",
            "100 km/h",
            "--begin",
            "2026-06-06",
        ])
        .code(0);
    let text = lines.text("van.toml");
    assert_eq!(text, flags.text("van.toml"));
    let build = worked(&text).build;
    assert_eq!(build.job.title.value, "Roof for \"Olive\"");
    assert_eq!(build.crew.start.value.to_string(), "2026-06-06");
    let vehicle = build.vehicle.expect("a vehicle");
    assert_eq!(vehicle.name.value, "olive van");
    assert_eq!(vehicle.height.expect("a height").value.to_mm(), 2510.0);
}

#[test]
fn empty_lines_take_what_is_usual() {
    let bench = Bench::new();
    bench.told(&["new", "--date", "2026-05-09"], "\n\n\n\n\n\n\n").code(0);
    bench.run(&["new", "usual.toml", "--usual", "--date", "2026-05-09"]).code(0);
    assert_eq!(bench.text("bonded.toml"), bench.text("usual.toml"));
}

#[test]
fn nothing_is_written_over_unless_told() {
    let bench = Bench::new();
    bench.file("bonded.toml", "mine");
    bench.run(&["new", "--usual"]).code(3).says("there already").says("--replace");
    assert_eq!(bench.text("bonded.toml"), "mine");
    bench.run(&["new", "--usual", "--replace"]).code(0);
    assert!(bench.text("bonded.toml").contains("[[mount]]"));
}

#[test]
fn an_answer_that_cannot_be_used_is_told_with_what_to_write() {
    for (arguments, words) in [
        (vec!["--speed", "110"], "km/h"),
        (vec!["--height", "2600 kg"], "kg"),
        (vec!["--title", "a title of more than twenty-five characters"], "25"),
        (vec!["--date", "9.5.2026"], "2026-05-09"),
        (vec!["--begin", "2020-01-01"], "before"),
        (vec!["--start", "glued"], "bonded, hinged"),
    ] {
        let bench = Bench::new();
        let all: Vec<&str> = ["new", "--usual"].into_iter().chain(arguments.clone()).collect();
        bench.run(&all).code(2).says(arguments[0]).says(words);
        assert!(bench.listing().is_empty(), "{arguments:?}");
    }
}

#[test]
fn a_dash_writes_to_standard_output() {
    let bench = Bench::new();
    let run = bench.run(&["new", "-", "--usual", "--start", "shelf"]).code(0);
    assert!(run.0.stdout.starts_with(b"#:schema "));
    assert!(run.0.stderr.is_empty(), "{}", run.said());
    assert!(bench.listing().is_empty());
}

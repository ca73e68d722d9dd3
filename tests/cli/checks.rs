//! `check` and `print` of one file and of several: forms, order, exit codes, streams.

use super::{Bench, demo_with, example};
use serde_json::Value;

const WRONG: &str = "format = 1\n\n[job]\ntitle = \"Shelf\"\ndate = \"2026-05-09\"\n\n[[part]]\nmark = \"S\"\nname = \"rail\"\nsection = \"aluminium-tube-25x25x2\"\nlenght = 640\n";

#[test]
fn a_line_a_finding_is_what_editors_read() {
    let bench = Bench::new();
    bench.file("shelf.toml", WRONG);
    let run = bench.run(&["check", "shelf.toml", "--format", "line"]).code(1);
    assert_eq!(run.said(), "shelf.toml:11:1: stop: F010 `lenght` is not a key of `[[part]]`\n");
}

#[test]
fn json_holds_findings_of_all_files_in_their_order() {
    let bench = Bench::new();
    bench.file("b.toml", WRONG);
    bench.file("a.toml", example("galley-shelf.toml"));
    let run = bench.run(&["check", "b.toml", "a.toml", "--format", "json"]).code(1);
    let told: Value = serde_json::from_slice(&run.0.stdout).expect("JSON");
    assert_eq!(told["format"], 1);
    let [b, a] = told["files"].as_array().expect("a list").as_slice() else { panic!("{told}") };
    assert_eq!(
        (&b["file"], &b["stopped"], &b["stops"]),
        (&"b.toml".into(), &true.into(), &1.into())
    );
    assert_eq!(b["findings"][0]["at"]["line"], 11);
    assert_eq!((&a["stopped"], &a["findings"]), (&false.into(), &serde_json::json!([])));
    assert!(a["summary"].as_array().is_some_and(|lines| !lines.is_empty()));
    assert!(run.0.stderr.is_empty());
}

#[test]
fn a_check_ends_with_what_people_ask_first() {
    let bench = Bench::new();
    bench.file("van.toml", example("field-van.toml"));
    let run = bench.run(&["check", "van.toml"]).code(0);
    let summary = String::from_utf8_lossy(&run.0.stdout).into_owned();
    for words in ["height now", "highest use of capacity", "to buy", "not driven before"] {
        assert!(summary.contains(words), "{words}:\n{summary}");
    }
    assert!(summary.contains("for all that has a price"), "{summary}");
    assert!(run.said().contains("van.toml: "));
}

#[test]
fn several_files_are_each_told_and_the_gravest_end_counts() {
    let bench = Bench::new();
    bench.file("good.toml", example("galley-shelf.toml"));
    bench.file("wrong.toml", WRONG);
    let run = bench.run(&["check", "wrong.toml", "good.toml"]).code(1);
    let told = String::from_utf8_lossy(&run.0.stderr).into_owned();
    let lines: Vec<&str> = told.lines().collect();
    assert_eq!(
        lines,
        [
            "wrong.toml:11:1: stop: F010 `lenght` is not a key of `[[part]]`",
            "wrong.toml: 1 stop",
            "good.toml: nothing found"
        ]
    );
    let run = bench.run(&["check", "none.toml", "good.toml", "wrong.toml"]).code(3);
    assert!(
        run.said().contains("can't read none.toml") && run.said().contains("good.toml: nothing")
    );
}

#[test]
fn several_packets_are_the_same_as_each_alone() {
    let bench = Bench::new();
    bench.file("one.toml", example("galley-shelf.toml"));
    bench.file("two.toml", include_str!("../sheets/large-plate.toml"));
    std::fs::create_dir(bench.path("packets")).expect("made");
    bench.run(&["print", "one.toml", "two.toml", "-o", "packets"]).code(0).says("one.pdf: ");
    for name in ["one", "two"] {
        bench.run(&["print", &format!("{name}.toml")]).code(0);
        let read = |path: String| std::fs::read(bench.path(&path)).expect("printed");
        assert_eq!(read(format!("packets/{name}.pdf")), read(format!("{name}.pdf")));
    }
    bench.run(&["print", "one.toml", "two.toml", "-o", "a.pdf"]).code(2).says("folder");
    bench.run(&["print", "one.toml", "./one.toml"]).code(2).says("would be printed to one.pdf");
}

#[test]
fn standard_input_and_output_take_the_place_of_files() {
    let bench = Bench::new();
    let text = String::from_utf8(example("galley-shelf.toml")).expect("text");
    bench.told(&["check", "-"], &text).code(0).says("standard input: nothing found");
    let run = bench.told(&["print", "-", "-o", "-"], &text).code(0);
    assert!(
        run.0.stdout.starts_with(b"%PDF-") && run.0.stdout.trim_ascii_end().ends_with(b"%%EOF")
    );
    bench.told(&["print", "-"], &text).code(0).says("packet.pdf");
    assert_eq!(run.0.stdout, std::fs::read(bench.path("packet.pdf")).expect("printed"));
    bench.told(&["check", "-", "-"], &text).code(2).says("once");
}

#[test]
fn what_is_saved_while_watched_is_told_by_what_changed() {
    use std::io::{BufRead, BufReader};
    let bench = Bench::new();
    let demo = String::from_utf8(example("field-van.toml")).expect("text");
    bench.file("van.toml", &demo);
    let mut child = std::process::Command::new(env!("CARGO_BIN_EXE_rungsheet"))
        .args(["check", "van.toml", "--watch"])
        .current_dir(bench.folder.path())
        .stdout(std::process::Stdio::null())
        .stderr(std::process::Stdio::piped())
        .spawn()
        .expect("the program starts");
    let mut lines = BufReader::new(child.stderr.take().expect("its words")).lines();
    let mut until = |words: &str| {
        let mut told = String::new();
        for line in lines.by_ref() {
            told += &line.expect("text");
            told.push('\n');
            if told.contains(words) {
                break;
            }
        }
        told
    };
    until("waiting for the next save");
    bench.file("van.toml", demo_with("speed = \"110 km/h\"", "speed = \"130 km/h\""));
    let faster = until("waiting for the next save");
    bench.file("van.toml", demo_with("clearance =", "clearence ="));
    let misspelt = until("waiting for the next save");
    child.kill().expect("ended");
    child.wait().expect("ended");
    assert!(faster.contains("since the last run"), "{faster}");
    assert!(faster.contains("loads.pressure.driving: "), "{faster}");
    assert!(!misspelt.contains("gone:"), "{misspelt}");
    assert!(misspelt.contains("new:  stop F010"), "{misspelt}");
    assert!(misspelt.contains("it can't be worked out now"), "{misspelt}");
    bench.told(&["check", "-", "--watch"], "").code(2).says("name a file");
}

#[test]
fn help_tells_examples_and_exit_codes() {
    let bench = Bench::new();
    bench.run(&["--help"]).code(0).says("Exit codes: 0 done").says("rungsheet new");
    for command in ["new", "check", "print", "figures"] {
        bench.run(&[command, "--help"]).code(0).says("Examples:");
    }
    bench.run(&["--version"]).code(0).says("(tables of 20");
}

#[test]
fn shells_and_manuals_know_every_command() {
    let bench = Bench::new();
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        let script = bench.run(&["completions", shell]).code(0).said();
        for command in ["new", "check", "print", "figures", "explain", "keys", "tables", "schema"] {
            assert!(script.contains(command), "{shell}: {command}");
        }
    }
    std::fs::create_dir(bench.path("man")).expect("made");
    bench.run(&["man", "-o", "man"]).code(0);
    assert!(bench.text("man/rungsheet-check.1").contains("rungsheet"));
    bench.run(&["man"]).code(0).says(".TH rungsheet 1");
}

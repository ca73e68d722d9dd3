//! The program as people run it: files in, files out, exit codes.

mod checks;
mod files;
mod golden;
mod keys;
mod new;
mod own;
mod people;
mod surroundings;

use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use tempfile::TempDir;

/// A folder of its own for each test, and the program run in it.
struct Bench {
    folder: TempDir,
}

impl Bench {
    fn new() -> Self {
        Self { folder: TempDir::new().expect("a folder for the test") }
    }

    fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    fn file(&self, name: &str, contents: impl AsRef<[u8]>) -> PathBuf {
        let path = self.path(name);
        std::fs::write(&path, contents).expect("the test's folder can be written");
        path
    }

    fn run(&self, arguments: &[&str]) -> Run {
        let output = Command::new(env!("CARGO_BIN_EXE_rungsheet"))
            .args(arguments)
            .current_dir(self.folder.path())
            .env("NO_COLOR", "1")
            .output()
            .expect("the program starts");
        Run(output)
    }

    /// The same with lines on standard input.
    fn told(&self, arguments: &[&str], lines: &str) -> Run {
        use std::io::Write;
        let mut child = Command::new(env!("CARGO_BIN_EXE_rungsheet"))
            .args(arguments)
            .current_dir(self.folder.path())
            .env("NO_COLOR", "1")
            .stdin(std::process::Stdio::piped())
            .stdout(std::process::Stdio::piped())
            .stderr(std::process::Stdio::piped())
            .spawn()
            .expect("the program starts");
        // It may stop reading early.
        let _ = child.stdin.take().expect("its input").write_all(lines.as_bytes());
        Run(child.wait_with_output().expect("it ends"))
    }

    /// What a file holds.
    #[track_caller]
    fn text(&self, name: &str) -> String {
        std::fs::read_to_string(self.path(name)).expect("it is there")
    }

    /// Names of what lies in the folder.
    fn listing(&self) -> Vec<String> {
        let mut names: Vec<String> = std::fs::read_dir(self.folder.path())
            .expect("the folder can be listed")
            .map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    }
}

struct Run(Output);

impl Run {
    #[track_caller]
    fn code(self, code: i32) -> Self {
        assert_eq!(self.0.status.code(), Some(code), "{}", self.said());
        self
    }

    #[track_caller]
    fn says(self, words: &str) -> Self {
        assert!(self.said().contains(words), "“{words}” is not in:\n{}", self.said());
        self
    }

    fn said(&self) -> String {
        String::from_utf8_lossy(&self.0.stderr).into_owned()
            + &String::from_utf8_lossy(&self.0.stdout)
    }
}

fn example(name: &str) -> Vec<u8> {
    std::fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join("examples").join(name))
        .expect("an example")
}

/// The demo with one line changed.
fn demo_with(old: &str, new: &str) -> String {
    let text = String::from_utf8(example("field-van.toml")).expect("text");
    assert!(text.contains(old), "the demo no longer holds {old}");
    text.replacen(old, new, 1)
}

#[test]
fn the_examples_print_without_a_stop_and_come_out_again() {
    for name in ["field-van", "harbour-trailer", "galley-shelf"] {
        let bench = Bench::new();
        let build = bench.file("build.toml", example(&format!("{name}.toml")));
        bench.run(&["print", "build.toml"]).code(0).says("build.pdf");
        let first = std::fs::read(bench.path("build.pdf")).expect("printed");
        assert!(first.starts_with(b"%PDF-"));
        bench.run(&["print", "build.toml", "-o", "again.pdf"]).code(0);
        assert_eq!(first, std::fs::read(bench.path("again.pdf")).expect("printed"), "same bytes");
        bench.run(&["recover", "build.pdf", "-o", "back.toml"]).code(0);
        assert_eq!(
            std::fs::read(&build).expect("kept"),
            std::fs::read(bench.path("back.toml")).expect("recovered")
        );
    }
}

#[test]
fn a_stop_prints_nothing_unless_a_draft_is_asked_for() {
    let bench = Bench::new();
    // Tape of a sixth of the area stops the bond.
    bench.file(
        "build.toml",
        demo_with(
            "width = 25, thickness = 2.3, strips = 2",
            "width = 6, thickness = 2.3, strips = 1",
        ),
    );
    bench.run(&["print", "build.toml"]).code(1).says("stop").says("--draft");
    assert_eq!(bench.listing(), ["build.toml"]);
    bench.run(&["print", "build.toml", "--draft"]).code(0);
    assert_eq!(bench.listing(), ["build.pdf", "build.toml"]);
}

#[test]
fn bad_files_have_their_own_finding_and_leave_nothing_behind() {
    let mut huge = b"format = 1\n".to_vec();
    huge.resize(50_000_000, b' ');
    let cases: Vec<(Vec<u8>, &str)> = vec![
        (demo_with("speed = \"110 km/h\"", "speed = \"110 kg\"").into(), "speed"),
        (demo_with("speed = \"110 km/h\"", "speed = \"110\"").into(), "unit"),
        (demo_with("clearance =", "clearence =").into(), "clearance"),
        (demo_with("material = \"steel-s235\"", "material = \"steel-s253\"").into(), "steel-s235"),
        (demo_with("mark = \"F\"", "mark = \"G\"").into(), "G"),
        (demo_with("length = 3200", "length = 900").into(), "roof"),
        (demo_with("length = 3200", "length = -3200").into(), "more than 0"),
        (demo_with("length = 3200", "length = 0").into(), "more than 0"),
        (demo_with("length = 3200", "length = nan").into(), "nan"),
        (demo_with("length = 3200", "length = 1e300").into(), "large"),
        (Vec::new(), "nothing in it"),
        (vec![0xFF, 0xFE, 0x00], "UTF-8"),
        (huge, "at most 1 MiB"),
        (
            demo_with("length = 3000\nprice = \"21.50\"", "length = 1500\nprice = \"21.50\"")
                .replace("length = 2000\nprice = \"15.80\"", "length = 1400\nprice = \"15.80\"")
                .into(),
            "longest",
        ),
    ];
    for (index, (contents, words)) in cases.into_iter().enumerate() {
        let bench = Bench::new();
        bench.file("build.toml", contents);
        let run = bench.run(&["print", "build.toml", "--draft"]);
        let said = run.said();
        assert!(
            said.to_lowercase().contains(&words.to_lowercase()),
            "case {index}: “{words}” is not in:\n{said}"
        );
        assert!(said.contains("stop"), "case {index}:\n{said}");
        assert!(!said.contains("panicked"), "case {index}:\n{said}");
        if run.0.status.code() == Some(1) {
            assert_eq!(bench.listing(), ["build.toml"], "case {index}");
        }
    }
}

#[test]
fn what_cannot_be_written_is_told_and_nothing_is_harmed() {
    let bench = Bench::new();
    let demo = example("field-van.toml");
    bench.file("build.toml", &demo);
    bench.run(&["print", "build.toml", "-o", "missing/out.pdf"]).code(3).says("missing");
    bench.run(&["print", "build.toml", "-o", "build.toml"]).code(3).says("build file itself");
    bench.run(&["print", "nowhere.toml"]).code(3).says("nowhere.toml");
    bench.run(&["print", "."]).code(3).says("folder");
    assert_eq!(bench.listing(), ["build.toml"]);
    assert_eq!(std::fs::read(bench.path("build.toml")).expect("kept"), demo);
}

#[test]
fn a_write_protected_file_stays_as_it_is() {
    let bench = Bench::new();
    bench.file("build.toml", example("field-van.toml"));
    let old = bench.file("old.pdf", b"old");
    let mut kept = std::fs::metadata(&old).expect("there").permissions();
    kept.set_readonly(true);
    std::fs::set_permissions(&old, kept).expect("permissions");
    bench.run(&["print", "build.toml", "-o", "old.pdf"]).code(3).says("write-protected");
    assert_eq!(std::fs::read(&old).expect("kept"), b"old");
    assert_eq!(bench.listing(), ["build.toml", "old.pdf"]);
}

#[cfg(unix)]
#[test]
fn a_read_only_folder_stays_as_it_is() {
    use std::os::unix::fs::PermissionsExt;
    let bench = Bench::new();
    bench.file("build.toml", example("field-van.toml"));
    bench.run(&["print", "build.toml", "-o", "missing/out.pdf"]).code(3).says("no folder");
    let folder = bench.path("kept");
    std::fs::create_dir(&folder).expect("made");
    std::fs::set_permissions(&folder, PermissionsExt::from_mode(0o555)).expect("permissions");
    // The administrator writes where nobody else may; then a folder of the system has to stand for it.
    let closed = match std::fs::write(folder.join("probe"), b"") {
        Err(_) => folder.join("out.pdf"),
        Ok(()) => std::path::PathBuf::from("/sys/out.pdf"),
    };
    let closed = closed.to_str().expect("UTF-8");
    bench.run(&["print", "build.toml", "-o", closed]).code(3).says("is read-only");
    assert!(!std::path::Path::new(closed).exists());
    std::fs::set_permissions(&folder, PermissionsExt::from_mode(0o755)).expect("permissions");
}

#[test]
fn codes_are_explained_and_near_ones_offered() {
    let bench = Bench::new();
    bench.run(&["explain", "b002"]).code(0).says("bond-overloaded").says("Remedy");
    bench.run(&["explain", "B902"]).code(2).says("did you mean");
    bench.run(&["explain"]).code(0).says("C001");
    bench.run(&["prnt"]).code(2);
}

#[test]
fn figures_are_json_with_every_number() {
    let bench = Bench::new();
    bench.file("build.toml", example("field-van.toml"));
    let run = bench.run(&["figures", "build.toml"]).code(0);
    let json: serde_json::Value = serde_json::from_slice(&run.0.stdout).expect("JSON");
    assert_eq!(json["format"], 1);
    let figures = json["figures"].as_array().expect("a list");
    assert!(figures.len() > 60, "{}", figures.len());
    for figure in figures {
        assert!(figure["value"].is_number(), "{figure}");
        assert!(figure["source"].as_str().is_some_and(|s| !s.is_empty()), "{figure}");
    }
    assert!(!json["leftovers"].as_array().expect("a list").is_empty());
}

#[test]
fn only_the_kinds_asked_for_are_printed() {
    let bench = Bench::new();
    bench.file("build.toml", example("field-van.toml"));
    bench.run(&["print", "build.toml", "--only", "cut", "-o", "cut.pdf"]).code(0);
    bench
        .run(&["print", "build.toml", "--only", "cutt"])
        .code(2)
        .says("no cutt sheet")
        .says("it has cover")
        .says("steps 1 to")
        .says("parts L1");
    bench.run(&["print", "build.toml", "-o", "page.png", "--dpi", "40"]).code(0);
    assert!(std::fs::read(bench.path("page.png")).expect("written").starts_with(b"\x89PNG"));
    bench
        .run(&["print", "build.toml", "-o", "page.svg", "--page", "900"])
        .code(2)
        .says("no page 900");
}

/// How many sheets a run says that it wrote.
fn sheets_told(said: &[u8]) -> usize {
    let said = String::from_utf8_lossy(said);
    let words: Vec<&str> = said.split_whitespace().collect();
    let at = words.iter().position(|word| word.starts_with("sheets")).expect("a count is told");
    words[at - 1].parse().expect("a number of sheets")
}

#[test]
fn steps_and_parts_are_asked_for_by_number_mark_and_name() {
    let bench = Bench::new();
    bench.file("build.toml", example("field-van.toml"));
    // What leads to a sheet that was left out is no matter for the reader.
    let said = bench.run(&["print", "build.toml", "--only", "L1", "-o", "some.pdf"]).code(0).said();
    assert!(!said.contains("rungsheet:"), "{said}");
    let count = |only: &str| {
        sheets_told(
            &bench.run(&["print", "build.toml", "--only", only, "-o", "some.pdf"]).code(0).0.stderr,
        )
    };
    let whole =
        sheets_told(&bench.run(&["print", "build.toml", "-o", "some.pdf"]).code(0).0.stderr);
    let step = count("3");
    assert!((1..=4).contains(&step), "{step} sheets of one step");
    assert_eq!(step, count("drill"), "a step's number and its name");
    let tube = count("L1");
    assert!((1..=12).contains(&tube), "{tube} sheets of one tube");
    assert_eq!(tube, count("l1"), "a mark in small letters");
    // Sheets that are asked for twice come once.
    assert!(count("3,L1,drill") <= step + tube);
    assert!(count("step") > step && count("part,template") > tube && count("step") < whole);
}

#[test]
fn parts_and_stock_alone_make_a_packet() {
    let bench = Bench::new();
    bench.file(
        "shelf.toml",
        "format = 1\n\n[job]\ntitle = \"Shelf\"\nnumber = \"SH-1\"\nrevision = \"A\"\ndate = \"2026-05-09\"\nunits = \"mm\"\n\n[cutting]\nsaw = \"hacksaw\"\n\n[[part]]\nmark = \"S\"\nname = \"shelf rail\"\nsection = \"aluminium-tube-25x25x2\"\nlength = 640\ncount = 4\n\n[[stock]]\nsection = \"aluminium-tube-25x25x2\"\nlength = 3000\nprice = \"21.50\"\n",
    );
    bench.run(&["print", "shelf.toml"]).code(0).says("shelf.pdf");
}

#[test]
fn the_readme_says_what_works() {
    let readme = std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md"))
        .expect("README");
    assert!(readme.contains("cargo run --release -- print examples/field-van.toml"));
    assert!(readme.contains("\n    cargo test\n"));
    for line in readme.lines().filter_map(|line| line.split("](").nth(1)) {
        let target = line.split(')').next().unwrap_or_default();
        assert!(
            Path::new(env!("CARGO_MANIFEST_DIR")).join(target).exists(),
            "{target} is not there"
        );
    }
}

/// A printer's measurement is read or refused in words; nothing is written on nonsense.
#[test]
fn what_a_printer_made_of_200_mm_is_told_or_refused() {
    let bench = Bench::new();
    let plate = include_str!("../sheets/large-plate.toml");
    bench.file("plate.toml", plate);
    for wrong in ["0x200", "200x50", "axb", "300x300", "198.6", "nanx200"] {
        let run = bench.run(&["print", "plate.toml", "--printed", wrong]);
        run.code(2).says("--printed");
    }
    assert_eq!(bench.listing(), ["plate.toml"]);
    bench.run(&["print", "plate.toml", "--printed", "149x199.2"]).code(2).says("four thirds");
    bench.run(&["print", "plate.toml", "--printed", "198.6x199.2"]).code(0);
}

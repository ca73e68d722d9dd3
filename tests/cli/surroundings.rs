//! Whatever happens to the program or its surroundings, a file is the old one or the new one, and the bytes are the same.

use super::{Bench, example};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;

const SMALL: &str = "galley-shelf.toml";

fn bench() -> Bench {
    let bench = Bench::new();
    bench.file("build.toml", example(SMALL));
    bench
}

/// Whether a file is one of two.
#[track_caller]
fn is_one_of(path: &Path, ways: [&[u8]; 2]) {
    let bytes = std::fs::read(path).expect("it is there");
    assert!(ways.contains(&bytes.as_slice()), "{} bytes: neither old nor new", bytes.len());
}

#[test]
fn ended_at_any_moment_it_leaves_the_old_packet_or_the_new_one() {
    let bench = bench();
    let started = std::time::Instant::now();
    bench.run(&["print", "build.toml", "-o", "new.pdf"]).code(0);
    let whole = started.elapsed();
    let new = std::fs::read(bench.path("new.pdf")).expect("printed");
    let old = bench.file("packet.pdf", b"old");
    // From the start until a little after the end.
    for step in 0..12_u32 {
        let mut child = Command::new(env!("CARGO_BIN_EXE_rungsheet"))
            .args(["print", "build.toml", "-o", "packet.pdf"])
            .current_dir(bench.path("."))
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("the program starts");
        std::thread::sleep(whole * step / 10);
        // It may have ended by itself.
        let _ = child.kill();
        child.wait().expect("it ends");
        is_one_of(&old, [b"old", &new]);
        assert_eq!(std::fs::read(bench.path("build.toml")).expect("kept"), example(SMALL));
    }
}

#[cfg(unix)]
#[test]
fn a_full_disk_leaves_the_old_packet_and_nothing_else() {
    let bench = bench();
    let old = bench.file("packet.pdf", b"old");
    // Files may hold 8 blocks; the signal of a file that grows too large is not heard, so the write fails.
    let output = Command::new("sh")
        .args(["-c", "trap '' XFSZ; ulimit -f 8; exec \"$0\" print build.toml -o packet.pdf"])
        .arg(env!("CARGO_BIN_EXE_rungsheet"))
        .current_dir(bench.path("."))
        .output()
        .expect("a shell");
    let said = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(3), "{said}");
    assert!(said.contains("packet.pdf"), "{said}");
    assert_eq!(std::fs::read(&old).expect("kept"), b"old");
    assert_eq!(bench.listing(), ["build.toml", "packet.pdf"]);
}

#[cfg(unix)]
#[test]
fn a_link_stays_a_link_and_its_file_is_replaced() {
    let bench = bench();
    bench.file("kept.pdf", b"old");
    std::os::unix::fs::symlink("kept.pdf", bench.path("link.pdf")).expect("a link");
    bench.run(&["print", "build.toml", "-o", "link.pdf"]).code(0);
    assert!(std::fs::symlink_metadata(bench.path("link.pdf")).expect("there").is_symlink());
    assert!(std::fs::read(bench.path("kept.pdf")).expect("there").starts_with(b"%PDF-"));
    // A link to the build file is the build file.
    std::os::unix::fs::symlink("build.toml", bench.path("same.pdf")).expect("a link");
    bench.run(&["print", "build.toml", "-o", "same.pdf"]).code(3).says("build file itself");
    assert_eq!(std::fs::read(bench.path("build.toml")).expect("kept"), example(SMALL));
    // So is another name of the same file.
    std::fs::hard_link(bench.path("build.toml"), bench.path("twin.pdf")).expect("a second name");
    bench.run(&["print", "build.toml", "-o", "twin.pdf"]);
    assert_eq!(std::fs::read(bench.path("build.toml")).expect("kept"), example(SMALL));
}

#[test]
fn a_reader_that_holds_the_old_packet_open_keeps_it() {
    use std::io::Read;
    let bench = bench();
    let old = bench.file("packet.pdf", b"old");
    let mut reader = std::fs::File::open(&old).expect("opens");
    bench.run(&["print", "build.toml", "-o", "packet.pdf"]).code(0);
    let mut held = Vec::new();
    reader.read_to_end(&mut held).expect("reads");
    assert!(held == b"old" || cfg!(windows), "the open file did not change");
    assert!(std::fs::read(&old).expect("there").starts_with(b"%PDF-"));
}

#[test]
fn two_runs_at_once_leave_one_whole_packet() {
    let bench = bench();
    bench.run(&["print", "build.toml", "-o", "new.pdf"]).code(0);
    let new = std::fs::read(bench.path("new.pdf")).expect("printed");
    let start = || {
        Command::new(env!("CARGO_BIN_EXE_rungsheet"))
            .args(["print", "build.toml", "-o", "packet.pdf"])
            .current_dir(bench.path("."))
            .stderr(Stdio::null())
            .spawn()
            .expect("the program starts")
    };
    let runs = [start(), start(), start()];
    for mut run in runs {
        assert!(run.wait().expect("it ends").success());
    }
    assert_eq!(std::fs::read(bench.path("packet.pdf")).expect("printed"), new);
    assert_eq!(bench.listing(), ["build.toml", "new.pdf", "packet.pdf"]);
}

#[test]
fn another_place_language_and_clock_change_no_byte() {
    let bench = bench();
    bench.run(&["print", "build.toml", "-o", "here.pdf"]).code(0);
    let here = std::fs::read(bench.path("here.pdf")).expect("printed");
    std::fs::create_dir_all(bench.path("far away/ü")).expect("made");
    std::thread::sleep(Duration::from_millis(1100));
    for (name, value) in [
        ("LC_ALL", "de_DE.UTF-8"),
        ("LANG", "tr_TR.UTF-8"),
        ("TZ", "Pacific/Apia"),
        ("HOME", "/nonexistent"),
        ("COLUMNS", "40"),
    ] {
        let output = Command::new(env!("CARGO_BIN_EXE_rungsheet"))
            .args(["print", "../../build.toml", "-o", "there.pdf"])
            .current_dir(bench.path("far away/ü"))
            .env(name, value)
            .output()
            .expect("the program starts");
        assert!(output.status.success(), "{name}={value}");
        let there = std::fs::read(bench.path("far away/ü/there.pdf")).expect("printed");
        assert!(there == here, "{name}={value} changes the packet");
    }
}

/// Pages are laid out on as many threads as there are processors for the program.
#[cfg(target_os = "linux")]
#[test]
fn one_processor_makes_the_same_bytes() {
    let bench = Bench::new();
    bench.file("build.toml", example("harbour-trailer.toml"));
    bench.run(&["print", "build.toml", "-o", "many.pdf"]).code(0);
    let output = Command::new("taskset")
        .args(["-c", "0", env!("CARGO_BIN_EXE_rungsheet"), "print", "build.toml", "-o", "one.pdf"])
        .current_dir(bench.path("."))
        .output()
        .expect("taskset is part of every Linux system");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let [many, one] =
        ["many.pdf", "one.pdf"].map(|name| std::fs::read(bench.path(name)).expect("printed"));
    assert!(many == one, "the number of threads changes the packet");
}

/// The small example without its date of issue, and a run with the variable set to something.
fn undated(bench: &Bench, epoch: Option<&str>, packet: &str) -> super::Run {
    let text = String::from_utf8(example(SMALL)).expect("text");
    let undated: String =
        text.split_inclusive('\n').filter(|line| !line.starts_with("date = ")).collect();
    assert!(undated.len() < text.len(), "the example states its date");
    bench.file("undated.toml", undated);
    let mut command = Command::new(env!("CARGO_BIN_EXE_rungsheet"));
    command.args(["print", "undated.toml", "-o", packet]).current_dir(bench.path("."));
    command.env("NO_COLOR", "1").env_remove("SOURCE_DATE_EPOCH");
    if let Some(epoch) = epoch {
        command.env("SOURCE_DATE_EPOCH", epoch);
    }
    super::Run(command.output().expect("the program starts"))
}

/// reproducible-builds.org, `SOURCE_DATE_EPOCH` specification 1.1: seconds since 1970 in UTC; a malformed value is
/// an error.
#[test]
fn a_build_file_without_a_date_takes_that_of_its_surroundings() {
    let bench = bench();
    undated(&bench, None, "none.pdf").code(1).says("`[job]` has no `date`");
    undated(&bench, Some("1778284800"), "one.pdf").code(0);
    // Another second of the day is the same day; another day is another packet, by its fingerprint too.
    undated(&bench, Some("1778371199"), "two.pdf").code(0);
    undated(&bench, Some("1778371200"), "next.pdf").code(0);
    let read = |name: &str| std::fs::read(bench.path(name)).expect("printed");
    assert_eq!(read("one.pdf"), read("two.pdf"));
    let holds =
        |name: &str, words: &str| read(name).windows(words.len()).any(|w| w == words.as_bytes());
    assert!(holds("one.pdf", "D:20260509"), "dated by the variable");
    assert!(holds("next.pdf", "D:20260510"), "dated by the variable");
    for bad in ["", "yesterday", "-1", "1778284800.5", "0"] {
        undated(&bench, Some(bad), "bad.pdf").code(2).says("SOURCE_DATE_EPOCH");
    }
    assert!(!bench.path("bad.pdf").exists());
}

#[test]
fn a_stated_date_of_issue_does_not_ask_the_surroundings() {
    let bench = bench();
    bench.run(&["print", "build.toml", "-o", "one.pdf"]).code(0);
    let output = Command::new(env!("CARGO_BIN_EXE_rungsheet"))
        .args(["print", "build.toml", "-o", "two.pdf"])
        .current_dir(bench.path("."))
        .env("SOURCE_DATE_EPOCH", "1778284800")
        .output()
        .expect("the program starts");
    assert!(output.status.success());
    let read = |name: &str| std::fs::read(bench.path(name)).expect("printed");
    assert_eq!(read("one.pdf"), read("two.pdf"));
}

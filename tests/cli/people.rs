//! What is handed to people: own steps, one step, survey, record, what changed, photographs.

use super::{Bench, demo_with, example};
use std::path::Path;

/// The words of a printed packet, with what stands for its text left out.
fn printed(bench: &Bench, name: &str) -> Vec<u8> {
    std::fs::read(bench.path(name)).expect("it was printed")
}

const PAINT: &str = include_str!("../findings/own/steps-sound/paint.toml");

/// The line of `figures` in which the packet's steps have their times.
fn times(bench: &Bench, arguments: &[&str]) -> Vec<String> {
    let run = bench.run(arguments).code(0);
    let json: serde_json::Value = serde_json::from_slice(&run.0.stdout).expect("JSON");
    let figures = json["figures"].as_array().expect("a list");
    let ids = figures.iter().filter_map(|figure| figure["id"].as_str());
    ids.filter(|id| id.starts_with("steps.time.")).map(str::to_owned).collect()
}

#[test]
fn own_steps_are_found_by_flag_or_by_key() {
    let bench = Bench::new();
    std::fs::create_dir(bench.path("mine")).expect("a folder");
    bench.file("mine/paint.toml", PAINT);
    bench.file("van.toml", example("field-van.toml"));
    let plain = times(&bench, &["figures", "van.toml"]);
    assert!(!plain.contains(&"steps.time.paint".to_owned()));
    let own = times(&bench, &["figures", "van.toml", "--templates", "mine"]);
    assert_eq!(own.len(), plain.len() + 1);
    assert!(own.contains(&"steps.time.paint".to_owned()));
    bench.run(&["check", "van.toml", "--templates", "mine"]).code(0).says("T108");
    bench.file("key.toml", demo_with("format = 1\n", "format = 1\ntemplates = \"mine\"\n"));
    assert_eq!(times(&bench, &["figures", "key.toml"]), own);
    bench.run(&["print", "van.toml", "--templates", "mine", "--step", "paint"]).code(0);
    bench.run(&["check", "van.toml", "--templates", "nowhere"]).code(3).says("nowhere");
}

/// One of a known name takes the place of ours, hold points and warnings kept; without them it is refused.
#[test]
fn a_step_of_a_known_name_takes_its_place() {
    let bench = Bench::new();
    std::fs::create_dir(bench.path("mine")).expect("a folder");
    bench.file("van.toml", example("field-van.toml"));
    let ours = include_str!("../../templates/steps/12-entry.toml");
    let title = ours.lines().find(|line| line.starts_with("title = ")).expect("a title");
    bench.file("mine/entry.toml", ours.replace(title, "title = \"Cut the round hole\""));
    let own = ["print", "van.toml", "--templates", "mine", "--step", "Cut the round hole"];
    bench.run(&own).code(0);
    let start = ours.find("hold = ").expect("a hold point");
    bench.file("mine/entry.toml", ours.replacen("hold = ", "note = ", 1));
    let run = bench.run(&["print", "van.toml", "--templates", "mine"]).code(1);
    assert!(start > 0 && run.said().contains("hold points"), "{}", run.said());
    run.says("nothing was printed");
}

#[test]
fn faults_of_own_steps_point_into_their_files() {
    let bench = Bench::new();
    std::fs::create_dir(bench.path("mine")).expect("a folder");
    bench.file("van.toml", example("field-van.toml"));
    let long = format!("Brush paint on each rail{}.", " and rail".repeat(9));
    bench.file(
        "mine/paint.toml",
        PAINT.replace("mode =", "mood =").replace("Brush paint on each rail.", &long),
    );
    bench.file(
        "mine/prime.toml",
        PAINT.replace("\"paint\"", "\"prime\"").replace("25", "26").replace("each", "{eech}"),
    );
    let run = bench.run(&["check", "van.toml", "--templates", "mine", "--format", "line"]).code(1);
    let said = run.said().replace('\\', "/");
    for wanted in ["mine/paint.toml:10:1: stop: T107 `mood`", "mine/prime.toml:20:27: stop: T107 "]
    {
        assert!(said.contains(wanted), "{wanted}:\n{said}");
    }
    bench.file("mine/paint.toml", PAINT.replace("Brush paint on each rail.", &long));
    let run = bench.run(&["check", "van.toml", "--templates", "mine", "--format", "line"]).code(1);
    let said = run.said().replace('\\', "/");
    assert!(
        said.contains("mine/paint.toml:20:10: stop: T107") && said.contains("23 words"),
        "{said}"
    );
}

#[cfg(unix)]
#[test]
fn links_do_not_lead_out_of_a_folder_of_own_files() {
    let bench = Bench::new();
    for (folder, flag) in [("mine", "--templates"), ("rows", "--materials")] {
        std::fs::create_dir(bench.path(folder)).expect("a folder");
        bench.file("secret.toml", PAINT);
        let link = bench.path(&format!("{folder}/paint.toml"));
        std::os::unix::fs::symlink(bench.path("secret.toml"), link).expect("a link");
        bench.file("van.toml", example("field-van.toml"));
        let run = bench.run(&["check", "van.toml", flag, folder]).code(1).says("leads out of");
        assert!(!run.said().contains("Paint the rails"));
    }
}

/// Two packets of the same build file and other tables, steps or photographs are told apart.
#[test]
fn what_a_packet_is_made_of_is_in_its_fingerprint() {
    let bench = Bench::new();
    for folder in ["mine", "rows"] {
        std::fs::create_dir(bench.path(folder)).expect("a folder");
    }
    bench.file("rows/rates.toml", RATE);
    bench.file("mine/paint.toml", PAINT);
    bench.file("van.toml", example("galley-shelf.toml"));
    let print = |more: &[&str]| {
        let arguments: Vec<&str> =
            ["compare", "van.toml", "van.toml"].iter().chain(more).copied().collect();
        let run = bench.run(&arguments).code(0);
        let first = run.said().lines().next().expect("the fingerprints").to_owned();
        first.split(" to ").nth(1).expect("the newer one").to_owned()
    };
    let plain = print(&[]);
    let steps = print(&["--templates", "mine"]);
    let rows = print(&["--materials", "rows"]);
    let both = print(&["--templates", "mine", "--materials", "rows"]);
    bench.file("mine/paint.toml", PAINT.replace("1 tin", "2 tins"));
    let other = print(&["--templates", "mine"]);
    let all = [&plain, &steps, &rows, &both, &other];
    for (index, one) in all.iter().enumerate() {
        assert!(!all[..index].contains(one), "{all:?}");
    }
    bench.file("mine/paint.toml", PAINT);
    assert_eq!(print(&["--templates", "mine"]), steps);
}

const RATE: &str = "[[rate]]\nname = \"saw-aluminium\"\nwords = \"sawing aluminium\"\nminutes = \"60 min\"\neach = \"cut\"\n";

#[test]
fn a_step_is_handed_over_by_number_or_name() {
    let bench = Bench::new();
    bench.file("shelf.toml", example("galley-shelf.toml"));
    bench.run(&["print", "shelf.toml", "--step", "2", "-o", "two.pdf"]).code(0);
    bench.run(&["print", "shelf.toml", "--step", "cut", "-o", "cut.pdf"]).code(0);
    assert_eq!(printed(&bench, "two.pdf"), printed(&bench, "cut.pdf"));
    bench
        .run(&["print", "shelf.toml", "--step", "weld"])
        .code(2)
        .says("no step weld")
        .says("2 cut");
    bench.run(&["print", "shelf.toml", "--step", "2", "--only", "cut"]).code(2);
    bench.run(&["print", "shelf.toml", "--with-sheets"]).code(2);
    let sheets = |name: &str, more: &[&str]| -> usize {
        let arguments: Vec<&str> = ["print", "shelf.toml", "--step", "drill", "-o", name]
            .iter()
            .chain(more)
            .copied()
            .collect();
        let said = bench.run(&arguments).code(0).said();
        let told =
            said.lines().find(|line| line.contains(" sheets,")).expect("how many").to_owned();
        let count = told.split(": ").nth(1).and_then(|rest| rest.split(' ').next());
        count.and_then(|count| count.parse().ok()).expect("a number")
    };
    assert!(sheets("a.pdf", &[]) < sheets("b.pdf", &["--with-sheets"]));
    // A packet of one step can be recovered like any other.
    bench.run(&["recover", "two.pdf", "-o", "back.toml"]).code(0);
    assert_eq!(bench.text("back.toml").into_bytes(), example("galley-shelf.toml"));
}

#[test]
fn survey_prints_forms_without_a_build_file() {
    let bench = Bench::new();
    bench.run(&["survey"]).code(0);
    assert_eq!(bench.listing().len(), 1);
    bench.run(&["survey", "--only", "roof", "-o", "roof.pdf", "--units", "imperial"]).code(0);
    assert!(printed(&bench, "roof.pdf").len() < printed(&bench, &bench.listing()[1]).len());
    bench.run(&["survey", "--only", "sky"]).code(2).says("no form sky").says("roof");
}

#[test]
fn record_prints_what_was_done_even_with_a_stop_open() {
    let bench = Bench::new();
    bench.file("shelf.toml", example("galley-shelf.toml"));
    bench.run(&["record", "shelf.toml"]).code(0);
    assert_eq!(bench.listing(), ["shelf-record.pdf", "shelf.toml"]);
    let narrow = demo_with(
        "width = 25, thickness = 2.3, strips = 2",
        "width = 6, thickness = 2.3, strips = 1",
    );
    bench.file("van.toml", narrow);
    bench.run(&["record", "van.toml", "-o", "van.pdf"]).code(0).says("stop");
    bench.run(&["record", "gone.toml"]).code(3).says("gone.toml");
}

#[test]
fn compare_takes_build_files_and_packets() {
    let bench = Bench::new();
    bench.file("old.toml", example("galley-shelf.toml"));
    let text = String::from_utf8(example("galley-shelf.toml")).expect("text");
    let line = text.lines().find(|line| line.starts_with("length = ")).expect("a length");
    bench.file("new.toml", text.replacen(line, "length = 512", 1));
    bench.run(&["print", "old.toml"]).code(0);
    let files = bench.run(&["compare", "old.toml", "new.toml"]).code(0).said();
    let packets = bench.run(&["compare", "old.pdf", "new.toml"]).code(0).said();
    assert_eq!(files, packets);
    assert!(files.contains("512") && files.contains("Throw away") && files.contains("sheets stay"));
    bench.run(&["compare", "old.toml", "old.pdf"]).code(0).says("nothing that is printed differs");
    bench.run(&["compare", "old.toml", "new.toml", "-o", "changes.pdf"]).code(0);
    assert!(printed(&bench, "changes.pdf").starts_with(b"%PDF-"));
    bench.run(&["compare", "old.toml", "new.toml", "-o", "old.toml"]).code(3);
    bench.file("torn.pdf", b"%PDF-1.7 torn");
    bench.run(&["compare", "torn.pdf", "new.toml"]).code(3).says("torn.pdf");

    bench.run(&["print", "new.toml", "-o", "all.pdf"]).code(0);
    bench.run(&["print", "new.toml", "--since", "old.pdf", "-o", "some.pdf"]).code(0);
    bench.run(&["print", "new.toml", "--since", "new.toml", "-o", "none.pdf"]).code(0);
    let size = |name: &str| printed(&bench, name).len();
    assert!(size("none.pdf") < size("some.pdf") && size("some.pdf") < size("all.pdf"));
    assert_eq!(std::fs::read(bench.path("old.toml")).expect("kept"), example("galley-shelf.toml"));
}

#[test]
fn photographs_beside_the_build_file_are_printed_and_others_told() {
    let bench = Bench::new();
    let text = String::from_utf8(example("galley-shelf.toml")).expect("text");
    let record = |name: &str| {
        format!(
            "{text}\n[[record]]\nstep = \"measure\"\nstarted = \"2026-05-16 08:00\"\nfinished = \"2026-05-16 08:20\"\nphoto = [\"{name}\"]\n"
        )
    };
    let picture = image::RgbImage::from_fn(60, 40, |x, _| image::Rgb([x as u8 * 4, 20, 20]));
    picture.save(bench.path("rail.png")).expect("a picture");
    bench.file("shelf.toml", record("rail.png"));
    bench.run(&["print", "shelf.toml", "-o", "with.pdf"]).code(0);
    assert!(printed(&bench, "with.pdf").windows(6).any(|bytes| bytes == b"/Image"));
    let print = |bench: &Bench| bench.run(&["compare", "shelf.toml", "shelf.toml"]).said();
    let before = print(&bench);
    image::RgbImage::new(60, 40).save(bench.path("rail.png")).expect("a picture");
    assert_ne!(before, print(&bench), "another picture has another fingerprint");
    std::fs::remove_file(bench.path("rail.png")).expect("gone");
    bench.run(&["check", "shelf.toml"]).says("P001").says("no such file");
    std::fs::create_dir(bench.path("in")).expect("a folder");
    picture.save(bench.path("rail.png")).expect("a picture");
    bench.file("in/shelf.toml", record("../rail.png"));
    bench.run(&["check", "in/shelf.toml"]).says("P001");
    assert!(Path::new(&bench.path("in")).is_dir());
}

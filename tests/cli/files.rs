//! `figures`: tables as comma-separated values, read back by rules of RFC 4180.

use super::{Bench, example};
use serde_json::Value;

/// Rows of cells, read by the grammar of RFC 4180, section 2.
fn cells(text: &str) -> Vec<Vec<String>> {
    let (mut rows, mut row, mut cell) = (Vec::new(), Vec::new(), String::new());
    let (mut quoted, mut chars) = (false, text.chars().peekable());
    while let Some(c) = chars.next() {
        match c {
            '"' if quoted && chars.peek() == Some(&'"') => cell.push(chars.next().expect("peeked")),
            '"' => quoted = !quoted,
            ',' if !quoted => row.push(std::mem::take(&mut cell)),
            '\r' if !quoted => {
                assert_eq!(chars.next(), Some('\n'), "lines end with CR LF");
                row.push(std::mem::take(&mut cell));
                rows.push(std::mem::take(&mut row));
            }
            c => cell.push(c),
        }
    }
    assert!(row.is_empty() && cell.is_empty() && !quoted, "the last line is whole");
    rows
}

#[test]
fn tables_hold_what_the_json_document_holds() {
    let bench = Bench::new();
    bench.file("build.toml", example("field-van.toml"));
    let run = bench.run(&["figures", "build.toml"]).code(0);
    let json: Value = serde_json::from_slice(&run.0.stdout).expect("JSON");
    let table = |name: &str| {
        let run = bench.run(&["figures", "build.toml", "--csv", name]).code(0);
        let rows = cells(std::str::from_utf8(&run.0.stdout).expect("text"));
        for row in &rows {
            assert_eq!(row.len(), rows[0].len(), "{name}: {row:?}");
        }
        rows
    };
    let count = |list: &Value| list.as_array().expect("a list").len();
    assert_eq!(table("holes").len() - 1, count(&json["holes"]));
    assert_eq!(table("shopping").len() - 1, count(&json["shopping"]));
    assert_eq!(table("figures").len() - 1, count(&json["figures"]));
    let pieces: usize =
        json["cuts"].as_array().expect("bars").iter().map(|bar| count(&bar["pieces"])).sum();
    assert_eq!(table("cut-list").len() - 1, pieces);
    let cables = table("cables");
    assert_eq!(cables[0][..4], ["run", "name", "from", "to"]);
    assert_eq!(cables[1][1], "roof to controller");
    // 4600 mm are stated in the build file.
    assert_eq!(cables[1][4], "4600");
}

#[test]
fn several_tables_go_into_a_folder() {
    let bench = Bench::new();
    bench.file("build.toml", example("galley-shelf.toml"));
    bench.run(&["figures", "build.toml", "--csv", "holes,cut-list"]).code(2).says("folder");
    std::fs::create_dir(bench.path("tables")).expect("made");
    bench.run(&["figures", "build.toml", "--csv", "sheet-cuts,cut-list", "-o", "tables"]).code(0);
    assert!(bench.text("tables/cut-list.csv").starts_with("bar,section,"));
    assert!(bench.text("tables/sheet-cuts.csv").lines().count() > 10);
    bench.run(&["figures", "build.toml", "--csv", "hols"]).code(2).says("holes");
}

#[test]
fn the_shape_of_the_document_is_as_the_contributors_guide_says() {
    let guide = include_str!("../../DEVELOPERS.md");
    let bench = Bench::new();
    bench.file("build.toml", example("field-van.toml"));
    let run = bench.run(&["figures", "build.toml"]).code(0);
    let json: Value = serde_json::from_slice(&run.0.stdout).expect("JSON");
    for key in json.as_object().expect("an object").keys() {
        assert!(guide.contains(&format!("`{key}`")), "{key} is not in the guide");
    }
    assert!(guide.contains(&format!("format {}", json["format"])), "the version of the shape");
}

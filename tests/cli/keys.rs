//! `keys`, `tables`, `schema`: made from what the readers ask for.

use super::Bench;
use rungsheet::read::keys;
use serde_json::Value;

#[test]
fn the_reference_tells_meaning_kind_and_default_of_every_key() {
    let page = Bench::new().run(&["keys"]).code(0).said();
    for table in keys::tables() {
        for key in table.keys {
            let line = if key.example.is_empty() {
                format!("\n  {}\n", key.name)
            } else {
                format!("\n  {} = {}\n", key.name, key.example)
            };
            assert!(page.contains(&line), "{}.{}", table.path, key.name);
        }
    }
    // A block a key: what it tells, what it takes, and one of needed, default, may be left out, only.
    for block in page.split("\n\n  ").skip(1) {
        let lines: Vec<&str> = block.lines().filter(|l| l.starts_with("      ")).collect();
        assert!(lines.len() >= 3, "{block}");
        assert!(
            ["needed", "left out", "only with"].iter().any(|word| block.contains(word)),
            "{block}"
        );
    }
    assert!(
        page.contains("left out: 40 °C (a closed vehicle in summer: common practice, no source)")
    );
}

#[test]
fn one_table_or_one_key_is_told_and_the_nearest_offered() {
    let bench = Bench::new();
    let tape = bench.run(&["keys", "mount.tape"]).code(0).said();
    assert!(tape.starts_with("tape = { … } in mount"), "{tape}");
    assert!(!tape.contains("bead"), "{tape}");
    bench.run(&["keys", "clearance"]).code(0).says("[[frame]]");
    bench.run(&["keys", "mout"]).code(2).says("nearest is mount");
}

#[test]
fn rows_are_listed_with_their_source() {
    let bench = Bench::new();
    bench.run(&["tables"]).code(0).says("section").says("cable-size");
    bench.run(&["tables", "tape"]).code(0).says("acrylic-foam-tape\n").says("common practice");
    bench.run(&["tables", "tapes"]).code(2).says("there are no rows of the kind tapes");
}

#[test]
fn the_schema_has_every_key_with_its_words() {
    let run = Bench::new().run(&["schema"]).code(0);
    let schema: Value = serde_json::from_slice(&run.0.stdout).expect("JSON");
    assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
    for table in keys::tables() {
        let of = if table.path.is_empty() { &schema } else { &schema["$defs"][table.path] };
        assert_eq!(of["additionalProperties"], false, "{}", table.path);
        for key in table.keys {
            let property = &of["properties"][key.name];
            let words = property["description"].as_str().unwrap_or_default();
            assert!(words.starts_with(key.says), "{}.{}", table.path, key.name);
        }
    }
}

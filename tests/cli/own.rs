//! Tables of the reader's own: they add, override, are told, and their faults too.

use super::Bench;

const BUILD: &str = "format = 1\n\n[job]\ntitle = \"Door\"\ndate = \"2026-05-09\"\n\n[[part]]\nmark = \"S\"\nname = \"door frame\"\nsection = \"shed-tube-26x26x2\"\nlength = 640\n\n[[stock]]\nsection = \"shed-tube-26x26x2\"\nlength = 3000\nprice = \"21.50\"\n";
const TUBE: &str = "[[section]]\nname = \"shed-tube-26x26x2\"\nshape = \"square-tube\"\nmaterial = \"aluminium-6060-t66\"\na = 26\nb = 26\nt = 2\nsource = \"measured in the shed\"\n";

fn bench(table: &str) -> Bench {
    let bench = Bench::new();
    std::fs::create_dir(bench.path("mine")).expect("made");
    bench.file("mine/sections.toml", table);
    bench.file("door.toml", BUILD);
    bench
}

#[test]
fn a_row_of_ones_own_is_found_by_flag_or_by_key_and_told() {
    let bench = bench(TUBE);
    bench.run(&["check", "door.toml"]).code(1).says("N001");
    let flag = ["check", "door.toml", "--materials", "mine"];
    bench.run(&flag).code(0).says("N011").says("your own table sections.toml");
    bench.file("key.toml", BUILD.replacen("format = 1\n", "format = 1\nmaterials = \"mine\"\n", 1));
    bench.run(&["check", "key.toml"]).code(0).says("N011");
    bench.run(&["print", "key.toml"]).code(0);
    let run = bench.run(&["figures", "key.toml"]).code(0);
    let json: serde_json::Value = serde_json::from_slice(&run.0.stdout).expect("JSON");
    let row = json["rows"]
        .as_array()
        .expect("rows")
        .iter()
        .find(|row| row["name"] == "shed-tube-26x26x2");
    let row = row.expect("the tube is among the rows");
    assert_eq!(row["table"], "sections.toml");
    assert_eq!(row["yours"], true);
    assert_eq!(row["source"], "measured in the shed (your table sections.toml)");
    bench
        .run(&["tables", "section", "--materials", "mine"])
        .code(0)
        .says("shed-tube-26x26x2\n      measured in the shed (your table sections.toml)");
    bench.run(&["schema", "--materials", "mine"]).code(0).says("\"shed-tube-26x26x2\"");
}

#[test]
fn a_row_of_a_known_name_takes_its_place() {
    let heavy = "[[material]]\nname = \"aluminium-6060-t66\"\n";
    let bench = bench(heavy);
    // Half a material is refused; the built-in one isn't used in silence.
    bench.run(&["tables", "material", "--materials", "mine"]).code(1).says("N009").says("lacks");
    let slow = "[[rate]]\nname = \"saw-aluminium\"\nwords = \"sawing aluminium\"\nminutes = \"60 min\"\neach = \"cut\"\n";
    bench.file("mine/sections.toml", format!("{TUBE}{slow}"));
    let run = bench.run(&["tables", "rate", "--materials", "mine"]);
    run.code(0).says("saw-aluminium\n      your table sections.toml");
}

#[test]
fn faults_in_a_table_point_into_that_file() {
    let bench = bench(&TUBE.replace("a = 26", "a = \"26 kg\"").replace("t = 2\n", "tt = 2\n"));
    let run = bench.run(&["check", "door.toml", "--materials", "mine", "--format", "line"]).code(1);
    let said = run.said().replace('\\', "/");
    assert!(said.contains("mine/sections.toml:5:5: stop: N009"), "{said}");
    assert!(said.contains("mine/sections.toml:7:1: stop: N009"), "{said}");
    bench.run(&["print", "door.toml", "--materials", "mine", "--draft"]).code(1);
    assert!(!bench.path("door.pdf").exists());
    bench.run(&["check", "door.toml", "--materials", "nowhere"]).code(3).says("nowhere");
}

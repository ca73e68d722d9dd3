//! What rests on memory or common practice and decides something: said on the sheet that tells how it was worked out,
//! and listed in the contributors' guide as work to do.

use crate::support::worked;
use rungsheet::sheets;
use rungsheet::source::Seen;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::path::Path;

const BEGIN: &str =
    "<!-- written from the examples: REWRITE=1 cargo test --test all outside::uncertain -->\n";

/// Sources without a document that was read, of figures that decide; with the kinds of figures that they are of.
fn listed() -> String {
    let mut told: BTreeMap<(String, &'static str), BTreeSet<String>> = BTreeMap::new();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .expect("examples")
        .map(|entry| entry.expect("an entry").path())
        .collect();
    files.sort();
    for path in files.iter().filter(|path| path.extension().is_some_and(|end| end == "toml")) {
        let made = worked(&std::fs::read_to_string(path).expect("an example is text"));
        let packet = sheets::packet(&made.basis());
        let sheet = packet.sheets.iter().find(|sheet| sheet.anchor == "worked-out");
        let printed = sheet.map_or_else(String::new, |sheet| format!("{:?}", sheet.blocks));
        for figure in &made.results.ledger {
            let uncertain = matches!(figure.seen, Seen::Memory | Seen::CommonPractice);
            if !(figure.decides && uncertain) {
                continue;
            }
            let said = format!("{:?}", format!("{} ({})", figure.source, figure.seen.name()));
            assert!(
                printed.contains(said.trim_matches('"')),
                "{} is not on the sheet: {said}",
                figure.id
            );
            let kind: Vec<&str> = figure.id.split('.').take(2).collect();
            told.entry((figure.source.clone(), figure.seen.name()))
                .or_default()
                .insert(kind.join("."));
        }
    }
    let mut text = String::from("| rests on | how | figures |\n|---|---|---|\n");
    for ((source, seen), kinds) in &told {
        let kinds: Vec<String> = kinds.iter().map(|kind| format!("`{kind}`")).collect();
        let _ = writeln!(text, "| {} | {seen} | {} |", source.replace('|', "/"), kinds.join(", "));
    }
    text
}

/// No source: what decides and was not read stands in the guide, and on the packet's sheet with its mark.
#[test]
fn the_guide_lists_what_decides_without_a_source_that_was_read() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("DEVELOPERS.md");
    let guide = std::fs::read_to_string(&path).expect("the guide");
    let (before, _) = guide.split_once(BEGIN).expect("the place of the list");
    let now = format!("{before}{BEGIN}\n{}", listed());
    if std::env::var_os("REWRITE").is_some() {
        std::fs::write(&path, &now).expect("the guide can be written");
        return;
    }
    assert!(guide == now, "the list is old: REWRITE=1 cargo test --test all outside::uncertain");
}

//! Two builds held against each other.

use crate::page::words;
use crate::support::{Worked, worked};
use rungsheet::page::model::Document;
use rungsheet::page::{Packet, lay_out};
use rungsheet::sheets::compare::{Changes, Fate, Side, compare, since};
use rungsheet::sheets::{self};

const SHELF: &str = include_str!("../../examples/galley-shelf.toml");
const OLD: &str = include_str!("../../examples/field-van.toml");

fn with<T>(contents: &str, done: impl FnOnce(&Side<'_>) -> T) -> T {
    let made: Worked = worked(contents);
    let basis = made.basis();
    let packet = sheets::packet(&basis);
    let (document, _): (Document, _) = lay_out(&packet);
    done(&Side { basis: &basis, packet: &packet, document: &document })
}

fn changes(old: &str, new: &str) -> Changes {
    with(old, |old| with(new, |new| compare(old, new)))
}

fn rows(changes: &Changes, title: &str) -> Vec<(String, String, String)> {
    let group = changes.groups.iter().find(|group| group.title == title);
    let rows = group.map_or(&[][..], |group| &group.rows);
    let plain = |words: &str| words.replace(['\u{a0}', '\u{202f}'], " ");
    rows.iter().map(|row| (plain(&row.told()), plain(&row.before), plain(&row.after))).collect()
}

#[test]
fn alike_builds_have_no_changes() {
    // A remark changes the fingerprint and nothing that is printed.
    let remark = changes(OLD, &format!("{OLD}\n# looked through once more\n"));
    // Templates and strips carry the fingerprint in their drawing, set to the width of its letters.
    let gone = remark.sheets.iter().filter(|sheet| sheet.fate != Fate::Stays);
    let gone: Vec<&str> = gone.map(|s| s.title.as_str()).collect();
    assert_eq!(gone, [""; 0]);
    assert!(remark.groups.is_empty() && remark.prints.0 != remark.prints.1);
}

/// A longer battery strap's neighbour: the battery 10 mm longer touches no part of the roof.
#[test]
fn what_changed_is_told_and_the_rest_stays() {
    let new = OLD.replace("length = 330", "length = 340");
    let changed = changes(OLD, &new);
    let templates = changed.sheets.iter().filter(|sheet| sheet.anchor.starts_with("template"));
    let fates: Vec<Fate> = templates.map(|sheet| sheet.fate).collect();
    assert!(fates.len() > 10 && fates.iter().all(|fate| *fate == Fate::Stays), "{fates:?}");
    let written = rows(&changed, "In the build file");
    assert_eq!(written.len(), 1);
    assert!(written[0].0.starts_with("battery length"), "{written:?}");
    assert_eq!((written[0].1.as_str(), written[0].2.as_str()), ("330", "340"));
    assert_eq!(rows(&changed, "Holes"), []);
    let fate = |anchor: &str| {
        changed.sheets.iter().find(|sheet| sheet.anchor == anchor).map(|sheet| sheet.fate)
    };
    assert_eq!(fate("battery"), Some(Fate::Changes));
    assert_eq!(fate("measure"), Some(Fate::Changes));
    assert_eq!(fate("part-L1"), Some(Fate::Stays));
    assert_eq!(fate("step-bond"), Some(Fate::Stays));
}

/// 1 590 mm of side tube are 3 × 520 + 2 × 10 + 10 for this frame; two gaps of 12 make it 4 mm longer.
#[test]
fn a_wider_gap_makes_longer_tubes() {
    let new = OLD.replace("gap = 10", "gap = 12");
    let changed = changes(OLD, &new);
    let parts = rows(&changed, "Parts");
    for mark in ["L1", "L2"] {
        let (_, before, after) =
            parts.iter().find(|row| row.0.starts_with(mark)).unwrap_or_else(|| panic!("{parts:?}"));
        let length = |words: &str| -> f64 {
            let last = words.rsplit(", ").next().unwrap_or_default();
            last.replace([' ', 'm'], "").parse().unwrap_or_else(|_| panic!("{words}"))
        };
        assert!((length(after) - length(before) - 4.0).abs() < 1e-9, "{before} {after}");
    }
}

#[test]
fn steps_come_and_go() {
    let own = "\n[[step]]\ntitle = \"Paint the rail\"\nafter = \"drill\"\ntime = \"30 min\"\nactions = [\"Brush paint on the rail.\"]\n";
    let changed = changes(SHELF, &format!("{SHELF}{own}"));
    let steps = rows(&changed, "Steps");
    assert!(steps.iter().any(|row| row.0 == "Paint the rail" && row.1.is_empty()), "{steps:?}");
    assert!(changed.of(Fate::Comes).any(|sheet| sheet.title == "Paint the rail"));
    let back = changes(&format!("{SHELF}{own}"), SHELF);
    assert!(back.of(Fate::Goes).any(|sheet| sheet.title == "Paint the rail"));
}

#[test]
fn what_is_printed_anew_is_marked_and_carries_the_new_fingerprint() {
    let new_text = OLD.replace("length = 330", "length = 340");
    with(OLD, |old| {
        with(&new_text, |new| {
            let changes = compare(old, new);
            let mut packet: Packet = new.packet.clone();
            since(&mut packet, old, new, &changes);
            let anchors: Vec<&str> = packet.sheets.iter().map(|s| s.anchor.as_str()).collect();
            assert_eq!(anchors[..2], ["cover", "changes"]);
            assert!(anchors.contains(&"battery") && !anchors.contains(&"part-L1"));
            let (document, problems) = lay_out(&packet);
            assert!(problems.is_empty(), "{problems:#?}");
            assert_eq!(document.faults(), Vec::<String>::new());
            let page = document
                .pages
                .iter()
                .map(words)
                .find(|words| {
                    words.contains("Δ") && words.contains("340") && !words.contains("was")
                })
                .expect("the longer battery is marked somewhere");
            assert!(page.contains(&changes.prints.1));
            let all: String = document.pages.iter().map(words).collect();
            assert!(all.contains(&changes.prints.0), "the older print is told");
        });
    });
}

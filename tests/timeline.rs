//! The timeline as it is printed.

use crate::page::{words, wrongs};
use crate::support::{Worked, worked};
use rungsheet::page::model::Document;
use rungsheet::page::{Packet, Problem, lay_out};
use rungsheet::sheets::{Basis, packet};
use rungsheet::source::Text;

const VAN: &str = include_str!("../examples/field-van.toml");
const TRAILER: &str = include_str!("../examples/harbour-trailer.toml");

/// The timeline alone, laid out.
fn printed(text: &str) -> (Worked, Document, Vec<Problem>) {
    let made = worked(text);
    let source = Text::new("build.toml", text);
    let basis = Basis {
        build: &made.build,
        work: &made.work,
        results: &made.results,
        findings: &made.findings,
        text: &source,
        bytes: text.as_bytes(),
        beside: &[],
    };
    let whole = packet(&basis);
    let sheets = whole.sheets.iter().filter(|sheet| sheet.anchor == "timeline").cloned().collect();
    let (document, problems) = lay_out(&Packet { sheets, ..whole });
    (made, document, problems)
}

fn said(document: &Document) -> String {
    document.pages.iter().map(words).collect::<Vec<_>>().join("|")
}

#[test]
fn a_timeline_is_sound_whoever_works_and_when() {
    let crew = |people: u32, day: &str| {
        VAN.replace("people = 2", &format!("people = {people}"))
            .replace("day = [\"08:00\", \"18:00\"]", day)
    };
    for (name, text) in [
        ("van", VAN.to_owned()),
        ("trailer", TRAILER.to_owned()),
        ("van on letter", VAN.replace("paper = \"A4\"", "paper = \"Letter\"")),
        ("four people", crew(4, "day = [\"06:30\", \"21:15\"]")),
        ("short days", crew(2, "day = [\"09:00\", \"13:00\"]")),
        ("cold nights", VAN.replace("\"7 °C\"", "\"-9 °C\"")),
    ] {
        let (made, document, problems) = printed(&text);
        assert!(made.results.plan.is_some(), "{name}: {:#?}", made.findings);
        assert_eq!(problems, [], "{name}");
        assert_eq!(wrongs(&document), Vec::<String>::new(), "{name}");
        assert!(!document.pages.is_empty(), "{name}");
    }
}

#[test]
fn it_tells_when_to_drive_and_every_step() {
    let (made, document, _) = printed(VAN);
    let plan = made.results.plan.expect("a plan");
    let minutes = plan.drive.0.to_minutes() as i64 % 1440;
    let clock = format!("{:02}:{:02}", minutes / 60, minutes % 60);
    let told = said(&document);
    assert!(told.contains("Do not drive before"), "{told}");
    assert!(told.contains(&clock), "{clock} in {told}");
    for step in &made.results.steps.steps {
        let first = step.title.split(' ').next().expect("a title has words");
        assert!(told.contains(first), "{} in {told}", step.title);
    }
}

#[test]
fn without_a_vehicle_nothing_drives() {
    let (_, document, problems) = printed(include_str!("findings/U013-start-before-issue.toml"));
    assert_eq!(problems, []);
    let told = said(&document);
    assert!(told.contains("Done by") && !told.contains("drive"), "{told}");
}

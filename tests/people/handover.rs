//! One step handed over alone: its numbers are those of the whole packet.

use crate::support::{Worked, worked};
use rungsheet::page::block::{Block, Cell};
use rungsheet::page::{Packet, Paper, ProblemKind, Sheet, lay_out};
use rungsheet::sheets::handover::{find, hand_over, handed_back, names, starts};
use rungsheet::sheets::{self};
use rungsheet::units::{Duration, Unit, display};

const EXAMPLES: [&str; 8] = [
    include_str!("../../examples/field-van.toml"),
    include_str!("../../examples/harbour-trailer.toml"),
    include_str!("../../examples/forest-pod.toml"),
    include_str!("../../examples/rescue-minibus.toml"),
    include_str!("../../examples/galley-shelf.toml"),
    include_str!("../../examples/canal-tender.toml"),
    include_str!("../../examples/roof-fan.toml"),
    include_str!("../../examples/wheel-carrier.toml"),
];

fn handed(made: &Worked, key: &str, with_sheets: bool) -> Packet {
    let basis = made.basis();
    let mut packet = sheets::packet(&basis);
    let step = find(&basis, key).unwrap_or_else(|| panic!("no step {key}"));
    hand_over(&mut packet, &basis, step, with_sheets);
    packet
}

fn rows(sheet: &Sheet) -> Vec<Vec<String>> {
    let tables = sheet.blocks.iter().flat_map(|block| match block {
        Block::Columns(columns) => columns.iter().flat_map(|column| &column.blocks).collect(),
        other => vec![other],
    });
    let tables = tables.filter_map(|block| match block {
        Block::Table(table) => Some(table),
        _ => None,
    });
    let words = |cell: &Cell| match cell {
        Cell::Text(text) | Cell::Bold(text) | Cell::Head(text) => text.plain(),
        _ => String::new(),
    };
    tables.flat_map(|t| &t.rows).map(|row| row.cells.iter().map(words).collect()).collect()
}

#[test]
fn each_number_on_it_is_that_of_the_packet() {
    for contents in EXAMPLES {
        let made = worked(contents);
        let basis = made.basis();
        let whole = sheets::packet(&basis);
        for step in &made.results.steps.steps {
            // Times and waits: by the names of their figures.
            let packet = handed(&made, &step.key, false);
            let front = rows(&packet.sheets[0]);
            let all_starts = starts(&basis, step);
            for start in &all_starts {
                let before = &made.results.steps.steps[start.number as usize - 1];
                assert_eq!(start.title, before.title);
                let Some((figure, wait)) = &start.wait else { continue };
                // Whole hours, never shortened: as the step before prints its wait.
                let known = Duration::hours(made.figure(figure));
                assert!(*wait >= known && *wait - known < Duration::hours(1.0), "{figure}");
                let printed = display::duration(*wait);
                let waits = before.waits();
                for same in waits.filter(|w| w.cures.iter().any(|cure| cure.figure() == *figure)) {
                    assert_eq!(same.time, Some(*wait), "{figure}");
                }
                let told = front.iter().any(|row| row.iter().any(|c| c.contains(&printed)));
                assert!(told, "{printed} of {figure} in {front:?}");
            }
            // Work at the bench has no figures of time.
            let time = made.results.ledger.get(&format!("steps.time.{}", step.key));
            if let Some(time) = time.filter(|_| step.span.is_none()) {
                assert_eq!(step.time, Duration::minutes(time.value));
            }
            // Limits: the actions', which the step sheet prints, and the record sheet where it has them.
            let own =
                packet.sheets.iter().find(|sheet| sheet.anchor == format!("step-{}", step.key));
            let back = rows(own.expect("the step's own sheet"));
            let record: Vec<_> = whole
                .sheets
                .iter()
                .filter(|sheet| sheet.anchor == "record")
                .flat_map(rows)
                .collect();
            for action in handed_back(step) {
                let done = action.done.as_ref().expect("a value");
                let wanted = action.number.to_string();
                let of = |rows: &[Vec<String>]| {
                    rows.iter().find(|row| row[0] == wanted).cloned().unwrap_or_default()
                };
                let (here, there) = (of(&back), of(&record));
                assert_eq!(here[2], done.low, "{}", action.text);
                assert_eq!(here[3], done.high, "{}", action.text);
                assert_eq!(here[2..4], there[2..4], "{}", action.text);
            }
            // The step's sheet itself is that of the packet, its last line apart.
            let there =
                whole.sheets.iter().find(|sheet| sheet.anchor == format!("step-{}", step.key));
            let (here, there) = (own.expect("a sheet"), there.expect("a sheet"));
            for block in &there.blocks[..there.blocks.len() - 1] {
                let told = unlinked(block);
                assert!(here.blocks.iter().any(|own| unlinked(own) == told), "{}", step.key);
            }
        }
    }
}

/// A block without where its words lead: what is not handed over is no place to go to.
fn unlinked(block: &rungsheet::page::block::Block) -> String {
    let told = format!("{block:?}");
    let mut parts = told.split("link: Some(\"");
    let mut words = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        words.push_str("link: None");
        words.push_str(part.split_once("\")").map_or(part, |(_, rest)| rest));
    }
    words
}

#[test]
fn sizes_and_places_are_those_of_the_work() {
    for contents in EXAMPLES {
        let made = worked(contents);
        for step in &made.results.steps.steps {
            for name in names(&made.basis(), step) {
                for part in &made.work.parts {
                    let rungsheet::derive::Body::Bar { length, .. } = &part.body else { continue };
                    let first = name.marks.split([',', ' ']).next();
                    if part.pieces.iter().any(|piece| Some(piece.mark.as_str()) == first) {
                        let wanted = display::in_unit_short(*length, Unit::MM, 1);
                        assert!(name.size.ends_with(&wanted), "{name:?}: {wanted}");
                    }
                }
            }
        }
    }
}

/// Printed on both sides it is two sheets of paper at most, the first of them read before the work.
#[test]
fn every_step_can_be_handed_over_on_two_sheets() {
    for contents in EXAMPLES {
        let made = worked(contents);
        for step in &made.results.steps.steps {
            let mut packet = handed(&made, &step.number.to_string(), false);
            assert!(packet.duplex);
            assert_eq!(packet.sheets.len(), 2, "{}", step.key);
            for paper in [Paper::A4, Paper::Letter] {
                packet.paper = paper;
                let (document, problems) = lay_out(&packet);
                assert!(problems.is_empty(), "{}: {problems:?}", step.key);
                let pages = document.pages.len();
                assert!(pages.div_ceil(2) <= 2, "{} on {paper:?}: {pages} pages", step.key);
                let front = Packet { sheets: packet.sheets[..1].to_vec(), ..packet.clone() };
                assert_eq!(lay_out(&front).0.pages.len(), 1, "{} on {paper:?}", step.key);
            }
        }
    }
}

#[test]
fn the_templates_that_it_needs_are_told_or_come_with_it() {
    let made = worked(EXAMPLES[0]);
    let told = format!("{:?}", handed(&made, "feet", false).sheets[0].blocks);
    for title in ["template of foot angle", "template of foot plate D1", "Joint angle J1"] {
        assert_eq!(told.contains(title), title != "Joint angle J1", "{title}");
    }
    let with = handed(&made, "feet", true);
    assert!(with.sheets.iter().any(|sheet| sheet.title.starts_with("Template foot plate")));
    let (_, problems) = lay_out(&with);
    assert!(problems.iter().all(|p| p.kind != ProblemKind::NoRoomForLabel), "{problems:?}");
    let told = format!("{:?}", handed(&made, "dry-fit", false).sheets[0].blocks);
    assert!(told.contains("template of roof places") && !told.contains("foot plate D1,"));
}

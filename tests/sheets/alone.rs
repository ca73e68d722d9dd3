//! Builds of one topic alone: what they print, and what they do not.

use super::with;
use crate::support::worked;
use rungsheet::build::Paper;
use rungsheet::page::Sheet;
use rungsheet::page::block::{Block, Cell, Table};
use rungsheet::sheets;
use rungsheet::source::Severity;
use std::collections::BTreeSet;

const TENDER: &str = include_str!("../../examples/canal-tender.toml");
const SHELF: &str = include_str!("../../examples/galley-shelf.toml");

fn tabs(sheets: &[Sheet]) -> BTreeSet<String> {
    sheets.iter().filter_map(|sheet| Some(sheet.tab.as_ref()?.word.clone())).collect()
}

/// Electrics without roof, frame or panels: their sheets, and none of what they have not.
#[test]
fn circuits_alone_make_a_packet() {
    let made = worked(TENDER);
    let stops = made.findings.iter().filter(|f| f.severity != Severity::Note).count();
    assert_eq!(stops, 0, "{:?}", made.findings);
    with(TENDER, |_, _, sheets| {
        let tabs = tabs(sheets);
        for tab in ["Wiring", "Cables", "Battery", "Template", "Step", "Record", "Shopping"] {
            assert!(tabs.contains(tab), "{tab} in {tabs:?}");
        }
        for tab in ["Roof", "Cut", "Part", "Loads", "Bond", "Weights"] {
            assert!(!tabs.contains(tab), "{tab} in {tabs:?}");
        }
        let others: Vec<&Sheet> = sheets.iter().filter(|sheet| sheet.anchor != "wiring").collect();
        let told = format!("{others:?}").to_lowercase();
        for word in ["on the roof", "panels covered", "uncover"] {
            assert!(!told.contains(word), "{word}");
        }
    });
}

/// A battery and nothing else is held, bought, fitted and recorded.
#[test]
fn a_battery_alone_makes_a_packet() {
    let cut = TENDER.find("[[circuit]]").expect("circuits");
    with(&TENDER[..cut], |_, results, sheets| {
        let tabs = tabs(sheets);
        assert!(tabs.contains("Battery") && tabs.contains("Step"), "{tabs:?}");
        for tab in ["Wiring", "Cables", "Template", "Roof"] {
            assert!(!tabs.contains(tab), "{tab} in {tabs:?}");
        }
        assert!(results.cables.is_none() && results.restraint.is_some());
    });
}

/// A build without electrics has no sheet of them.
#[test]
fn no_electrics_print_no_electrical_sheets() {
    with(SHELF, |_, results, sheets| {
        let tabs = tabs(sheets);
        for tab in ["Wiring", "Cables", "Battery"] {
            assert!(!tabs.contains(tab), "{tab} in {tabs:?}");
        }
        assert!(results.electrics.is_none() && results.cables.is_none());
    });
}

/// Both papers, without a fault of the page.
#[test]
fn the_packet_of_circuits_alone_is_sound_on_both_papers() {
    for paper in [Paper::A4, Paper::Letter] {
        let made = crate::support::worked_with(TENDER, |build| build.job.paper.value = paper);
        let (_, problems) = rungsheet::page::lay_out(&sheets::packet(&made.basis()));
        assert!(problems.is_empty(), "{paper:?}: {problems:?}");
    }
}

fn head(cell: &Cell) -> String {
    match cell {
        Cell::Head(text) | Cell::Bold(text) | Cell::Text(text) => text.plain(),
        _ => String::new(),
    }
}

fn tables<'a>(sheets: &'a [Sheet], anchor: &str) -> Vec<&'a Table> {
    let sheet = sheets.iter().find(|sheet| sheet.anchor == anchor).expect("a sheet");
    let table = |block: &'a Block| match block {
        Block::Table(table) => Some(table),
        _ => None,
    };
    sheet.blocks.iter().filter_map(table).collect()
}

/// Each cable has one row among the cuts, with one length on the cable list and in the schedule; both ends
/// of both its conductors are ended, joined and labelled.
#[test]
fn every_cable_is_cut_ended_joined_and_labelled() {
    let examples = [
        TENDER,
        include_str!("../../examples/field-van.toml"),
        include_str!("../../examples/forest-pod.toml"),
    ];
    for contents in examples {
        with(contents, |_, results, sheets| {
            let electrics = results.electrics.as_ref().expect("runs");
            let runs = &electrics.runs;
            let cables = results.cables.as_ref().expect("cables");
            let cut = tables(sheets, "cables")[0];
            let marks: Vec<String> = cut.rows.iter().map(|row| head(&row.cells[0])).collect();
            let alone = electrics.singles().map(|single| single.mark.clone());
            let known: Vec<String> = runs.iter().map(|run| run.mark.clone()).chain(alone).collect();
            assert_eq!(marks, known);
            let schedule = tables(sheets, "wiring")[0];
            for run in runs {
                let all = rungsheet::units::display::number(run.cut.all.to_mm(), 0);
                let row =
                    cut.rows.iter().find(|row| head(&row.cells[0]) == run.mark).expect("a row");
                assert!(row.cells.iter().any(|cell| head(cell) == all), "{}: {all}", run.mark);
                for sign in ["+", "\u{2212}"] {
                    let name = format!("{}{sign}", run.mark);
                    let mut rows = schedule.rows.iter().filter(|row| head(&row.cells[0]) == name);
                    let row = rows.next().unwrap_or_else(|| panic!("{name} in the schedule"));
                    assert!(row.cells.iter().any(|cell| head(cell) == all), "{name}: {all}");
                    let own = |end: &&rungsheet::compute::cables::End| {
                        let pole = if sign == "+" {
                            rungsheet::compute::cables::Pole::Plus
                        } else {
                            rungsheet::compute::cables::Pole::Minus
                        };
                        end.run == run.mark && end.pole == pole
                    };
                    assert!(cables.ends.iter().filter(own).count() >= 2, "{name}");
                }
            }
            let labels: Vec<String> = sheets
                .iter()
                .filter(|sheet| sheet.anchor.starts_with("template-labels"))
                .map(|sheet| format!("{sheet:?}"))
                .collect();
            let labels = labels.concat();
            for run in runs {
                for sign in ["+", "\u{2212}"] {
                    // Two ends, each told on two sides of its flag.
                    let told = labels.matches(&format!("\"{}{sign}  ", run.mark)).count();
                    assert_eq!(told, 4, "{}{sign}", run.mark);
                }
            }
            // The bond to the body and the links of a bank are one conductor each.
            for single in electrics.singles() {
                let all = rungsheet::units::display::number(single.cut.all.to_mm(), 0);
                for table in [cut, schedule] {
                    let mut rows = table.rows.iter();
                    let row = rows.find(|row| head(&row.cells[0]) == single.mark);
                    let row = row.unwrap_or_else(|| panic!("no row {}", single.mark));
                    assert!(row.cells.iter().any(|cell| head(cell) == all), "{all}");
                }
                let ends = cables.ends.iter().filter(|end| end.run == single.mark).count();
                assert_eq!(ends, 2, "{}", single.mark);
                let told = labels.matches(&format!("\"{}  ", single.mark)).count();
                assert_eq!(told, 4, "{}", single.mark);
            }
        });
    }
}

/// What is no panel: a fan in a roof, a carrier on a door. Everything that such a job asks for is there.
#[test]
fn fixtures_alone_make_a_packet() {
    let fan = include_str!("../../examples/roof-fan.toml");
    let carrier = include_str!("../../examples/wheel-carrier.toml");
    for (contents, electric) in [(fan, true), (carrier, false)] {
        let made = worked(contents);
        assert!(made.findings.is_empty(), "{:#?}", made.findings);
        let keys: Vec<&str> = made.results.steps.steps.iter().map(|s| s.key.as_str()).collect();
        assert!(keys.contains(&"fixture-holes") && keys.contains(&"fixture-fit"), "{keys:?}");
        with(contents, |_, _, sheets| {
            let tabs = tabs(sheets);
            for tab in ["Safety", "Shopping", "Cut", "Part", "Template", "Loads", "Step", "Record"]
            {
                assert!(tabs.contains(tab), "{tab} in {tabs:?}");
            }
            assert_eq!(tabs.contains("Wiring"), electric);
            assert!(sheets.iter().any(|sheet| sheet.anchor == "booklet"));
            let told = format!("{:?}", made.results.shopping.shelves);
            for what in ["hexagon bolt", "locking nut", "sealant"] {
                assert!(told.contains(what), "{what} in {told}");
            }
        });
        let door = made.results.steps.message("door-load").is_some();
        assert_eq!(door, !electric, "lamps, plate, view, hinges and approval belong to a door");
        let roof = made.results.steps.message("height").is_some();
        assert_eq!(roof, electric, "nobody climbs for a door");
    }
}

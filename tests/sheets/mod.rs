//! The sheets of the examples, held against the work that they tell of.

mod alone;
mod templates;

use crate::support::worked;
use rungsheet::build::{self, RoofShape};
use rungsheet::compute::Results;
use rungsheet::derive::{RoofSurface, Work};
use rungsheet::geometry::Crown;
use rungsheet::page::Sheet;
use rungsheet::page::block::{Block, Cell, Table};
use rungsheet::sheets;
use rungsheet::source::Stated;
use rungsheet::units::Length;
use std::collections::BTreeMap;

const EXAMPLES: [(&str, &str); 2] = [
    ("field-van", include_str!("../../examples/field-van.toml")),
    ("harbour-trailer", include_str!("../../examples/harbour-trailer.toml")),
];

fn with<T>(contents: &str, look: impl Fn(&Work, &Results, &[Sheet]) -> T) -> T {
    let made = worked(contents);
    let packet = sheets::packet(&made.basis());
    look(&made.work, &made.results, &packet.sheets)
}

/// Tables of the sheets with this word on their tab.
fn tables<'a>(sheets: &'a [Sheet], tab: &str) -> Vec<&'a Table> {
    sheets
        .iter()
        .filter(|sheet| sheet.tab.as_ref().is_some_and(|t| t.word == tab))
        .flat_map(|sheet| &sheet.blocks)
        .filter_map(|block| match block {
            Block::Table(table) => Some(table),
            _ => None,
        })
        .collect()
}

/// Drawing and table tell the same holes (page rule 40); so every hole is in one table, once.
#[test]
fn every_hole_is_in_one_hole_table() {
    for (name, contents) in EXAMPLES {
        with(contents, |work, _, sheets| {
            let mut told: BTreeMap<String, usize> = BTreeMap::new();
            for table in tables(sheets, "Part") {
                for row in &table.rows {
                    if let Some(Cell::Head(id)) = row.cells.first()
                        && table.columns[0].head.plain() == "id"
                    {
                        *told.entry(id.plain()).or_default() += 1;
                    }
                }
            }
            let known: BTreeMap<String, usize> =
                work.holes.iter().map(|hole| (hole.id.clone(), 1)).collect();
            assert_eq!(told, known, "{name}");
        });
    }
}

/// Both conductors of every run, each with its own number (page rule 44).
#[test]
fn every_run_has_two_conductors_in_the_schedule() {
    for (name, contents) in EXAMPLES {
        with(contents, |_, results, sheets| {
            let runs = &results.electrics.as_ref().expect("both have electrics").runs;
            let first = tables(sheets, "Wiring")[0];
            assert_eq!(first.rows.len(), runs.len() * 2, "{name}");
        });
    }
}

/// No sheet at all where its subject is absent.
#[test]
fn no_sheet_without_its_subject() {
    let contents = EXAMPLES[0].1;
    let cut = contents.find("[battery]").expect("the electrics stand last");
    with(&contents[..cut], |_, _, sheets| {
        for word in ["Wiring", "Battery"] {
            assert!(sheets.iter().all(|s| s.tab.as_ref().is_none_or(|t| t.word != word)), "{word}");
        }
    });
}

/// A tape over an arc measures radius times angle. Chord 1400 mm and rise 100 mm: R = 2500 mm, half
/// angle asin(0.28), so 709.49 mm from crown to edge (worked by hand).
#[test]
fn a_tape_across_measures_the_arc() {
    let crown = build::Crown::even(
        Stated::default_of(Length::mm(1400.0), "test"),
        Stated::default_of(Length::mm(100.0), "test"),
    );
    assert!(Crown::new(Length::mm(1400.0), Length::mm(100.0)).is_some());
    let roof = RoofSurface::new(&RoofShape::Crown(crown));
    for side in [-1.0, 1.0] {
        let tape = roof.by_tape_across(Length::mm(500.0), Length::mm(700.0 * side));
        let by_hand = 2500.0 * 0.28_f64.asin() * side;
        assert!((tape.to_mm() - by_hand).abs() < 0.05, "{tape} against {by_hand}");
    }
}

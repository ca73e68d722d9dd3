//! Tables of what follows where a size on the day is not as planned.

use crate::support::worked;
use rungsheet::compute::what_if::Strip;

const VAN: &str = include_str!("../../examples/field-van.toml");

fn strip<'a>(strips: &'a [Strip], title: &str) -> &'a Strip {
    strips.iter().find(|strip| strip.title.starts_with(title)).unwrap_or_else(|| panic!("{title}"))
}

fn numbers(cells: &[String]) -> Vec<f64> {
    cells.iter().map(|cell| cell.replace('\u{202f}', "").parse().expect("a number")).collect()
}

/// By hand: what a rail is higher its packer is thinner, mm for mm; three panels in a row that are 1.5 mm
/// wider make the tube along them 4.5 mm longer, and one panel 1.5 mm longer the tube across 1.5 mm.
#[test]
fn what_follows_is_worked_out_anew() {
    let strips = worked(VAN).results.what_if;
    let rail = strip(&strips, "Rail higher");
    assert_eq!(rail.heads.len(), 5);
    for (_, cells) in &rail.rows {
        let cells = numbers(cells);
        for pair in cells.windows(2).filter(|pair| pair[0] > 0.0 && pair[1] > 0.0) {
            assert!((pair[0] - pair[1] - 2.0).abs() < 0.11, "{cells:?}");
        }
    }
    for (title, by) in [("Panels longer", [1.5, 4.5]), ("Panels wider", [1.5, 4.5])] {
        let told = strip(&strips, title);
        assert!(!told.rows.is_empty());
        for (name, cells) in &told.rows {
            for pair in numbers(cells).windows(2) {
                let step = pair[1] - pair[0];
                assert!(by.iter().any(|by| (step - by).abs() < 0.01), "{title} {name}: {cells:?}");
            }
        }
    }
    // Twice the route needs no thinner copper.
    for (run, cells) in &strip(&strips, "Route longer").rows {
        assert!(numbers(cells).is_sorted(), "{run}: {cells:?}");
    }
}

/// The column of no difference is what the packet plans.
#[test]
fn the_middle_column_is_the_plan() {
    let made = worked(VAN);
    let rail = strip(&made.results.what_if, "Rail higher");
    assert_eq!(rail.heads[2], "0");
    let cut = strip(&made.results.what_if, "Panels wider");
    let planned: Vec<f64> = made
        .work
        .parts
        .iter()
        .filter_map(|part| match &part.body {
            rungsheet::derive::Body::Bar { length, .. } => Some(length.to_mm()),
            _ => None,
        })
        .collect();
    for (name, cells) in &cut.rows {
        let middle = numbers(cells)[2];
        assert!(planned.iter().any(|length| (length - middle).abs() < 0.06), "{name}: {middle}");
    }
}

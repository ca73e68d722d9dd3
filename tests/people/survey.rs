//! Survey forms ask for what the reader knows, and for all that can be measured.

use rungsheet::build::LengthUnit;
use rungsheet::page::block::{Block, Cell};
use rungsheet::page::{Paper, lay_out};
use rungsheet::read::keys;
use rungsheet::sheets::survey::{Ask, FORMS, NOT_MEASURED, survey};
use std::collections::BTreeSet;

/// Path and key of every blank.
fn asked() -> Vec<(&'static str, &'static str)> {
    let mut all = Vec::new();
    for ask in FORMS.iter().flat_map(|form| form.asks) {
        match ask {
            Ask::One { path, keys } | Ask::Each { path, keys, .. } => {
                all.extend(keys.iter().map(|key| (*path, *key)));
            }
            Ask::Pairs { path, key, beside, .. } => {
                all.push((path, key));
                all.extend(beside.iter().map(|key| (*path, *key)));
            }
        }
    }
    all
}

#[test]
fn every_key_is_on_a_form_or_has_a_reason_not_to_be() {
    let asked = asked();
    let mut faults = Vec::new();
    for table in keys::tables() {
        for key in table.keys {
            let own = if table.path.is_empty() {
                key.name.to_owned()
            } else {
                format!("{}.{}", table.path, key.name)
            };
            // A table between braces is asked for by its own keys.
            if keys::table_of(&own).is_some() {
                continue;
            }
            let on_form = asked.contains(&(table.path, key.name));
            let named = NOT_MEASURED.iter().any(|(p, k, _)| *p == table.path && *k == key.name);
            let rest = NOT_MEASURED.iter().any(|(p, k, _)| *p == table.path && *k == "*");
            if on_form && named {
                faults.push(format!("{own} is asked for, and told not to be"));
            }
            if !on_form && !named && !rest {
                faults.push(format!("{own} is on no form and has no reason"));
            }
        }
    }
    for (path, key) in &asked {
        if keys::key_of(path, key).is_none() {
            faults.push(format!("the reader knows no {path}.{key}"));
        }
    }
    for (path, key, why) in NOT_MEASURED {
        let known = if *key == "*" {
            keys::table_of(path).is_some()
        } else {
            keys::key_of(path, key).is_some()
        };
        if !known || why.is_empty() {
            faults.push(format!("{path}.{key}: {why}"));
        }
    }
    let once: BTreeSet<_> = asked.iter().collect();
    assert_eq!(once.len(), asked.len(), "a key is asked for twice");
    assert!(faults.is_empty(), "{faults:#?}");
}

/// What a table can't do without is on its form where the table is measured at all, or designed.
#[test]
fn what_a_measured_table_needs_is_asked_for() {
    for path in ["roof", "roof.sections", "roof.crown", "roof.keep-out", "vehicle", "panel.flange"]
    {
        let table = keys::table_of(path).expect("a table");
        for key in table.keys.iter().filter(|key| key.needed) {
            let inner = format!("{path}.{}", key.name);
            let known = asked().contains(&(path, key.name)) || keys::table_of(&inner).is_some();
            assert!(known, "{path}.{}", key.name);
        }
    }
}

#[test]
fn forms_fit_on_both_papers_in_both_units() {
    for paper in [Paper::A4, Paper::Letter] {
        for units in [LengthUnit::Millimetre, LengthUnit::Inch] {
            let packet = survey(&[], units, paper).expect("all forms");
            let (document, problems) = lay_out(&packet);
            assert!(problems.is_empty(), "{problems:#?}");
            assert!(document.pages.len() <= 2 * FORMS.len(), "{}", document.pages.len());
            for form in FORMS {
                let alone = survey(&[form.word.to_owned()], units, paper).expect("a form");
                assert_eq!(alone.sheets.len(), 1);
                assert_eq!(alone.identity.fingerprint, packet.identity.fingerprint);
            }
        }
    }
    assert_eq!(survey(&["sky".into()], LengthUnit::Inch, Paper::A4).err().as_deref(), Some("sky"));
}

#[test]
fn blanks_have_the_unit_that_is_written_in_the_build_file() {
    let unit_of = |units, key: &str| {
        let packet = survey(&["vehicle".into()], units, Paper::A4).expect("a form");
        let rows = packet.sheets[0].blocks.iter().filter_map(|block| match block {
            Block::Table(table) => Some(&table.rows),
            _ => None,
        });
        rows.flatten()
            .find_map(|row| match (&row.cells[0], &row.cells[3]) {
                (Cell::Head(head), Cell::Blank(unit)) if head.plain() == key => Some(unit.clone()),
                _ => None,
            })
            .unwrap_or_else(|| panic!("no {key}"))
    };
    for (key, metric, imperial) in [
        ("height", "mm", "in"),
        ("speed", "km/h", "mph"),
        ("moving", "kg", "lb"),
        ("name", "", ""),
        ("thickness", "mm", "in"),
    ] {
        assert_eq!(unit_of(LengthUnit::Millimetre, key), metric, "{key}");
        assert_eq!(unit_of(LengthUnit::Inch, key), imperial, "{key}");
    }
}

//! The loads sheet: what acts, what each mount gets, how much of its capacity it uses.

use super::scenes::use_bar;
use super::{Basis, Kind};
use crate::compute::loads::{CaseKind, Loads};
use crate::page::Sheet;
use crate::page::block::{Block, Cell, Heading, Row, Table, TableColumn};
use crate::page::text::Text;
use crate::units::{Force, display};

/// The sheet; none where no load was worked out.
pub(super) fn loads(basis: &Basis) -> Vec<Sheet> {
    let Some(loads) = &basis.results.loads else { return Vec::new() };
    let mut blocks = Vec::new();
    if let Some(governing) = governing(basis) {
        blocks.push(governing);
    }
    if !basis.results.bonds.is_empty() {
        blocks.push(Block::Heading(
            Heading::new("Use of capacity")
                .aside("hatched from 0.8, a caution; over 1 stops the work"),
        ));
        blocks.push(Block::Table(uses(basis, loads)));
    }
    blocks.push(Block::Heading(
        Heading::new("Worst load on each mount")
            .aside("seconds long; number of the case beside it"),
    ));
    blocks.push(Block::Table(worst(loads)));
    blocks.push(Block::Heading(Heading::new("Cases").aside(air(loads))));
    blocks.push(Block::Table(cases(loads)));
    blocks.push(Block::Paragraph(words(basis)));
    vec![Sheet {
        anchor: "loads".into(),
        title: "Loads on the mounts".into(),
        purpose: "What pulls and shakes the array, and how much the mounts have left.".into(),
        tab: Some(Kind::Loads.tab()),
        steps: None,
        blocks,
        single_sided: false,
    }]
}

fn newtons(force: Force) -> String {
    display::number(force.to_n(), 0)
}

fn governing(basis: &Basis) -> Option<Block> {
    use crate::page::block::Lead;
    let worst = basis
        .results
        .bonds
        .iter()
        .max_by(|a, b| a.governing().share.total_cmp(&b.governing().share))?;
    let case = worst.governing();
    Some(Block::Lead(Lead {
        words: format!("{}: {}", worst.mark, display::number(case.share, 2)).into(),
        notes: vec![
            format!("highest use of capacity, held by the {}", worst.carrier.name()).into(),
            format!("case: {}", case.case).into(),
            format!(
                "pull {}\u{a0}N, shear {}\u{a0}N on {}\u{a0}mm²",
                newtons(case.pull),
                newtons(case.shear),
                display::number(worst.area.to_mm2(), 0)
            )
            .into(),
        ],
    }))
}

fn uses(basis: &Basis, loads: &Loads) -> Table {
    let number = |name: &str| {
        let at = loads.cases.iter().position(|loaded| loaded.case.name == name);
        at.map_or(Cell::Dash, |at| (at + 1).to_string().into())
    };
    let rows = basis
        .results
        .bonds
        .iter()
        .map(|bond| {
            let share = |share: f64| display::number(share, 2);
            Row::new(vec![
                Cell::Head(bond.mark.clone().into()),
                bond.carrier.name().into(),
                share(bond.short.share).into(),
                share(bond.hot.share).into(),
                share(bond.sustained.share).into(),
                Cell::Bold(share(bond.governing().share).into()),
                Cell::Scene(use_bar(&bond.mark, bond.governing().share)),
                number(&bond.governing().case),
            ])
        })
        .collect();
    Table {
        columns: vec![
            TableColumn::left("mark"),
            TableColumn::left("held by"),
            TableColumn::number("seconds"),
            TableColumn::number("hot roof"),
            TableColumn::number("always"),
            TableColumn::number("governs"),
            TableColumn::left("0 to 1"),
            TableColumn::number("in case"),
        ],
        rows,
        ..Table::default()
    }
}

fn worst(loads: &Loads) -> Table {
    let name = |index: usize| {
        loads
            .cases
            .get(index)
            .map_or(Cell::Dash, |c| format!("{}: {}", index + 1, c.case.name).into())
    };
    let rows = loads
        .worst
        .iter()
        .map(|worst| {
            Row::new(vec![
                Cell::Head(worst.mark.clone().into()),
                newtons(worst.tension.0).into(),
                if worst.tension.0 > Force::ZERO { name(worst.tension.1) } else { Cell::Dash },
                newtons(worst.shear.0).into(),
                name(worst.shear.1),
            ])
        })
        .collect();
    Table {
        columns: vec![
            TableColumn::left("mark"),
            TableColumn::number("pull, N"),
            TableColumn::left("in case"),
            TableColumn::number("shear, N"),
            TableColumn::left("in case"),
        ],
        rows,
        ..Table::default()
    }
}

fn cases(loads: &Loads) -> Table {
    let rows = loads
        .cases
        .iter()
        .enumerate()
        .map(|(index, loaded)| {
            let kind = match loaded.case.kind {
                CaseKind::Short => "seconds",
                CaseKind::Hot => "hot roof",
                CaseKind::Sustained => "always",
            };
            let most = loaded
                .mounts
                .iter()
                .zip(&loads.worst)
                .max_by(|a, b| a.0.tension().total_cmp(&b.0.tension()))
                .filter(|(load, _)| load.tension() > Force::ZERO);
            Row::new(vec![
                (index + 1).to_string().into(),
                Cell::Head(loaded.case.name.clone().into()),
                kind.into(),
                loaded.case.actions.clone().into(),
                most.map_or(Cell::Dash, |(load, worst)| {
                    format!("{} at {}", newtons(load.tension()), worst.mark).into()
                }),
            ])
        })
        .collect();
    Table {
        columns: vec![
            TableColumn::number("no."),
            TableColumn::left("case"),
            TableColumn::left("lasts"),
            TableColumn::left("actions and factors"),
            TableColumn::right("most pull, N"),
        ],
        rows,
        ..Table::default()
    }
}

fn air(loads: &Loads) -> String {
    format!(
        "driving {}\u{a0}Pa, storm parked {}\u{a0}Pa, {}\u{a0}kg carried",
        display::number(loads.driving.to_pa(), 0),
        display::number(loads.storm.to_pa(), 0),
        display::number(loads.mass.to_kg(), 1)
    )
}

fn words(basis: &Basis) -> Text {
    let hinges =
        basis.work.mounts.iter().any(|m| matches!(m.kind, crate::derive::MountShape::Hinge { .. }));
    let text = Text::from(
        "Pull is off the roof, shear along it; the frame is taken as rigid on elastic mounts.",
    );
    let text = if hinges {
        text.and(
            " Hinges are told by their load only: rail and rivet nuts have no stated capacity.",
        )
    } else {
        text
    };
    text.and(" Formulas and sources: sheet ").and_page("worked-out").and(".")
}

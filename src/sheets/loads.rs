//! The loads sheet: what acts, what each mount gets, how much of its capacity it uses.

use super::scenes::use_bar;
use super::{Basis, Kind};
use crate::build::LengthUnit;
use crate::compute::loads::{CaseKind, Lifted, Loads};
use crate::compute::metal::MetalUse;
use crate::compute::reserve::{Most, Reserve};
use crate::page::Sheet;
use crate::page::block::{Block, Cell, Column, Dotted, Heading, Row, Table, TableColumn};
use crate::page::text::Text;
use crate::units::{Force, Speed, display};

/// Kinds of part that are listed; the rest is in the sheet of figures.
const MOST_METAL: usize = 8;
/// Rows of bonds and mounts above which the first page is full.
const FILLS: usize = 14;

/// The sheet; none where no load was worked out.
pub(super) fn loads(basis: &Basis) -> Vec<Sheet> {
    let Some(loads) = &basis.results.loads else { return Vec::new() };
    let mut blocks = Vec::new();
    if let Some(governing) = governing(basis) {
        blocks.push(governing);
    }
    if !basis.results.bonds.is_empty() {
        blocks.push(Block::Heading(
            Heading::new("Use of the bonds")
                .aside("hatched from 0.8, a caution; over 1 stops the work"),
        ));
        blocks.push(Block::Table(uses(basis, loads)));
    }
    let fullest = metal(basis);
    if !fullest.rows.is_empty() {
        blocks.push(Block::Heading(
            Heading::new("Use of the metal").aside("worst place of each kind, fullest first"),
        ));
        blocks.push(Block::Table(fullest));
    }
    blocks.push(Block::Heading(
        Heading::new("Worst load on each mount").aside("seconds long; pull is off the roof"),
    ));
    blocks.push(Block::Table(worst(loads)));
    if let Some(reserve) = &basis.results.reserve {
        blocks.push(Block::Heading(
            Heading::new("At other speeds")
                .aside("greatest use of a mount; bold: over 1, do not drive"),
        ));
        blocks.push(Block::Table(speeds(basis, reserve)));
        // Many mounts fill the first page; the table then stays whole on the next.
        if basis.results.bonds.len() + loads.worst.len() + reserve.lost.len() > FILLS {
            blocks.push(Block::PageBreak);
        }
        blocks.push(Block::Heading(
            Heading::new("If one mount lets go").aside("storms included; speed with what is left"),
        ));
        blocks.push(Block::Table(lost(basis, reserve)));
    }
    blocks.push(Block::Heading(Heading::new("Air").aside(air(loads))));
    blocks.push(Block::Table(opinions(loads)));
    blocks.extend(lifted(basis, loads));
    blocks.push(Block::Heading(
        Heading::new("Cases").aside("actions act together, each with its factor"),
    ));
    blocks.push(Block::Table(cases(loads)));
    let aside = Text::from("the frame is taken as rigid; formulas and sources: sheet ");
    blocks.push(Block::Heading(Heading::new("Not counted").aside(aside.and_page("worked-out"))));
    blocks.push(not_counted(basis));
    blocks.extend(crash_words(basis));
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
        words: format!("{}: {}", worst.mark, display::capacity_used(case.share)).into(),
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
            let share = display::capacity_used;
            Row::new(vec![
                Cell::Head(bond.mark.clone().into()),
                bond.carrier.name().into(),
                share(bond.short.share).into(),
                share(bond.storm.share).into(),
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
            TableColumn::number("road"),
            TableColumn::number("storm"),
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
    let with = |(force, case): (Force, usize)| -> [Cell; 2] {
        if force > Force::ZERO {
            [newtons(force).into(), (case + 1).to_string().into()]
        } else {
            [Cell::Dash, Cell::Dash]
        }
    };
    let rows = loads
        .worst
        .iter()
        .map(|worst| {
            let mut cells = vec![Cell::Head(worst.mark.clone().into())];
            for of in [worst.tension, worst.compression, worst.shear] {
                cells.extend(with(of));
            }
            Row::new(cells)
        })
        .collect();
    Table {
        columns: vec![
            TableColumn::left("mark"),
            TableColumn::number("pull, N"),
            TableColumn::number("in case"),
            TableColumn::number("push, N"),
            TableColumn::number("in case"),
            TableColumn::number("shear, N"),
            TableColumn::number("in case"),
        ],
        rows,
        ..Table::default()
    }
}

/// The fullest place of each kind of part.
fn metal(basis: &Basis) -> Table {
    let mut kinds: Vec<&MetalUse> = Vec::new();
    for entry in &basis.results.metal.uses {
        match kinds.iter_mut().find(|known| known.what == entry.what) {
            Some(known) if known.share >= entry.share => {}
            Some(known) => *known = entry,
            None => kinds.push(entry),
        }
    }
    kinds.sort_by(|a, b| b.share.total_cmp(&a.share));
    let amount = |value: f64, unit: &str| {
        let decimals = usize::from(unit != "N");
        format!("{}\u{a0}{unit}", display::number(value, decimals))
    };
    let rows = kinds
        .into_iter()
        .take(MOST_METAL)
        .map(|entry| {
            Row::new(vec![
                Cell::Head(entry.what.into()),
                entry.at.clone().into(),
                amount(entry.effect, entry.unit).into(),
                amount(entry.capacity, entry.unit).into(),
                Cell::Bold(display::capacity_used(entry.share).into()),
                Cell::Scene(use_bar(&format!("{} {}", entry.at, entry.what), entry.share)),
            ])
        })
        .collect();
    Table {
        columns: vec![
            TableColumn::left("what"),
            TableColumn::left("where"),
            TableColumn::right("has"),
            TableColumn::right("may have"),
            TableColumn::number("use"),
            TableColumn::left("0 to 1"),
        ],
        rows,
        ..Table::default()
    }
}

/// A speed as the dial shows it.
fn dial(basis: &Basis, speed: Speed) -> String {
    let told = if is_inch(basis) { speed.to_mph() } else { speed.to_kmh() };
    display::number(told, 0)
}

fn is_inch(basis: &Basis) -> bool {
    *basis.build.job.units == LengthUnit::Inch
}

/// A head with the dial's unit.
fn by_dial(basis: &Basis, head: &str) -> String {
    format!("{head}, {}", if is_inch(basis) { "mph" } else { "km/h" })
}

fn speeds(basis: &Basis, reserve: &Reserve) -> Table {
    let with = |most: &Option<Most>| {
        most.as_ref().map_or_else(
            || Cell::from("frame turns"),
            |most| {
                let told = format!("{} at {}", display::capacity_used(most.share), most.mark);
                // Over its capacity: not a speed to drive.
                if most.share > 1.0 { Cell::Bold(told.into()) } else { told.into() }
            },
        )
    };
    let rows = reserve
        .speeds
        .iter()
        .map(|row| {
            let mut cells = vec![Cell::Head(dial(basis, row.speed).into())];
            cells.extend(row.gone.iter().map(with));
            Row::new(cells)
        })
        .collect();
    let count = basis.work.mounts.len();
    let mut columns = vec![TableColumn::number(by_dial(basis, "speed"))];
    columns.extend(reserve.worst.iter().map(|gone| {
        TableColumn::right(match gone.as_slice() {
            [] => format!("all {count} mounts sound"),
            gone => format!("{} sound, {} gone", count - gone.len(), gone.join(" and ")),
        })
    }));
    Table { columns, rows, ..Table::default() }
}

fn lost(basis: &Basis, reserve: &Reserve) -> Table {
    let rows = reserve
        .lost
        .iter()
        .map(|lost| {
            let left = lost.left.as_ref().map_or_else(
                || "the frame turns".to_owned(),
                |most| format!("{} at {}", display::capacity_used(most.share), most.mark),
            );
            let speed =
                lost.speed.map_or_else(|| "do not drive".to_owned(), |speed| dial(basis, speed));
            Row::new(vec![Cell::Head(lost.mark.clone().into()), left.into(), speed.into()])
        })
        .collect();
    Table {
        columns: vec![
            TableColumn::left("gone"),
            TableColumn::right("greatest use of the others"),
            TableColumn::right(by_dial(basis, "no faster than")),
        ],
        rows,
        ..Table::default()
    }
}

/// Published views of the uplift, the one in use first.
fn opinions(loads: &Loads) -> Table {
    let rows = loads
        .opinions
        .iter()
        .enumerate()
        .map(|(index, opinion)| {
            Row::new(vec![
                Cell::Head(if index == 0 { "used" } else { "to compare" }.into()),
                opinion.words.clone().into(),
                display::number(opinion.uplift, 2).into(),
                display::number(opinion.behind, 2).into(),
            ])
        })
        .collect();
    Table {
        columns: vec![
            TableColumn::left(""),
            TableColumn::left("uplift of the flat array by"),
            TableColumn::number("coefficient"),
            TableColumn::number("acts at, of depth"),
        ],
        rows,
        ..Table::default()
    }
}

fn lifted(basis: &Basis, loads: &Loads) -> Vec<Block> {
    loads.lifted.iter().map(|lifted| one_lifted(basis, lifted)).collect()
}

fn one_lifted(basis: &Basis, lifted: &Lifted) -> Block {
    let which = match basis.build.frames.get(lifted.frame) {
        Some(frame) if basis.build.frames.len() > 1 => format!("{}: lifted", frame.name.value),
        _ => "Lifted".to_owned(),
    };
    let text = format!(
        "{which} to {}°: a gust of {}\u{a0}m/s takes the array off its prop. It is lifted in calm air alone and latched down before wind. \
         In the parked storm a prop fixed at both ends holds {}\u{a0}N.",
        display::number(lifted.angle.to_deg(), 0),
        display::number(lifted.gust.to_m_per_s(), 0),
        newtons(lifted.prop)
    );
    Block::Paragraph(text.into())
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
        "driving {}\u{a0}Pa, storm parked {}\u{a0}Pa, {}\u{a0}kg of parts carried",
        display::number(loads.driving.to_pa(), 0),
        display::number(loads.storm.to_pa(), 0),
        display::number(loads.mass.to_kg(), 1)
    )
}

/// What these numbers say nothing of.
fn not_counted(basis: &Basis) -> Block {
    let pushed = basis.build.frames.iter().any(|frame| frame.corner.connector().is_some());
    let corners = if pushed {
        ("corner connectors", "no published strength")
    } else {
        ("frame corners", "turning, push and pull")
    };
    let half = |rows: [(&str, &str); 3]| {
        let rows = rows.into_iter().map(|(label, value)| (label.into(), value.into())).collect();
        Column::new(3, vec![Block::Dotted(Dotted { groups: vec![rows] })])
    };
    Block::Columns(vec![
        half([corners, ("panels", "glass and frame"), ("roof", "bows under the skin")]),
        half([
            ("years of shaking", "cracks: look again"),
            ("shock", "jolt of a lost mount"),
            ("second lines", "edge tape, tether"),
        ]),
    ])
}

fn crash_words(basis: &Basis) -> Option<Block> {
    let (class, worst) = (basis.build.actions.crash.as_ref()?, crash(basis)?);
    let words = format!(
        "For information: at the crash levels of {} the bonds would be used to {}.",
        class.name(),
        display::number(worst, 1)
    );
    Some(Block::Paragraph(words.into()))
}

/// The greatest use of a bond in a crash.
fn crash(basis: &Basis) -> Option<f64> {
    let uses = basis.results.bonds.iter().filter_map(|bond| bond.crash.as_ref());
    uses.map(|case| case.share).reduce(f64::max)
}

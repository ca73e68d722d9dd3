//! The wiring sheet: circuit, schedule of conductors, voltages, order of connecting.

use super::scenes::{circuit, terminals};
use super::words::{bare, mm};
use super::{Basis, Kind};
use crate::build::Terminal;
use crate::compute::electrics::{Electrics, Run};
use crate::page::Sheet;
use crate::page::block::{Block, Cell, Figure, Heading, Row, Table, TableColumn};
use crate::page::text::Text;
use crate::units::{Current, Voltage, display};

/// The sheet; none where nothing is connected.
pub(super) fn wiring(basis: &Basis) -> Vec<Sheet> {
    let Some(electrics) = &basis.results.electrics else { return Vec::new() };
    // Panels that state their voltages are no circuit yet.
    if electrics.runs.is_empty() && basis.build.controller.is_none() {
        return Vec::new();
    }
    let mut blocks = Vec::new();
    if !electrics.runs.is_empty() {
        let rows = electrics.runs.len().max(1) as f64;
        blocks.push(Block::Figure(
            Figure::new(circuit(basis, electrics), 70.0 + 46.0 * rows).caption(
                "Circles: terminals by their id. S1: two-pole isolator for direct current.",
            ),
        ));
        blocks.push(Block::Heading(
            Heading::new("Conductors").aside("number and colour letters stand at both ends"),
        ));
        blocks.push(Block::Table(schedule(basis, electrics)));
        blocks.push(Block::Heading(Heading::new("Runs").aside(chain(electrics))));
        blocks.push(Block::Table(runs(electrics)));
        if let Some(found) = fuses(electrics) {
            blocks.push(Block::Heading(
                Heading::new("Fuses").aside("a spare of each lies with the packet"),
            ));
            blocks.extend(found);
        }
        if let Some(table) = isolator(electrics) {
            blocks.push(Block::Heading(
                Heading::new("Isolator").aside("for direct current, IEC\u{a0}60947-3 DC-21B"),
            ));
            blocks.push(Block::Table(table));
        }
    }
    if let Some(table) = voltages(basis, electrics) {
        blocks.push(Block::Heading(
            Heading::new("Voltages of the panels").aside("against the controller’s limits"),
        ));
        blocks.push(Block::Table(table));
    }
    blocks.push(Block::Heading(
        Heading::new("Order of connecting").aside("panels covered, fuses out"),
    ));
    blocks.push(Block::Bullets(order(basis)));
    vec![Sheet {
        anchor: "wiring".into(),
        title: "Wiring".into(),
        purpose: "From the panels to the battery: every conductor, terminal and fuse.".into(),
        tab: Some(Kind::Wiring.tab()),
        steps: None,
        blocks,
        single_sided: false,
    }]
}

fn number(value: f64, decimals: usize) -> String {
    display::number(value, decimals)
}

fn schedule(basis: &Basis, electrics: &Electrics) -> Table {
    let mut rows = Vec::new();
    for (index, circuit) in basis.build.circuits.iter().enumerate() {
        let mark = format!("W{}", index + 1);
        let Some(run) = electrics.runs.iter().find(|run| run.mark == mark) else { continue };
        let from = terminals(basis, &circuit.from, false);
        let to = terminals(basis, &circuit.to, true);
        for (pole, sign) in ["+", "\u{2212}"].iter().enumerate() {
            let colour = if pole == 0 { run.colours.0 } else { run.colours.1 };
            let row = Row::new(vec![
                Cell::Head(format!("{}{sign}", run.mark).into()),
                from[pole].clone().into(),
                if *circuit.from == Terminal::Panels {
                    format!("{} by S1", to[pole]).into()
                } else {
                    to[pole].clone().into()
                },
                colour.into(),
                run.conductor
                    .as_ref()
                    .map_or(Cell::Dash, |c| display::number_short(c.area.to_mm2(), 2).into()),
                run.gauge.as_ref().map_or(Cell::Dash, |gauge| gauge.clone().into()),
                bare(run.length, 0).into(),
                bare(run.cut.all, 0).into(),
                Cell::Tick,
            ]);
            rows.push(if pole == 1 { row.ends_group() } else { row });
        }
    }
    Table {
        columns: vec![
            TableColumn::left("no."),
            TableColumn::left("from"),
            TableColumn::left("to"),
            TableColumn::left("colour"),
            TableColumn::number("mm²"),
            TableColumn::left("or gauge"),
            TableColumn::number("route, mm"),
            TableColumn::number("cut, mm"),
            TableColumn::centre("done"),
        ],
        rows,
        ..Table::default()
    }
}

fn chain(electrics: &Electrics) -> String {
    electrics.chain_drop.map_or(String::new(), |drop| {
        format!("panels to battery lose {}\u{a0}% together", number(drop.to_percent(), 1))
    })
}

fn runs(electrics: &Electrics) -> Table {
    let rows = electrics
        .runs
        .iter()
        .map(|run: &Run| {
            let conductor = run.conductor.as_ref();
            Row::new(vec![
                Cell::Head(run.mark.clone().into()),
                run.name.clone().into(),
                number(run.design.to_a(), 1).into(),
                conductor.map_or(Cell::Dash, |c| number(c.ampacity.to_a(), 1).into()),
                conductor.map_or(Cell::Dash, |c| {
                    number((run.lost_before + c.drop_share).to_percent(), 1).into()
                }),
                conductor.map_or(Cell::Dash, |c| c.decided.words().into()),
                fuse_marks(run),
            ])
        })
        .collect();
    Table {
        columns: vec![
            TableColumn::left("run"),
            TableColumn::left("name"),
            TableColumn::number("sized for, A"),
            TableColumn::number("carries, A"),
            TableColumn::number("drop at end, %"),
            TableColumn::left("size by"),
            TableColumn::left("fuse"),
        ],
        rows,
        ..Table::default()
    }
}

/// Marks of the fuses in a run.
fn fuse_marks(run: &Run) -> Cell {
    let marks: Vec<&str> =
        [&run.fuse, &run.load_fuse].into_iter().flatten().map(|fuse| fuse.mark.as_str()).collect();
    if marks.is_empty() { Cell::Dash } else { marks.join(", ").into() }
}

fn fuses(electrics: &Electrics) -> Option<Vec<Block>> {
    let mut rows = Vec::new();
    let mut places: Vec<Text> = Vec::new();
    let amps = |rating: Current| Cell::from(display::number_short(rating.to_a(), 1));
    for run in &electrics.runs {
        for fuse in [&run.fuse, &run.load_fuse].into_iter().flatten() {
            rows.push(Row::new(vec![
                Cell::Head(fuse.mark.clone().into()),
                format!("{}+", run.mark).into(),
                amps(fuse.rating),
                fuse.kind.clone().into(),
                number(fuse.breaking.to_ka(), 1).into(),
                number(fuse.feeds.to_ka(), 1).into(),
            ]));
            let place = fuse.within.map_or_else(
                || "at the load".to_owned(),
                |within| format!("at the {}, {} away at most", fuse.at, mm(within, 0)),
            );
            places.push(format!("{}: {}; {place}.", fuse.mark, fuse.holder).into());
        }
    }
    if let Some(fuse) = &electrics.string_fuse {
        rows.push(Row::new(vec![
            Cell::Head("string".into()),
            format!("{}\u{a0}× panel plus", fuse.count).into(),
            amps(fuse.rating),
            fuse.kind.clone().into(),
            Cell::Dash,
            Cell::Dash,
        ]));
        places.push(
            format!(
                "String: {}; fitted if a panel’s label allows less than {}\u{a0}A.",
                fuse.holder,
                number(fuse.back.to_a(), 1)
            )
            .into(),
        );
    }
    if rows.is_empty() {
        return None;
    }
    let table = Table {
        columns: vec![
            TableColumn::left("fuse"),
            TableColumn::left("in"),
            TableColumn::number("A"),
            TableColumn::left("kind"),
            TableColumn::number("breaks, kA"),
            TableColumn::number("must, kA"),
        ],
        rows,
        ..Table::default()
    };
    Some(vec![Block::Table(table), Block::Bullets(places)])
}

/// The switch between panels and controller.
fn isolator(electrics: &Electrics) -> Option<Table> {
    let isolator = electrics.isolator.as_ref()?;
    let poles = match isolator.poles {
        1 => "plus".to_owned(),
        2 => "plus and minus, together".to_owned(),
        more => more.to_string(),
    };
    Some(Table {
        columns: vec![
            TableColumn::left("switch"),
            TableColumn::left("in"),
            TableColumn::left("opens"),
            TableColumn::number("breaks at least, V"),
            TableColumn::number("needs, A"),
            TableColumn::number("rating, A"),
        ],
        rows: vec![Row::new(vec![
            Cell::Head(isolator.mark.into()),
            isolator.run.clone().into(),
            poles.into(),
            number(isolator.voltage.to_v().ceil(), 0).into(),
            number(isolator.needs.to_a(), 1).into(),
            display::number_short(isolator.rating.to_a(), 1).into(),
        ])],
        ..Table::default()
    })
}

fn voltages(basis: &Basis, electrics: &Electrics) -> Option<Table> {
    let field = electrics.field?;
    let controller = basis.build.controller.as_ref();
    let volts = |v: Voltage| Cell::from(number(v.to_v(), 1));
    let most = controller.map_or(Cell::Dash, |c| volts(*c.max_voltage));
    let least = controller.map_or(Cell::Dash, |c| volts(*c.charge_voltage));
    let low = basis.build.weather.record_low.to_celsius();
    let rows = vec![
        Row::new(vec![
            Cell::Head(format!("coldest morning, {}\u{a0}°C, open", number(low, 0)).into()),
            volts(field.cold),
            Cell::Dash,
            most,
        ]),
        Row::new(vec![
            Cell::Head("at 25\u{a0}°C, open".into()),
            volts(field.open),
            Cell::Dash,
            Cell::Dash,
        ]),
        Row::new(vec![
            Cell::Head("hot cells, working".into()),
            volts(field.hot),
            least,
            Cell::Dash,
        ]),
    ];
    Some(Table {
        columns: vec![
            TableColumn::left("state"),
            TableColumn::number("panels, V"),
            TableColumn::number("at least, V"),
            TableColumn::number("at most, V"),
        ],
        rows,
        ..Table::default()
    })
}

fn order(basis: &Basis) -> Vec<Text> {
    let mut list: Vec<Text> = Vec::new();
    if basis.build.battery.is_some() {
        list.push(
            "Battery to controller first, plus before minus, its fuse still out; then the fuse."
                .into(),
        );
    }
    if basis.build.controller.is_some() {
        list.push("Panels to controller last, isolator S1 open; then the isolator.".into());
    }
    list.push(
        "Taken apart in the reverse order: panels covered, isolator, fuse, minus, plus.".into(),
    );
    if basis.results.steps.step("connect").is_some() {
        list.push("Done action by action on the step sheet “Connect and first power”.".into());
    }
    list
}

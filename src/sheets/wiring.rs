//! The wiring sheet: circuit, schedule of conductors, voltages, order of connecting.

use super::scenes::{circuit, terminals};
use super::words::{bare, mm};
use super::{Basis, Kind};
use crate::build::{Bond, Insulation, Terminal};
use crate::compute::electrics::{Bank, Electrics, Fuse, PanelString, Run};
use crate::page::Sheet;
use crate::page::block::{Block, Cell, Figure, Heading, Row, Table, TableColumn};
use crate::page::text::Text;
use crate::units::{Area, Current, Voltage, display};
use std::fmt::Write as _;

/// The sheet; none where nothing is connected.
pub(super) fn wiring(basis: &Basis) -> Vec<Sheet> {
    let Some(electrics) = &basis.results.electrics else { return Vec::new() };
    // Panels that state their voltages are no circuit yet.
    if electrics.runs.is_empty() && basis.build.controller.is_none() {
        return Vec::new();
    }
    let mut blocks = Vec::new();
    if !electrics.runs.is_empty() {
        let drawings = circuit(basis, electrics);
        let last = drawings.len().saturating_sub(1);
        for (number, (scene, height)) in drawings.into_iter().enumerate() {
            let figure = Figure::new(scene, height);
            blocks.push(Block::Figure(if number == last {
                figure.caption(symbols(electrics))
            } else {
                figure
            }));
        }
        blocks.push(Block::Heading(
            Heading::new("Conductors").aside("number and colour letters stand at both ends"),
        ));
        blocks.push(Block::Table(schedule(basis, electrics)));
        blocks.push(Block::Heading(
            Heading::new("Runs").aside("drops add along the way of the current"),
        ));
        blocks.push(Block::Table(runs(electrics)));
        blocks.push(Block::Bullets(grounds(basis, electrics)));
        if let Some(found) = fuses(electrics) {
            blocks.push(Block::Heading(
                Heading::new("Fuses").aside("a spare of each lies with the packet"),
            ));
            blocks.extend(found);
        }
        if let Some(table) = switches(electrics) {
            let several = table.rows.len() > 1 || electrics.isolator.is_none();
            let title = if several { "Switches" } else { "Isolator" };
            blocks.push(Block::Heading(
                Heading::new(title).aside("for direct current, IEC\u{a0}60947-3 DC-21B"),
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
    if let Some(table) = strings(basis, electrics) {
        blocks.push(Block::Heading(
            Heading::new("Strings").aside("plus of each panel into minus of the one before it"),
        ));
        blocks.push(Block::Table(table));
    }
    blocks.push(Block::Heading(Heading::new("Order of connecting").aside(
        if basis.build.controller.is_some() {
            "the controller’s manual goes first"
        } else {
            "the makers’ manuals go first"
        },
    )));
    blocks.push(Block::Bullets(joining(basis, electrics)));
    blocks.push(Block::Heading(Heading::new("Order of disconnecting").aside(
        if basis.build.panels.is_empty() {
            "the battery stays live"
        } else {
            "panels are live in daylight"
        },
    )));
    blocks.push(Block::Bullets(parting(basis, electrics)));
    vec![Sheet {
        anchor: "wiring".into(),
        title: "Wiring".into(),
        purpose: if basis.build.panels.is_empty() {
            "Every conductor, terminal and fuse.".into()
        } else {
            "From the panels to the battery: every conductor, terminal and fuse.".into()
        },
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
    let areas = electrics.runs.iter().filter_map(|run| run.conductor.as_ref()).map(|c| c.area);
    let areas = areas.chain(electrics.singles().map(|single| single.conductor.area));
    let fine = display::decimals_of(areas.map(Area::to_mm2));
    let mut rows = Vec::new();
    for (index, circuit) in basis.build.circuits.iter().enumerate() {
        let mark = format!("W{}", index + 1);
        let Some(run) = electrics.runs.iter().find(|run| run.mark == mark) else { continue };
        let [from, to] = terminals(basis, circuit);
        for (pole, sign) in ["+", "\u{2212}"].iter().enumerate() {
            let colour = if pole == 0 { run.colours.0 } else { run.colours.1 };
            let row = Row::new(vec![
                Cell::Head(format!("{}{sign}", run.mark).into()),
                from[pole].clone().into(),
                by_switch(electrics, run, pole)
                    .map_or_else(|| to[pole].clone(), |by| format!("{} by {by}", to[pole]))
                    .into(),
                colour.into(),
                run.conductor.as_ref().map_or(Cell::Dash, |c| number(c.area.to_mm2(), fine).into()),
                run.gauge.as_ref().map_or(Cell::Dash, |gauge| gauge.clone().into()),
                bare(run.length, 0).into(),
                bare(run.cut.all, 0).into(),
                Cell::Tick,
            ]);
            rows.push(if pole == 1 { row.ends_group() } else { row });
        }
    }
    for single in electrics.singles() {
        let [from, to] = single.ends.clone();
        rows.push(Row::new(vec![
            Cell::Head(single.mark.clone().into()),
            from.into(),
            to.into(),
            single.colour.into(),
            number(single.conductor.area.to_mm2(), fine).into(),
            single.gauge.as_ref().map_or(Cell::Dash, |gauge| gauge.clone().into()),
            bare(single.length, 0).into(),
            bare(single.cut.all, 0).into(),
            Cell::Tick,
        ]));
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

/// The switch that a conductor of a run passes.
fn by_switch<'a>(electrics: &'a Electrics, run: &'a Run, pole: usize) -> Option<&'a str> {
    let isolator = electrics.isolator.as_ref().filter(|isolator| isolator.run == run.mark);
    let switch = run.switch.as_ref().filter(|switch| pole == 0 || switch.poles > 1);
    isolator.map(|own| own.mark).or_else(|| switch.map(|own| own.mark.as_str()))
}

/// What is to be read off the drawings.
fn symbols(electrics: &Electrics) -> String {
    let mut words = "Circles: terminals by their id.".to_owned();
    if electrics.isolator.is_some() {
        words.push_str(" S1: two-pole isolator for direct current.");
    }
    for (run, switch) in electrics.switches() {
        let what = if switch.main { "main switch" } else { "switch" };
        let _ = write!(words, " {}: {what} of {}.", switch.mark, run.mark);
    }
    if let Some((bank, _)) = bank_fuse(electrics) {
        let _ = write!(words, " {}: fuses of the battery strings.", bank.fuses.join(", "));
    }
    if electrics.string_fuse.as_ref().is_some_and(|fuse| !fuse.certain) {
        words.push_str(" Z: string fuses, if a label asks for them.");
    }
    words
}

fn runs(electrics: &Electrics) -> Table {
    let rows = electrics
        .runs
        .iter()
        .map(|run: &Run| {
            let conductor = run.conductor.as_ref();
            let chained = electrics.chain.iter().find(|part| part.mark == run.mark);
            let sum = |share| match chained {
                Some(part) => part.sum,
                None => run.lost_before + share,
            };
            Row::new(vec![
                Cell::Head(run.mark.clone().into()),
                run.name.clone().into(),
                number(run.design.to_a(), 1).into(),
                conductor.map_or(Cell::Dash, |c| number(c.ampacity.to_a(), 1).into()),
                conductor.map_or(Cell::Dash, |c| number(c.drop.to_v(), 2).into()),
                conductor.map_or(Cell::Dash, |c| number(c.drop_share.to_percent(), 1).into()),
                conductor.map_or(Cell::Dash, |c| number(sum(c.drop_share).to_percent(), 1).into()),
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
            TableColumn::number("drop, V"),
            TableColumn::number("drop, %"),
            TableColumn::number("sum, %"),
            TableColumn::left("size by"),
            TableColumn::left("fuse"),
        ],
        rows,
        ..Table::default()
    }
}

/// By which tables cables carry what they carry, where drops begin, and where gauge numbers differ.
fn grounds(basis: &Basis, electrics: &Electrics) -> Vec<Text> {
    let mut list: Vec<Text> = Vec::new();
    let mut alike: Vec<(String, Vec<&str>)> = Vec::new();
    for run in &electrics.runs {
        let Some(conductor) = &run.conductor else { continue };
        let factor = |ratio: crate::units::Ratio| display::number_short(ratio.to_fraction(), 2);
        let words = format!(
            "{}; air {}, × {}; bundle, × {}",
            conductor.table,
            conductor.air,
            factor(conductor.factors.0),
            factor(conductor.factors.1)
        );
        match alike.iter_mut().find(|(known, _)| *known == words) {
            Some((_, marks)) => marks.push(&run.mark),
            None => alike.push((words, vec![&run.mark])),
        }
    }
    for (words, marks) in alike {
        list.push(
            format!("{} carry by {words}.", marks.join(", "))
                .replace(" carry", if marks.len() == 1 { " carries" } else { " carry" })
                .into(),
        );
    }
    if electrics.chain.len() > 1 {
        let marks: Vec<&str> = electrics.chain.iter().map(|part| part.mark.as_str()).collect();
        let charged = |part: &crate::compute::electrics::ChainRun| {
            electrics.runs.iter().any(|run| run.mark == part.mark && run.working != part.current)
        };
        let at = if electrics.chain.iter().any(charged) { ", at the charging current" } else { "" };
        let way = marks.join(", ");
        list.push(format!("Sum along {way}: from the panels to the battery{at}.").into());
    }
    let boat: Vec<String> = electrics
        .runs
        .iter()
        .filter_map(|run| Some(format!("{} {}", run.mark, run.boat_wire.as_ref()?)))
        .collect();
    if !boat.is_empty() && basis.build.circuits.iter().any(|it| *it.insulation != Insulation::Solar)
    {
        list.push(
            format!(
                "Boat and vehicle wire (SAE) of a number has less copper: {}.",
                boat.join(", ")
            )
            .into(),
        );
    }
    list
}

/// Marks of the fuses in a run.
fn fuse_marks(run: &Run) -> Cell {
    let marks: Vec<&str> =
        [&run.fuse, &run.load_fuse].into_iter().flatten().map(|fuse| fuse.mark.as_str()).collect();
    if marks.is_empty() { Cell::Dash } else { marks.join(", ").into() }
}

/// The fuse of each string of batteries.
fn bank_fuse(electrics: &Electrics) -> Option<(&Bank, &Fuse)> {
    let bank = electrics.bank.as_ref()?;
    Some((bank, bank.fuse.as_ref()?))
}

fn fuses(electrics: &Electrics) -> Option<Vec<Block>> {
    let mut rows = Vec::new();
    let mut places: Vec<Text> = Vec::new();
    let fitted = electrics.runs.iter().flat_map(|run| [&run.fuse, &run.load_fuse]).flatten();
    let ratings = fitted.map(|fuse| fuse.rating);
    let ratings = ratings.chain(electrics.string_fuse.as_ref().map(|fuse| fuse.rating));
    let ratings = ratings.chain(bank_fuse(electrics).map(|(_, fuse)| fuse.rating));
    let fine = display::decimals_of(ratings.map(Current::to_a));
    let amps = |rating: Current| Cell::from(number(rating.to_a(), fine));
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
    if let Some((bank, fuse)) = bank_fuse(electrics) {
        let marks = bank.fuses.join(", ");
        rows.push(Row::new(vec![
            Cell::Head(marks.clone().into()),
            "plus of each string of the bank".into(),
            amps(fuse.rating),
            fuse.kind.clone().into(),
            number(fuse.breaking.to_ka(), 1).into(),
            number(fuse.feeds.to_ka(), 1).into(),
        ]));
        places.push(format!("{marks}: {}; on the battery’s plus itself.", fuse.holder).into());
    }
    if let Some(fuse) = &electrics.string_fuse {
        let marks =
            if fuse.count > 2 { format!("Z1 to Z{}", fuse.count) } else { "Z1, Z2".to_owned() };
        rows.push(Row::new(vec![
            Cell::Head(marks.into()),
            format!("plus of each {}", if fuse.panels > 1 { "string" } else { "panel" }).into(),
            amps(fuse.rating),
            fuse.kind.clone().into(),
            Cell::Dash,
            Cell::Dash,
        ]));
        let when = if fuse.certain {
            "labels ask for it".to_owned()
        } else {
            let back = number(fuse.back.to_a(), 1);
            format!("fitted if a panel’s label allows less than {back}\u{a0}A")
        };
        places.push(format!("Z: {}; {when}.", fuse.holder).into());
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

/// The switch between panels and controller, and those of the battery.
fn switches(electrics: &Electrics) -> Option<Table> {
    let opens = |poles: u32| match poles {
        1 => "plus".to_owned(),
        2 => "plus and minus, together".to_owned(),
        more => more.to_string(),
    };
    let row = |mark: &str,
               run: &str,
               poles: u32,
               (voltage, needs, rating): (Voltage, Current, Current)| {
        Row::new(vec![
            Cell::Head(mark.into()),
            run.into(),
            opens(poles).into(),
            number(voltage.to_v().ceil(), 0).into(),
            number(needs.to_a(), 1).into(),
            display::number_short(rating.to_a(), 1).into(),
        ])
    };
    let mut rows: Vec<Row> = electrics
        .isolator
        .iter()
        .map(|own| row(own.mark, &own.run, own.poles, (own.voltage, own.needs, own.rating)))
        .collect();
    rows.extend(electrics.switches().map(|(run, own)| {
        row(&own.mark, &run.mark, own.poles, (own.voltage, own.needs, own.rating))
    }));
    if rows.is_empty() {
        return None;
    }
    Some(Table {
        columns: vec![
            TableColumn::left("switch"),
            TableColumn::left("in"),
            TableColumn::left("opens"),
            TableColumn::number("breaks at least, V"),
            TableColumn::number("needs, A"),
            TableColumn::number("rating, A"),
        ],
        rows,
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
    let mut rows = vec![Row::new(vec![
        Cell::Head(format!("coldest morning, {}\u{a0}°C, open", number(low, 0)).into()),
        volts(field.cold),
        Cell::Dash,
        most.clone(),
    ])];
    if let Some(by_table) = field.cold_by_table {
        rows.push(Row::new(vec![
            Cell::Head("the same by factors of NEC\u{a0}690.7".into()),
            volts(by_table),
            Cell::Dash,
            most,
        ]));
    }
    rows.push(Row::new(vec![
        Cell::Head("at 25\u{a0}°C, open".into()),
        volts(field.open),
        Cell::Dash,
        Cell::Dash,
    ]));
    rows.push(Row::new(vec![
        Cell::Head("hot cells, working".into()),
        volts(field.hot),
        least,
        Cell::Dash,
    ]));
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

/// Panels of each string, where they are not all side by side and of one kind.
fn strings(basis: &Basis, electrics: &Electrics) -> Option<Table> {
    let first = electrics.strings.first()?;
    let unlike = |string: &PanelString| string.open != first.open || string.short != first.short;
    // Without a frame no other sheet lists the panels.
    let listed = basis.work.panels().next().is_some();
    if listed && first.marks.len() < 2 && !electrics.strings.iter().any(unlike) {
        return None;
    }
    let rows = electrics
        .strings
        .iter()
        .enumerate()
        .map(|(index, string)| {
            Row::new(vec![
                Cell::Head((index + 1).to_string().into()),
                string.marks.join(", ").into(),
                number(string.cold.to_v(), 1).into(),
                number(string.hot.to_v(), 1).into(),
                number(string.short.to_a(), 2).into(),
                number(string.working.to_a(), 2).into(),
                Cell::Tick,
            ])
        })
        .collect();
    Some(Table {
        columns: vec![
            TableColumn::left("string"),
            TableColumn::left("panels from plus"),
            TableColumn::number("cold, open, V"),
            TableColumn::number("hot, working, V"),
            TableColumn::number("short circuit, A"),
            TableColumn::number("working, A"),
            TableColumn::centre("joined"),
        ],
        rows,
        ..Table::default()
    })
}

/// What is joined after what.
fn joining(basis: &Basis, electrics: &Electrics) -> Vec<Text> {
    let build = basis.build;
    let mut list: Vec<Text> = Vec::new();
    let switched = electrics.isolator.is_some();
    let covered = if build.panels.is_empty() { "Every" } else { "Panels covered, every" };
    let mut open: Vec<&str> = electrics.isolator.iter().map(|own| own.mark).collect();
    open.extend(electrics.switches().map(|(_, own)| own.mark.as_str()));
    let open = if open.is_empty() { String::new() } else { format!(", {} open", open.join(", ")) };
    list.push(format!("{covered} fuse out{open}.").into());
    if let Some(bank) = &electrics.bank {
        list.push(
            bank_order(bank, build.battery.as_ref().is_some_and(|own| own.strings() > 1)).into(),
        );
    }
    if let Some(bond) = &electrics.earth {
        list.push(format!("{} to bare metal of the body.", bond.mark).into());
    }
    let controller = build.controller.is_some();
    if build.battery.is_some() && controller {
        list.push("Battery to the controller, plus before minus; then its fuse.".into());
    }
    if build.circuits.iter().any(|circuit| *circuit.from == Terminal::Supply) {
        let words = "Vehicle’s battery to the controller in the same way; then its fuse.";
        list.push(words.into());
    }
    if controller {
        let close = if switched { "; then S1 closed, panels uncovered" } else { "" };
        list.push(format!("Panels to the controller last{close}.").into());
    }
    if build.circuits.iter().any(|circuit| matches!(*circuit.to, Terminal::Load(_))) {
        list.push("Loads, plus before minus; then their fuses, one by one.".into());
    }
    if basis.results.steps.step("connect").is_some() {
        list.push("Done action by action on the step sheet “Connect and first power”.".into());
    }
    list
}

/// How batteries become one.
fn bank_order(bank: &Bank, beside: bool) -> String {
    let links: Vec<&str> = bank.links.iter().map(|link| link.mark.as_str()).collect();
    let links = links.join(", ");
    if beside {
        let fuses = if bank.fuse.is_some() { "; then a fuse on each string" } else { "" };
        format!(
            "Each battery charged full, all within 0.1\u{a0}V of each other; links {links}{fuses}."
        )
    } else {
        format!("Each battery charged full; links {links}, from the minus end on.")
    }
}

/// The way back.
fn parting(basis: &Basis, electrics: &Electrics) -> Vec<Text> {
    let build = basis.build;
    let mut list: Vec<Text> = Vec::new();
    if !build.panels.is_empty() {
        let open = if electrics.isolator.is_some() { " and S1 open" } else { "" };
        list.push(format!("Panels covered{open} before anything else.").into());
    }
    if build.circuits.iter().any(|circuit| *circuit.from == Terminal::Supply) {
        list.push("Engine stopped; then the fuse at the vehicle’s battery out.".into());
    }
    if build.battery.is_some() {
        let main: Vec<&str> = electrics.switches().map(|(_, own)| own.mark.as_str()).collect();
        let open =
            if main.is_empty() { String::new() } else { format!("{} open; ", main.join(", ")) };
        let fuses = if open.is_empty() { "The" } else { "the" };
        list.push(
            format!("{open}{fuses} battery’s fuses out; then its minus off, then its plus.").into(),
        );
    }
    if build.earth.as_ref().is_some_and(|earth| *earth.bond == Bond::Nothing) {
        list.push("Both poles count as live: neither is joined to the body.".into());
    }
    list
}

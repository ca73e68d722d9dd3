//! The sheets of the cables as work: cut, laid, ended; joined and measured before anything is closed.

use super::scenes::terminals;
use super::words::{bare, bare_inches, mm};
use super::{Basis, Kind};
use crate::build::{Circuit, LengthUnit};
use crate::compute::cables::{Cables, End, Laid, Passage, Piece, Pole, Seat, Tight};
use crate::compute::electrics::{Electrics, Run};
use crate::page::Sheet;
use crate::page::block::{Block, Cell, Dotted, Heading, Row, Table, TableColumn};
use crate::page::text::Text;
use crate::units::{Length, Torque, Voltage, display};

/// Both sheets; none without a run.
pub(super) fn cables(basis: &Basis) -> Vec<Sheet> {
    let (Some(electrics), Some(cables)) = (&basis.results.electrics, &basis.results.cables) else {
        return Vec::new();
    };
    let joined = Joined { basis, electrics, cables };
    let mut blocks = vec![
        Block::Heading(Heading::new("Cut").aside(alone(electrics))),
        Block::Table(cut(&joined)),
        Block::Heading(Heading::new("Laid").aside("bends by their inner radius")),
        Block::Table(laid(&joined)),
        Block::Bullets(laying(&joined)),
        Block::Heading(Heading::new("Ends").aside("crimped, then pulled by hand")),
        Block::Table(ends(&joined)),
    ];
    if let Some(passage) = &cables.entry {
        blocks.push(Block::Heading(Heading::new("Through the roof")));
        blocks.extend(through(basis, passage));
    }
    let cables_sheet = Sheet {
        anchor: "cables".into(),
        title: "Cables".into(),
        purpose: "How long each is cut, how it is laid, what goes on its ends.".into(),
        tab: Some(Kind::Cables.tab()),
        steps: None,
        blocks,
        single_sided: false,
    };
    vec![cables_sheet, connections(&joined)]
}

/// How many conductors are cut to each length.
fn alone(electrics: &Electrics) -> String {
    let marks: Vec<&str> = electrics.singles().map(|single| single.mark.as_str()).collect();
    if marks.is_empty() {
        "two conductors of each run, alike".to_owned()
    } else {
        format!("two conductors of each run, alike; one of {}", marks.join(", "))
    }
}

struct Joined<'a> {
    basis: &'a Basis<'a>,
    electrics: &'a Electrics,
    cables: &'a Cables,
}

impl Joined<'_> {
    fn run(&self, mark: &str) -> Option<(&Circuit, &Run)> {
        let at = self.electrics.runs.iter().position(|run| run.mark == mark)?;
        let run = &self.electrics.runs[at];
        let circuit =
            self.basis.build.circuits.iter().find(|circuit| circuit.name.value == run.name)?;
        Some((circuit, run))
    }

    /// Insulation and size of a run or of what lies alone.
    fn cable(&self, mark: &str) -> Option<String> {
        let (insulation, conductor) = match self.run(mark) {
            Some((circuit, run)) => (*circuit.insulation, run.conductor.as_ref()),
            None => {
                let single = self.electrics.singles().find(|single| single.mark == mark)?;
                (single.insulation, Some(&single.conductor))
            }
        };
        let size =
            conductor.map_or(String::new(), |c| format!(", {}", crate::tables::area_words(c.area)));
        Some(format!("{}{size}", insulation.words()))
    }

    /// What an end is joined to, by its terminal.
    fn seat(&self, end: &End) -> String {
        if let Seat::Named(id) = &end.seat {
            return id.clone();
        }
        let Some((circuit, _)) = self.run(&end.run) else { return String::new() };
        let pole = usize::from(end.pole == Pole::Minus);
        let [from, to] = terminals(self.basis, circuit);
        match &end.seat {
            Seat::From => from[pole].clone(),
            Seat::To => to[pole].clone(),
            Seat::Fuse(mark) | Seat::Isolator(mark) => format!("{mark}, both sides"),
            Seat::Named(id) => id.clone(),
        }
    }

    fn inches(&self) -> bool {
        *self.basis.build.job.units == LengthUnit::Inch
    }
}

fn cut(joined: &Joined) -> Table {
    let hinge = joined.cables.laid.iter().any(|run| run.cut.hinge > Length::ZERO);
    let row = |laid: &Laid| {
        let words = joined.cable(&laid.mark).map_or(Cell::Dash, Cell::from);
        let cut = &laid.cut;
        let mut cells = vec![
            Cell::Head(laid.mark.clone().into()),
            words,
            bare(cut.route, 0).into(),
            bare(cut.routing, 0).into(),
            bare(cut.ends, 0).into(),
        ];
        if hinge {
            cells.push(if cut.hinge > Length::ZERO {
                bare(cut.hinge, 0).into()
            } else {
                Cell::Dash
            });
        }
        cells.push(Cell::Bold(bare(cut.all, 0).into()));
        if joined.inches() {
            cells.push(bare_inches(cut.all).into());
        }
        cells.push(Cell::Tick);
        Row::new(cells)
    };
    let mut columns = vec![
        TableColumn::left("run"),
        TableColumn::left("cable"),
        TableColumn::number("route, mm"),
        TableColumn::number("more on its way"),
        TableColumn::number("both ends"),
    ];
    if hinge {
        columns.push(TableColumn::number("hinge loop"));
    }
    columns.push(TableColumn::number("cut, mm"));
    if joined.inches() {
        columns.push(TableColumn::number("cut, in"));
    }
    columns.push(TableColumn::centre("done"));
    Table { columns, rows: joined.cables.laid.iter().map(row).collect(), ..Table::default() }
}

fn laid(joined: &Joined) -> Table {
    let moves = joined.cables.laid.iter().any(|run| run.moving.is_some());
    let length = |length: Option<Length>, decimals| {
        length.map_or(Cell::Dash, |length| bare(length, decimals).into())
    };
    let row = |laid: &Laid| {
        let mut cells = vec![
            Cell::Head(laid.mark.clone().into()),
            length(laid.outer, 1),
            length(laid.bend.map(up), 0),
        ];
        if moves {
            cells.push(length(laid.moving.map(up), 0));
        }
        cells.extend([
            bare(laid.pitch, 0).into(),
            laid.clips.to_string().into(),
            laid.grommet.map_or(Cell::Dash, |(hole, bore)| {
                format!("hole {}, bore {}", bare(hole, 0), bare(bore, 0)).into()
            }),
        ]);
        Row::new(cells)
    };
    let mut columns = vec![
        TableColumn::left("run"),
        TableColumn::number("diameter, mm"),
        TableColumn::number("bend, mm"),
    ];
    if moves {
        columns.push(TableColumn::number("bend that moves"));
    }
    columns.extend([
        TableColumn::number("clip every, mm"),
        TableColumn::number("clips"),
        TableColumn::left("grommet in metal"),
    ]);
    Table { columns, rows: joined.cables.laid.iter().map(row).collect(), ..Table::default() }
}

/// Up to the next millimetre: a least radius is never told smaller.
fn up(length: Length) -> Length {
    Length::mm((length.to_mm() - 1e-6).ceil())
}

fn laying(joined: &Joined) -> Vec<Text> {
    let mut list: Vec<Text> = vec![
        format!(
            "First clip {} from a terminal at most: it takes the pull, the lug takes none.",
            mm(joined.cables.first_clip, 0)
        )
        .into(),
        "Diameters are typical: the cable in hand decides for gland and grommet.".into(),
    ];
    let hinged = joined.cables.laid.iter().find(|run| run.cut.hinge > Length::ZERO);
    if let Some((run, moving)) = hinged.and_then(|run| Some((run, run.moving?))) {
        list.push(
            format!(
                "The loop at the hinge lies in a half turn of {} radius or more while the frame is down; {} reach to its greatest lift.",
                mm(up(moving), 0),
                mm(run.cut.hinge, 0)
            )
            .into(),
        );
    }
    list
}

fn ends(joined: &Joined) -> Table {
    let rows = by_end(joined, |end, alike| {
        Some(vec![
            piece(end).into(),
            alike.to_string().into(),
            end.sleeve.map_or(Cell::Dash, |(bore, length)| {
                format!("{} × {}", bare(bore, 0), bare(length, 0)).into()
            }),
            Cell::Tick,
        ])
    });
    Table {
        columns: vec![
            TableColumn::left("conductor"),
            TableColumn::left("at"),
            TableColumn::left("end"),
            TableColumn::number("pieces"),
            TableColumn::left("sleeve, mm"),
            TableColumn::centre("done"),
        ],
        rows,
        ..Table::default()
    }
}

/// A row for each end of each conductor, ends alike in one; the last of a conductor ends its group.
/// `cells` follow conductor and terminal, from the end and how many are alike; none: no row.
fn by_end(joined: &Joined, cells: impl Fn(&End, usize) -> Option<Vec<Cell>>) -> Vec<Row> {
    let mut rows: Vec<(&End, Row)> = Vec::new();
    let all = &joined.cables.ends;
    let mut at = 0;
    while let Some(end) = all.get(at) {
        let alike = all[at..].iter().take_while(|next| *next == end).count();
        at += alike;
        let Some(more) = cells(end, alike) else { continue };
        let mut row = vec![Cell::Head(conductor(end).into()), joined.seat(end).into()];
        row.extend(more);
        rows.push((end, Row::new(row)));
    }
    let of = |end: &End| (end.run.clone(), end.pole);
    let last: Vec<bool> = (0..rows.len())
        .map(|k| rows.get(k + 1).is_none_or(|(next, _)| of(next) != of(rows[k].0)))
        .collect();
    let ended = rows.into_iter().zip(last);
    ended.map(|((_, row), last)| if last { row.ends_group() } else { row }).collect()
}

fn conductor(end: &End) -> String {
    let sign = match end.pole {
        Pole::Plus => "+",
        Pole::Minus => "\u{2212}",
        Pole::Only => "",
    };
    format!("{}{sign}", end.run)
}

fn piece(end: &End) -> String {
    let size = crate::tables::area_words(end.area);
    match &end.piece {
        Piece::Lug(stud) => format!("lug {size}, {stud}"),
        Piece::Sleeve => format!("end sleeve {size}"),
        Piece::Joint => format!("crimp joint {size}"),
        Piece::Plug => "plug of the panels’ make".to_owned(),
        Piece::Load => format!("terminal {size}, as it takes it"),
    }
}

fn through(basis: &Basis, passage: &Passage) -> Vec<Block> {
    let (Some(place), Some(entry)) = (&basis.work.entry, &basis.build.entry) else {
        return Vec::new();
    };
    let facts = &basis.results.steps.facts;
    let tape = basis
        .work
        .roof
        .as_ref()
        .map_or(place.at.y, |roof| roof.by_tape_across(place.at.x, place.at.y));
    let side = if tape < Length::ZERO { "left" } else { "right" };
    let mut rows = vec![
        ("at".to_owned(), place.mark.clone()),
        ("middle behind the datum".into(), mm(place.at.x, 0)),
        (format!("middle {side} of the centre line, by tape"), mm(tape.abs(), 0)),
        ("hole in the skin".into(), mm(*entry.hole, 1)),
    ];
    if let Some(drills) = facts.words("entry.drills").filter(|words| !words.is_empty()) {
        rows.push(("drills in turn".into(), drills.to_owned()));
    }
    rows.push((format!("{} cables together", *entry.cables), mm(passage.bundle, 1)));
    rows.push(match passage.grommet {
        Some((hole, bore)) => {
            ("rubber grommet".into(), format!("hole {}, bore {}", mm(hole, 0), mm(bore, 0)))
        }
        None => ("edge of the hole".into(), "edge trim all round".into()),
    });
    if let Some((thread, hole, [least, most])) = passage.gland {
        rows.push((
            "gland for each cable".into(),
            format!(
                "M{}, hole {}, clamps {} to {}",
                display::number_short(thread.to_mm(), 1),
                mm(hole, 1),
                bare(least, 1),
                mm(most, 1)
            ),
        ));
    }
    let rows = rows.into_iter().map(|(label, value)| (label.into(), value.into())).collect();
    vec![Block::Dotted(Dotted { groups: vec![rows] })]
}

fn connections(joined: &Joined) -> Sheet {
    let mut blocks = vec![
        Block::Heading(
            Heading::new("Measured before anything is closed").aside("loads off, fuses out"),
        ),
        Block::Table(measured(&before(joined))),
        Block::Heading(Heading::new("Joined").aside("plus on plus, then turned tight")),
        Block::Table(tightened(joined)),
    ];
    let under_load = under_load(joined);
    if !under_load.is_empty() {
        blocks.push(Block::Heading(
            Heading::new("Measured in use").aside("at less current in proportion"),
        ));
        blocks.push(Block::Table(measured(&under_load)));
    }
    blocks.push(Block::Paragraph(
        "A minus sign on the meter means swapped leads: nothing is closed until both are found."
            .into(),
    ));
    Sheet {
        anchor: "connections".into(),
        title: "Connections".into(),
        purpose: "Every terminal with its torque, every value to measure with its limits.".into(),
        tab: Some(Kind::Cables.tab()),
        steps: None,
        blocks,
        single_sided: true,
    }
}

/// A value to measure.
struct Check {
    what: String,
    between: String,
    from: Option<String>,
    to: Option<String>,
    unit: &'static str,
}

fn measured(checks: &[Check]) -> Table {
    let bound = |bound: &Option<String>| bound.clone().map_or(Cell::Dash, Cell::from);
    let rows = checks
        .iter()
        .map(|check| {
            Row::new(vec![
                Cell::Head(check.what.clone().into()),
                check.between.clone().into(),
                bound(&check.from),
                bound(&check.to),
                Cell::Blank(check.unit.to_owned()),
                Cell::Tick,
            ])
        })
        .collect();
    Table {
        columns: vec![
            TableColumn::left("what"),
            TableColumn::left("between"),
            TableColumn::number("from"),
            TableColumn::number("to"),
            TableColumn::left("measured"),
            TableColumn::centre("good"),
        ],
        rows,
        ..Table::default()
    }
}

fn before(joined: &Joined) -> Vec<Check> {
    let facts = &joined.basis.results.steps.facts;
    let range = |name: &str| {
        let bound = |end: &str| {
            facts
                .words(&format!("{name}.{end}"))
                .filter(|words| !words.is_empty())
                .map(str::to_owned)
        };
        (bound("low"), bound("high"))
    };
    let mut list = Vec::new();
    let (least, _) = range("limit.insulation");
    for run in &joined.electrics.runs {
        let one = |what: &str, between: String| Check {
            what: what.to_owned(),
            between,
            from: least.clone(),
            to: None,
            unit: "MΩ",
        };
        let mark = &run.mark;
        list.push(one("insulation", format!("{mark}+ and {mark}\u{2212}, to body")));
        list.push(one("no short", format!("{mark}+ to {mark}\u{2212}")));
    }
    if let Some(battery) = &joined.basis.build.battery {
        let (from, to) = range("battery.volts");
        if *battery.count > 1 {
            let cells = f64::from(battery.chemistry.cells(*battery.voltage));
            let volts = |cell: Voltage| display::number(cell.to_v() * cells, 1);
            for mark in battery.marks() {
                list.push(Check {
                    what: "battery, unlinked".into(),
                    between: format!("{mark}:+ to {mark}:\u{2212}"),
                    from: Some(volts(battery.chemistry.cut_off)),
                    to: Some(volts(battery.chemistry.full)),
                    unit: "V",
                });
            }
        }
        let between = format!("{}:+ to {}:\u{2212}", battery.at_plus(), battery.at_minus());
        list.push(Check { what: "battery, open".into(), between, from, to, unit: "V" });
    }
    if let (Some(_), Some(isolator)) = (joined.electrics.field, &joined.electrics.isolator) {
        let (from, to) = range("voc");
        let strings = &joined.electrics.strings;
        for (number, string) in strings.iter().enumerate().filter(|_| strings.len() > 1) {
            list.push(Check {
                what: format!("string {}, open", number + 1),
                between: format!("{}, before it is joined", string.marks.join(", ")),
                from: from.clone(),
                to: to.clone(),
                unit: "V",
            });
        }
        let between = format!("{}, side of the panels", isolator.mark);
        list.push(Check { what: "panels, open".into(), between, from, to, unit: "V" });
    }
    list
}

/// Drop along each plus conductor, and the charging current.
fn under_load(joined: &Joined) -> Vec<Check> {
    let mut list = Vec::new();
    for run in &joined.electrics.runs {
        let (Some(conductor), Some((circuit, _))) = (&run.conductor, joined.run(&run.mark)) else {
            continue;
        };
        let left = (*circuit.drop_limit - run.lost_before).to_fraction().max(0.0);
        // Half of it on each conductor.
        let most: Voltage = (run.voltage * (left / 2.0)).max(conductor.drop / 2.0);
        list.push(Check {
            what: format!(
                "drop at {}\u{a0}A, worked out {}\u{a0}V",
                display::number(run.working.to_a(), 1),
                display::number((conductor.drop / 2.0).to_v(), 2)
            ),
            between: format!("{}+, end to end", run.mark),
            from: Some("0.00".into()),
            to: Some(display::number(most.to_v(), 2)),
            unit: "V",
        });
    }
    if let (Some(controller), Some(_)) = (&joined.basis.build.controller, joined.electrics.field) {
        list.push(Check {
            what: "charging current".into(),
            between: format!("{}, as it shows", controller.mark.value),
            from: Some("0.0".into()),
            to: Some(display::number(controller.max_current.to_a(), 1)),
            unit: "A",
        });
    }
    list
}

fn tightened(joined: &Joined) -> Table {
    let rows = by_end(joined, |end, _| {
        let turned = end.torque != Tight::None || end.piece == Piece::Plug;
        turned.then(|| vec![torque(&end.torque).into(), Cell::Tick, Cell::Tick])
    });
    Table {
        columns: vec![
            TableColumn::left("conductor"),
            TableColumn::left("at"),
            TableColumn::left("torque, N·m"),
            TableColumn::centre("right pole"),
            TableColumn::centre("tight"),
        ],
        rows,
        ..Table::default()
    }
}

fn torque(tight: &Tight) -> String {
    let told = |torque: &Torque| display::number(torque.to_nm(), 1);
    match tight {
        Tight::Stated(torque) => format!("{}, by its label", told(torque)),
        Tight::About(torque) => format!("{}, the label wins", told(torque)),
        Tight::Between(low, high) => {
            format!("{} to {}: the label decides", told(low), told(high))
        }
        Tight::Maker => "as its maker says".to_owned(),
        Tight::None => "pushed home, locked".to_owned(),
    }
}

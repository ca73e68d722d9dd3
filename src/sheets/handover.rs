//! One step to be handed to somebody who has seen nothing else: where it starts, what the names on
//! its sheet mean, what is handed back. The step's own sheet follows.

use super::pick::tells;
use super::record::{limit, measured_columns, worth_writing};
use super::step;
use super::words::{clock, mm};
use super::{Basis, Kind, safety};
use crate::compute::steps::facts::{mark_order, marks};
use crate::compute::steps::{Action, Cure, CureState, Line, Step, assign, printed_wait};
use crate::derive::{Body, Part};
use crate::page::block::{
    Blank, BlankWidth, Block, Cell, Column, ColumnWidth, Figure, Heading, Row, Table, TableColumn,
};
use crate::page::text::Text;
use crate::page::{Packet, Sheet};
use crate::units::{Duration, Length, Unit, display};
use std::fmt::Write as _;

/// Greatest height of the drawing that shows where the step is, mm.
const WHERE: f64 = 62.0;

/// More measured values than this stand in two halves, side by side.
const SIDE_BY_SIDE: usize = 6;

/// What must be so before a step starts.
#[derive(Debug, Clone, PartialEq)]
pub struct Start {
    /// Number of the step before.
    pub number: u32,
    /// Its title.
    pub title: String,
    /// The cure that must be over, by the name of its figure, and how long that is as printed.
    pub wait: Option<(String, Duration)>,
    /// Marks that cure, and until when.
    pub cures: String,
    /// When that is by the plan.
    pub clock: Option<String>,
}

/// A name on the sheet and what it stands for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Name {
    /// Marks: "A1, A3".
    pub marks: String,
    /// What it is.
    pub what: String,
    /// Its size, or where it sits.
    pub size: String,
}

/// The step that a number, key or title names.
pub fn find<'a>(basis: &'a Basis<'_>, wanted: &str) -> Option<&'a Step> {
    let wanted = wanted.trim();
    let number = wanted.parse::<u32>().ok();
    basis.results.steps.steps.iter().find(|step| {
        Some(step.number) == number || step.key == wanted || step.title.eq_ignore_ascii_case(wanted)
    })
}

/// Leaves in a packet what the step is handed over with: a first sheet, the step's own, and, if asked
/// for, the sheets of other kinds that it leans on.
pub fn hand_over(packet: &mut Packet, basis: &Basis, step: &Step, with_sheets: bool) {
    let index = step.number as usize - 1;
    let (with, _): (Vec<Sheet>, Vec<Sheet>) =
        std::mem::take(&mut packet.sheets).into_iter().partition(|sheet| leans(basis, step, sheet));
    // Words lead only to sheets that are handed over too.
    let others = firsts(if with_sheets { &with } else { &[] });
    let steps = super::steps_of(basis, &others);
    // Two sheets of paper, printed on both sides, are soon handed over and not soon mixed up.
    packet.duplex = true;
    packet.sheets = vec![front(basis, step, &with, with_sheets)];
    let last = Text::bold("List complete. Next: hand these sheets back.");
    let mut own = step::one(&steps, index, last, &Kind::Step.tab());
    let end = own.blocks.len().saturating_sub(1);
    own.blocks.splice(end..end, back(step));
    packet.sheets.push(own);
    if with_sheets {
        packet.sheets.extend(with);
    }
}

/// Marks of what the step is about.
fn about(basis: &Basis, step: &Step) -> Vec<String> {
    let mut all = assign::pieces_of(basis.work, &step.key);
    all.retain(|mark| {
        basis.work.piece(mark).is_none_or(|(part, _)| !matches!(part.body, Body::OnVehicle))
    });
    // What carries a mark of its own: mounts, entry, battery.
    all.extend(step.concerns.iter().cloned());
    all.sort_by_key(|mark| mark_order(mark));
    all.dedup();
    all
}

fn has_mounts(basis: &Basis, step: &Step) -> bool {
    basis.work.mounts.iter().any(|mount| step.concerns.contains(&mount.mark))
}

/// Whether the step's sheet leans on this one.
fn leans(basis: &Basis, step: &Step, sheet: &Sheet) -> bool {
    let Some(tab) = &sheet.tab else { return false };
    let kinds: Vec<Kind> = step.see.iter().flat_map(|word| kinds_of(word)).copied().collect();
    if !kinds.iter().any(|kind| kind.word() == tab.word) {
        return false;
    }
    if ![Kind::Part.word(), Kind::Template.word()].contains(&tab.word.as_str()) {
        return true;
    }
    // What lies on the roof: the places of the feet, the entry's foot.
    let entry = basis.work.entry.as_ref().map(|entry| format!("template-{}", entry.mark));
    if sheet.anchor.starts_with("template-roof") {
        return step.see.iter().any(|word| word == "plan") && has_mounts(basis, step);
    }
    if entry.is_some_and(|anchor| sheet.anchor.starts_with(&anchor)) {
        return about(basis, step).iter().any(|mark| sheet.anchor.ends_with(mark.as_str()));
    }
    if !step.see.iter().any(|word| word == "part") {
        return false;
    }
    tells(sheet, &about(basis, step))
}

/// Words by which steps call other sheets.
const WORDS: [&str; 8] = ["plan", "cut", "part", "bond", "wiring", "cables", "battery", "record"];

/// Of each word, the anchor of the first sheet that it means.
pub(super) fn firsts(sheets: &[Sheet]) -> Vec<(&'static str, String)> {
    let first = |word: &'static str| {
        let kind = kinds_of(word).first()?.word();
        let sheet = sheets.iter().find(|s| s.tab.as_ref().is_some_and(|tab| tab.word == kind))?;
        Some((word, sheet.anchor.clone()))
    };
    WORDS.into_iter().filter_map(first).collect()
}

/// The kinds that a template of a step calls so.
fn kinds_of(word: &str) -> &'static [Kind] {
    match word {
        "cables" => &[Kind::Cables],
        "plan" => &[Kind::Roof, Kind::Template],
        "cut" => &[Kind::Cut],
        "part" => &[Kind::Part, Kind::Template],
        "bond" => &[Kind::Bond],
        "wiring" => &[Kind::Wiring],
        "battery" => &[Kind::Battery],
        "record" => &[Kind::Record],
        _ => &[],
    }
}

/// What must be so before the step starts.
pub fn starts(basis: &Basis, step: &Step) -> Vec<Start> {
    let steps = &basis.results.steps.steps;
    let mut list = Vec::new();
    for need in &step.after {
        let Some(before) = steps.iter().find(|step| step.key == need.key) else { continue };
        let longest = need
            .cures
            .iter()
            .filter_map(|cure| Some((cure, basis.results.ledger.get(&cure.figure())?.value)))
            .max_by(|a, b| a.1.total_cmp(&b.1));
        list.push(Start {
            number: before.number,
            title: before.title.clone(),
            wait: longest.map(|(cure, hours)| (cure.figure(), printed_wait(hours))),
            cures: cures(&need.cures),
            clock: longest.and_then(|(cure, hours)| over(basis, cure, Duration::hours(hours))),
        });
    }
    list.sort_by_key(|start| start.number);
    list
}

/// "F1 to F3 may carry load".
fn cures(cures: &[Cure]) -> String {
    let told: Vec<&str> = cures.iter().map(|cure| cure.mark.as_str()).collect();
    let state = cures.iter().map(|cure| cure.state).max();
    match state {
        None => String::new(),
        Some(CureState::Handling) => format!("{} may be touched", marks(&told)),
        Some(CureState::Load) => format!("{} may carry load", marks(&told)),
        Some(CureState::Drive) => format!("{} may be driven with", marks(&told)),
        Some(CureState::Full) => format!("{} cured through", marks(&told)),
    }
}

/// The clock by the plan at which a cure is over.
fn over(basis: &Basis, cure: &Cure, wait: Duration) -> Option<String> {
    let joint = basis.results.cures.iter().find(|joint| joint.mark == cure.mark)?;
    basis.results.plan.as_ref()?;
    Some(clock(*basis.build.crew.start, joint.made + wait))
}

/// Names that the step's sheet uses, with what they stand for.
pub fn names(basis: &Basis, step: &Step) -> Vec<Name> {
    let mut all = about(basis, step);
    // What the drawing calls by a mark that no line of the step has.
    let drawn = step::drawn(&super::steps_of(basis, &[]), step);
    all.extend(drawn.into_iter().filter(|word| basis.work.piece(word).is_some()));
    let mut list = Vec::new();
    let mut told: Vec<&str> = Vec::new();
    // Parts of one name and size that differ in their holes alone are one line.
    let mut kinds: Vec<(String, String, Vec<&str>)> = Vec::new();
    for part in &basis.work.parts {
        let own: Vec<&str> = part
            .pieces
            .iter()
            .map(|piece| piece.mark.as_str())
            .filter(|mark| all.iter().any(|known| known == mark))
            .collect();
        if own.is_empty() {
            continue;
        }
        told.extend(&own);
        let size = size(part);
        match kinds.iter_mut().find(|(what, known, _)| *what == part.name && *known == size) {
            Some((_, _, marks)) => marks.extend(own),
            None => kinds.push((part.name.clone(), size, own)),
        }
    }
    for (what, size, mut own) in kinds {
        own.sort_by_key(|mark| mark_order(mark));
        list.push(Name { marks: marks(&own), what, size });
    }
    for mount in &basis.work.mounts {
        if all.contains(&mount.mark) && !told.contains(&mount.mark.as_str()) {
            let at = format!("X {}, Y {}", mm(mount.at.x, 0), mm(mount.roof.y, 0));
            list.push(Name { marks: mount.mark.clone(), what: mount.name.clone(), size: at });
        }
    }
    if let Some(entry) = basis.work.entry.as_ref().filter(|entry| all.contains(&entry.mark)) {
        let at = format!("X {}, Y {}", mm(entry.at.x, 0), mm(entry.at.y, 0));
        list.retain(|name| name.marks != entry.mark);
        list.push(Name { marks: entry.mark.clone(), what: "cable entry".into(), size: at });
    }
    list
}

/// Words of the packet that the step uses, told to one who has not read the rest.
fn glossary(basis: &Basis, step: &Step) -> Vec<Name> {
    let datum = basis.build.roof.as_ref().map_or("", |roof| roof.datum.value.as_str());
    let words = [
        ("array", "the frame with its panels", ""),
        ("datum", "zero of X and Y on the roof", datum),
        ("crown", "the highest part of the roof", ""),
        ("flash-off", "waiting until its solvent is gone", ""),
        ("isolator", "the switch between panels and controller", ""),
    ];
    let told = format!("{:?} {:?}", step.lines, step.ready);
    let said =
        |word: &str| told.split(|c: char| !c.is_alphanumeric() && c != '-').any(|w| w == word);
    let used = words.into_iter().filter(|(word, ..)| said(word));
    used.map(|(word, what, size)| Name { marks: word.into(), what: what.into(), size: size.into() })
        .collect()
}

/// Stuff and size of a part in the words of its sheet.
pub(super) fn size(part: &Part) -> String {
    let sides = |sides: &[Length]| {
        let told: Vec<String> =
            sides.iter().map(|side| display::in_unit_short(*side, Unit::MM, 1)).collect();
        told.join(" × ")
    };
    match &part.body {
        Body::Bar { section, length, .. } => format!("{}, {}", section.words, sides(&[*length])),
        Body::Plate { length, width, thickness, .. } => sides(&[*length, *width, *thickness]),
        Body::Wedge { length, width, thin, thick, .. } => {
            format!("{}, {} to {} thick", sides(&[*length, *width]), mm(*thin, 1), mm(*thick, 1))
        }
        Body::Block { length, width, height, .. } => sides(&[*length, *width, *height]),
        Body::Bought { item } => item.clone(),
        Body::OnVehicle => "on the vehicle".into(),
    }
}

/// Actions whose values are handed back.
pub fn handed_back(step: &Step) -> Vec<&Action> {
    let worth =
        |action: &&Action| action.done.as_ref().is_some_and(|done| worth_writing(step, done));
    step.actions().filter(worth).collect()
}

fn front(basis: &Basis, step: &Step, with: &[Sheet], included: bool) -> Sheet {
    let steps = super::steps_of(basis, &[]);
    let told = "For one who has seen nothing else of the packet. This page is read first; the work \
                is on those behind it.";
    let mut blocks = vec![
        Block::Paragraph(told.into()),
        Block::Heading(Heading::new("It starts when").aside(format!("done at: {}", places(step)))),
    ];
    blocks.push(Block::Table(start_table(basis, step)));
    if let Some(scene) = step::whereabouts(&steps, step) {
        // Left out where it would ask for a page of its own: the step's sheet has its drawing.
        blocks
            .push(Block::Choice(vec![vec![Block::Figure(Figure::new(scene, WHERE))], Vec::new()]));
    }
    let mut names = names(basis, step);
    names.extend(glossary(basis, step));
    if !names.is_empty() {
        blocks.push(Block::Heading(Heading::new("Names on the step's sheet")));
        blocks.push(Block::Table(name_table(&names)));
    }
    blocks.extend(general(basis, step));
    blocks.extend(beside(with, included));
    Sheet {
        anchor: "hand-over".into(),
        title: format!("Hand over {}: {}", step.number, step.title),
        purpose: step.purpose.clone(),
        tab: Some(Kind::Step.tab()),
        steps: None,
        blocks,
        single_sided: false,
    }
}

fn places(step: &Step) -> String {
    if step.places.is_empty() { "any place".into() } else { step.places.join(", ") }
}

fn start_table(basis: &Basis, step: &Step) -> Table {
    let mut table = Table {
        columns: vec![
            TableColumn::left("step"),
            TableColumn::left("what must be so").width(ColumnWidth::AtMost(76.0)),
            TableColumn::left("by the plan").width(ColumnWidth::AtMost(40.0)),
            TableColumn::centre("so it is"),
        ],
        ..Table::default()
    };
    for start in starts(basis, step) {
        let mut words = format!("{}: done", start.title);
        let mut plan = Cell::Dash;
        if let Some((_, wait)) = &start.wait {
            let _ = write!(words, "; {}, {} after", start.cures, display::duration(*wait));
        } else if !start.cures.is_empty() {
            let _ = write!(words, "; {}", start.cures);
        }
        if let Some(clock) = &start.clock {
            plan = clock.as_str().into();
        }
        table.rows.push(Row::new(vec![
            Cell::Head(start.number.to_string().into()),
            words.into(),
            plan,
            Cell::Tick,
        ]));
    }
    if table.rows.is_empty() {
        table.rows.push(Row::new(vec![
            Cell::Dash,
            "nothing comes before it; what is under Have ready is there".into(),
            Cell::Dash,
            Cell::Tick,
        ]));
    }
    table
}

fn name_table(names: &[Name]) -> Table {
    Table {
        columns: vec![
            TableColumn::left("name").width(ColumnWidth::AtMost(40.0)),
            TableColumn::left("what it is").width(ColumnWidth::AtMost(46.0)),
            TableColumn::left("size, or where").width(ColumnWidth::AtMost(78.0)),
        ],
        rows: names
            .iter()
            .map(|name| {
                Row::new(vec![
                    Cell::Head(name.marks.as_str().into()),
                    name.what.as_str().into(),
                    if name.size.is_empty() { Cell::Dash } else { name.size.as_str().into() },
                ])
            })
            .collect(),
        ..Table::default()
    }
}

/// Messages that count where this step is done, whatever its lines name.
fn general(basis: &Basis, step: &Step) -> Vec<Block> {
    basis
        .results
        .steps
        .messages
        .iter()
        .filter(|message| !named(step, &message.key))
        .filter(|message| message.places.iter().any(|place| step.places.contains(place)))
        .flat_map(|message| [Block::Safety(safety::block(message)), Block::Space(0.0)])
        .collect()
}

/// Whether a line of the step names a message: it stands above its action then.
fn named(step: &Step, message: &str) -> bool {
    step.lines.iter().any(|line| matches!(line, Line::Caution(key) if key == message))
}

/// Sheets that the step leans on.
fn beside(with: &[Sheet], included: bool) -> Vec<Block> {
    if with.is_empty() {
        return Vec::new();
    }
    let mut told = Text::new();
    for (index, sheet) in with.iter().enumerate() {
        let full_size = sheet.tab.as_ref().is_some_and(|tab| tab.word == Kind::Template.word());
        told = told.and(if index == 0 { "" } else { "; " }).and(if full_size {
            sheet.title.replacen("Template", "full-size template of", 1)
        } else {
            sheet.title.clone()
        });
        if included {
            told = told.and(" (sheet ").and_page(sheet.anchor.clone()).and(")");
        }
    }
    vec![
        Block::Heading(Heading::new("Sheets to have beside it").aside(if included {
            ""
        } else {
            "from the packet of this number and fingerprint"
        })),
        Block::Paragraph(told.and(".")),
    ]
}

/// What is handed back.
fn back(step: &Step) -> Vec<Block> {
    let mut blocks = vec![Block::Heading(
        Heading::new("Hand back").aside("these sheets, every box ticked, tools, what is left over"),
    )];
    let mut table = Table { columns: measured_columns(), ..Table::default() };
    for action in handed_back(step) {
        let Some(done) = &action.done else { continue };
        table.rows.push(Row::new(vec![
            Cell::Head(action.number.to_string().into()),
            done.words.as_str().into(),
            limit(&done.low),
            limit(&done.high),
            Cell::Blank(done.unit.clone()),
        ]));
    }
    if table.rows.len() > SIDE_BY_SIDE {
        // Two halves side by side, so that many values do not ask for a page of their own.
        let rest = table.rows.split_off(table.rows.len().div_ceil(2));
        table.columns.pop();
        table.columns.push(TableColumn::left("measured").width(ColumnWidth::Mm(44.0)));
        let other = Table { rows: rest, ..table.clone() };
        let halves = [table, other].map(|half| Column::new(3, vec![Block::Table(half)]));
        blocks.push(Block::Columns(halves.to_vec()));
    } else if !table.rows.is_empty() {
        blocks.push(Block::Table(table));
    }
    let mut blanks = Vec::new();
    if step.waits().next().is_some() {
        blanks.push(Blank::of(BlankWidth::Long, "date and clock when the wait began"));
    }
    blanks.extend([
        Blank::of(BlankWidth::Long, "done by"),
        Blank::of(BlankWidth::Date, "date"),
        Blank::of(BlankWidth::Short, "time"),
    ]);
    blocks.push(Block::Blanks(blanks));
    blocks.push(Block::Blanks(vec![
        Blank::of(BlankWidth::Line, "what was not as told, and what was done about it").high(10.0),
    ]));
    blocks
}

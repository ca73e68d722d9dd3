//! Frames taken apart, with the order in which they come together.

use super::{anchor, capital, told};
use crate::derive::{Array, Fastening, Screw};
use crate::page::Sheet;
use crate::page::block::{Block, Cell, Figure, Heading, Row, Table, TableColumn};
use crate::sheets::scenes::{Joined, Plan, frame_apart, in_order};
use crate::sheets::{Basis, Kind};
use crate::units::{Length, display};

/// Greatest height of the drawing, mm.
const HIGH: f64 = 150.0;

/// One sheet; frames that are alike share a drawing.
pub(super) fn apart(basis: &Basis) -> Option<Sheet> {
    let on = Plan { build: basis.build, work: basis.work };
    let mut groups: Vec<Vec<&Array>> = Vec::new();
    for array in &basis.work.arrays {
        if !in_order(&on, array.frame).iter().any(|(joined, _)| *joined == Joined::Sides) {
            continue;
        }
        match groups.iter_mut().find(|group| alike(basis, group[0], array)) {
            Some(group) => group.push(array),
            None => groups.push(vec![array]),
        }
    }
    let mut blocks = Vec::new();
    for group in &groups {
        let Some(scene) = frame_apart(&on, group[0].frame) else { continue };
        let names: Vec<&str> = group.iter().map(|array| array.name.as_str()).collect();
        blocks.push(Block::WithNext(vec![
            Block::Heading(Heading::new(capital(&names.join(", ")))),
            Block::Figure(Figure::new(scene, HIGH)),
        ]));
        blocks.push(Block::Table(table(basis, &on, group)));
    }
    let first = basis.work.parts.iter().find(|part| !part.pieces.is_empty())?;
    (!blocks.is_empty()).then(|| Sheet {
        anchor: format!("apart-{}", anchor(first)),
        title: "How the frame goes together".into(),
        purpose: "Taken apart, with numbers in the order of work. The step sheets tell how.".into(),
        tab: Some(Kind::Part.tab()),
        steps: None,
        blocks,
        single_sided: false,
    })
}

/// Of one size, with cross tubes at the same places and as many panels.
fn alike(basis: &Basis, a: &Array, b: &Array) -> bool {
    let near = |a: Length, b: Length| a.is_near(b, Length::mm(0.05));
    let frames = &basis.build.frames;
    let section = |array: &Array| frames.get(array.frame).map(|frame| frame.section.name.clone());
    section(a) == section(b)
        && near(a.outline.width(), b.outline.width())
        && near(a.outline.height(), b.outline.height())
        && a.panels.len() == b.panels.len()
        && a.cross.len() == b.cross.len()
        && a.cross
            .iter()
            .zip(&b.cross)
            .all(|(x, y)| near(*x - a.outline.low().x, *y - b.outline.low().x))
}

const fn goes(joined: Joined) -> &'static str {
    match joined {
        Joined::Sides => "on the bench",
        Joined::Connectors => "into the side tubes",
        Joined::Ends => "to the side tubes",
        Joined::CornerAngles => "into the inner corners",
        Joined::Cross => "between the side tubes",
        Joined::JointAngles => "on both sides of each cross tube",
        Joined::Plugs => "into the open ends",
        Joined::Panels => "on the tubes, screwed from below",
    }
}

fn table(basis: &Basis, on: &Plan<'_>, group: &[&Array]) -> Table {
    let all: Vec<_> = group.iter().map(|array| in_order(on, array.frame)).collect();
    let rows = all[0].iter().enumerate().map(|(index, (joined, _))| {
        let pieces: Vec<_> = all
            .iter()
            .filter_map(|order| order.get(index))
            .flat_map(|(_, pieces)| pieces.iter())
            .collect();
        let name = pieces.first().map_or("panel", |(part, _)| part.name.as_str());
        let bought = matches!(joined, Joined::Connectors | Joined::Plugs);
        let marks: Vec<&str> = match joined {
            Joined::Panels => group
                .iter()
                .flat_map(|array| array.panels.iter().map(|panel| panel.mark.as_str()))
                .collect(),
            _ => pieces.iter().map(|(_, piece)| piece.mark.as_str()).collect(),
        };
        let marks = if bought { format!("{} pieces", pieces.len()) } else { told(marks) };
        Row::new(vec![
            Cell::Head((index + 1).to_string().into()),
            name.to_owned().into(),
            marks.into(),
            goes(*joined).into(),
            held(basis, *joined, group).into(),
        ])
    });
    Table {
        columns: vec![
            TableColumn::left("no."),
            TableColumn::left("what"),
            TableColumn::left("marks"),
            TableColumn::left("where to"),
            TableColumn::left("held by"),
        ],
        rows: rows.collect(),
        ..Table::default()
    }
}

/// What holds it, by the fastenings of its pieces.
fn held(basis: &Basis, joined: Joined, group: &[&Array]) -> String {
    let name = match joined {
        Joined::CornerAngles => "corner angle to ",
        Joined::JointAngles => "joint angle to ",
        Joined::Panels => "panel to tube",
        Joined::Connectors | Joined::Plugs => return "a push fit".into(),
        Joined::Ends => {
            let frame = basis.build.frames.get(group[0].frame);
            let corner = frame.map(|frame| &frame.corner);
            return match corner {
                Some(corner) if corner.connector().is_some() => "the connectors".into(),
                Some(corner) if corner.is_welded() => "a weld, by a shop".into(),
                _ => "the corner angles".into(),
            };
        }
        Joined::Cross => return "the joint angles".into(),
        Joined::Sides => return "–".into(),
    };
    let mut kinds: Vec<String> = Vec::new();
    for fastening in basis.work.fastenings.iter().filter(|one| one.name.starts_with(name)) {
        let words = words(fastening);
        if !words.is_empty() && !kinds.contains(&words) {
            kinds.push(words);
        }
    }
    if kinds.is_empty() { "–".into() } else { kinds.join("; ") }
}

fn words(fastening: &Fastening) -> String {
    let long = |length: Length| display::number_short(length.to_mm(), 1);
    match &fastening.screw {
        Screw::BlindRivet { rivet, length } => {
            format!("blind rivets {} × {} mm", long(rivet.diameter), long(*length))
        }
        Screw::Tapping { screw, length } => {
            format!("tapping screws {} × {} mm", screw.name, long(*length))
        }
        _ => String::new(),
    }
}

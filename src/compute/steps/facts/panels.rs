//! Panels on the frame and the screws that hold them.

use super::{Facts, Item, Sources, drilling, item, say, with_range};
use crate::compute::cut_list::Limits;
use crate::compute::quantities::packer_sealant;
use crate::compute::steps::assign::{self, Stage};
use crate::derive::{Body, PartKind, Screw};
use crate::geometry::Point3;
use crate::units::Length;

pub(super) fn set(facts: &mut Facts, from: &Sources<'_>) {
    let work = from.work;
    let kinds: Vec<Item> = from
        .build
        .panels
        .iter()
        .enumerate()
        .map(|(index, panel)| {
            let marks: Vec<&str> = work
                .panels()
                .filter(|place| place.panel == index)
                .map(|place| place.mark.as_str())
                .collect();
            let row = item([("marks", say::marks(&marks)), ("each", marks.join(" "))]);
            if let Some(first) = marks.first() {
                with_range(row, from.size(&format!("{first} long side")))
            } else {
                let size = Limits::general(*panel.length, from.tables);
                with_range(row, say::range(size.low.to_mm(), size.high.to_mm()))
            }
        })
        .collect();
    facts.list("panel-kinds", kinds);
    let marks: Vec<&str> = work.panels().map(|panel| panel.mark.as_str()).collect();
    facts.set("panels.marks", say::marks(&marks));
    let told = say::marks(&marks);
    let named = if marks.len() == 1 { format!("panel {told}") } else { format!("panels {told}") };
    facts.set("panels.named", named);
    // A count with rows behind it: the number of panels, and their marks for the drawing.
    facts.list("panels", marks.iter().map(|mark| item([("mark", (*mark).to_owned())])).collect());
    facts.set("panels", marks.len().to_string());
    facts.count("one-or-panels", marks.len().max(1));
    set_packers(facts, from);
    let screws: Vec<_> = work
        .fastenings
        .iter()
        .filter(|fastening| assign::of_fastening(work, fastening) == Stage::Panels)
        .collect();
    facts.count("panel-screws", screws.iter().map(|fastening| fastening.places.len()).sum());
    if let Some(Screw::Tapping { screw, length }) = screws.first().map(|fastening| &fastening.screw)
    {
        facts.set("panel-screw", format!("tapping screw {} × {}", screw.name, say::mm(*length)));
        facts.set("panel-screw.size", screw.name.clone());
        facts.set("panel-screw.recess", format!("cross recess size {}", screw.recess));
    }
    drilling::through(facts, from, Stage::Panels, |_| true, "panel-screw");
}

/// Packers under the middles of the panels: where each stands, and what keeps it there.
fn set_packers(facts: &mut Facts, from: &Sources<'_>) {
    let work = from.work;
    let mut rows = Vec::new();
    let parts = work.parts.iter().filter(|part| part.kind == PartKind::PanelPacker);
    for (part, piece) in parts.flat_map(|part| part.pieces.iter().map(move |piece| (part, piece))) {
        let Body::Block { length, width, .. } = part.body else { continue };
        let half = Point3::new(length / 2.0, width / 2.0, Length::ZERO);
        let middle = piece.place.place(half);
        let row = item([("mark", piece.mark.clone()), ("x", say::mm(middle.x))]);
        // On the centre line there is no side to name.
        let side = match middle.y {
            y if y.abs() < Length::mm(0.5) => "off the centre line",
            y if y < Length::ZERO => "left of the centre line",
            _ => "right of the centre line",
        };
        let mut row = with_range(row, facts.about(middle.y.to_mm().abs(), "placing"));
        if middle.y.abs() < Length::mm(0.5) {
            row.insert("low".to_owned(), "0".to_owned());
        }
        row.insert("side".to_owned(), side.to_owned());
        rows.push(row);
    }
    rows.sort_by_key(|row: &Item| say::mark_order(&row["mark"]));
    let sealant = packer_sealant(from.build);
    let words = sealant.map_or("a sealant that suits rubber and skin", |row| row.words.as_str());
    facts.set("packers.sealant", words);
    let sensitises = sealant.is_some_and(|row| row.has_hazard("isocyanate"));
    facts.count("packers.isocyanate", usize::from(sensitises && !rows.is_empty()));
    let marks: Vec<&str> =
        rows.iter().filter_map(|row| row.get("mark")).map(String::as_str).collect();
    facts.set("packers.marks", say::marks(&marks));
    facts.list("packers", rows);
}

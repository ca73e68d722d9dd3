//! Panels on the frame and the screws that hold them.

use super::{Facts, Item, Sources, drilling, item, say, with_range};
use crate::compute::cut_list::Limits;
use crate::compute::steps::assign::{self, Stage};
use crate::derive::Screw;

pub(super) fn set(facts: &mut Facts, from: &Sources<'_>) {
    let work = from.work;
    let kinds: Vec<Item> = from
        .build
        .panels
        .iter()
        .enumerate()
        .map(|(index, panel)| {
            let marks: Vec<&str> = work
                .array
                .iter()
                .flat_map(|array| &array.panels)
                .filter(|place| place.panel == index)
                .map(|place| place.mark.as_str())
                .collect();
            let row = item([("marks", say::marks(&marks)), ("each", marks.join(" "))]);
            match marks.first() {
                Some(first) => with_range(row, from.size(&format!("{first} long side"))),
                None => {
                    let size = Limits::general(*panel.length, from.tables);
                    with_range(row, say::range(size.low.to_mm(), size.high.to_mm()))
                }
            }
        })
        .collect();
    facts.list("panel-kinds", kinds);
    let marks: Vec<&str> = work
        .array
        .iter()
        .flat_map(|array| &array.panels)
        .map(|panel| panel.mark.as_str())
        .collect();
    facts.set("panels.marks", say::marks(&marks));
    // A count with rows behind it: the number of panels, and their marks for the drawing.
    facts.list("panels", marks.iter().map(|mark| item([("mark", (*mark).to_owned())])).collect());
    facts.set("panels", marks.len().to_string());
    facts.count("one-or-panels", marks.len().max(1));
    if let Some(frame) = &from.build.frame {
        let range = from.sizes.gap.map_or_else(
            || facts.about(frame.gap.to_mm(), "setting"),
            |gap| say::range(gap.low.to_mm(), gap.high.to_mm()),
        );
        facts.range("gap", range);
    }
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

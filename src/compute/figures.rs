//! Every computed number as one JSON document.
//!
//! The shape is versioned by `format`; names of figures are dotted and stay. Lengths in the tables
//! are millimetres.

use super::Results;
use super::cut_list::leftover_lines;
use crate::build::Build;
use crate::derive::Work;
use serde::Serialize;
use serde_json::{Value, json};

/// Version of the document's shape.
pub const FORMAT: u32 = 1;

/// `{ format, job, figures, cuts, sheets, leftovers, leftover-lines, holes, parts, shopping }`;
/// `leftover-lines` is text to be pasted into the next build file.
pub fn document(build: &Build, work: &Work, results: &Results) -> impl Serialize {
    json!({
        "format": FORMAT,
        "job": {
            "title": build.job.title.value,
            "number": build.job.number.value,
            "revision": build.job.revision.value,
            "date": build.job.date.to_string(),
        },
        "figures": results.ledger,
        "parts": parts(work),
        "holes": holes(work),
        "cuts": cuts(results),
        "sheets": sheets(results),
        "leftovers": leftovers(results),
        "leftover-lines": results
            .cuts
            .as_ref()
            .map_or_else(String::new, |list| leftover_lines(build, list)),
        "shopping": shopping(results),
    })
}

fn parts(work: &Work) -> Vec<Value> {
    work.parts
        .iter()
        .map(|part| {
            json!({
                "name": part.name,
                "marks": part.pieces.iter().map(|p| p.mark.as_str()).collect::<Vec<_>>(),
                "mass-kg": part.mass,
            })
        })
        .collect()
}

fn holes(work: &Work) -> Vec<Value> {
    work.holes
        .iter()
        .map(|hole| {
            let part = &work.parts[hole.part];
            json!({
                "id": hole.id,
                "part": part.name,
                "face": part.faces[hole.face].name,
                "x": hole.at.x,
                "y": hole.at.y,
                "diameter": hole.diameter,
                "drills": hole.drills,
                "mates": hole.mates,
            })
        })
        .collect()
}

fn cuts(results: &Results) -> Vec<Value> {
    let Some(list) = &results.cuts else { return Vec::new() };
    list.bars
        .iter()
        .map(|bar| {
            json!({
                "bar": bar.number,
                "section": bar.section.name,
                "length": bar.length,
                "on-hand": bar.on_hand,
                "pieces": bar.cuts.iter().map(|cut| json!({
                    "mark": cut.mark, "length": cut.length, "from": cut.from, "to": cut.to,
                    "ends": [cut.ends.zero, cut.ends.far],
                })).collect::<Vec<_>>(),
                "trim": bar.trim,
                "saw": bar.saw,
                "nested": bar.nested,
                "left": bar.rest,
            })
        })
        .collect()
}

/// Sheets with their pieces and cuts, places from the zero corner.
fn sheets(results: &Results) -> Vec<Value> {
    let Some(list) = &results.cuts else { return Vec::new() };
    list.plates
        .iter()
        .map(|plate| {
            json!({
                "sheet": plate.number,
                "material": plate.stuff.material.name,
                "thickness": plate.stuff.thickness,
                "length": plate.length,
                "width": plate.width,
                "on-hand": plate.on_hand,
                "pieces": plate.pieces.iter().map(|piece| json!({
                    "mark": piece.mark, "at": [piece.at.0, piece.at.1],
                    "length": piece.size.0, "width": piece.size.1, "turned": piece.turned,
                })).collect::<Vec<_>>(),
                "cuts": plate.cuts.iter().map(|cut| json!({
                    "along": if cut.along_width { "width" } else { "length" },
                    "at": cut.at, "from": cut.span.0, "to": cut.span.1,
                })).collect::<Vec<_>>(),
            })
        })
        .collect()
}

/// Rests of bars and sheets that are worth keeping.
fn leftovers(results: &Results) -> Vec<Value> {
    let Some(list) = &results.cuts else { return Vec::new() };
    let bars = list.bars.iter().filter_map(|bar| {
        let key = if bar.section.sawn { "section" } else { "stuff" };
        bar.rest_mark.as_ref().map(
            |mark| json!({ key: bar.section.name, "length": bar.rest, "count": 1, "label": mark }),
        )
    });
    let sheets = list.plates.iter().flat_map(|plate| {
        plate.rests.iter().filter_map(|rest| {
            rest.mark.as_ref().map(|mark| {
                json!({
                    "material": plate.stuff.material.name, "thickness": plate.stuff.thickness,
                    "length": rest.length, "width": rest.width, "count": 1, "label": mark,
                })
            })
        })
    });
    bars.chain(sheets).collect()
}

fn shopping(results: &Results) -> Vec<Value> {
    results
        .shopping
        .shelves
        .iter()
        .flat_map(|shelf| {
            shelf.lines.iter().map(|line| {
                json!({
                    "shelf": shelf.name,
                    "what": line.what,
                    "need": line.need,
                    "buy": line.buy,
                    "price": line.price.map(crate::units::Money::to_cents),
                })
            })
        })
        .collect()
}

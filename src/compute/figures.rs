//! Every computed number as one JSON document.
//!
//! The shape is versioned by `format`; names of figures are dotted and stay. Lengths in the tables
//! are millimetres.

pub mod csv;

use super::Results;
use super::cut_list::leftover_lines;
use crate::build::Build;
use crate::derive::Work;
use crate::tables::GivenBy;
use serde::Serialize;
use serde_json::{Value, json};

/// Version of the document's shape.
pub const FORMAT: u32 = 1;

/// One object; its keys and those inside are told in the contributors' guide. A new key leaves the
/// version as it is; one that goes or changes its meaning does not.
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
        "rows": rows(build),
    })
}

/// Rows of the tables that the build names, and whose they are.
fn rows(build: &Build) -> Vec<Value> {
    build
        .rows
        .iter()
        .map(|row| {
            let (yours, table) = match &row.origin.given_by {
                GivenBy::Program(file) => (false, (*file).to_owned()),
                GivenBy::Reader(file) => (true, file.clone()),
            };
            json!({
                "kind": row.kind, "name": row.name, "key": row.key, "yours": yours, "table": table,
                "source": row.origin.source, "seen": row.origin.seen,
            })
        })
        .collect()
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

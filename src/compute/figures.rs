//! Every computed number as one JSON document.
//!
//! The shape is versioned by `format`; names of figures are dotted and stay. Lengths in the tables
//! are millimetres.

use super::Results;
use crate::build::Build;
use crate::derive::Work;
use serde::Serialize;
use serde_json::{Value, json};

/// Version of the document's shape.
pub const FORMAT: u32 = 1;

/// `{ format, job, figures, cuts, leftovers, holes, parts, shopping }`.
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
        "leftovers": leftovers(results),
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
                })).collect::<Vec<_>>(),
                "left": bar.rest,
            })
        })
        .collect()
}

/// Ready to be written as `[[leftover]]` in the next build file.
fn leftovers(results: &Results) -> Vec<Value> {
    let Some(list) = &results.cuts else { return Vec::new() };
    list.bars
        .iter()
        .filter_map(|bar| {
            bar.rest_mark.as_ref().map(|mark| {
                json!({ "section": bar.section.name, "length": bar.rest, "count": 1, "label": mark })
            })
        })
        .collect()
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

//! What is confirmed with a tape before anything is cut.

use super::words::{bare, bare_inches};
use super::{Basis, Kind};
use crate::build::{Gap, LengthUnit, MountKind, RoofShape};
use crate::compute::cut_list::Limits;
use crate::derive::MountShape;
use crate::page::Sheet;
use crate::page::block::{Block, Cell, Heading, Row, Table, TableColumn};
use crate::page::text::Text;
use crate::tables::Tables;
use crate::units::Length;

/// One line: what, planned, low, high.
struct Check {
    what: String,
    planned: Length,
    limits: (Length, Length),
}

/// The sheet; none where nothing is measured first.
pub(super) fn measure(basis: &Basis) -> Vec<Sheet> {
    let groups: Vec<(&str, &str, Vec<Check>)> = vec![
        ("Panels", "each panel, as it lies on the bench", panels(basis)),
        ("Roof under a straightedge", "gap down to the skin", gaps(basis)),
        ("Rail and mounts", "before the frame is cut", mounts(basis)),
        ("In the way", "from the datum", keep_outs(basis)),
        ("Battery", "terminals included", battery(basis)),
    ];
    if groups.iter().all(|(_, _, list)| list.is_empty()) {
        return Vec::new();
    }
    let mut blocks = Vec::new();
    if let Some(roof) = &basis.build.roof {
        blocks.push(Block::Strong(
            format!("Zero of X and Y: {}. Y is negative on the left.", roof.datum.value).into(),
        ));
    }
    for (name, aside, list) in groups.into_iter().filter(|(_, _, list)| !list.is_empty()) {
        blocks.push(Block::Heading(Heading::new(name).aside(aside)));
        blocks.push(Block::Table(table(basis, list)));
    }
    blocks.push(Block::Heading(Heading::new("If a value lies outside its limits")));
    blocks.push(Block::Bullets(words(basis)));
    vec![Sheet {
        anchor: "measure".into(),
        title: "Sizes to confirm".into(),
        purpose: "What the plan rests on; each is measured before anything is cut.".into(),
        tab: Some(Kind::Measure.tab()),
        steps: None,
        blocks,
        single_sided: true,
    }]
}

fn table(basis: &Basis, list: Vec<Check>) -> Table {
    let inch = *basis.build.job.units == LengthUnit::Inch;
    let rows = list
        .into_iter()
        .map(|check| {
            let inches = bare_inches(check.planned);
            let mut cells = vec![
                Cell::Head(check.what.into()),
                bare(check.planned, 1).into(),
                bare(check.limits.0, 1).into(),
                bare(check.limits.1, 1).into(),
                Cell::Blank("mm".into()),
            ];
            if inch {
                cells.insert(2, inches.into());
            }
            Row::new(cells)
        })
        .collect();
    let mut columns = vec![
        TableColumn::left("what"),
        TableColumn::number("planned, mm"),
        TableColumn::number("low, mm"),
        TableColumn::number("high, mm"),
        TableColumn::left("measured"),
    ];
    if inch {
        columns.insert(2, TableColumn::right("planned, in (1/32)"));
    }
    Table { columns, rows, ..Table::default() }
}

/// A size made in a works: general tolerance.
fn made(what: String, planned: Length) -> Check {
    let limits = Limits::general(planned, Tables::builtin());
    Check { what, planned, limits: (limits.low, limits.high) }
}

/// A reading on the vehicle, with the workmanship limit of its kind.
fn read(basis: &Basis, what: String, planned: Length, limit: &str) -> Check {
    let (low, high) = basis.results.steps.facts.limit(limit).unwrap_or((0.0, 0.0));
    let (low, high) = (Length::mm(low.abs()), Length::mm(high));
    Check { what, planned, limits: (planned - low, planned + high) }
}

fn panels(basis: &Basis) -> Vec<Check> {
    let Some(array) = &basis.work.array else { return Vec::new() };
    array
        .panels
        .iter()
        .filter_map(|place| basis.build.panels.get(place.panel).map(|panel| (place, panel)))
        .flat_map(|(place, panel)| {
            let mut list = vec![
                made(format!("{} long side", place.mark), *panel.length),
                made(format!("{} short side", place.mark), *panel.width),
            ];
            if *panel.flange.width > Length::ZERO {
                list.push(made(format!("{} flange width", place.mark), *panel.flange.width));
            }
            if *panel.recess > Length::ZERO {
                list.push(made(format!("{} rim to back sheet", place.mark), *panel.recess));
            }
            list
        })
        .collect()
}

/// "350 left" of the centre line.
fn side(at: Length) -> String {
    let side = if at < Length::ZERO { "left" } else { "right" };
    format!("{}\u{a0}mm {side}", bare(at.abs(), 0))
}

fn gaps(basis: &Basis) -> Vec<Check> {
    let Some(roof) = &basis.build.roof else { return Vec::new() };
    match &roof.shape {
        RoofShape::Gaps { stations, along, .. } => {
            let across = stations.iter().flat_map(|station| {
                station.gaps.iter().filter(|gap| gap.gap > Length::ZERO).map(|gap: &Gap| {
                    read(
                        basis,
                        format!("X {}\u{a0}mm, {}", bare(*station.x, 0), side(gap.at)),
                        gap.gap,
                        "reading",
                    )
                })
            });
            let along = along.iter().filter(|gap| gap.gap > Length::ZERO).map(|gap| {
                let what = format!("centre line, X {}\u{a0}mm", bare(gap.at, 0));
                read(basis, what, gap.gap, "reading")
            });
            across.chain(along).collect()
        }
        RoofShape::Crown(crown) => [-1.0, 1.0]
            .iter()
            .map(|way| {
                let what = format!("any X, {}", side(*crown.chord * 0.5 * *way));
                read(basis, what, *crown.rise, "reading")
            })
            .collect(),
        RoofShape::Flat => Vec::new(),
    }
}

fn mounts(basis: &Basis) -> Vec<Check> {
    let mut list = Vec::new();
    for mount in &basis.build.mounts {
        if let MountKind::Hinge(line) = &mount.kind {
            list.push(read(basis, "middle of rail top, Y".into(), *line.rail.y, "placing"));
            list.push(read(basis, "width of rail top".into(), *line.rail.width, "reading"));
        }
    }
    for place in &basis.work.mounts {
        match &place.kind {
            MountShape::Hinge { .. } => {
                if let Some(MountKind::Hinge(line)) =
                    basis.build.mounts.get(place.mount).map(|m| &m.kind)
                {
                    list.push(read(
                        basis,
                        format!("rail top over skin at {}", place.mark),
                        *line.rail.height,
                        "reading",
                    ));
                }
            }
            MountShape::BondedFoot { .. } => {
                if let Some(array) = &basis.work.array {
                    list.push(read(
                        basis,
                        format!("skin below crown at {}", place.mark),
                        array.crown - place.roof.z,
                        "reading",
                    ));
                }
            }
        }
    }
    list
}

fn keep_outs(basis: &Basis) -> Vec<Check> {
    let Some(roof) = &basis.build.roof else { return Vec::new() };
    roof.keep_outs
        .iter()
        .flat_map(|keep| {
            let name = &keep.name.value;
            [
                read(basis, format!("{name}, front edge X"), *keep.x, "placing"),
                read(basis, format!("{name}, rear edge X"), *keep.x + *keep.length, "placing"),
                read(basis, format!("{name}, left edge Y"), *keep.y, "placing"),
                read(basis, format!("{name}, right edge Y"), *keep.y + *keep.width, "placing"),
            ]
        })
        .collect()
}

fn battery(basis: &Basis) -> Vec<Check> {
    basis.build.battery.as_ref().map_or_else(Vec::new, |battery| {
        vec![
            made("length".into(), *battery.length),
            made("width".into(), *battery.width),
            made("height".into(), *battery.height),
        ]
    })
}

fn words(basis: &Basis) -> Vec<Text> {
    let mut list: Vec<Text> =
        vec!["The measured value goes into the build file; the packet is printed anew; its fingerprint changes.".into()];
    if basis.work.array.is_some() {
        list.push("A panel out of its limits changes frame, cuts and every hole for it.".into());
    }
    if basis.build.roof.is_some() {
        list.push(
            "A gap out of its limits changes bends, bolt heights and packers near it.".into(),
        );
    }
    list.push("Nothing is cut until every box holds a value within its limits.".into());
    list
}

//! The roof sheet: plan, sections at the mounts, and the table of where each mount stands.

use super::scenes::{
    FootShows, Plan, PlanView, bracket_section, foot_section, hinge_section, lifted, roof_plan,
    roof_section, roof_side,
};
use super::words::{bare, bare_inches, mm};
use super::{Basis, Kind};
use crate::build::{Edge, KeepOut, LengthUnit, MountKind};
use crate::compute::steps::{facts::marks as marks_of, workmanship};
use crate::derive::{MountPlace, MountShape, PartKind};
use crate::page::Sheet;
use crate::page::block::{Block, Cell, Figure, Heading, Row, Table, TableColumn};
use crate::page::text::Text;
use crate::units::{Angle, Length, display};

/// The sheet; none where nothing stands on a roof.
pub(super) fn roof(basis: &Basis) -> Vec<Sheet> {
    let view = PlanView { sizes: true, whole: true, ..PlanView::default() };
    let Some(plan) = roof_plan(&Plan { build: basis.build, work: basis.work }, view) else {
        return Vec::new();
    };
    if basis.work.arrays.is_empty() && basis.work.mounts.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![Block::Figure(Figure::new(plan, 128.0).caption(caption(basis)))];
    if !basis.work.mounts.is_empty() {
        blocks.push(Block::Heading(
            Heading::new("Where the mounts stand")
                .aside("X behind zero, Y right of the centre line"),
        ));
        blocks.push(Block::Table(places(basis)));
        blocks.push(Block::Table(heights(basis)));
        blocks.push(Block::Paragraph(limits(basis)));
        blocks.extend(skin_holes(basis));
        blocks.extend(tilts(basis));
    }
    sections(basis, &mut blocks);
    vec![Sheet {
        anchor: "roof".into(),
        title: "Roof plan and sections".into(),
        purpose: "Where frame, mounts and entry stand on the roof.".into(),
        tab: Some(Kind::Roof.tab()),
        steps: None,
        blocks,
        single_sided: false,
    }]
}

fn caption(basis: &Basis) -> String {
    let datum = basis.build.roof.as_ref().map_or("", |roof| roof.datum.value.as_str());
    let any = |is: &dyn Fn(&KeepOut) -> bool| {
        basis.build.roof.as_ref().is_some_and(|roof| roof.keep_outs.iter().any(is))
    };
    let mut hatched = String::new();
    if any(&|keep| !keep.lets_frames_over()) {
        hatched += " Hatched: keep-outs.";
    }
    if any(&|keep| keep.taken() != keep.places()) {
        hatched += " Broken lines: open lids.";
    }
    format!("Zero: {datum}. Sizes in mm; Y is negative on the left.{hatched}")
}

fn sections(basis: &Basis, blocks: &mut Vec<Block>) {
    let on = Plan { build: basis.build, work: basis.work };
    let mounts = &basis.work.mounts;
    let foot = mounts.iter().find(|m| matches!(m.kind, MountShape::BondedFoot { .. }));
    let hinge = mounts.iter().find(|m| matches!(m.kind, MountShape::Hinge { .. }));
    let Some(first) = foot.or(hinge).or(mounts.first()) else { return };
    if let Some(scene) = roof_section(&on, first) {
        blocks.push(Block::Heading(
            Heading::new("Across the roof").aside("frame over skin at both edges, mm"),
        ));
        blocks.push(Block::Figure(Figure::new(scene, 50.0)));
    }
    if let Some(scene) = roof_side(&on) {
        blocks.push(Block::Heading(
            Heading::new("Along the roof").aside("frame over skin at its ends, on the centre line"),
        ));
        blocks.push(Block::Figure(Figure::new(scene, 50.0)));
    }
    // Mounts that are made alike share a section; their heights are in the table.
    let mut made: Vec<(String, Vec<&MountPlace>)> = Vec::new();
    for mount in mounts {
        let make = make(basis, mount);
        match made.iter_mut().find(|(known, _)| *known == make) {
            Some((_, alike)) => alike.push(mount),
            None => made.push((make, vec![mount])),
        }
    }
    for (_, alike) in made {
        let Some((mount, rest)) = alike.split_first() else { continue };
        let scene = match mount.kind {
            MountShape::BondedFoot { .. } => foot_section(&on, mount, FootShows::Frame),
            MountShape::Hinge { .. } => hinge_section(&on, mount),
            MountShape::BoltedFoot { .. } | MountShape::RailClamp { .. } => {
                bracket_section(&on, mount)
            }
        };
        let Some(scene) = scene else { continue };
        let told = |same: bool| {
            let marks: Vec<&str> = rest
                .iter()
                .filter(|other| (other.edge == mount.edge) == same)
                .map(|other| other.mark.as_str())
                .collect();
            (!marks.is_empty()).then(|| marks_of(&marks))
        };
        let aside: Vec<String> = [
            told(true).map(|marks| format!("{marks} alike but for height")),
            told(false).map(|marks| format!("{marks} the other way round")),
        ]
        .into_iter()
        .flatten()
        .collect();
        blocks.push(Block::Heading(
            Heading::new(format!("Section at {} {}", mount.name, mount.mark))
                .aside(aside.join("; ")),
        ));
        blocks.push(Block::Figure(Figure::new(scene, 92.0)));
    }
}

/// What a mount is made of, as far as a section shows it.
fn make(basis: &Basis, mount: &MountPlace) -> String {
    let Some(written) = basis.build.mounts.get(mount.mount) else { return String::new() };
    // Feet across and along the vehicle are seen from other sides.
    let across = matches!(mount.edge, Edge::Left | Edge::Right);
    let made = match &written.kind {
        MountKind::BondedFoot(foot) => {
            let plate = &foot.plate;
            let (width, thick, shift) = (*plate.width, *plate.thickness, *plate.shift);
            let (tape, bead) = (foot.tape.is_some(), foot.bead.is_some());
            let (angle, wedge) = (&foot.angle.words, foot.wedge.is_some());
            format!("bonded {angle} {width:?} {thick:?} {shift:?} {tape} {bead} {wedge}")
        }
        MountKind::BoltedFoot(foot) => {
            let (angle, spreader) = (&foot.angle.words, &foot.spreader);
            let (width, thick, wedge) =
                (*spreader.width, *spreader.thickness, foot.wedge.is_some());
            let (bolt, roof) = (&foot.bolt.name, &foot.roof_bolt.name);
            format!("bolted {angle} {width:?} {thick:?} {wedge} {bolt} {roof}")
        }
        MountKind::RailClamp(clamp) => {
            let (angle, rail) = (&clamp.angle.words, &clamp.rail);
            let (thick, wide, high) = (*clamp.thickness, *rail.width, *rail.height);
            let (bolt, other) = (&clamp.bolt.name, &clamp.clamp_bolt.name);
            format!("clamp {angle} {thick:?} {wide:?} {high:?} {bolt} {other}")
        }
        MountKind::Hinge(line) => {
            let (wide, high) = (*line.rail.width, *line.rail.height);
            format!("hinge {} {wide:?} {high:?} {}", line.hinge.name, line.bolt.name)
        }
    };
    format!("{made} {across}")
}

/// Places as a tape finds them. Level sizes are in no reach of a tape on a crowned roof: with inches
/// beside them there is no room for what is not measured.
fn places(basis: &Basis) -> Table {
    let inch = *basis.build.job.units == LengthUnit::Inch;
    let columns = if inch {
        vec![
            TableColumn::left("mark"),
            TableColumn::number("X, mm"),
            TableColumn::right("in"),
            TableColumn::number("Y by tape, mm"),
            TableColumn::right("in"),
            TableColumn::number("from zero by tape, mm"),
            TableColumn::right("in"),
        ]
    } else {
        vec![
            TableColumn::left("mark"),
            TableColumn::left("mount"),
            TableColumn::number("X, mm"),
            TableColumn::number("Y level, mm"),
            TableColumn::number("Y by tape on skin, mm"),
            TableColumn::number("from zero by tape, mm"),
        ]
    };
    let mut all: Vec<(String, String, Length, Length)> = basis
        .work
        .mounts
        .iter()
        .map(|m| (m.mark.clone(), m.name.clone(), m.at.x, m.at.y))
        .collect();
    if let Some(entry) = &basis.work.entry {
        all.push((entry.mark.clone(), "cable entry".into(), entry.at.x, entry.at.y));
    }
    let zero = (Length::ZERO, Length::ZERO);
    let rows = all
        .into_iter()
        .map(|(mark, name, x, y)| {
            let roof = basis.work.roof.as_ref();
            let tape = roof.map_or(y, |roof| roof.by_tape_across(x, y));
            let slant = roof.map_or(x.hypot(y), |roof| roof.by_tape(zero, (x, y)));
            let cells: Vec<Cell> = if inch {
                let mut cells = vec![Cell::Head(mark.into())];
                for size in [x, tape, slant] {
                    cells.push(bare(size, 1).into());
                    cells.push(bare_inches(size).into());
                }
                cells
            } else {
                vec![
                    Cell::Head(mark.into()),
                    name.into(),
                    bare(x, 1).into(),
                    bare(y, 1).into(),
                    bare(tape, 1).into(),
                    bare(slant, 1).into(),
                ]
            };
            Row::new(cells)
        })
        .collect();
    Table { columns, rows, ..Table::default() }
}

fn degrees(angle: Angle) -> String {
    display::number(angle.to_deg(), 1)
}

/// What each mount bridges.
fn heights(basis: &Basis) -> Table {
    let rows = basis
        .work
        .mounts
        .iter()
        .map(|mount| {
            let (bend, bolt, packer) = match &mount.kind {
                MountShape::BondedFoot { bolt_height, bend, .. }
                | MountShape::BoltedFoot { bolt_height, bend, .. } => {
                    (degrees(*bend).into(), bare(*bolt_height, 1).into(), Cell::Dash)
                }
                MountShape::RailClamp { bolt_height, packer, .. } => {
                    (Cell::Dash, bare(*bolt_height, 1).into(), bare(*packer, 1).into())
                }
                MountShape::Hinge { packer, .. } => {
                    (Cell::Dash, Cell::Dash, bare(*packer, 1).into())
                }
            };
            Row::new(vec![
                Cell::Head(mount.mark.clone().into()),
                bare(mount.at.z - mount.roof.z, 1).into(),
                degrees(mount.slope_across).into(),
                bend,
                bolt,
                packer,
            ])
        })
        .collect();
    Table {
        columns: vec![
            TableColumn::left("mark"),
            TableColumn::number("frame over skin, mm"),
            TableColumn::number("slope across, °"),
            TableColumn::number("bend of angle, °"),
            TableColumn::number("heel of angle to bolts, mm"),
            TableColumn::number("packer, mm"),
        ],
        rows,
        ..Table::default()
    }
}

fn limits(basis: &Basis) -> Text {
    let mounts: &[MountPlace] = &basis.work.mounts;
    let gap = mounts.iter().map(|m| m.plate_gap).fold(Length::ZERO, Length::max);
    let mut words = vec![
        "Places are of the frame’s outer face at the middle of each mount; slope is positive where the skin rises to the right.".to_owned(),
    ];
    if gap > Length::ZERO {
        words.push(format!("The skin leaves a flat plate by {} at most.", mm(gap, 1)));
    }
    if let Some((low, high)) = workmanship("placing") {
        let plus = Length::mm(low.abs().max(high));
        words.push(format!("Limits of a place: {} either way.", mm(plus, 0)));
    }
    words.join(" ").into()
}

/// Holes through the skin under bolted feet, as a tape finds them from the datum.
fn skin_holes(basis: &Basis) -> Vec<Block> {
    let work = basis.work;
    let mut rows = Vec::new();
    for at in work.fastenings.iter().flat_map(|fastening| fastening.places.iter().flatten()) {
        let Some((part, piece)) = work.piece(&at.piece) else { continue };
        let Some(hole) = work.hole(&at.hole) else { continue };
        let Some(face) = part.faces.get(hole.face) else { continue };
        if part.kind != PartKind::SkinUnderFoot {
            continue;
        }
        let place = piece.place.place(face.point(hole.at));
        let tape = work.roof.as_ref().map_or(place.y, |roof| roof.by_tape_across(place.x, place.y));
        rows.push(Row::new(vec![
            Cell::Head(format!("{}, {}", piece.mark, hole.id).into()),
            bare(place.x, 1).into(),
            bare(place.y, 1).into(),
            bare(tape, 1).into(),
            bare(hole.diameter, 1).into(),
        ]));
    }
    if rows.is_empty() {
        return Vec::new();
    }
    vec![
        Block::Heading(
            Heading::new("Holes through the skin")
                .aside("a check: each is drilled through its foot"),
        ),
        Block::Table(Table {
            columns: vec![
                TableColumn::left("hole"),
                TableColumn::number("X, mm"),
                TableColumn::number("Y level, mm"),
                TableColumn::number("Y by tape on skin, mm"),
                TableColumn::number("size, mm"),
            ],
            rows,
            ..Table::default()
        }),
    ]
}

/// The frame lifted to several angles.
fn tilts(basis: &Basis) -> Vec<Block> {
    if basis.work.tilts.is_empty() {
        return Vec::new();
    }
    let rows = basis.work.tilts.iter().map(|tilt| {
        Row::new(vec![
            Cell::Head(degrees(tilt.angle).into()),
            bare(tilt.top, 0).into(),
            bare(tilt.prop, 0).into(),
            bare(tilt.slack, 0).into(),
            bare(tilt.reach, 0).into(),
            bare(tilt.clearance, 0).into(),
            tilt.keep_out.as_ref().map_or(Cell::Dash, |(_, room)| bare(*room, 0).into()),
        ])
    });
    let on = Plan { build: basis.build, work: basis.work };
    let drawn = lifted(&on).map(|scene| Block::Figure(Figure::new(scene, 112.0)));
    let mut blocks = vec![
        Block::Heading(Heading::new("The frame lifted").aside("about its hinges, parked")),
        Block::Table(Table {
            columns: vec![
                TableColumn::number("lift, °"),
                TableColumn::number("top over roof zero, mm"),
                TableColumn::number("prop, mm"),
                TableColumn::number("cable slack, mm"),
                TableColumn::number("sweep beyond pins, mm"),
                TableColumn::number("tubes over skin, mm"),
                TableColumn::number("to keep-outs, mm"),
            ],
            rows: rows.collect(),
            ..Table::default()
        }),
    ];
    blocks.extend(drawn);
    blocks
}

/// Used beside the key figures of the cover.
pub(super) fn small_plan(basis: &Basis) -> Option<Block> {
    let plan = |sizes: bool| {
        roof_plan(
            &Plan { build: basis.build, work: basis.work },
            PlanView { sizes, whole: true, ..PlanView::default() },
        )
        .map(|scene| vec![Block::Figure(Figure::new(scene, 118.0))])
    };
    // Running sizes cost a line of height that a full or short cover has not.
    Some(Block::Choice(vec![plan(true)?, plan(false)?]))
}

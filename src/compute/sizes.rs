//! Sizes that are confirmed with a tape before anything is cut, each with its limits.
//!
//! The sheet of sizes and the step that measures them read them here, so that one size has one pair
//! of limits. A size made in a works may be off by its general tolerance, and by no more than the
//! design bears; a reading on the vehicle by what hand and tape hold.

mod panels;

use crate::build::{Build, Gap, RoofShape};
use crate::compute::cut_list::Limits;
use crate::compute::steps::workmanship;
use crate::derive::{MountShape, Work};
use crate::source::{Figure, Ledger, Seen};
use crate::tables::Tables;
use crate::units::{Length, Unit, display};

/// One size to confirm.
#[derive(Debug, Clone, PartialEq)]
pub struct Size {
    /// What it is of, for other chapters: "P1 length", "battery length", "station 0 1".
    pub key: String,
    /// What is measured, for people.
    pub what: String,
    /// As planned.
    pub planned: Length,
    /// Least and greatest.
    pub limits: Limits,
}

/// Sizes measured together.
#[derive(Debug, Clone, PartialEq)]
pub struct SizeGroup {
    /// Heading.
    pub name: &'static str,
    /// How they are measured.
    pub aside: &'static str,
    /// The sizes in order.
    pub sizes: Vec<Size>,
}

/// All sizes to confirm.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Sizes {
    /// Groups that have sizes, in the order of measuring.
    pub groups: Vec<SizeGroup>,
    /// Gap between the panels of each frame as they come to lie; none where none lie beside each other.
    pub gaps: Vec<Option<Limits>>,
}

impl Sizes {
    /// The size of this key.
    pub fn get(&self, key: &str) -> Option<&Size> {
        self.groups.iter().flat_map(|group| &group.sizes).find(|size| size.key == key)
    }
}

/// Gathers the sizes; the limits of what is made in a works go to the ledger.
pub fn sizes(build: &Build, work: &Work, tables: &Tables, ledger: &mut Ledger) -> Sizes {
    let panels = panels::sizes(build, work, tables, ledger);
    let between = panels::gaps(build, work, &panels);
    let groups = [
        ("Panels", "each panel, as it lies on the bench", panels),
        ("Roof under a straightedge", "gap down to the skin", gaps(build)),
        ("Rail and mounts", "before the frame is cut", mounts(build, work)),
        ("In the way", "from the datum", keep_outs(build)),
        ("Battery", "terminals included", battery(build, tables, ledger)),
    ];
    let groups = groups
        .into_iter()
        .filter(|(_, _, sizes)| !sizes.is_empty())
        .map(|(name, aside, sizes)| SizeGroup { name, aside, sizes })
        .collect();
    Sizes { groups, gaps: between }
}

/// A reading on the vehicle with the workmanship limit of its kind.
fn read(key: String, what: String, planned: Length, limit: &str) -> Size {
    let (low, high) = workmanship(limit).unwrap_or((0.0, 0.0));
    let limits = Limits { low: planned - Length::mm(low.abs()), high: planned + Length::mm(high) };
    Size { key, what, planned, limits }
}

/// "350 mm left" of the centre line.
fn side(at: Length) -> String {
    let side = if at < Length::ZERO { "left" } else { "right" };
    format!("{} {side}", display::in_unit(at.abs(), Unit::MM, 0))
}

fn gaps(build: &Build) -> Vec<Size> {
    let Some(roof) = &build.roof else { return Vec::new() };
    let x = |at: Length| format!("X {}", display::in_unit(at, Unit::MM, 0));
    let measured = |(_, gap): &(usize, &Gap)| gap.gap > Length::ZERO;
    let lengthwise = |along: &[Gap]| -> Vec<Size> {
        let told = along.iter().enumerate().filter(measured).map(|(row, gap)| {
            let what = format!("centre line, {}", x(gap.at));
            read(format!("along {row}"), what, gap.gap, "reading")
        });
        told.collect()
    };
    match &roof.shape {
        RoofShape::Gaps { stations, along, .. } => {
            let across = stations.iter().enumerate().flat_map(|(row, station)| {
                station.gaps.iter().enumerate().filter(measured).map(move |(column, gap)| {
                    let what = format!("{}, {}", x(*station.x), side(gap.at));
                    read(format!("station {row} {column}"), what, gap.gap, "reading")
                })
            });
            across.chain(lengthwise(along)).collect()
        }
        RoofShape::Crown(crown) => [("left", -0.5), ("right", 0.5)]
            .iter()
            .map(|(name, way)| {
                let what = format!("any X, {}", side(*crown.chord * *way));
                read(format!("crown {name}"), what, *crown.rise, "reading")
            })
            .chain(lengthwise(&crown.along))
            .collect(),
        RoofShape::Flat => Vec::new(),
    }
}

fn mounts(build: &Build, work: &Work) -> Vec<Size> {
    let mut list = Vec::new();
    for mount in &build.mounts {
        if let Some(rail) = mount.kind.rail() {
            let key = |what: &str| format!("{} rail {what}", mount.mark.value);
            list.push(read(key("y"), "middle of rail top, Y".into(), *rail.y, "placing"));
            list.push(read(key("width"), "width of rail top".into(), *rail.width, "reading"));
        }
    }
    for place in &work.mounts {
        match &place.kind {
            MountShape::Hinge { .. } | MountShape::RailClamp { .. } => {
                if let Some(rail) =
                    build.mounts.get(place.mount).and_then(|mount| mount.kind.rail())
                {
                    let what = format!("rail top over skin at {}", place.mark);
                    let key = format!("{} rail height", place.mark);
                    list.push(read(key, what, *rail.height, "reading"));
                }
            }
            MountShape::BondedFoot { .. } | MountShape::BoltedFoot { .. } => {
                if let Some(array) = work.arrays.get(place.frame) {
                    let what = format!("skin below crown at {}", place.mark);
                    let below = array.crown - place.roof.z;
                    list.push(read(format!("{} below", place.mark), what, below, "reading"));
                }
            }
        }
    }
    list
}

fn keep_outs(build: &Build) -> Vec<Size> {
    let Some(roof) = &build.roof else { return Vec::new() };
    roof.keep_outs
        .iter()
        .flat_map(|keep| {
            let name = &keep.name.value;
            [
                ("front edge X", *keep.x),
                ("rear edge X", *keep.x + *keep.length),
                ("left edge Y", *keep.y),
                ("right edge Y", *keep.y + *keep.width),
            ]
            .map(|(edge, at)| {
                read(format!("{name} {edge}"), format!("{name}, {edge}"), at, "placing")
            })
        })
        .collect()
}

/// Blocks are set against the battery itself, so any size within the general tolerance fits.
fn battery(build: &Build, tables: &Tables, ledger: &mut Ledger) -> Vec<Size> {
    let Some(battery) = &build.battery else { return Vec::new() };
    [("length", *battery.length), ("width", *battery.width), ("height", *battery.height)]
        .map(|(name, planned)| {
            let limits = Limits::general(planned, tables);
            ledger.push(
                general(
                    &format!("battery.{name}"),
                    &format!("{name} of the battery"),
                    planned,
                    limits,
                )
                .input("bears", "any: its blocks are set against it"),
            );
            Size { key: format!("battery {name}"), what: name.into(), planned, limits }
        })
        .into()
}

/// Figure of a size made in a works.
fn general(id: &str, what: &str, planned: Length, limits: Limits) -> Figure {
    Figure::new(
        format!("sizes.{id}"),
        format!("how far the {what} may be off, either way"),
        (limits.high - planned).to_mm(),
        "mm",
    )
    .formula("least of ISO 2768-1 class c and what the design bears")
    .input("planned", display::in_unit(planned, Unit::MM, 1))
    .source("ISO 2768-1 class c", Seen::Memory)
    .decides()
}

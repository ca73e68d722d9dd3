//! Tools that the work itself asks for.

use super::electrical;
use crate::build::Build;
use crate::compute::electrics::Electrics;
use crate::compute::restraint::{BlockScrew, floor_bolts};
use crate::derive::{Drilling, HoleKind, Screw, Work};
use crate::tables::Tables;
use crate::units::{Length, Unit, display};
use std::collections::{BTreeMap, BTreeSet};

/// Kinds of tool, in the order of the list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ToolGroup {
    /// Rules, squares, thermometers.
    Measure,
    /// Saws, files.
    Saw,
    /// Drills and bits.
    Drill,
    /// Drivers, sockets, rivet tools.
    Fix,
    /// Guns, rollers.
    Bond,
    /// Crimp tools, cutters, meter.
    Wire,
    /// Glasses, gloves.
    Protect,
}

impl ToolGroup {
    /// As printed.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Measure => "measuring and marking",
            Self::Saw => "sawing",
            Self::Drill => "drilling",
            Self::Fix => "fixing",
            Self::Bond => "bonding",
            Self::Wire => "wiring",
            Self::Protect => "protection",
        }
    }
}

/// One tool.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Tool {
    /// Kind.
    pub group: ToolGroup,
    /// What it is, with its size.
    pub what: String,
    /// What it is for.
    pub used_for: String,
}

/// Every tool once, in order.
pub(super) fn tools(
    build: &Build,
    work: &Work,
    electrics: Option<&Electrics>,
    tables: &Tables,
) -> Vec<Tool> {
    let mut list = Vec::new();
    let mut add = |group, what: String, used_for: String| list.push(Tool { group, what, used_for });
    add(ToolGroup::Measure, "steel rule 1 m and tape".into(), "all marks".into());
    let marks = !work.holes.is_empty() || !work.parts.is_empty() || build.restraint.is_some();
    if marks {
        add(ToolGroup::Measure, "square, scriber, felt pen".into(), "cuts and holes".into());
    }
    if work.roof.is_some() {
        add(ToolGroup::Measure, "straightedge as wide as the roof".into(), "roof gaps".into());
    }
    if !work.bonds.is_empty() || work.entry.is_some() {
        add(ToolGroup::Measure, "surface thermometer, hygrometer".into(), "hold points".into());
        add(ToolGroup::Bond, "cartridge gun, nozzles, knife".into(), "beads and seals".into());
    }
    if work.bonds.iter().any(|b| b.tape.is_some()) {
        add(ToolGroup::Bond, "hand roller or wood block".into(), "pressing tape".into());
    }
    let alone = work.bonds.iter().filter(|b| b.tape.is_none() || b.strips.is_empty()).count();
    if alone > 0 {
        let what = format!("weights or clamps, {alone} pairs, and spacers of the bond’s thickness");
        add(ToolGroup::Bond, what, "beads without tape".into());
    }
    let sawn = work.parts.iter().any(|p| {
        matches!(p.body, crate::derive::Body::Bar { .. } | crate::derive::Body::Plate { .. })
    });
    if sawn {
        add(ToolGroup::Saw, build.cutting.saw.words.clone(), "bars".into());
        add(ToolGroup::Saw, "flat file".into(), "sawn edges".into());
    }
    if let Some(screw) = build.restraint.as_ref().and_then(BlockScrew::of) {
        let mm = |size: Length| display::in_unit_short(size, Unit::MM, 1);
        add(ToolGroup::Drill, format!("wood drill {}", mm(screw.pilot)), "block screws".into());
        if screw.sink > Length::ZERO {
            let what = format!("flat wood bit {}, with stop", mm(screw.bore));
            add(ToolGroup::Drill, what, "heads of block screws".into());
        }
        add(ToolGroup::Fix, "screwdriver for the block screws".into(), "blocks".into());
    }
    for set in build.restraint.iter().flat_map(floor_bolts) {
        let hole = display::in_unit_short(set.bolt.thread.clearance.medium, Unit::MM, 1);
        add(
            ToolGroup::Drill,
            format!("wood and metal drill {hole}"),
            "bolts of the battery".into(),
        );
        add(ToolGroup::Fix, spanner(set.bolt.thread.hex_width), set.bolt.thread.name.clone());
    }
    if !build.lengths.is_empty() {
        add(ToolGroup::Saw, "cable cutter, knife".into(), "cable and tape".into());
    }
    drills(work, &mut add);
    fixing(work, &mut add);
    for protective in &tables.protectives {
        if wanted(&protective.name, build, work) {
            add(ToolGroup::Protect, protective.words.clone(), String::new());
        }
    }
    electrical::tools(build, electrics, &mut list);
    list.sort();
    list.dedup();
    list
}

fn drills(work: &Work, add: &mut impl FnMut(ToolGroup, String, String)) {
    let mut sizes: BTreeMap<i64, BTreeSet<&str>> = BTreeMap::new();
    for hole in &work.holes {
        // Drilled through its mate, the mate's own bits do; both hold the final bit.
        if !matches!(hole.drilling, Drilling::Through(_) | Drilling::Apart) {
            continue;
        }
        for bit in &hole.drills {
            sizes.entry((bit.to_mm() * 100.0).round() as i64).or_default().insert(hole.id.as_str());
        }
    }
    for (hundredths, holes) in sizes {
        let size = Length::mm(hundredths as f64 / 100.0);
        let bit = if size > Length::mm(13.0) { "step drill or hole saw" } else { "twist drill" };
        add(
            ToolGroup::Drill,
            format!("{bit} {}", display::in_unit_short(size, Unit::MM, 2)),
            if holes.len() == 1 { "1 hole".into() } else { format!("{} holes", holes.len()) },
        );
    }
    if !work.holes.is_empty() {
        add(ToolGroup::Drill, "drill driver, centre punch, hammer".into(), "all holes".into());
        add(ToolGroup::Drill, "clamps, two".into(), "drilling through".into());
        add(ToolGroup::Drill, "deburring tool".into(), "all holes".into());
    }
    if work.holes.iter().any(|h| h.countersink.is_some()) {
        add(ToolGroup::Drill, "countersink 90°".into(), "countersunk holes".into());
    }
}

fn fixing(work: &Work, add: &mut impl FnMut(ToolGroup, String, String)) {
    for fastening in &work.fastenings {
        match &fastening.screw {
            Screw::BoltInRivetNut { thread, .. } => {
                add(ToolGroup::Fix, format!("rivet nut tool {}", thread.name), "rivet nuts".into());
                if !fastening.undone {
                    add(ToolGroup::Fix, spanner(thread.hex_width), thread.name.clone());
                    add(ToolGroup::Fix, "torque wrench".into(), "bolts".into());
                }
            }
            Screw::BoltAndNut { thread, countersunk, .. } => {
                add(ToolGroup::Fix, spanner(thread.nut_width), thread.name.clone());
                if *countersunk {
                    add(
                        ToolGroup::Fix,
                        format!(
                            "hexagon key {}",
                            display::in_unit_short(thread.countersunk_head.key, Unit::MM, 1)
                        ),
                        thread.name.clone(),
                    );
                }
            }
            Screw::Pin { .. } => {}
            Screw::Tapping { screw, .. } => {
                add(
                    ToolGroup::Fix,
                    format!("screwdriver, cross recess {}", screw.recess),
                    screw.name.clone(),
                );
            }
            Screw::BlindRivet { rivet, .. } => {
                add(
                    ToolGroup::Fix,
                    format!("rivet tool {}", display::in_unit_short(rivet.diameter, Unit::MM, 1)),
                    "blind rivets".into(),
                );
            }
        }
    }
}

fn spanner(width: Length) -> String {
    format!("socket and spanner {}", display::in_unit_short(width, Unit::MM, 1))
}

fn wanted(name: &str, build: &Build, work: &Work) -> bool {
    let bonded = !work.bonds.is_empty() || work.entry.is_some();
    match name {
        "eye-protection" => true,
        "work-gloves" => !work.parts.is_empty() || build.restraint.is_some(),
        "safety-footwear" => work.roof.is_some() || !build.panels.is_empty(),
        "nitrile-gloves" | "open-air" | "no-flames" => bonded,
        "hearing-protection" | "dust-mask" => work.holes.iter().any(|h| h.kind != HoleKind::Cable),
        "insulated-tools" | "fire-extinguisher" => build.battery.is_some(),
        "module-cover" => build.panels.iter().any(|p| p.voc.is_some()),
        "platform" => work.roof.is_some(),
        _ => false,
    }
}

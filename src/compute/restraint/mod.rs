//! What holds the battery: blocks against sliding, straps against lifting and tipping, or a cradle.
//!
//! Straps follow EN 12195-1:2010; what its edition of 2003 asked is told beside it. Wood screws and
//! bolts in wood follow EN 1995-1-1, what bolts and plates of steel bear EN 1993-1-8.

mod level;
pub mod pull;
pub mod rules;
pub mod screw;
mod vent;

use crate::build::{Anchor, Battery, Build, HoldBy, Restraint, ThroughBolt};
use crate::source::{Figure, Finding, Ledger, Seen};
use crate::tables::{RestraintLevel, Tables};
use crate::units::{Force, Length, Ratio, STANDARD_GRAVITY};

pub use level::{LashingsNeeded, lashings_needed};
pub use vent::Vent;

/// Uses of what holds the battery.
#[derive(Debug, Clone)]
pub struct RestraintUse {
    /// Each direction with its force, what resists, and the use, at the level that is asked.
    pub directions: Vec<DirectionUse>,
    /// Every level that the tables know, with its forces and its greatest use.
    pub levels: Vec<LevelUse>,
    /// What each piece may carry.
    pub pieces: Vec<Piece>,
    /// Straps over the top that friction alone would take, by two editions of EN 12195-1.
    pub lashings: Option<LashingsNeeded>,
    /// How each screw goes through its block; none where blocks are not screwed.
    pub block_screw: Option<BlockScrew>,
    /// Forces of a crash of a light vehicle, forward and sideways.
    pub crash: (Force, Force),
    /// Whether the battery would tip over its blocks without the strap, forward.
    pub tips: bool,
}

/// One direction.
#[derive(Debug, Clone)]
pub struct DirectionUse {
    /// "forward".
    pub name: &'static str,
    /// Force of the battery.
    pub force: Force,
    /// Capacity against it.
    pub capacity: Force,
    /// What resists.
    pub by: String,
    /// Use of capacity.
    pub share: Ratio,
}

/// One level.
#[derive(Debug, Clone)]
pub struct LevelUse {
    /// In words.
    pub words: String,
    /// Whether it is the one that is asked.
    pub asked: bool,
    /// Forward, rearward, sideways, up.
    pub forces: [Force; 4],
    /// The direction that asks most, and its use.
    pub most: (&'static str, Ratio),
}

/// A piece with what it may carry.
#[derive(Debug, Clone)]
pub struct Piece {
    /// What it is.
    pub what: String,
    /// What it may carry.
    pub holds: Force,
    /// By what.
    pub by: String,
}

/// How a screw goes through a block of the battery.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BlockScrew {
    /// Drill for its thread.
    pub pilot: Length,
    /// How deep its head sits below the top of the block, so that its point reaches through the
    /// floor; nothing where it is long enough.
    pub sink: Length,
    /// Drill for its head.
    pub bore: Length,
    /// How far its point passes the floor.
    pub passes: Length,
}

impl BlockScrew {
    /// Pilot over the diameter; common practice for plywood.
    const PILOT: f64 = 0.65;
    /// Head of a countersunk wood screw over its diameter (DIN 7997; from memory).
    const HEAD: f64 = 2.0;

    /// From what the build file states; none where blocks are not screwed.
    pub fn of(held: &Restraint) -> Option<Self> {
        let screw = held.screw.as_ref().filter(|_| *held.blocks > 0 && held.bolt.is_none())?;
        let stack = *held.block_height + *held.floor_thickness;
        // Drills are sold in half millimetres, flat bits in whole ones.
        let pilot = (screw.diameter.to_mm() * Self::PILOT * 2.0).round() / 2.0;
        let bore = (screw.diameter.to_mm() * Self::HEAD).ceil() + 1.0;
        Some(Self {
            pilot: Length::mm(pilot),
            sink: (stack - *screw.length).max(Length::ZERO),
            bore: Length::mm(bore),
            passes: (*screw.length - stack).max(Length::ZERO),
        })
    }
}

/// Bolts through the floor that hold one thing.
#[derive(Debug, Clone, Copy)]
pub struct FloorBolts<'a> {
    /// "blocks", "cradle", "strap ends".
    pub what: &'static str,
    /// The bolt with its plate.
    pub bolt: &'a ThroughBolt,
    /// How many in all.
    pub count: u32,
    /// What it clamps, with its nut and washers.
    pub grip: Length,
}

/// All bolts through the floor.
pub fn floor_bolts(held: &Restraint) -> Vec<FloorBolts<'_>> {
    /// A cradle's foot or a fitting.
    const FOOT: Length = Length::mm(4.0);
    let grip = |bolt: &ThroughBolt, over: Length| {
        let plate = bolt.spreader.as_ref().map_or(Length::ZERO, |plate| *plate.thickness);
        let thread = &bolt.thread;
        // Two pitches show.
        let nut = thread.locking_nut_height + thread.pitch * 2.0;
        *held.floor_thickness + over + plate + thread.large_washer.thickness * 2.0 + nut
    };
    let mut list = Vec::new();
    if let Some(bolt) = &held.bolt {
        if *held.kind == HoldBy::Cradle {
            list.push(FloorBolts {
                what: "cradle",
                bolt,
                count: *bolt.count,
                grip: grip(bolt, FOOT),
            });
        } else if *held.blocks > 0 {
            list.push(FloorBolts {
                what: "blocks",
                bolt,
                count: *held.blocks * *held.screws_a_block,
                grip: grip(bolt, *held.block_height),
            });
        }
    }
    if let Some(Anchor::Bolts(bolt)) = held.anchor.as_ref().filter(|_| *held.straps > 0) {
        list.push(FloorBolts {
            what: "strap ends",
            bolt,
            count: *held.straps * 2 * *bolt.count,
            grip: grip(bolt, FOOT),
        });
    }
    list
}

/// Level that [`RestraintUse::crash`] is of.
const CRASH: &str = "m1-n1";

/// Works out the restraint; `None` without a battery or without anything that holds it.
pub fn restraint(
    build: &Build,
    tables: &Tables,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<RestraintUse> {
    let battery = build.battery.as_ref()?;
    let weight = battery.bank_mass() * STANDARD_GRAVITY;
    let pulls = tables.restraint_level(CRASH).map_or([0.0; 4], |row| row.pulls);
    let crash = (weight * pulls[0], weight * pulls[2]);
    too_hot(battery, findings);
    let Some(held) = &build.restraint else {
        findings.push(rules::loose(battery, pulls[0]));
        return None;
    };
    let strengths = level::Strengths::of(battery, held, tables);
    let directions = strengths.directions(&held.level);
    // The gentlest first.
    let mut rows: Vec<&RestraintLevel> = tables.restraint_levels.iter().collect();
    rows.sort_by(|a, b| a.pulls[0].total_cmp(&b.pulls[0]));
    let levels =
        rows.into_iter().map(|row| at_level(&strengths, row, &held.level, weight)).collect();
    for direction in &directions {
        record(direction, &held.level, ledger);
    }
    findings.extend(weak(&directions, held));
    if *held.straps > 0 && held.anchor.is_none() {
        findings.push(rules::no_anchor(held));
    }
    if let Some(crate::build::Anchor::Screws(screw, _)) = &held.anchor {
        findings.push(rules::screws_pulled(screw, held));
    }
    let block_screw = BlockScrew::of(held);
    if let (Some(own), Some(screw)) = (block_screw, &held.screw) {
        let told = |length: Length| format!("{:.1} mm", length.to_mm());
        ledger.push(
            Figure::new(
                "restraint.sink",
                "depth of the screw heads below the top of the blocks",
                own.sink.to_mm(),
                "mm",
            )
            .formula("s = block + floor − screw, zero at least")
            .input("block", told(*held.block_height))
            .input("floor", told(*held.floor_thickness))
            .input("screw", told(*screw.length))
            .source("geometry: the point reaches through the floor", Seen::Computed)
            .decides(),
        );
    }
    ledger.push(
        Figure::new("restraint.crash.forward", "force of a crash, forward", crash.0.to_n(), "N")
            .formula("F = 20 g m")
            .source("ISO 12991 table 1 level for M1 and N1, for information", Seen::Verified),
    );
    let lashings = (*held.kind == HoldBy::TopOver && *held.straps > 0)
        .then(|| lashings_needed(weight, held, true));
    // Tipping about the block's upper edge: half the height against half the length.
    let lever: Length = (*battery.height * 0.5 - *held.block_height).max(Length::ZERO);
    let over_blocks = *held.straps > 0 && *held.kind != HoldBy::Cradle;
    let tips = over_blocks && lever * held.level.pulls[0] > battery.row_size().0 * 0.5;
    Some(RestraintUse {
        directions,
        levels,
        pieces: strengths.pieces(),
        lashings,
        block_screw,
        crash,
        tips,
    })
}

/// Air for a battery that gives off gas.
pub fn vent(build: &Build, ledger: &mut Ledger) -> Option<Vent> {
    vent::vent(build.battery.as_ref()?, ledger)
}

fn at_level(
    strengths: &level::Strengths<'_>,
    row: &RestraintLevel,
    asked: &RestraintLevel,
    weight: Force,
) -> LevelUse {
    let most = strengths
        .directions(row)
        .into_iter()
        .rev()
        .max_by(|a, b| a.share.total_cmp(&b.share))
        .map_or(("forward", Ratio::ZERO), |direction| (direction.name, direction.share));
    LevelUse {
        words: row.words.clone(),
        asked: row.name == asked.name,
        forces: row.pulls.map(|pull| weight * pull),
        most,
    }
}

fn record(direction: &DirectionUse, level: &RestraintLevel, ledger: &mut Ledger) {
    let figure = Figure::new(
        format!("restraint.use.{}", direction.name.replace(' ', "-")),
        format!("use of what holds the battery, {}", direction.name),
        direction.share.to_fraction(),
        "",
    )
    .formula("u = a m g / R")
    .input("a m g", format!("{:.0} N", direction.force.to_n()))
    .input("R", format!("{:.0} N ({})", direction.capacity.to_n(), direction.by))
    .source(format!("{}; EN 12195-1, EN 1995-1-1, EN 1993-1-8", level.words), Seen::Memory);
    let figure = if level.friction {
        figure.assume("friction counts only where nothing else holds")
    } else {
        figure.assume("friction is not counted")
    };
    ledger.push(figure.decides());
}

/// What is told of once: what holds level, what holds down, what holds upright.
fn weak(directions: &[DirectionUse], held: &Restraint) -> Vec<Finding> {
    let group = |direction: &DirectionUse| match direction.name {
        "up" => 1,
        name if name.starts_with("tipping") => 2,
        _ => 0,
    };
    (0..3)
        .filter_map(|number| {
            directions
                .iter()
                .filter(|direction| group(direction) == number)
                .max_by(|a, b| a.share.total_cmp(&b.share))
        })
        .filter(|direction| direction.share.to_fraction() >= 0.8)
        .map(|direction| rules::weak(direction, held))
        .collect()
}

/// A battery charged where it gets too hot.
fn too_hot(battery: &Battery, findings: &mut Vec<Finding>) {
    let most = battery.chemistry.charge[1];
    if *battery.hottest > most {
        findings.push(rules::too_hot(battery, most));
    }
}

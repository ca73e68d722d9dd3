//! What holds the battery: blocks against sliding, a strap against lifting and tipping.

pub mod rules;
pub mod screw;

use crate::build::{Build, Restraint};
use crate::source::{Figure, Finding, Ledger, Seen, Severity, Span};
use crate::units::{Force, Length, Ratio, STANDARD_GRAVITY, display};

/// Road factors in g: forward, rearward, sideways (design ruling; EN 12195-1 for the last two).
const ROAD: [(&str, f64); 3] = [("forward", 1.0), ("rearward", 0.5), ("sideways", 0.6)];
/// Upward pull by small-craft rule: twice the weight (ISO 10239 family, 33 CFR 183.420).
const UP: f64 = 2.0;
/// Crash level of M1 and N1 vehicles, in g, forward and sideways (ISO 12991 table 1): information.
const CRASH: (f64, f64) = (20.0, 8.0);
/// Uses of what holds the battery.
#[derive(Debug, Clone)]
pub struct RestraintUse {
    /// Each direction with its force, what resists, and the use.
    pub directions: Vec<DirectionUse>,
    /// Shear that one screw carries by design.
    pub screw: Force,
    /// How each screw goes through its block.
    pub block_screw: BlockScrew,
    /// Forces of a crash, forward and sideways, for information.
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

    /// From what the build file states.
    pub fn of(held: &Restraint) -> Self {
        let stack = *held.block_height + *held.floor_thickness;
        // Drills are sold in half millimetres, flat bits in whole ones.
        let pilot = (held.screw_diameter.to_mm() * Self::PILOT * 2.0).round() / 2.0;
        let bore = (held.screw_diameter.to_mm() * Self::HEAD).ceil() + 1.0;
        Self {
            pilot: Length::mm(pilot),
            sink: (stack - *held.screw_length).max(Length::ZERO),
            bore: Length::mm(bore),
            passes: (*held.screw_length - stack).max(Length::ZERO),
        }
    }
}

/// Works out the restraint; `None` without a battery or without anything that holds it.
pub fn restraint(
    build: &Build,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<RestraintUse> {
    let battery = build.battery.as_ref()?;
    let Some(held) = &build.restraint else {
        findings.push(
            Finding::new(
                &rules::LOOSE,
                format!("nothing holds the battery of {:.1} kg", battery.mass.to_kg()),
            )
            .at(battery.span, "this battery")
            .means(format!(
                "in a crash at {:.0} g it flies forward with the weight of {:.0} kg",
                CRASH.0,
                battery.mass.to_kg() * CRASH.0
            ))
            .help("add a [restraint] table: blocks screwed to the floor round its foot and a strap over the top"),
        );
        return None;
    };
    let weight = *battery.mass * STANDARD_GRAVITY;
    let joint = screw::Joint {
        diameter: *held.screw_diameter,
        length: *held.screw_length,
        floor: *held.floor_thickness,
        floor_density: held.floor.density.min(screw::DENSEST),
    };
    let screw = joint.design_shear();
    // Blocks stand on the four sides in turn; each direction is met by the blocks of one side.
    let a_side = f64::from((*held.blocks / 4).max(u32::from(*held.blocks > 0)));
    let block = screw * (a_side * f64::from(*held.screws_a_block));
    let mut directions: Vec<DirectionUse> = ROAD
        .iter()
        .map(|(name, g)| {
            let force = weight * *g;
            DirectionUse {
                name,
                force,
                capacity: block,
                by: match *held.screws_a_block {
                    1 => "the block with one screw".to_owned(),
                    screws => format!("the block with {screws} screws"),
                },
                share: Ratio::of_one(force / block.max(Force::n(0.001))),
            }
        })
        .collect();
    let strap = *held.strap_capacity * f64::from(*held.straps);
    let up = weight * UP;
    directions.push(DirectionUse {
        name: "up",
        force: up,
        capacity: strap,
        by: if *held.straps == 1 { "the strap".into() } else { format!("{} straps", *held.straps) },
        share: Ratio::of_one(up / strap.max(Force::n(0.001))),
    });
    // Tipping about the block's upper edge: half the height against half the length.
    let lever: Length = (*battery.height * 0.5 - *held.block_height).max(Length::ZERO);
    let tips = lever * ROAD[0].1 > *battery.length * 0.5;
    for direction in &directions {
        let share = direction.share.to_fraction();
        ledger.push(
            Figure::new(
                format!("restraint.use.{}", direction.name),
                format!("use of what holds the battery, {}", direction.name),
                share,
                "",
            )
            .formula("u = a m g / R")
            .input("a m g", format!("{:.0} N", direction.force.to_n()))
            .input("R", format!("{:.0} N ({})", direction.capacity.to_n(), direction.by))
            .source("EN 12195-1 factors; screws by EN 1995-1-1, 8.2.2", Seen::Memory)
            .assume("friction is not counted; screws are sunk in their block until they reach through the floor")
            .decides(),
        );
    }
    // Blocks are told of once, by the direction that asks most of them.
    let (up, level): (Vec<&DirectionUse>, Vec<&DirectionUse>) =
        directions.iter().partition(|direction| direction.name == "up");
    let most = |list: Vec<&DirectionUse>| {
        list.into_iter().max_by(|a, b| a.share.total_cmp(&b.share)).cloned()
    };
    findings.extend(
        [most(level), most(up)]
            .into_iter()
            .flatten()
            .filter(|direction| direction.share.to_fraction() >= 0.8)
            .map(|direction| weak(&direction, held.span)),
    );
    let block_screw = BlockScrew::of(held);
    let told = |length: Length| format!("{:.1} mm", length.to_mm());
    ledger.push(
        Figure::new(
            "restraint.sink",
            "depth of the screw heads below the top of the blocks",
            block_screw.sink.to_mm(),
            "mm",
        )
        .formula("s = block + floor − screw, zero at least")
        .input("block", told(*held.block_height))
        .input("floor", told(*held.floor_thickness))
        .input("screw", told(*held.screw_length))
        .source("geometry: the point reaches through the floor", Seen::Computed)
        .decides(),
    );
    let crash = (weight * CRASH.0, weight * CRASH.1);
    ledger.push(
        Figure::new("restraint.crash.forward", "force of a crash, forward", crash.0.to_n(), "N")
            .formula("F = 20 g m")
            .source("ISO 12991 table 1 level for M1 and N1, for information", Seen::Verified),
    );
    Some(RestraintUse { directions, screw, block_screw, crash, tips })
}

fn weak(direction: &DirectionUse, span: Span) -> Finding {
    let share = direction.share.to_fraction();
    let up = direction.name == "up";
    let finding = Finding::new(
        &rules::WEAK,
        format!(
            "{} may hold {:.0} N {}; {:.0} N come (use {}, 1.00 is the limit)",
            direction.by,
            direction.capacity.to_n(),
            direction.name,
            direction.force.to_n(),
            display::capacity_used(share)
        ),
    )
    .severity(if share > 1.0 { Severity::Stop } else { Severity::Caution })
    .at(span, "what holds the battery");
    if up {
        finding
            .means("on a rough road the battery jumps out of its blocks")
            .help("use a second strap, or one with more lashing capacity")
    } else {
        finding
            .means("the battery breaks loose in hard braking or a bend")
            .help("use thicker or more screws in each block, or screws that reach deeper into a thicker floor")
            .help("or bolt the blocks through the floor with large washers")
    }
}

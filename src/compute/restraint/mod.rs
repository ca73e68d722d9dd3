//! What holds the battery: blocks against sliding, a strap against lifting and tipping.

pub mod rules;

use crate::build::Build;
use crate::source::{Figure, Finding, Ledger, Seen, Severity};
use crate::units::{Force, Length, Ratio, STANDARD_GRAVITY};

/// Road factors in g: forward, rearward, sideways (design ruling; EN 12195-1 for the last two).
const ROAD: [(&str, f64); 3] = [("forward", 1.0), ("rearward", 0.5), ("sideways", 0.6)];
/// Upward pull by small-craft rule: twice the weight (ISO 10239 family, 33 CFR 183.420).
const UP: f64 = 2.0;
/// Crash level of M1 and N1 vehicles, in g, forward and sideways (ISO 12991 table 1): information.
const CRASH: (f64, f64) = (20.0, 8.0);
/// Short-term load in service class 2, and partial factor of connections (EN 1995-1-1 tables 3.1, 2.3).
const K_MOD: f64 = 0.9;
const GAMMA_M: f64 = 1.3;
/// Tensile strength of wood screws, MPa; common practice, a low value.
const SCREW_STRENGTH: f64 = 400.0;

/// Uses of what holds the battery.
#[derive(Debug, Clone)]
pub struct RestraintUse {
    /// Each direction with its force, what resists, and the use.
    pub directions: Vec<DirectionUse>,
    /// Shear that one screw carries by design.
    pub screw: Force,
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
            .means("in a crash it flies forward with hundreds of kilograms of force")
            .help("add a [restraint] table: blocks screwed to the floor and a strap over the top"),
        );
        return None;
    };
    let weight = *battery.mass * STANDARD_GRAVITY;
    let screw = screw_shear(
        *held.screw_diameter,
        *held.screw_length,
        *held.floor_thickness,
        held.floor.density.to_kg_per_m3(),
    );
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
                by: format!("{:.0} block, {} screws", a_side, *held.screws_a_block),
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
        by: format!("{} strap", *held.straps),
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
            .assume("friction is not counted")
            .decides(),
        );
        if share >= 0.8 {
            findings.push(
                Finding::new(
                    &rules::WEAK,
                    format!("{} holds {:.0} N {}; {:.0} N come (use {share:.2})", direction.by, direction.capacity.to_n(), direction.name, direction.force.to_n()),
                )
                .severity(if share > 1.0 { Severity::Stop } else { Severity::Caution })
                .at(held.span, "what holds the battery")
                .means("the battery breaks loose when braking hard")
                .help("use more or thicker screws a block, bolts through the floor with large washers, or a second strap"),
            );
        }
    }
    let crash = (weight * CRASH.0, weight * CRASH.1);
    ledger.push(
        Figure::new("restraint.crash.forward", "force of a crash, forward", crash.0.to_n(), "N")
            .formula("F = 20 g m")
            .source("ISO 12991 table 1 level for M1 and N1, for information", Seen::Verified),
    );
    Some(RestraintUse { directions, screw, crash, tips })
}

/// Design shear of a wood screw through a block into a floor, thin timber side ruling: the least of
/// three modes of EN 1995-1-1, 8.2.2 (single shear, no rope effect), with embedment
/// 0.082 ρ d^−0.3 (8.16) in N, mm, kg/m³.
fn screw_shear(diameter: Length, length: Length, floor: Length, density: f64) -> Force {
    let d = diameter.to_mm();
    let strength = 0.082 * density * d.powf(-0.3);
    // The point can't hold in more than the floor is thick.
    let point = floor.to_mm().min(length.to_mm());
    let moment = 0.3 * SCREW_STRENGTH * d.powf(2.6);
    let embed = strength * point * d;
    let bent = 1.15 * (2.0 * moment * strength * d).sqrt();
    let tilted = strength * point * d / 3.0
        * ((2.0 + 12.0 * moment / (strength * d * point * point)).sqrt() - 1.0)
        * 1.05;
    let least = embed.min(bent).min(tilted);
    Force::n(least * K_MOD / GAMMA_M)
}

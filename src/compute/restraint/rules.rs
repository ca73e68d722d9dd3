//! Rules of the chapter on holding the battery.

use super::DirectionUse;
use crate::build::{Battery, HoldBy, Restraint, WoodScrew};
use crate::source::{Finding, Rule, Severity};
use crate::units::{Temperature, Unit, display};

/// Rules of this chapter.
pub static RULES: &[&Rule] = &[&LOOSE, &WEAK, &NO_ANCHOR, &SCREWS_PULLED, &TOO_HOT];

/// A battery that nothing holds.
pub static LOOSE: Rule = Rule {
    code: "K001",
    name: "battery-loose",
    severity: Severity::Stop,
    checks: "That a build with a battery says what holds it.",
    why: "A loose battery of 12 kg kills in a crash.",
    example: "[battery]\nmass = \"17.5 kg\"   # and no [restraint]",
    remedy: "Add [restraint] with blocks and a strap.",
    source_limits: "Follows from the build file.",
};

/// What holds the battery is too weak.
pub static WEAK: Rule = Rule {
    code: "K002",
    name: "restraint-weak",
    severity: Severity::Stop,
    checks: "Blocks, straps, anchors, cradle and floor against the level that is asked: road, small craft, or a crash by vehicle class.",
    why: "What breaks loose once hits everything in front of it.",
    example: "[restraint]\nblocks = 4\nscrews-a-block = 1\nscrew = { diameter = 3, length = 20 }",
    remedy: "More or thicker screws, bolts with spreader plates, a second strap.",
    source_limits: "Levels by the table restraint-level. Straps by EN 12195-1:2010; wood screws by EN 1995-1-1, 8.2.2 and 8.7.2, and NDS 12.2.2, the lesser; bolts by EN 1995-1-1 and EN 1993-1-8; from memory, without rope effect; blocks of softwood, screws sunk until they reach through the floor, less than 6 diameters of floor counted in proportion. Screws pulled along and friction do not count in a crash.",
};

/// Straps whose ends are not told.
pub static NO_ANCHOR: Rule = Rule {
    code: "K003",
    name: "anchor-not-stated",
    severity: Severity::Caution,
    checks: "That the build file says what fixes the ends of the straps.",
    why: "A strap holds no more than the fitting at its end.",
    example: "[restraint]\nstraps = 1\nstrap-capacity = \"2500 N\"   # and no anchor",
    remedy: "State `anchor`: a bolt with a spreader plate, wood screws, or a fitting with its capacity.",
    source_limits: "Follows from the build file; without it the strap is taken at its label.",
};

/// Straps that hang on wood screws.
pub static SCREWS_PULLED: Rule = Rule {
    code: "K004",
    name: "anchor-on-wood-screws",
    severity: Severity::Caution,
    checks: "Whether the ends of straps hang on wood screws that are pulled along their length, and how deep these reach.",
    why: "Screws in a thin floor pull out one after the other; damp and shaking loosen them.",
    example: "[restraint]\nanchor = { screw = { diameter = 5, length = 25 } }",
    remedy: "A bolt through the floor with a spreader plate under it.",
    source_limits: "EN 1995-1-1, 8.7.2 holds from 6 diameters of depth on and for 6 to 12 mm; NDS 12.2.2. Less is counted by the formulas all the same, and not at all in a crash.",
};

/// A place too hot for charging.
pub static TOO_HOT: Rule = Rule {
    code: "K005",
    name: "place-too-hot",
    severity: Severity::Caution,
    checks: "The hottest air at the battery's place against the most at which it may be charged.",
    why: "Charged hot, a battery ages in months; a lithium cell may run away.",
    example: "[battery]\nchemistry = \"lfp\"\nhottest = \"55 °C\"",
    remedy: "A cooler place: low, in shade, with air; or a battery that stops charging when hot.",
    source_limits: "Charge limits of the chemistry's row; its data sheet wins.",
};

pub(super) fn loose(battery: &Battery, crash: f64) -> Finding {
    Finding::new(&LOOSE, format!("nothing holds the battery of {:.1} kg", battery.bank_mass().to_kg()))
        .at(battery.span, "this battery")
        .means(format!(
            "in a crash at {crash:.0} g it flies forward with the weight of {:.0} kg",
            battery.bank_mass().to_kg() * crash
        ))
        .help("add a [restraint] table: blocks screwed to the floor round its foot and a strap over the top")
}

pub(super) fn weak(direction: &DirectionUse, held: &Restraint) -> Finding {
    let share = direction.share.to_fraction();
    let way = match direction.name {
        "tipping forward" => "against tipping forward",
        "tipping sideways" => "against tipping sideways",
        name => name,
    };
    let message = if direction.capacity.to_n() < 0.5 {
        format!("nothing holds the battery {way}; {:.0} N come", direction.force.to_n())
    } else {
        format!(
            "{} may hold {:.0} N {way}; {:.0} N come (use {}, 1.00 is the limit)",
            direction.by,
            direction.capacity.to_n(),
            direction.force.to_n(),
            display::capacity_used(share)
        )
    };
    let finding = Finding::new(&WEAK, message)
        .severity(if share > 1.0 { Severity::Stop } else { Severity::Caution })
        .at(held.span, "what holds the battery");
    let finding = if held.level.is_default() {
        finding
    } else {
        finding.also(held.level.span, "pulled at by this level")
    };
    let cradle = *held.kind == HoldBy::Cradle;
    match direction.name {
        _ if cradle => finding
            .means("the cradle tears out of the floor")
            .help("use more bolts, or larger spreader plates under the floor"),
        "up" => finding
            .means("on a rough road the battery jumps out of its blocks")
            .help("use a second strap, or one with more lashing capacity")
            .help("or anchors with bolts and larger spreader plates"),
        name if name.starts_with("tipping") => finding
            .means("the battery falls over, terminals first")
            .help("use higher blocks, a second strap, or stronger anchors"),
        _ => finding
            .means("the battery breaks loose in hard braking or a bend")
            .help("use thicker or more screws in each block, or screws that reach deeper into a thicker floor")
            .help("or bolt the blocks through the floor with spreader plates"),
    }
}

pub(super) fn no_anchor(held: &Restraint) -> Finding {
    Finding::new(&NO_ANCHOR, "the build file does not say what fixes the ends of the straps")
        .at(held.straps.span, "these straps")
        .means("the strap is taken at its label, its fitting may hold far less")
        .help("state `anchor = { bolt = { thread = \"M6\", spreader = { length = 60, width = 60, thickness = 3 } } }`, or what is there")
}

pub(super) fn screws_pulled(screw: &WoodScrew, held: &Restraint) -> Finding {
    let depth = held.floor_thickness.min(*screw.length);
    let told = |length| display::in_unit_short(length, Unit::MM, 1);
    let over = depth / *screw.diameter;
    Finding::new(
        &SCREWS_PULLED,
        format!(
            "the ends of the straps hang on wood screws that reach {} into the floor, {over:.1} times their diameter",
            told(depth)
        ),
    )
    .at(screw.diameter.span, "these screws")
    .means("under 6 diameters no code covers them; they pull out one after the other")
    .help("use a bolt through the floor with a spreader plate under it")
}

pub(super) fn too_hot(battery: &Battery, most: Temperature) -> Finding {
    Finding::new(
        &TOO_HOT,
        format!(
            "battery {} may not be charged above {:.0} °C; its place gets as hot as {:.0} °C",
            *battery.mark,
            most.to_celsius(),
            battery.hottest.to_celsius()
        ),
    )
    .at(battery.hottest.span, "hottest air at its place")
    .also(battery.chemistry.span, "this chemistry")
    .means("charged hot it ages in months, and a lithium cell may run away")
    .help("find it a cooler place: low, in shade, with air round it")
}

//! Rules of the chapter on holding the battery.

use crate::source::{Rule, Severity};

/// Rules of this chapter.
pub static RULES: &[&Rule] = &[&LOOSE, &WEAK];

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
    checks: "Blocks against braking, bends and speeding up; straps against lifting, friction not counted.",
    why: "What breaks loose once hits everything in front of it.",
    example: "[restraint]\nblocks = 4\nscrews-a-block = 1\nscrew = { diameter = 3, length = 20 }",
    remedy: "More or thicker screws, bolts with spreader plates, a second strap.",
    source_limits: "1.0 g forward, 0.5 g rearward, 0.6 g sideways, twice the weight upward. Wood screws by EN 1995-1-1, 8.2.2, from memory, without rope effect; blocks of softwood, screws sunk until they reach through the floor, less than 6 diameters of floor counted in proportion. Crash levels are information only.",
};

//! L045 prop-has-no-place.

use super::written;
use crate::build::Prop;
use crate::source::{Finding, Rule, Severity};
use crate::units::{Angle, Length};

/// A prop that cannot stand, or cannot lie along its tube while driving.
pub static RULE: Rule = Rule {
    code: "L045",
    name: "prop-has-no-place",
    severity: Severity::Stop,
    checks: "A prop is a flat bar or a square or rectangular tube, stands on a bracket at an edge beside \
             the hinges, and lies along that edge's tube between bracket and hinge while driving.",
    why: "A prop that stands on nothing fixed slips off in the first gust; one that has no place while \
          driving is left out, or falls off.",
    example: "[[mount]]\nkind = \"hinge\"\nedge = \"left\"\nprop = { section = \"aluminium-flat-30x4\", \
              on = [\"F\"] }",
    remedy: "Put a foot or clamp on the front or rear edge (beside hinges at a side), well away from the \
             hinges, and name its mark with `on`.",
    source_limits: "Geometry; 5 mm of air to the bracket and 2 mm to its bolts: common practice, no source.",
};

/// Nothing to stand on.
pub fn nothing(prop: &Prop, edges: &str) -> Finding {
    let marks: Vec<&str> = prop.on.iter().map(|mark| mark.value.as_str()).collect();
    let words =
        format!("no foot or clamp with mark {} stands at the {edges} edge", marks.join(" or "));
    let span = written(&[prop.on.first().map(|mark| mark.span).unwrap_or_default(), prop.span]);
    Finding::new(&RULE, words)
        .at(span, "what the prop is to stand on")
        .means("the prop turns with the frame: it stands beside the end of the frame, not under it")
        .help(format!("put a foot or clamp on the {edges} edge and name its mark"))
}

/// A bar of a shape that can't be pinned.
pub fn shape(prop: &Prop) -> Finding {
    let words = format!("a prop can't be made of {}", prop.section.value.words);
    Finding::new(&RULE, words)
        .at(prop.section.span, "the bar")
        .means("holes through it have no flat face to be marked on")
        .help("take a flat bar or a square tube")
}

/// It is too long to lie along its tube: `short` of room.
pub fn too_long(prop: &Prop, mark: &str, angle: Angle, short: Length) -> Finding {
    let words = format!(
        "lying along its tube the prop on {mark} is {short:.0} too long: at {angle:.0} it must reach that far"
    );
    Finding::new(&RULE, words)
        .at(prop.span, "this prop")
        .means("it has no place while driving")
        .help("lift less far with `lift`")
        .help("or put the mount that it stands on farther from the hinges")
}

/// Its pin in the tube lies too far out by `over`.
pub fn too_far_out(prop: &Prop, at: Length, most: Length) -> Finding {
    let span = prop.at.as_ref().map_or(prop.span, |at| at.span);
    let words = format!("the prop's pin at {at:.0} meets the bracket that it stands on");
    Finding::new(&RULE, words)
        .at(span, "from the pins of the hinges")
        .means("the frame cannot be lowered onto that bracket")
        .help(format!("set `at` to {most:.0} at most, or leave it out"))
}

/// Its lower end meets what is below: it has `room` there.
pub fn low_end(prop: &Prop, mark: &str, room: Length) -> Finding {
    let words = format!("the lower end of the prop comes within {room:.1} of the bolts of {mark}");
    Finding::new(&RULE, words)
        .at(prop.span, "this prop")
        .means("it stands on bolt heads in place of its pin")
        .help("take a narrower bar, a higher clearance of the frame or lower bolts")
}

//! Rules of the metal chapter; its letter is that of the loads.

use crate::source::{Rule, Severity};

/// Rules of this chapter.
pub static RULES: &[&Rule] = &[&OVERLOADED, &NEARLY_FULL, &TOUCHES];

/// More load than a part of metal may carry.
pub static OVERLOADED: Rule = Rule {
    code: "A002",
    name: "metal-overloaded",
    severity: Severity::Stop,
    checks: "Use of capacity of hinges, brackets, plates, bolts, rivet nuts, tube walls, tubes in bending, panel screws and the roof skin round a plate.",
    why: "What gives way first hands its load to its neighbours, which then give way too.",
    example: "[frame]\nsection = \"aluminium-tube-20x20x2\"   # three panels, no cross tube",
    remedy: "The finding names it: a larger tube or hinge, a longer bracket, a thicker plate, one mount more.",
    source_limits: "EN 1993-1-8 table 3.4 (bolts, bearing, punching), EN 1999-1-1 (aluminium; form from memory), EN 1993-1-3 table 8.2 (tapping screws; from memory). Tubes are beams on the mounts, pinned to each other. Corner connectors have no stated strength and are not judged.",
};

/// Nearly all that a part of metal may carry.
pub static NEARLY_FULL: Rule = Rule {
    code: "A003",
    name: "metal-nearly-full",
    severity: Severity::Caution,
    checks: "Parts of metal whose use of capacity lies from 0.8 to 1.0.",
    why: "Holes off their marks, burrs and softer alloys take away what is left.",
    example: "hinge = \"butt-hinge-40x40-stainless\"",
    remedy: "As for A002: a size larger brings it well under 0.8.",
    source_limits: "Project ruling: above 1.0 stop, from 0.8 caution.",
};

/// A tube that bows down onto the roof.
pub static TOUCHES: Rule = Rule {
    code: "A004",
    name: "frame-touches-roof",
    severity: Severity::Caution,
    checks: "That no tube bows down, by air, snow or a bump, farther than the room between frame and roof.",
    why: "A frame that knocks on the roof wears the paint, drums, and hammers its mounts loose.",
    example: "[frame]\nclearance = 3",
    remedy: "More clearance, a cross tube or a larger tube.",
    source_limits: "Beam theory; the roof is taken as rigid, at its highest place under the frame.",
};

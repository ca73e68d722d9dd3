//! L042 solids-clash.

use crate::source::{Finding, Rule, Severity, Span};
use crate::units::Length;

/// Two things in one place.
pub static RULE: Rule = Rule {
    code: "L042",
    name: "solids-clash",
    severity: Severity::Stop,
    checks: "When everything is put together in space: no screw goes into a corner connector, no bolt, \
             head or nut stands in a panel or in another bolt, no bracket in a tube, panel or the \
             roof, no tube in the roof.",
    why: "Each part may be right by itself and still not go together. Found on the roof it costs the \
          part, a hole in the wrong place and a day.",
    example: "[frame]\nclearance = 8\n[[mount]]\nbolt = \"M10\"",
    remedy: "Move the mount or the keep-out, raise the frame, or take a shorter bolt; the check sheet \
             tells how much is missing and where.",
    source_limits: "Bolts, heads and nuts as round bars, tubes, legs, plates and panels as boxes, the \
                    roof as measured. Cables, beads and the vehicle's inside are not looked at.",
};

/// `what` was found with this `room` where it `needs` more, `between` these.
pub fn finding(what: &str, room: Length, needs: Length, between: &str, span: Span) -> Finding {
    Finding::new(&RULE, format!("{what}: {:.1} too little room at {between}", needs - room))
        .at(span, "everything put together")
        .means("the parts do not go together, or press on each other where nobody sees it")
        .help("move the mount, raise the frame with `clearance`, or take a shorter bolt")
}

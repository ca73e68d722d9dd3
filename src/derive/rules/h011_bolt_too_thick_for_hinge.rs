//! H011 bolt-too-thick-for-hinge.

use crate::source::{Finding, Rule, Severity, Span};
use crate::tables::{Hinge, Thread};

/// A bolt that does not pass the hinge.
pub static RULE: Rule = Rule {
    code: "H011",
    name: "bolt-too-thick-for-hinge",
    severity: Severity::Stop,
    checks: "The bolt goes through the holes that the hinge has.",
    why: "A hole in a leaf that is drilled larger has too little metal beside the pin.",
    example: "[[mount]]\nhinge = \"butt-hinge-40x40-stainless\"\nbolt = \"M6\"",
    remedy: "Take a thinner bolt or a larger hinge.",
    source_limits: "Hole of the hinge from its row of the tables; measure the hinge in hand.",
};

/// The thread is thicker than the leaf's holes.
pub fn finding(hinge: &Hinge, bolt: &Thread, span: Span) -> Finding {
    Finding::new(
        &RULE,
        format!("bolt {} does not go through the hinge's holes of {:.1}", bolt.name, hinge.hole),
    )
    .at(span, "this bolt")
    .means("the leaf would have to be drilled larger, too near to its pin")
    .help("take a thinner bolt or a larger hinge")
}

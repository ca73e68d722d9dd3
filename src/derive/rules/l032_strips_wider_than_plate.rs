//! L032 strips-wider-than-plate.

use crate::build::BondedFoot;
use crate::source::{Finding, Rule, Severity};
use crate::units::Length;

/// More tape than plate.
pub static RULE: Rule = Rule {
    code: "L032",
    name: "strips-wider-than-plate",
    severity: Severity::Stop,
    checks: "Strips of tape with the beads between them are no wider than the plate.",
    why: "Strips that overlap make the bond thicker where they do, and leave no room for the \
          bead that carries.",
    example: "[[mount]]\nplate = { width = 60 }\ntape = { width = 25, strips = 3 }",
    remedy: "Fewer or narrower strips, a narrower bead, or a wider plate.",
    source_limits: "Arithmetic.",
};

/// Strips and beads of `mark` take `taken` of the plate's width.
pub fn finding(mark: &str, taken: Length, foot: &BondedFoot) -> Finding {
    let span = foot
        .tape
        .as_ref()
        .map_or(foot.plate.width.span, |tape| tape.strips.span.to(tape.width.span));
    Finding::new(
        &RULE,
        format!(
            "strips and beads of {mark} take {taken:.0} of a plate {:.0} wide",
            *foot.plate.width
        ),
    )
    .at(span, "the strips")
    .also(foot.plate.width.span, "the plate")
    .means("strips overlap, or the bead has no room")
    .help("take fewer or narrower strips, or a wider plate")
}

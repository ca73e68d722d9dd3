//! L026 plate-gap-too-great.

use crate::build::BondedFoot;
use crate::source::{Finding, Rule, Severity};
use crate::units::Length;

/// A flat plate on a roof too curved for its bond.
pub static RULE: Rule = Rule {
    code: "L026",
    name: "plate-gap-too-great",
    severity: Severity::Stop,
    checks: "The gap that a flat plate leaves over the curved skin, with what rounding of bend \
          and height adds, is within what the bond fills: the tape's thickness is twice the \
          gap or more.",
    why: "Tape that does not touch carries nothing; it peels from the place where it does. A \
          thick wet bead cures from its edges only and shrinks.",
    example: "[[mount]]\nplate = { length = 300, width = 200, thickness = 3 }\ntape = { thickness = 1.1 }",
    remedy: "A shorter or narrower plate (the gap goes with the square of its size), thicker \
          tape, or a plate bent to the roof.",
    source_limits: "Thickness of twice the mismatch between rigid faces: application guides of acrylic \
          foam tape.",
};

/// The plate of `mark` leaves `gap` where a bond of `bond` fills the `need`th part of itself.
pub fn finding(mark: &str, gap: Length, bond: Length, need: f64, foot: &BondedFoot) -> Finding {
    let severity = if gap > bond { Severity::Stop } else { Severity::Caution };
    let span = foot.tape.as_ref().map_or(foot.plate.length.span, |tape| tape.thickness.span);
    Finding::new(
        &RULE,
        format!(
            "the plate of {mark} leaves a gap of {gap:.1}; a bond of {bond:.1} fills {:.1}",
            bond / need
        ),
    )
    .severity(severity)
    .at(span, "the bond's thickness")
    .also(foot.plate.length.span.to(foot.plate.width.span), "the plate")
    .means("part of the tape does not touch the skin and carries nothing")
    .help(format!("make the bond {:.1} thick or more", gap * need))
    .help("take a shorter or narrower plate: the gap goes with the square of its size")
}

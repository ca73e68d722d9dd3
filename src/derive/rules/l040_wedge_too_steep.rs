//! L040 wedge-too-steep.

use crate::build::Mount;
use crate::source::{Finding, Rule, Severity};
use crate::units::Angle;

/// A wedge that its bolts would push out.
pub static RULE: Rule = Rule {
    code: "L040",
    name: "wedge-too-steep",
    severity: Severity::Caution,
    checks: "The wedge under a foot has 8° at most between its faces.",
    why: "Tight bolts push a steep wedge out along its slope: what keeps it is friction, and plastic \
          on metal or paint has little. Its bolts also lean in what they pass.",
    example: "[[mount]]\nkind = \"bolted-foot\"\nedge = \"right\"\nwedge = { material = \"hdpe\" }",
    remedy: "Set the feet further inboard where the roof is flatter, or bend the bracket instead.",
    source_limits: "8° is tan⁻¹ of 0.14, a friction of dry plastic on metal on the safe side: common \
                    practice, no source.",
};

/// Steeper than this is told.
const LIMIT: Angle = Angle::deg(8.0);

/// Whether a wedge of this angle may creep; wedges come in half degrees, so rounding decides nothing.
pub fn is_too_steep(angle: Angle) -> bool {
    angle > LIMIT + Angle::deg(0.01)
}

/// The wedge of `mark` has this `angle`.
pub fn finding(mark: &str, angle: Angle, mount: &Mount) -> Finding {
    Finding::new(
        &RULE,
        format!("the wedge of {mark} has {angle:.1} between its faces; {LIMIT:.0} is the limit"),
    )
    .at(mount.span, "the roof is steep under this mount")
    .means("tight bolts may push the wedge out along its slope")
    .help("move the foot inboard, where the roof is flatter")
    .help("bend the bracket to the slope instead of packing it")
}

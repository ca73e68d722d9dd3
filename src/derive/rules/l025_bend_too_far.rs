//! L025 bend-too-far.

use crate::build::Mount;
use crate::source::{Finding, Rule, Severity, Stated};
use crate::tables::Section;
use crate::units::Angle;

/// An angle bent too far.
pub static RULE: Rule = Rule {
    code: "L025",
    name: "bend-too-far",
    severity: Severity::Caution,
    checks: "The angle of a foot is opened or closed by 10° at most.",
    why: "Angles are sold hard. Opened further when cold, the heel cracks, often where nobody \
          sees it until the foot breaks.",
    example: "[[mount]]\nkind = \"bonded-foot\"\nedge = \"right\"",
    remedy: "Set the feet further inboard where the roof is flatter, put a wedge under the plate, \
          or have angles folded from sheet.",
    source_limits: "10° is common practice, no source. Extruders advise against cold bending of 6060 T66 \
          at all and name T4 or T64 for bending (data sheets).",
};

/// Further than this is told.
const LIMIT: Angle = Angle::deg(10.0);

/// Whether legs at this angle were opened or closed further than the limit; bends come in half
/// degrees, so rounding decides nothing.
pub fn is_too_far(bend: Angle) -> bool {
    (bend - Angle::RIGHT).abs() > LIMIT + Angle::deg(0.01)
}

/// The angle of foot `mark` would be bent to `bend`.
pub fn finding(mark: &str, bend: Angle, angle: &Stated<Section>, mount: &Mount) -> Finding {
    let by = (bend - Angle::RIGHT).abs();
    let word = if bend > Angle::RIGHT { "opened" } else { "closed" };
    Finding::new(
        &RULE,
        format!("the angle of {mark} must be {word} by {by:.1}; {LIMIT:.0} is the limit"),
    )
    .at(angle.span, "this section")
    .also(mount.span, "of this mount")
    .means("the roof is steep there; a hard angle cracks at its heel")
    .help("move the foot inboard, where the roof is flatter")
    .help("put a wedge under the plate, or have angles folded from sheet")
}

//! L004 gap-jumps.

use crate::build::Gap;
use crate::source::{Finding, Rule, Severity};
use crate::units::Length;

/// A reading that its neighbours belie.
pub static RULE: Rule = Rule {
    code: "L004",
    name: "gap-jumps",
    severity: Severity::Stop,
    checks: "Each gap is at most 4 mm more than the straight line between its two neighbours \
             (a crowned roof falls away ever faster, so it is less), and differs from the same \
             place on the next station by no more than 12 mm or 35 %, whichever is more.",
    why: "One wrong digit puts a foot or a packer centimetres off. A roof has no such step.",
    example: "sections = [{ x = 400, gaps = [[-700, 68], [-350, 117], [0, 0], [350, 17], [700, 68]] }]",
    remedy: "Measure that place again. Where the roof really has a step, measure closer on both \
             sides of it and keep feet away from it.",
    source_limits: "Limits are common practice: pressed beads and reading errors stay below 4 mm, \
                    and roofs change slowly along the vehicle.",
};

/// A reading on the line `name` over the line through its neighbours.
pub fn finding(name: &str, gap: &Gap, line: Length, limit: Length) -> Finding {
    Finding::new(
        &RULE,
        format!(
            "{name} has a gap of {} at {}; its neighbours allow {:.1}",
            gap.gap,
            gap.at,
            line + limit
        ),
    )
    .at(gap.span, "does not fit its neighbours")
    .means("a foot near this place would be cut and bent to a height that the roof does not have")
    .help("measure the gap at this place again")
}

/// Readings at the same place of neighbouring stations that differ too much.
pub fn between_stations(before: &Gap, after: &Gap, limit: Length) -> Finding {
    let apart = (before.gap - after.gap).abs();
    Finding::new(
        &RULE,
        format!(
            "the gap at {} changes by {apart} from one station to the next; {limit:.1} is the limit",
            after.at
        ),
    )
    .severity(Severity::Caution)
    .at(after.span, format!("{} here", after.gap))
    .also(before.span, format!("{} at the station before", before.gap))
    .means("heights between the two stations are doubtful")
    .help("measure both again, or add a station between them")
}

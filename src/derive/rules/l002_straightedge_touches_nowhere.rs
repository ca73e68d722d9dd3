//! L002 straightedge-touches-nowhere.

use crate::build::Gap;
use crate::source::{Finding, Rule, Severity, Span};
use crate::units::Length;

/// No reading is near zero.
pub static RULE: Rule = Rule {
    code: "L002",
    name: "straightedge-touches-nowhere",
    severity: Severity::Stop,
    checks: "On each line at least one gap is 2 mm or less: there the straightedge rests.",
    why: "Gaps are heights only if it is known where the straightedge rests. When the place of \
          touch is missing, the crown between two readings is higher than the work allows for and \
          the frame may rest on the skin.",
    example: "sections = [{ x = 400, gaps = [[-700, 78], [0, 10], [700, 78]] }]",
    remedy: "Add the reading where the straightedge touches, or take the height of its blocks off \
             every gap.",
    source_limits: "The limit of 2 mm is common practice: a tape is read to the millimetre and the \
                    touch may lie beside a reading.",
};

/// The least gap on the line `name` is too wide.
pub fn finding(name: &str, least: &Gap, limit: Length, span: Span) -> Finding {
    Finding::new(
        &RULE,
        format!("{name} touches nowhere: the least gap is {} and may be {limit}", least.gap),
    )
    .at(least.span, "the least gap")
    .also(span, "this line")
    .means("the crown is higher than the work would allow for")
    .help("measure again and write down the place where the straightedge touches, with gap 0")
    .help("if it stood on blocks, take their height off every gap")
}

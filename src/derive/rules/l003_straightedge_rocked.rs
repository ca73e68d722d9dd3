//! L003 straightedge-rocked.

use crate::build::Gap;
use crate::source::{Finding, Rule, Severity};

/// Two places of touch with air between.
pub static RULE: Rule = Rule {
    code: "L003",
    name: "straightedge-rocked",
    severity: Severity::Stop,
    checks: "Between two places where the straightedge touches, no gap is over 4 mm.",
    why: "A straightedge on a crown touches it once. Two touches with air between mean that it \
          rocked from one side to the other while it was read, or that it bridged a hollow or \
          lay across beads. The two halves then belong to different positions.",
    example: "sections = [{ x = 400, gaps = [[-700, 60], [-350, 0], [0, 9], [350, 0], [700, 60]] }]",
    remedy: "Hold the straightedge still on one spot and read all gaps of a station in that \
             position. On a roof with pressed beads measure on the tops of the beads alone.",
    source_limits: "The limit of 4 mm is common practice: beads and reading errors stay below it.",
};

/// Touches at `first` and `last` on the line `name`, open at `between`.
pub fn finding(name: &str, first: &Gap, last: &Gap, between: &Gap) -> Finding {
    Finding::new(
        &RULE,
        format!(
            "{name} touches at {} and at {} with a gap of {} between",
            first.at, last.at, between.gap
        ),
    )
    .at(between.span, "open between two touches")
    .also(first.span, "touches")
    .also(last.span, "touches")
    .means("the straightedge rocked while it was read, or the roof is hollow there")
    .help("hold the straightedge still on one spot and measure this line again")
    .help("on a roof with pressed beads measure on the tops of the beads alone")
}

//! L005 lengthwise-not-measured.

use crate::source::{Finding, Rule, Severity, Span};

/// Stations are not tied in height.
pub static RULE: Rule = Rule {
    code: "L005",
    name: "lengthwise-not-measured",
    severity: Severity::Note,
    checks: "A straightedge along the centre line ties the stations in height.",
    why: "Gaps at a station tell the shape across it, not how high it stands beside the next one. \
          Without a line along the roof all stations are taken level; a roof that falls to the \
          front or rear then gives feet that are too short there.",
    example: "[roof]\nsections = [{ x = 400, gaps = [[-700, 68], [0, 0], [700, 68]] }]",
    remedy: "Lay a straightedge along the centre line, measure the gaps and give them as `along`.",
    source_limits: "Roofs of vans fall by 5 to 30 mm over their length (common practice, no source).",
};

/// So many stations stand alone; the first is at `span`.
pub fn finding(stations: usize, span: Span) -> Finding {
    let words = if stations == 1 {
        "the one station is taken to hold along the whole roof".to_owned()
    } else {
        format!("the {stations} stations are taken as level with each other")
    };
    Finding::new(&RULE, format!("lengthwise gaps are not measured: {words}"))
        .at(span, "the first station")
        .means("a roof that falls to the front or rear gives feet that are too short there")
        .help(
            "lay a straightedge along the centre line and give the gaps as `along = [[x, gap], …]`",
        )
}

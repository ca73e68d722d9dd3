//! L006 beyond-measured-roof.

use crate::geometry::Rect;
use crate::source::{Finding, Rule, Severity, Span};
use crate::units::Length;

/// Built on where nothing was measured.
pub static RULE: Rule = Rule {
    code: "L006",
    name: "beyond-measured-roof",
    severity: Severity::Caution,
    checks: "Frame and foot plates lie within the roof's measured part: between the first and the \
          last station, and between the outermost gaps that all stations have.",
    why: "Outside what was measured the nearest reading is taken, as nothing else is known. A \
          roof falls away fastest at its edge: a foot there may come out centimetres too \
          short.",
    example: "[roof]\nsections = [{ x = 900, gaps = [[-400, 20], [0, 0], [400, 20]] }]",
    remedy: "Measure further out: add a station or gaps beyond the outermost foot.",
    source_limits: "Geometry.",
};

/// `what` covers `place`, which the readings (`measured`) do not.
pub fn finding(what: &str, place: Rect, measured: Rect, span: Span) -> Finding {
    let (p, m) = ((place.low(), place.high()), (measured.low(), measured.high()));
    let beyond = [m.0.x - p.0.x, p.1.x - m.1.x, m.0.y - p.0.y, p.1.y - m.1.y]
        .into_iter()
        .fold(Length::ZERO, Length::max);
    Finding::new(&RULE, format!("{what} reaches {beyond:.0} beyond the measured roof"))
        .at(span, "partly outside the readings")
        .means("heights there are those of the nearest reading; the roof may be lower")
        .help(format!("measure {beyond:.0} further out and add the readings"))
}

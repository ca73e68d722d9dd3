//! L036 no-room-for-roof-bolts.

use crate::source::{Finding, Rule, Severity, Stated};
use crate::tables::{Section, Thread};
use crate::units::Length;

/// No room for the bolts through the roof.
pub static RULE: Rule = Rule {
    code: "L036",
    name: "no-room-for-roof-bolts",
    severity: Severity::Stop,
    checks: "The lying leg of a bolted foot has room for a row of bolts with their sealing washers.",
    why: "A sealing washer that rides on the root of the angle, or hangs over its toe, leaks.",
    example: "[[mount]]\nkind = \"bolted-foot\"\nangle = \"aluminium-angle-40x20x3\"\nroof-bolt = \"M8\"",
    remedy: "Take an angle with a wider lying leg, or thinner bolts.",
    source_limits: "Edge distance 1.2 d0 (EN 1993-1-8 table 3.3); washers of ISO 7093-1.",
};

/// The lying leg of `mark` is `leg` wide; its bolts need `needed`.
pub fn finding(
    mark: &str,
    leg: Length,
    needed: Length,
    angle: &Stated<Section>,
    bolt: &Stated<Thread>,
) -> Finding {
    Finding::new(
        &RULE,
        format!("the lying leg of {mark} is {leg:.0} wide; {} needs {needed:.0}", bolt.name),
    )
    .at(angle.span, "this section")
    .also(bolt.span, "these bolts")
    .means("the sealing washers do not lie flat, and the roof leaks")
    .help(format!("take an angle whose shorter leg is {needed:.0} or more"))
    .help("take thinner roof bolts")
}

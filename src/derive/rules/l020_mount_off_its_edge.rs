//! L020 mount-off-its-edge.

use super::written;
use crate::build::Mount;
use crate::source::{Finding, Rule, Severity, Stated};
use crate::units::Length;

/// A mount where there is no frame.
pub static RULE: Rule = Rule {
    code: "L020",
    name: "mount-off-its-edge",
    severity: Severity::Stop,
    checks: "The middle of each mount lies on its edge of the frame.",
    why: "A mount beyond the tube's end holds nothing.",
    example: "[[mount]]\nedge = \"left\"\nat = [110, 1900]",
    remedy: "Give the distance from the frame's front end (left and right edge) or from its left \
          end (front and rear edge).",
    source_limits: "Geometry.",
};

/// The mount `mark` at a place that its edge does not have.
pub fn finding(mark: &str, at: &Stated<Length>, edge: Length, mount: &Mount) -> Finding {
    Finding::new(&RULE, format!("mount {mark} at {:.0} is beyond its edge of {edge:.0}", **at))
        .at(written(&[at.span, mount.span]), "beyond the frame")
        .means("there is no tube to hold on to")
        .help(format!("give a distance between 0 and {edge:.0}"))
}

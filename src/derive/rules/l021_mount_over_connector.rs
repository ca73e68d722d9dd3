//! L021 mount-over-connector.

use super::written;
use crate::build::Mount;
use crate::source::{Finding, Rule, Severity, Stated};
use crate::units::Length;

/// Bolts where a connector fills the tube.
pub static RULE: Rule = Rule {
    code: "L021",
    name: "mount-over-connector",
    severity: Severity::Stop,
    checks: "The bolts of a mount are clear of the push-in connectors in the ends of the tube.",
    why: "A rivet nut needs the hollow of the tube. Where the connector sits it can't be set, \
          and drilling splits the connector that holds the corner.",
    example: "[[mount]]\nedge = \"left\"\nat = [20]",
    remedy: "Move the mount towards the middle of the edge by the amount told.",
    source_limits: "Reach of the connector from its row of the tables; measure the connector in hand.",
};

/// The mount `mark` with bolts nearer to the corner than `least` from its middle.
pub fn finding(
    mark: &str,
    at: &Stated<Length>,
    least: Length,
    edge: Length,
    mount: &Mount,
) -> Finding {
    let from_end = (**at).min(edge - **at);
    Finding::new(
        &RULE,
        format!("mount {mark} is {from_end:.0} from the corner; {least:.0} keeps its bolts off the connector"),
    )
    .at(written(&[at.span, mount.span]), "over the connector")
    .means("rivet nuts can't be set where the connector fills the tube")
    .help(format!("move it {:.0} towards the middle of the edge", least - from_end))
}

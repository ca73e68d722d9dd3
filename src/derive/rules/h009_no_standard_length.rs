//! H009 no-standard-length.

use crate::source::{Finding, Rule, Severity, Span};
use crate::tables::Thread;
use crate::units::Length;

/// No bolt is long enough.
pub static RULE: Rule = Rule {
    code: "H009",
    name: "no-standard-length",
    severity: Severity::Stop,
    checks: "The thread is sold in a length that goes through the stack, with washers, nut and \
          two pitches that show.",
    why: "A bolt that is too short does not fill its nut and strips; one cut from rod is not \
          what the torque is told for.",
    example: "[[mount]]\nplate-screw = \"M4\"\nplate = { thickness = 40 }",
    remedy: "Take a thicker thread or thinner layers.",
    source_limits: "Lengths as sold: ISO 888; two pitches showing: common practice.",
};

/// At `mark` a bolt of `least` or more is needed.
pub fn finding(mark: &str, thread: &Thread, least: Length, span: Span) -> Finding {
    let longest = thread.lengths.iter().copied().fold(Length::ZERO, Length::max);
    Finding::new(
        &RULE,
        format!(
            "mount {mark} needs {} of {least:.1}; {longest:.0} is the longest sold",
            thread.name
        ),
    )
    .at(span, "this thread")
    .means("no bolt of this thread goes through what it must clamp")
    .help("take a thicker thread, or thinner layers")
}

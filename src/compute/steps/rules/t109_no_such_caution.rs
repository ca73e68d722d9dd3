//! A step of the reader's own names a safety message that does not exist.

use crate::build::DirectStep;
use crate::compute::steps::safety;
use crate::source::{Finding, Rule, Severity, Stated};

/// The rule.
pub static RULE: Rule = Rule {
    code: "T109",
    name: "no-such-caution",
    severity: Severity::Caution,
    checks: "That `cautions` of a [[step]] name safety messages of this program.",
    why: "A warning that is left out by a slip of the pen is missed where the danger is.",
    example: "[[step]]\ntitle = \"Paint the rail\"\ncautions = [\"solvents\"]\n\
        actions = [\"Brush paint on the rail.\"]",
    remedy: "Use the name of a message, such as `solvent`; the finding lists all of them.",
    source_limits: "Names of the messages that come with the program. Whether they are all that the \
        step needs is not checked.",
};

pub(in crate::compute::steps) fn raise(own: &DirectStep, key: &Stated<String>) -> Finding {
    let near = safety::keys()
        .map(|known| (strsim::jaro_winkler(known, key), known))
        .filter(|(like, _)| *like > 0.75)
        .max_by(|a, b| a.0.total_cmp(&b.0));
    let mut finding = Finding::new(&RULE, format!("there is no safety message named `{}`", **key))
        .at(key.span, "no message of this name")
        .means(format!("“{}” is printed without it", *own.title));
    if let Some((_, known)) = near {
        finding = finding.help(format!("did you mean `{known}`?"));
    }
    finding.help(format!("messages are: {}", safety::keys().collect::<Vec<_>>().join(", ")))
}

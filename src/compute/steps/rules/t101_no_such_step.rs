//! A step of the reader's own is placed at a step that does not exist.

use crate::build::DirectStep;
use crate::compute::steps::template::Templates;
use crate::source::{Finding, Rule, Severity, Stated};

/// The rule.
pub static RULE: Rule = Rule {
    code: "T101",
    name: "no-such-step",
    severity: Severity::Caution,
    checks: "That `before`, `after` and `instead-of` of a [[step]] name a step.",
    why: "A step that lands in the wrong place is done too late, or over a bond that is still wet.",
    example: "[[step]]\ntitle = \"Paint the rail\"\nbefore = \"hinge\"\nactions = [\"Paint the rail.\"]",
    remedy: "Use the name of a step, such as `hinges`; the message lists all of them.",
    source_limits: "Names of the steps that come with the program. Whether the step is wise there is \
        not checked.",
};

pub(in crate::compute::steps) fn raise(
    templates: &Templates,
    own: &DirectStep,
    name: &Stated<String>,
) -> Finding {
    let keys: Vec<&str> = templates.steps.iter().map(|t| t.key.as_str()).collect();
    let near = keys
        .iter()
        .map(|key| (strsim::jaro_winkler(key, name), *key))
        .filter(|(like, _)| *like > 0.75)
        .max_by(|a, b| a.0.total_cmp(&b.0));
    let mut finding = Finding::new(&RULE, format!("there is no step named `{}`", **name))
        .at(name.span, "no step of this name")
        .means(format!("“{}” was put at the end", *own.title));
    if let Some((_, key)) = near {
        finding = finding.help(format!("did you mean `{key}`?"));
    }
    finding.help(format!(
        "steps are: {}; before and after may also name the title of another [[step]]",
        keys.join(", ")
    ))
}

//! The reader leaves out a step of ours.

use crate::build::DirectStep;
use crate::compute::steps::template::Template;
use crate::source::{Finding, Rule, Severity, Stated};

/// The rule.
pub static RULE: Rule = Rule {
    code: "T104",
    name: "step-left-out",
    severity: Severity::Caution,
    checks: "Whether a [[step]] leaves out a step that this build would have.",
    why: "Later steps take what the one left out would have made, and its hold points and warnings are \
        on no other sheet.",
    example: "[[step]]\ntitle = \"The rail stops the array\"\nleave-out = \"tether\"",
    remedy: "Make sure that what the step makes is there by other means, or replace the step with \
        `instead-of`, which keeps its hold points and warnings.",
    source_limits: "Whether the reason given in the title is sound is not checked.",
};

pub(in crate::compute::steps) fn raise(
    own: &DirectStep,
    name: &Stated<String>,
    template: &Template,
) -> Finding {
    let holds = template.line.iter().filter(|line| line.hold.is_some()).count();
    let cautions = template.line.iter().filter(|line| line.caution.is_some()).count();
    let count = |count: usize, one: &str| match count {
        1 => format!("1 {one}"),
        many => format!("{many} {one}s"),
    };
    Finding::new(&RULE, format!("`{}` ({}) is left out", template.key, plain(&template.title)))
        .at(name.span, format!("because: {}", *own.title))
        .means(format!(
            "it has no sheet; {} and {} of it are told nowhere",
            count(holds, "hold point"),
            count(cautions, "warning")
        ))
        .help("see that what it makes is there by other means before the steps that need it")
        .help(format!("`instead-of = \"{}\"` keeps its hold points and warnings", template.key))
}

/// A title without its placeholders.
fn plain(title: &str) -> String {
    let mut words = String::new();
    let mut inside = false;
    for letter in title.chars() {
        match letter {
            '{' => inside = true,
            '}' => inside = false,
            other if !inside => words.push(other),
            _ => {}
        }
    }
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}

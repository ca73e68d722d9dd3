//! Steps that come from templates of the reader's own.

use crate::source::{Finding, Rule, Severity, Span};

/// The rule.
pub static RULE: Rule = Rule {
    code: "T108",
    name: "own-templates",
    severity: Severity::Note,
    checks: "Whether steps of the packet come from templates of your own.",
    why: "The build file travels in the packet; your templates do not. In years to come the same file \
        would not make the same steps without them.",
    example: "templates = \"my-steps\"",
    remedy: "Keep the folder of your templates with the build file.",
    source_limits: "Whether the work that they tell is right is not checked.",
};

/// Titles of the steps; `span` is the line of the build file that names the folder.
pub fn raise(titles: &[&str], span: Span) -> Option<Finding> {
    let told = match titles {
        [] => return None,
        [one] => format!("the step \u{201c}{one}\u{201d} comes from a template of your own"),
        [first, rest @ ..] => format!(
            "{} steps come from templates of your own, among them \u{201c}{first}\u{201d}",
            rest.len() + 1
        ),
    };
    let finding = Finding::new(&RULE, told)
        .at(span, "the folder of your templates")
        .means(
            "what these steps tell is yours to answer for; the packet does not hold the templates",
        )
        .help("keep the folder of your templates with the build file");
    Some(finding)
}

//! A table that another one needs.

use crate::read::keys;
use crate::source::{Finding, Rule, Severity, Span};

/// F012.
pub static RULE: Rule = Rule {
    code: "F012",
    name: "missing-table",
    severity: Severity::Stop,
    checks: "Whether what one table needs is told in another: a frame needs panels, mounts, a roof and a vehicle.",
    why: "The parts of a build lean on each other: a mount without a roof has no height, a battery cable without a battery has no end.",
    example: "[frame] in a file without [[panel]]",
    remedy: "Add the table that is named, or take out the one that needs it.",
    source_limits: "no source. That the tables fit each other is for later checks.",
};

/// No mount holds this frame, though others are held.
pub(in crate::read) fn none_holds(frame: &str, span: Span) -> Finding {
    Finding::new(&RULE, format!("there is no `[[mount]]` with `frame = \"{frame}\"`"))
        .at(span, "nothing holds this frame")
        .means("this is not known: how it is fixed to the roof")
        .help(format!("add `[[mount]]` and below it `frame = \"{frame}\"`, or correct the mounts that name another"))
}

/// `path` is missing and `because` of what stands at `needed_by`.
pub(in crate::read) fn raise(path: &'static str, needed_by: Span, because: &str) -> Finding {
    let (heading, says) =
        keys::table_of(path).map_or((path, ""), |table| (table.heading, table.says));
    let lines: Vec<String> = keys::table_of(path)
        .map_or(&[][..], |table| table.keys)
        .iter()
        .filter(|key| key.needed && !key.example.is_empty())
        .take(3)
        .map(|key| format!("`{} = {}`", key.name, key.example))
        .collect();
    Finding::new(&RULE, format!("there is no `{heading}`"))
        .at(needed_by, because.to_owned())
        .means(format!("this is not known: {says}"))
        .help(format!("add `{heading}` and below it your own values, as in {}", lines.join(", ")))
}

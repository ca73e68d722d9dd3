//! A name that no table has.

use crate::read::field::{Field, shorten};
use crate::source::{Finding, Rule, Severity};
use crate::tables::Unknown;

/// N001.
pub static RULE: Rule = Rule {
    code: "N001",
    name: "not-in-table",
    severity: Severity::Stop,
    checks: "Whether each material, section, screw, tape or adhesive is a row of the tables.",
    why: "Strength, mass, drill size and cure come from that row; without it nothing about the part can be worked out.",
    example: "[[stock]]\nsection = \"aluminium-tube-25x25x2.2\"\nlength = 3000",
    remedy: "Use a name as offered, or add a row of your own with its source.",
    source_limits: "Only the tables in use are searched; upper and lower case do not matter.",
};

/// What the tables say about the name.
pub(in crate::read) fn raise(field: &Field<'_>, unknown: &Unknown) -> Finding {
    let kind = unknown.kind.replace('-', " ");
    let finding =
        Finding::new(&RULE, format!("no {kind} is named `{}`", shorten(&unknown.name, 60)))
            .at(field.span, format!("not in the table of {kind}s"))
            .means("its size and strength are not known");
    if unknown.nearest.is_empty() {
        let finding = match field.example() {
            Some(example) => finding.help(format!("write a name as in `{example}`")),
            None => finding,
        };
        return finding.help(format!("add a row for your own {kind} to the tables"));
    }
    let names: Vec<String> = unknown
        .nearest
        .iter()
        .map(|name| format!("`{}`", field.line(&format!("\"{name}\""))))
        .collect();
    finding.help(format!("write {}", names.join(" or ")))
}

//! A value of another shape than the key takes.

use crate::read::field::Field;
use crate::read::keys;
use crate::source::{Finding, Rule, Severity};

/// F013.
pub static RULE: Rule = Rule {
    code: "F013",
    name: "wrong-shape",
    severity: Severity::Stop,
    checks: "Whether a key holds what it takes: a number, text, a list, one table or several tables.",
    why: "A list where one value belongs leaves open which of them is meant.",
    example: "[panel]\nlength = 1040",
    remedy: "Write the value as the help shows; a table that there may be many of has two brackets.",
    source_limits: super::WRITING,
};

/// `wanted` in words: "text between quotes".
pub(in crate::read) fn raise(field: &Field<'_>, wanted: &str) -> Finding {
    let part = if field.element { "each part of " } else { "" };
    let finding =
        Finding::new(&RULE, format!("{part}`{}` takes {wanted}, not {}", field.key, field.shape()))
            .at(field.span, field.shape())
            .means("the value can't be understood");
    match field.example() {
        Some(example) => finding.help(format!("write it as in `{example}`")),
        None => finding.help(format!("write {wanted}")),
    }
}

/// One table belongs here.
pub(in crate::read) fn one_table(field: &Field<'_>, path: &str) -> Finding {
    let heading = keys::table_of(path).map_or(path, |table| table.heading);
    if heading.starts_with('[') {
        return Finding::new(&RULE, format!("`{heading}` has one bracket on each side"))
            .at(field.span, field.shape())
            .means("there can be one of it only")
            .help(format!("write `{heading}`, once, and its keys below it"));
    }
    let finding =
        Finding::new(&RULE, format!("`{}` is one table, not {}", field.key, field.shape()))
            .at(field.span, field.shape())
            .means("there can be one of it only");
    match field.example() {
        Some(example) => finding.help(format!("write it between braces: `{example}`")),
        None => finding.help("write it between { and }"),
    }
}

/// Several tables may stand here.
pub(in crate::read) fn many_tables(field: &Field<'_>, path: &str) -> Finding {
    let heading = keys::table_of(path).map_or(path, |table| table.heading);
    if heading.starts_with("[[") {
        return Finding::new(&RULE, format!("`{heading}` has two brackets on each side"))
            .at(field.span, field.shape())
            .means("there may be many of it, and a second one would have no place")
            .help(format!("write `{heading}` above the lines of each one"));
    }
    let finding =
        Finding::new(&RULE, format!("`{}` is a list of tables, not {}", field.key, field.shape()))
            .at(field.span, field.shape())
            .means("there may be many of it, and a second one would have no place");
    match field.example() {
        Some(example) => finding.help(format!("write a list of tables: `{example}`")),
        None => finding.help("write a list of tables between [ and ]"),
    }
}

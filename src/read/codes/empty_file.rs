//! Nothing in the file.

use crate::source::{Finding, Rule, Severity};

/// F003.
pub static RULE: Rule = Rule {
    code: "F003",
    name: "empty-file",
    severity: Severity::Stop,
    checks: "Whether the build file has any table at all.",
    why: "Without a table there is nothing to plan.",
    example: "a file with comments only",
    remedy: "Write at least [job] and one thing to make or fit; the examples show how.",
    source_limits: super::WRITING,
};

/// For a file without any key.
pub(in crate::read) fn raise() -> Finding {
    Finding::new(&RULE, "the file has nothing in it")
        .means("there is nothing to plan")
        .help("begin with three lines: `format = 1`, `[job]`, `title = \"Solar roof\"`")
        .help("or copy one of the files under examples and change it")
}

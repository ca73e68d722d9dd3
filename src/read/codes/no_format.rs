//! No edition stated.

use crate::source::{Finding, Rule, Severity};

/// F007.
pub static RULE: Rule = Rule {
    code: "F007",
    name: "no-format",
    severity: Severity::Note,
    checks: "Whether the build file says which edition it is written in.",
    why: "Keys may change their meaning in years to come. With its edition stated, an old file is read as it was meant.",
    example: "a file that begins with [job]",
    remedy: "Write format = 1 as the first line.",
    source_limits: super::WRITING,
};

/// Edition 1 is taken.
pub(in crate::read) fn raise() -> Finding {
    Finding::new(&RULE, "the file does not state its format; format 1 was taken")
        .means("a later edition of this program may read it otherwise")
        .help("write `format = 1` as the first line")
}

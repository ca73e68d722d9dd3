//! The rest of a long list.

use crate::source::{Finding, Rule, Severity};

/// F020.
pub static RULE: Rule = Rule {
    code: "F020",
    name: "more-findings",
    severity: Severity::Stop,
    checks: "Whether the file has more faults than are worth listing.",
    why: "Hundreds of faults mostly have one cause: a missing quotation mark, or a file of another kind.",
    example: "a list of prices in place of the build file",
    remedy: "Mend the first ones and look again.",
    source_limits: "At most 100 findings of one reading are listed.",
};

/// `count` were left out.
pub(in crate::read) fn raise(count: usize) -> Finding {
    Finding::new(&RULE, format!("{count} further findings are not listed"))
        .means("many of them may have one cause")
        .help("mend the first ones and look again")
}

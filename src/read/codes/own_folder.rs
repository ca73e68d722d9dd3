//! A folder of own tables that is not there.

use crate::source::{Finding, Rule, Severity, Span};

/// N010.
pub static RULE: Rule = Rule {
    code: "N010",
    name: "own-folder",
    severity: Severity::Stop,
    checks: "Whether the folder named by `materials` is there and can be read.",
    why: "Rows of your own would be missing, and rows of ours with their names would be used instead.",
    example: "materials = \"my-tables\"",
    remedy: "Name the folder as seen from the build file, or take the line out.",
    source_limits: "Files in it that end in .toml are read, in the order of their names.",
};

/// `why` is what the system said.
pub fn raise(folder: &str, why: &str, span: Span) -> Finding {
    Finding::new(&RULE, format!("the folder `{folder}` of your own tables can't be read: {why}"))
        .at(span, "looked for beside the build file")
        .means("materials of your own are missing, and none of ours takes their place")
        .help("write the folder as seen from the build file, as in `materials = \"my-tables\"`")
        .help("or take the line out")
}

//! A folder of own tables or templates that is not there.

use crate::source::{Finding, Rule, Severity, Span};

/// N010.
pub static RULE: Rule = Rule {
    code: "N010",
    name: "own-folder",
    severity: Severity::Stop,
    checks: "Whether the folder named by `materials` or `templates` is there and can be read.",
    why: "Rows or steps of your own would be missing, and ours of the same names would be used instead.",
    example: "materials = \"my-tables\"",
    remedy: "Name the folder as seen from the build file, or take the line out.",
    source_limits: "Files in it that end in .toml are read, in the order of their names.",
};

/// `why` is what the system said; `key` names the folder.
pub fn raise(key: &str, folder: &str, why: &str, span: Span) -> Finding {
    let (what, means, usual) = if key == "materials" {
        (
            "tables",
            "materials of your own are missing, and none of ours takes their place",
            "my-tables",
        )
    } else {
        ("templates", "steps of your own are missing, and ours stand in their place", "my-steps")
    };
    Finding::new(&RULE, format!("the folder `{folder}` of your own {what} can't be read: {why}"))
        .at(span, "looked for beside the build file")
        .means(means)
        .help(format!("write the folder as seen from the build file, as in `{key} = \"{usual}\"`"))
        .help("or take the line out")
}

/// A link in such a folder leads out of it; `name` is the link's.
pub fn outside(name: &str) -> Finding {
    Finding::new(&RULE, format!("`{name}` is a link that leads out of its folder; it was not read"))
        .means("what it holds is missing, and nothing takes its place")
        .help("put the file itself into the folder")
}

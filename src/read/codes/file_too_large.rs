//! The file is too large to be a build file.

use crate::source::{Finding, Rule, Severity};

/// F002.
pub static RULE: Rule = Rule {
    code: "F002",
    name: "file-too-large",
    severity: Severity::Stop,
    checks: "Whether the build file is at most 1 MiB.",
    why: "A build of two hundred panels takes less than a tenth of that. A larger file is another kind of file, taken by mistake.",
    example: "a video given in place of the build file",
    remedy: "Give the build file itself.",
    source_limits: "Limit of our own; nothing of a larger file is read.",
};

/// `size` and `most` in bytes.
pub(in crate::read) fn raise(size: u64, most: u64) -> Finding {
    let mebi = |bytes: u64| bytes as f64 / f64::from(1 << 20);
    Finding::new(
        &RULE,
        format!(
            "the file holds {:.1} MiB; a build file holds at most {:.0} MiB",
            mebi(size),
            mebi(most)
        ),
    )
    .means("nothing in the file was read")
    .help("check the name of the file: a build file is a short text that ends in .toml")
}

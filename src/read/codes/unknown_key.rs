//! A key that nobody asks for.

use super::{nearest, or_list};
use crate::read::field::{Home, shorten};
use crate::read::keys;
use crate::source::{Finding, Rule, Severity, Span};

/// F010.
pub static RULE: Rule = Rule {
    code: "F010",
    name: "unknown-key",
    severity: Severity::Stop,
    checks: "Whether every key and table of the file is one that the program knows.",
    why: "A misspelt key would leave a default in its place, and nobody would see that your value was not used.",
    example: "[frame]\nclearence = 15",
    remedy: "Spell the key as offered, move it to the table it belongs in, or put # before the line.",
    source_limits: super::WRITING,
};

/// `near` is the key that it looks like, of those that the table could still take.
pub(in crate::read) fn raise(home: Home, name: &str, span: Span, near: Option<&str>) -> Finding {
    let shown = shorten(name, 40);
    let what = if home.path.is_empty() {
        format!("`{shown}` is not a table of the build file")
    } else {
        format!("`{shown}` is not a key of {}", home.name())
    };
    let finding =
        Finding::new(&RULE, what).at(span, "not known here").means("it would have no effect");
    let known = keys::table_of(home.path).map_or(&[][..], |table| table.keys);
    if let Some(near) = near {
        return finding.help(format!("write `{near}`"));
    }
    if let Some(same) = known.iter().find(|key| key.name == name) {
        return finding.help(format!("`{name}` is {}: take it out, or change the kind", same.says));
    }
    if let Some(near) = nearest(name, known.iter().map(|key| key.name)) {
        return finding.help(format!("`{near}` is there already: take this line out"));
    }
    let mut homes: Vec<&str> = keys::homes_of(name).map(|table| table.heading).collect();
    homes.dedup();
    if !homes.is_empty() && homes.len() <= 4 {
        return finding
            .help(format!("`{name}` belongs in {}: move the line there", or_list(&homes)));
    }
    let names: Vec<&str> = known.iter().map(|key| key.name).collect();
    finding.help(format!("{} takes {}", home.name(), or_list(&names)))
}

//! A key that must be there.

use crate::read::field::Home;
use crate::read::keys;
use crate::source::{Finding, Rule, Severity, Span};

/// F011.
pub static RULE: Rule = Rule {
    code: "F011",
    name: "missing-key",
    severity: Severity::Stop,
    checks: "Whether each table has the keys that have no sound default.",
    why: "What cannot be known without you, such as the size of your panels or the thickness of your roof, is never made up.",
    example: "[[panel]]\nlength = 1040",
    remedy: "Add the key with your own value; the help shows how it is written.",
    source_limits: "no source: keys with a sound default may be left out, and the packet lists every default taken.",
};

/// `reason` tells why it is needed, where the table alone does not.
pub(in crate::read) fn raise(home: Home, key: &str, reason: Option<(Span, String)>) -> Finding {
    let spec = keys::key_of(home.path, key);
    let says = spec.map_or("", |spec| spec.says);
    let example = spec.map_or("", |spec| spec.example);
    let finding = Finding::new(&RULE, format!("{} has no `{key}`", home.name()))
        .at(home.span, format!("`{key}` is missing here"));
    let finding = match reason {
        Some((span, why)) => finding.also(span, why),
        None => finding,
    };
    let finding =
        if says.is_empty() { finding } else { finding.means(format!("this is not known: {says}")) };
    finding.help(format!("{}, with your own value", home.add(&format!("{key} = {example}"))))
}

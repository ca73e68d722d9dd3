//! The file is not TOML.

use crate::read::keys;
use crate::source::{Finding, Rule, Severity, Span, Text};

/// F004.
pub static RULE: Rule = Rule {
    code: "F004",
    name: "not-toml",
    severity: Severity::Stop,
    checks: "Whether each line is a table header, a key with its value, or a comment, as TOML writes them.",
    why: "One missing quotation mark can swallow the lines after it. Nothing is guessed: the packet would be for another build than the one written.",
    example: "width = 540 mm",
    remedy: "Text stands between quotation marks, lists between [ and ], small tables between { and }; each key has a line of its own.",
    source_limits: "TOML 1.0 and 1.1 (toml.io). All faults of writing are told, but one can bring others with it: mend the first one first.",
};

/// `told` is what the parser says.
pub(in crate::read) fn raise(text: &Text, told: &str, span: Span) -> Finding {
    let place = text.place(span.start());
    let line = text.line(place.line).unwrap_or("").trim();
    let (message, help) = explain(told, line, text.slice(span));
    let finding = Finding::new(&RULE, message)
        .at(span, told.to_owned())
        .means("from here on the file may be read otherwise than you meant");
    match help {
        Some(help) => finding.help(help),
        None => finding.help(
            "write `key = value`, with text between quotation marks: `name = \"camper van\"`",
        ),
    }
}

/// A file that is written in another language from its first sign on: one finding says it all.
pub(in crate::read) fn other_language(text: &Text) -> Option<Finding> {
    let contents = text.contents();
    let start = contents.len() - contents.trim_start().len();
    let (span, language) = match contents.trim_start().chars().next()? {
        '{' => (Span::new(start, start + 1), "JSON"),
        '<' => (Span::new(start, start + 1), "XML or HTML"),
        _ => return None,
    };
    Some(
        Finding::new(&RULE, format!("the file is written as {language}; a build file is TOML"))
            .at(span, "its first sign")
            .means("nothing in the file was read")
            .help("write `format = 1`, then `[job]` and below it `title = \"Solar roof\"`")
            .help("or begin with a build file that prints: `rungsheet new`"),
    )
}

/// The usual slips, told by what stands on the line.
fn explain(told: &str, line: &str, at: &str) -> (String, Option<String>) {
    let (key, value) =
        line.split_once('=').map_or((line, ""), |(key, value)| (key.trim(), value.trim()));
    let bare_key = !key.is_empty()
        && key.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.'));
    let quotes = value.matches('"').count();
    if told.starts_with("cannot recurse") {
        return (
            "the brackets are nested too deep".into(),
            Some("a build file needs three levels at most".into()),
        );
    }
    if let Some(slip) = mixed_up(told, line, key, value) {
        return slip;
    }
    if bare_key && value.is_empty() && line.contains('=') {
        return (
            format!("`{key}` has no value"),
            Some(format!(
                "write the value after the equals sign, or put # before the line to leave `{key}` out"
            )),
        );
    }
    if bare_key
        && !value.starts_with(['[', '{'])
        && value.split('#').next().unwrap_or(value).trim_end().ends_with(',')
    {
        return (
            "a comma stands behind the value".into(),
            Some("take the comma out: each key has a line of its own".into()),
        );
    }
    if bare_key && quotes == 0 && starts_like_a_quantity(value) {
        let bare = value.split('#').next().unwrap_or(value).trim();
        return (
            "a value with letters needs quotation marks".into(),
            Some(format!("write `{key} = \"{}\"`", bare.trim_end_matches(','))),
        );
    }
    if bare_key && quotes == 0 && value.starts_with(|c: char| c.is_alphabetic()) {
        let bare = value.split('#').next().unwrap_or(value).trim();
        return ("text needs quotation marks".into(), Some(format!("write `{key} = \"{bare}\"`")));
    }
    if quotes % 2 == 1 && !value.contains("\"\"\"") {
        return (
            "a quotation mark is missing".into(),
            Some("text begins and ends with a quotation mark on the same line".into()),
        );
    }
    if value.contains(['\u{201C}', '\u{201D}', '\u{201E}', '\u{2018}', '\u{2019}']) {
        return (
            "curly quotation marks do not hold text".into(),
            Some("write straight quotation marks: `\"`".into()),
        );
    }
    if let Some(table) = keys::table_of(line).filter(|table| table.heading.starts_with('[')) {
        return (
            format!("`{line}` is a table and needs its brackets"),
            Some(format!("write `{}`", table.heading)),
        );
    }
    if bare_key && !line.contains('=') && !line.starts_with('[') {
        return (
            format!("`{line}` is neither a key with a value nor a table"),
            Some(format!("write `{key} = value`, or put # before it to make it a comment")),
        );
    }
    if line.starts_with('[') && line.matches('[').count() != line.matches(']').count() {
        return ("a bracket is missing".into(), Some("write `[frame]` for a table there is one of, `[[panel]]` for one there may be many of".into()));
    }
    let near = crate::read::field::shorten(at.trim(), 20);
    if near.is_empty() {
        ("this can't be read as TOML".into(), None)
    } else {
        (format!("`{near}` can't be read as TOML here"), None)
    }
}

/// What people write who come from another language, or whose finger slipped between two keys.
fn mixed_up(told: &str, line: &str, key: &str, value: &str) -> Option<(String, Option<String>)> {
    let unquoted = || value.split('"').step_by(2).any(|part| part.contains("//"));
    if line.starts_with("//") || (!value.is_empty() && unquoted()) {
        let help = "write # in its place: what follows it on the line is not read";
        return Some(("a note begins with #, not with //".into(), Some(help.into())));
    }
    if let Some((word, rest)) = line.split_once(':')
        && !line.starts_with('[')
        && !word.contains('=')
        && word.trim().chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_'))
    {
        let word = word.trim();
        let help = format!("write `{word} = {}`", rest.trim());
        return Some((format!("a colon stands behind `{word}`"), Some(help)));
    }
    if value.starts_with('{')
        && let Some((first, next)) = without_comma(value)
    {
        let help = format!("write `{first}, {next} = …`");
        return Some((format!("a comma is missing before `{next}`"), Some(help)));
    }
    if told.contains("expected newline")
        && let Some((inside, unit)) = value.strip_prefix('"').and_then(|rest| rest.split_once('"'))
        && !unit.trim().is_empty()
        && !unit.contains(['"', ','])
    {
        let unit = unit.split('#').next().unwrap_or(unit).trim();
        let help = format!("write `{key} = \"{inside} {unit}\"`");
        return Some((format!("`{unit}` stands outside the quotation marks"), Some(help)));
    }
    let name = line.trim_start_matches('[').split(']').next().unwrap_or("").trim();
    if line.starts_with('[')
        && let Some((word, _)) = name.split_once(' ')
    {
        let heading = keys::table_of(word).filter(|table| table.heading.starts_with('['));
        let help = heading.map_or_else(
            || "write a table of the build file, as in `[[panel]]`".to_owned(),
            |table| format!("write `{}`: names and numbers have keys of their own", table.heading),
        );
        return Some((format!("a space stands in the name of the table `{name}`"), Some(help)));
    }
    None
}

/// Two neighbours between braces that no comma keeps apart: a value and the next key.
fn without_comma(braces: &str) -> Option<(&str, &str)> {
    let parts: Vec<&str> = braces.split('=').collect();
    let (_, before_signs) = parts.split_last()?;
    before_signs.iter().find_map(|part| {
        let (value, key) = part.trim().rsplit_once(char::is_whitespace)?;
        let value = value.trim_end();
        let apart = value.is_empty() || value.ends_with([',', '{', '[']);
        let is_key = key.chars().all(|c| c.is_ascii_lowercase() || c == '-');
        (!apart && is_key).then_some((value, key))
    })
}

/// `540 mm`, `-0.28 %/K`, `5' 6"`.
fn starts_like_a_quantity(value: &str) -> bool {
    let rest = value.trim_start_matches(|c: char| {
        c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '+' | ' ' | '/')
    });
    value.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '-' | '+' | '.'))
        && rest.starts_with(|c: char| c.is_alphabetic() || matches!(c, '°' | '%' | '\'' | '"'))
}

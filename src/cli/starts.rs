//! Build files to start from: each is a whole one that prints as it stands.

use std::ops::Range;
use toml::de::{DeTable, DeValue};

/// A build file to start from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Start {
    /// By which it is asked for.
    pub name: &'static str,
    /// Which job it is near to.
    pub says: &'static str,
    /// The file.
    pub text: &'static str,
}

macro_rules! start {
    ($name:literal, $says:literal) => {
        Start {
            name: $name,
            says: $says,
            text: include_str!(concat!("../../templates/starts/", $name, ".toml")),
        }
    };
}

/// All of them, the most common first.
pub const STARTS: &[Start] = &[
    start!("bonded", "panels flat on a van, on feet that are bonded to the roof"),
    start!("hinged", "panels that are lifted: hinges on one edge, bonded feet on the other"),
    start!("bolted", "panels on feet that are bolted through a steel roof"),
    start!("electrics", "electrics alone: controller, battery, cables and fuses"),
    start!("shelf", "work at the bench alone: parts, holes and the cut list"),
];

/// The start of that name, or of that number counted from 1.
pub fn start(asked: &str) -> Option<&'static Start> {
    let asked = asked.trim();
    let by_number = asked.parse::<usize>().ok().and_then(|number| number.checked_sub(1));
    by_number
        .and_then(|index| STARTS.get(index))
        .or_else(|| STARTS.iter().find(|start| start.name.eq_ignore_ascii_case(asked)))
}

/// Where the value of a key stands, by the table that it is in.
pub fn place(text: &str, table: &str, key: &str) -> Option<Range<usize>> {
    let file = DeTable::parse(text).ok()?;
    let table = file.get_ref().get(table)?;
    let inside = match table.get_ref() {
        DeValue::Table(inside) => inside,
        DeValue::Array(list) => list.first()?.get_ref().as_table()?,
        _ => return None,
    };
    inside.get(key).map(toml::Spanned::span)
}

/// The text with another value in that place; where the key is not, nothing changes.
pub fn put(text: &str, table: &str, key: &str, value: &str) -> String {
    let mut text = text.to_owned();
    if let Some(place) = place(&text, table, key) {
        text.replace_range(place, value);
    }
    text
}

/// As a text of a TOML file.
pub fn quoted(answer: &str) -> String {
    let mut out = String::from("\"");
    for c in answer.trim().chars() {
        match c {
            '"' | '\\' => out.extend(['\\', c]),
            c if c.is_control() => out.push(' '),
            c => out.push(c),
        }
    }
    out.push('"');
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_value_is_put_where_it_stands_and_nowhere_else() {
        let text = "[job]\ntitle = \"a\" # title\n[[panel]]\ntitle = \"b\"\n";
        let put = put(text, "job", "title", &quoted("say \"so\""));
        assert_eq!(put, "[job]\ntitle = \"say \\\"so\\\"\" # title\n[[panel]]\ntitle = \"b\"\n");
        assert_eq!(super::put(text, "job", "none", "1"), text);
    }
}

//! The two build files key by key, in the words of the reader's own list.

use super::Change;
use crate::read::keys;
use crate::sheets::Basis;
use std::collections::{BTreeMap, BTreeSet};
use toml::Value;

/// Keys whose values differ; `revision` and `date` of the job are no change of the work.
pub(super) fn changes(old: &Basis, new: &Basis) -> Vec<Change> {
    let (before, after) = (flat(old.text.contents()), flat(new.text.contents()));
    let all: BTreeSet<&String> = before.keys().chain(after.keys()).collect();
    all.into_iter()
        .filter(|path| !matches!(path.as_str(), "job.revision" | "job.date"))
        .filter(|path| before.get(*path) != after.get(*path))
        .map(|path| {
            let (key, what) = words(path);
            let value = |of: &BTreeMap<String, String>| of.get(path).cloned().unwrap_or_default();
            Change { key, what, before: value(&before), after: value(&after) }
        })
        .collect()
}

/// Values by their dotted path; a table of several is told by its mark, name or place in the file.
fn flat(text: &str) -> BTreeMap<String, String> {
    let mut map = BTreeMap::new();
    // Both were read before, so that nothing is lost here.
    if let Ok(table) = text.parse::<toml::Table>() {
        for (key, value) in &table {
            walk(key.clone(), value, &mut map);
        }
    }
    map
}

fn walk(path: String, value: &Value, map: &mut BTreeMap<String, String>) {
    match value {
        Value::Table(table) => {
            for (key, value) in table {
                walk(format!("{path}.{key}"), value, map);
            }
        }
        Value::Array(list) if list.iter().all(Value::is_table) && !list.is_empty() => {
            for (index, value) in list.iter().enumerate() {
                walk(format!("{path}[{}]", name(list, index)), value, map);
            }
        }
        other => {
            map.insert(path, plain(other));
        }
    }
}

/// What one of several tables is known by.
fn name(list: &[Value], index: usize) -> String {
    for key in ["mark", "name", "title", "step", "section", "x"] {
        let word = |value: &Value| value.get(key).map(plain);
        let Some(own) = word(&list[index]) else { continue };
        if list.iter().filter(|other| word(other).as_ref() == Some(&own)).count() == 1 {
            return own;
        }
    }
    (index + 1).to_string()
}

fn plain(value: &Value) -> String {
    match value {
        Value::String(words) => words.clone(),
        Value::Array(list) => {
            let told: Vec<String> = list.iter().map(plain).collect();
            format!("[{}]", told.join(", "))
        }
        Value::Float(number) if number.fract() == 0.0 && number.abs() < 1e15 => {
            format!("{number:.0}")
        }
        other => other.to_string(),
    }
}

/// "mount F, angle-length" and "cut length of the bracket".
fn words(path: &str) -> (String, String) {
    let mut schema = String::new();
    let mut told = String::new();
    let mut rest = path;
    // Names between brackets may hold dots of their own.
    while !rest.is_empty() {
        let end = rest.find(['.', '[']).unwrap_or(rest.len());
        let (key, after) = rest.split_at(end);
        if !key.is_empty() {
            if !schema.is_empty() {
                schema.push('.');
                told.push(' ');
            }
            schema.push_str(key);
            told.push_str(key);
        }
        rest = after;
        if let Some(inner) = rest.strip_prefix('[') {
            let close = inner.find("].").unwrap_or(inner.len().saturating_sub(1));
            told.push(' ');
            told.push_str(&inner[..close]);
            told.push(',');
            rest = &inner[(close + 1).min(inner.len())..];
        }
        rest = rest.strip_prefix('.').unwrap_or(rest);
    }
    let (table, key) = schema.rsplit_once('.').unwrap_or(("", schema.as_str()));
    let says = keys::key_of(table, key).map_or_else(String::new, |known| known.says.to_owned());
    (told, says)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tables_of_several_are_told_by_their_mark() {
        let map = flat(
            "[[mount]]\nmark = \"F\"\nangle-length = 160\n[[mount]]\nmark = \"G.x\"\nat = [1, 2]",
        );
        let paths: Vec<&str> = map.keys().map(String::as_str).collect();
        assert_eq!(
            paths,
            ["mount[F].angle-length", "mount[F].mark", "mount[G.x].at", "mount[G.x].mark"]
        );
        assert_eq!(map["mount[G.x].at"], "[1, 2]");
        let (key, says) = words("mount[F].angle-length");
        assert_eq!(key, "mount F, angle-length");
        assert!(says.starts_with("cut length"), "{says}");
        assert_eq!(words("mount[G.x].at").0, "mount G.x, at");
        assert_eq!(words("roof.length").0, "roof length");
    }
}

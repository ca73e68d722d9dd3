//! Every key with what the readers ask of it: what it takes, whether it has to be there, what stands
//! in its place.
//!
//! The readers themselves are asked: build files made from the examples in [`keys`] are read while
//! each taker notes what it would take. So nothing told here can differ from what is read.

use super::cursor::Cursor;
use super::field::Home;
use super::reader::Reader;
use super::shape::{Asked, Shape};
use super::{keys, parse, whole};
use crate::source::{Span, Text};
use crate::tables::Tables;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;

/// All that is known of the build file.
#[derive(Debug, Clone)]
pub struct Known {
    keys: BTreeMap<(&'static str, &'static str), Told>,
    /// Tables of which not every key goes with every other.
    pub variants: Vec<Variant>,
}

/// What is known of one key.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Told {
    /// What it takes; several where there are several ways to write it.
    pub shapes: Vec<Shape>,
    /// Its table can't do without it.
    pub needed: bool,
    /// What stands in its place, as one would write it, and on what ground. An empty value: it
    /// follows from the rest of the file.
    pub defaults: Vec<(String, &'static str)>,
}

/// A table whose keys depend on one of them.
#[derive(Debug, Clone, PartialEq)]
pub struct Variant {
    /// The table.
    pub path: &'static str,
    /// The key on which it depends.
    pub key: &'static str,
    /// Its value; without one it is enough that the key is there.
    pub value: Option<&'static str>,
    /// Keys that it may have then.
    pub keys: Vec<&'static str>,
    /// Those of them that have to be there.
    pub needed: Vec<&'static str>,
}

impl Known {
    /// What is known of a key.
    pub fn of(&self, path: &str, key: &str) -> Option<&Told> {
        self.keys.iter().find(|((p, k), _)| *p == path && *k == key).map(|(_, told)| told)
    }

    /// The variants in which a key of a table counts; nothing where it does in all.
    pub fn only_in(&self, path: &str, key: &str) -> Vec<&Variant> {
        let of_table: Vec<_> = self.variants.iter().filter(|v| v.path == path).collect();
        let having: Vec<_> = of_table.iter().copied().filter(|v| v.keys.contains(&key)).collect();
        if having.len() == of_table.len() { Vec::new() } else { having }
    }
}

/// A key with the value that makes the way, or nothing where its presence does.
type Way = (&'static str, Option<&'static str>);

/// Tables whose keys depend on one of them, with the ways that there are.
const DEPENDENT: &[(&str, &[Way])] = &[
    (
        "mount",
        &[
            ("kind", Some("hinge")),
            ("kind", Some("bonded-foot")),
            ("kind", Some("bolted-foot")),
            ("kind", Some("rail-clamp")),
        ],
    ),
    (
        "restraint",
        &[("kind", Some("top-over")), ("kind", Some("direct")), ("kind", Some("cradle"))],
    ),
    ("step", &[("actions", None), ("leave-out", None)]),
    ("part", &[("section", None), ("material", None), ("stuff", None)]),
    ("stock", &[("section", None), ("material", None), ("stuff", None), ("cable", None)]),
    ("leftover", &[("section", None), ("material", None), ("stuff", None), ("cable", None)]),
];

/// Ways to write a table that exclude each other, by the keys that are left out, without a bearing
/// on its other keys.
const WAYS: &[(&str, &[&str])] = &[
    ("weather", &["hours", "day", "night"]),
    ("weather", &["hours", "temperature", "humidity"]),
    ("weather", &["day", "night", "temperature", "humidity"]),
    ("roof", &["sections"]),
];

/// Asks the readers, with the rows of these tables.
pub fn known(tables: &Tables) -> Known {
    let mut keys: BTreeMap<(&'static str, &'static str), Told> = BTreeMap::new();
    let mut variants = Vec::new();
    let mut read = BTreeSet::new();
    let mut gather = |text: String| {
        let asked = asked(&text, tables);
        // A table that was read without a question for one of its keys can do without it.
        for ((path, key), told) in &mut keys {
            let of_table = || asked.iter().filter(|(of, _, _)| of == path);
            told.needed &= of_table().next().is_none() || of_table().any(|(_, of, _)| of == key);
        }
        for (path, key, asked) in &asked {
            let told = keys
                .entry((path, key))
                .or_insert_with(|| Told { needed: !read.contains(path), ..Told::default() });
            match asked {
                Asked::Shape(shape) if !told.shapes.contains(shape) => {
                    told.shapes.push(shape.clone());
                }
                Asked::Optional => told.needed = false,
                Asked::Default(value, ground) => {
                    told.needed = false;
                    let default = (value.clone(), *ground);
                    if !told.defaults.contains(&default) && !ground.starts_with("not used") {
                        told.defaults.push(default);
                    }
                }
                Asked::Shape(_) | Asked::Needed => {}
            }
        }
        read.extend(asked.iter().map(|(path, _, _)| *path));
        asked
    };
    gather(file("", &|_, key| Some(key.example.to_owned())));
    for (path, without) in WAYS {
        gather(file(path, &|_, key| {
            (!without.contains(&key.name)).then(|| key.example.to_owned())
        }));
    }
    gather(file("job", &|_, key| match key.name {
        "units" => Some("\"in\"".to_owned()),
        "paper" => None,
        _ => Some(key.example.to_owned()),
    }));
    gather(file("panel", &|_, key| Some(key.example.to_owned())));
    gather(file("roof", &|_, key| {
        // No height is needed to step on, no distance between one.
        let walkway = match key.name {
            "kind" => "\"walkway\"",
            "count" => "1",
            _ => key.example,
        };
        Some(walkway.to_owned())
    }));
    let corner = "{ cut = \"butt\", angle = \"\" }";
    gather(file("frame", &|_, key| {
        Some(if key.name == "corner" { corner } else { key.example }.to_owned())
    }));
    gather(file("frame", &|_, key| {
        Some(
            if key.name == "corner" { "{ cut = \"mitre\", join = \"weld\" }" } else { key.example }
                .to_owned(),
        )
    }));
    gather(file("mount", &|_, key| {
        let latch = "{ kind = \"draw-latch\" }";
        Some(if key.name == "latch" { latch } else { key.example }.to_owned())
    }));
    gather(file("restraint", &|_, key| {
        let bolt = "{ thread = \"M6\", spreader = { length = 60, width = 60, thickness = 3 } }";
        let anchor = "{ screw = { diameter = 6, length = 60 } }";
        Some(
            match key.name {
                "bolt" => bolt,
                "anchor" => anchor,
                _ => key.example,
            }
            .to_owned(),
        )
    }));
    for (path, ways) in DEPENDENT {
        for (by, value) in *ways {
            let others = |name: &str| {
                value.is_none() && name != *by && ways.iter().any(|(way, _)| *way == name)
            };
            let asked = gather(file(path, &|table, key| {
                if table != *path {
                    return Some(key.example.to_owned());
                }
                match value {
                    Some(value) if key.name == *by => Some(format!("\"{value}\"")),
                    _ if others(key.name) => None,
                    _ => Some(key.example.to_owned()),
                }
            }));
            let mut variant =
                Variant { path, key: by, value: *value, keys: vec![], needed: vec![] };
            for (_, key, asked) in asked.iter().filter(|(of, _, _)| of == path) {
                if !variant.keys.contains(key) {
                    variant.keys.push(key);
                }
                if *asked == Asked::Needed && !variant.needed.contains(key) {
                    variant.needed.push(key);
                }
            }
            variants.push(variant);
        }
    }
    for told in keys.values_mut() {
        follow(&mut told.defaults);
    }
    Known { keys, variants }
}

/// Values that differ on one ground follow from the file.
fn follow(defaults: &mut Vec<(String, &'static str)>) {
    let mut grounds: Vec<&'static str> = defaults.iter().map(|(_, ground)| *ground).collect();
    grounds.dedup();
    for ground in grounds {
        let count = defaults.iter().filter(|(_, own)| *own == ground).count();
        if count > 1 && !ground.starts_with("±") {
            let first = defaults.iter().position(|(_, own)| *own == ground);
            let mut index = 0;
            defaults.retain_mut(|(value, own)| {
                let keep = *own != ground || Some(index) == first;
                if *own == ground {
                    value.clear();
                }
                index += 1;
                keep
            });
        }
    }
}

/// A build file with the examples of all keys, or of the tables under one path; `value` gives what
/// is written for a key.
fn file(only: &str, value: &dyn Fn(&str, &keys::Key) -> Option<String>) -> String {
    let mut text = String::from("format = 1\n");
    for table in keys::tables().filter(|table| table.heading.starts_with('[')) {
        let wanted = only.is_empty()
            || table.path == only
            || (only != "job" && table.path == "job")
            || table.path.strip_prefix(only).is_some_and(|rest| rest.starts_with('.'));
        if !wanted {
            continue;
        }
        let _ = writeln!(text, "{}", table.heading);
        for key in table.keys.iter().filter(|key| !key.example.is_empty()) {
            if let Some(value) = value(table.path, key) {
                let _ = writeln!(text, "{} = {value}", key.name);
            }
        }
    }
    text
}

fn asked(text: &str, tables: &Tables) -> super::shape::Survey {
    let text = Text::new("examples", text);
    let mut r = Reader::new(&text, tables);
    r.survey();
    if let Some(tree) = parse::parse(&mut r) {
        let top = Cursor::new(tree.get_ref(), Home { path: "", span: Span::NONE, inline: false });
        let _ = whole::whole(&mut r, top);
    }
    r.surveyed()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_key_in_the_list_is_asked_for_with_a_shape() {
        let known = known(Tables::builtin());
        for table in keys::tables() {
            for key in table.keys {
                let told = known.of(table.path, key.name);
                let told =
                    told.unwrap_or_else(|| panic!("{}.{} is not read", table.path, key.name));
                assert!(!told.shapes.is_empty(), "{}.{}: no shape", table.path, key.name);
                assert_eq!(told.needed, key.needed, "{}.{}: needed?", table.path, key.name);
                assert!(
                    !key.needed || told.defaults.is_empty(),
                    "{}.{} is needed and has a default",
                    table.path,
                    key.name
                );
            }
        }
    }
}

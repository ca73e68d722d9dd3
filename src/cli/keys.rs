//! `keys`: every key of a build file, made from what the readers ask for.

use super::args::Keys;
use super::fault::Fault;
use super::{Ended, output, own, say};
use crate::read::{self, Known, Told, keys};
use std::fmt::Write;

/// Prints the keys of all tables, or of some.
pub fn keys(options: &Keys) -> Result<(), Ended> {
    let tables = own::tables(&options.own)?;
    let known = read::known(&tables);
    let page = page(&known, options.path.as_deref(), say::columns_out());
    if let (Some(path), true) = (&options.path, page.is_empty()) {
        let mut near: Vec<(usize, &str)> = keys::tables()
            .flat_map(|table| std::iter::once(table.path).chain(table.keys.iter().map(|k| k.name)))
            .map(|name| (strsim::osa_distance(name, path), name))
            .collect();
        near.sort_unstable();
        let nearest = near.first().map_or(String::new(), |(_, name)| (*name).to_owned());
        return Err(Fault::UnknownKey(path.clone(), nearest).into());
    }
    output::write(None, page.as_bytes())?;
    Ok(())
}

fn page(known: &Known, only: Option<&str>, columns: usize) -> String {
    let mut page = String::new();
    for table in keys::tables() {
        let whole = only.is_none_or(|only| {
            let only = only.trim_matches(['[', ']']);
            table.path == only
                || table.path.strip_prefix(only).is_some_and(|rest| rest.starts_with('.'))
        });
        let chosen: Vec<_> =
            table.keys.iter().filter(|key| whole || only == Some(key.name)).collect();
        if chosen.is_empty() {
            continue;
        }
        if !page.is_empty() {
            page.push('\n');
        }
        let heading = match table.path.rsplit_once('.') {
            Some((above, _)) if !table.heading.starts_with('[') => {
                format!("{} = {{ … }} in {above}", table.heading)
            }
            _ => table.heading.to_owned(),
        };
        let _ = writeln!(page, "{heading}: {}", table.says);
        for key in chosen {
            let Some(told) = known.of(table.path, key.name) else { continue };
            let line = if key.example.is_empty() {
                key.name.to_owned()
            } else {
                format!("{} = {}", key.name, key.example)
            };
            let _ = writeln!(page, "\n  {line}");
            for line in about(table, key, told, known) {
                let width = columns.saturating_sub(6).max(30);
                for line in crate::terminal::lines_of(&line, width) {
                    let _ = writeln!(page, "      {line}");
                }
            }
        }
    }
    page
}

/// What is known of a key, a line each: what it tells, what it takes, what stands in its place.
pub fn about(table: &keys::Table, key: &keys::Key, told: &Told, known: &Known) -> Vec<String> {
    let shapes: Vec<String> = told.shapes.iter().map(read::Shape::words).collect();
    let mut lines = vec![key.says.to_owned(), shapes.join(", or ")];
    let variants = known.only_in(table.path, key.name);
    if !variants.is_empty() {
        let ways: Vec<String> = variants
            .iter()
            .map(|variant| match variant.value {
                Some(value) => format!("{} = \"{value}\"", variant.key),
                None => format!("`{}`", variant.key),
            })
            .collect();
        lines.push(format!("only with {}", ways.join(" or ")));
    }
    let needing = variants.iter().filter(|variant| variant.needed.contains(&key.name)).count();
    if told.needed || (needing > 0 && needing == variants.len()) {
        lines.push("needed".to_owned());
    }
    for (value, ground) in &told.defaults {
        lines.push(if value.is_empty() {
            format!("left out: {ground}")
        } else {
            format!("left out: {value} ({ground})")
        });
    }
    if lines.len() == 2 && !told.needed {
        lines.push("may be left out".to_owned());
    }
    lines
}

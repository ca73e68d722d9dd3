//! Every table and key that a build file may have, with an example and what it says.
//!
//! Messages take the example and the meaning from here, `explain` can print it, and a test holds
//! it against what the readers ask for.

mod air;
mod array;
mod direct;
mod electrics;
mod fixture;
mod job;
mod mount;
mod roof;
mod stock;

/// A table of the build file.
#[derive(Debug, Clone, Copy)]
pub struct Table {
    /// Dotted path: `panel.flange`; empty for the top of the file.
    pub path: &'static str,
    /// As written: `[[panel]]`, or `flange` for a table between braces.
    pub heading: &'static str,
    /// What it tells.
    pub says: &'static str,
    /// Its keys.
    pub keys: &'static [Key],
}

/// A key of a table.
#[derive(Debug, Clone, Copy)]
pub struct Key {
    /// As written.
    pub name: &'static str,
    /// A value as it may be written.
    pub example: &'static str,
    /// What it tells.
    pub says: &'static str,
    /// Whether its table can't do without it. Some more keys are needed for what other tables ask.
    pub needed: bool,
}

/// A key that may be left out.
const fn key(name: &'static str, example: &'static str, says: &'static str) -> Key {
    Key { name, example, says, needed: false }
}

/// A key that its table can't do without.
const fn must(name: &'static str, example: &'static str, says: &'static str) -> Key {
    Key { name, example, says, needed: true }
}

/// Keys of a photograph, wherever it may stand.
const PHOTO: &[Key] = &[
    must("file", "\"foot-f1.jpg\"", "file in the build file's folder or below it"),
    key("shows", "\"foot F1 on its outline\"", "what is to be seen on it"),
];

const fn table(
    path: &'static str,
    heading: &'static str,
    says: &'static str,
    keys: &'static [Key],
) -> Table {
    Table { path, heading, says, keys }
}

/// The table of this path.
pub fn table_of(path: &str) -> Option<&'static Table> {
    tables().find(|table| table.path == path)
}

/// The key of this name in the table of this path.
pub fn key_of(path: &str, name: &str) -> Option<&'static Key> {
    table_of(path)?.keys.iter().find(|key| key.name == name)
}

/// Tables that have a key of this name, in the order of the file.
pub fn homes_of(name: &str) -> impl Iterator<Item = &'static Table> {
    tables().filter(move |table| table.keys.iter().any(|key| key.name == name))
}

/// All tables, in the order in which a build file is best written.
pub fn tables() -> impl Iterator<Item = &'static Table> {
    let areas = [
        job::TABLES,
        roof::TABLES,
        air::TABLES,
        array::TABLES,
        mount::TABLES,
        fixture::TABLES,
        stock::TABLES,
        electrics::TABLES,
        direct::TABLES,
    ];
    areas.into_iter().flatten()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn no_table_or_key_is_told_twice() {
        let mut seen = BTreeSet::new();
        for table in tables() {
            assert!(seen.insert((table.path, "")), "{} twice", table.path);
            for key in table.keys {
                assert!(seen.insert((table.path, key.name)), "{}.{} twice", table.path, key.name);
                assert!(!key.says.is_empty());
            }
        }
    }

    #[test]
    fn a_key_without_an_example_is_a_table_with_keys_of_its_own() {
        for table in tables() {
            for key in table.keys.iter().filter(|key| key.example.is_empty()) {
                let path = if table.path.is_empty() {
                    key.name.to_owned()
                } else {
                    format!("{}.{}", table.path, key.name)
                };
                assert!(table_of(&path).is_some(), "{path}");
            }
        }
    }
}

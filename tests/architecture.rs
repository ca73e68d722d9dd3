//! Who may import whom: the folders under `src` follow the pipeline.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// What each folder may import. `cli` and `terminal` may import anything; only `cli` imports
/// `terminal`, and nothing imports `cli`.
const TABLE: &[(&str, &[&str])] = &[
    ("units", &[]),
    ("source", &[]),
    ("geometry", &["units"]),
    ("tables", &["units", "source"]),
    ("build", &["geometry", "units", "source", "tables"]),
    // The reader tells of letters that no embedded face has.
    ("read", &["build", "geometry", "units", "source", "tables", "page::text"]),
    ("derive", &["build", "geometry", "units", "source", "tables"]),
    ("compute", &["derive", "build", "geometry", "units", "source", "tables"]),
    (
        "findings",
        &["compute", "derive", "build", "geometry", "units", "source", "tables", "read::codes"],
    ),
    ("page", &["units", "geometry"]),
    (
        // The survey prints the reader's own list of keys.
        "sheets",
        &[
            "page",
            "compute",
            "derive",
            "build",
            "geometry",
            "units",
            "source",
            "tables",
            "read::keys",
        ],
    ),
    // A language is a change of the finished packet, whatever it is about.
    ("tongue", &["page"]),
    ("paper", &["page", "geometry", "units"]),
];

/// Folders that may import anything.
const EDGES: &[&str] = &["cli", "terminal"];

#[test]
fn folders_import_only_what_stands_before_them() {
    let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut faults = Vec::new();
    let mut files = 0;
    for path in rust_files(&source) {
        let module = module_path(&path, &source);
        let Some(home) = module.first().filter(|home| !EDGES.contains(&home.as_str())) else {
            continue;
        };
        files += 1;
        let Some((_, allowed)) = TABLE.iter().find(|(folder, _)| folder == home) else {
            faults.push(format!("{home} is not in the table of this test"));
            continue;
        };
        let text = std::fs::read_to_string(&path).expect("a source file is text");
        for (line, import) in imports(&text, module.len()) {
            let folder = import.split("::").next().unwrap_or_default();
            let fine = folder == home
                || allowed
                    .iter()
                    .any(|may| import == *may || import.starts_with(&format!("{may}::")));
            if fine || !is_folder(folder) {
                continue;
            }
            faults.push(format!("{}:{line} imports {import}", path.display()));
        }
    }
    assert!(files > 20, "the source is there");
    assert!(faults.is_empty(), "not allowed (see the table in this test):\n{}", faults.join("\n"));
}

#[test]
fn imports_are_found_however_they_are_written() {
    let text = "use crate::units::Length;\n\
                // use crate::cli::No;\n\
                use crate::{\n    build::{Job, Paper},\n    read,\n};\n\
                fn f(x: &crate::tables::Row) {}\n\
                use super::super::paper::Pdf;\n\
                #[cfg(test)]\nmod tests { use crate::read::read; }\n";
    let found: BTreeMap<String, usize> =
        imports(text, 2).into_iter().map(|(line, import)| (import, line)).collect();
    let names: Vec<&str> = found.keys().map(String::as_str).collect();
    assert_eq!(names, ["build", "paper::Pdf", "read", "tables::Row", "units::Length"]);
    assert_eq!(found["tables::Row"], 7);
}

fn is_folder(name: &str) -> bool {
    EDGES.contains(&name) || TABLE.iter().any(|(folder, _)| *folder == name)
}

fn rust_files(folder: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    let mut folders = vec![folder.to_owned()];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(&folder).expect("src can be listed") {
            let path = entry.expect("an entry of src").path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|end| end == "rs") {
                files.push(path);
            }
        }
    }
    files.sort();
    files
}

/// `src/read/take/date.rs` is `read::take::date`; the roots of the crate have no path.
fn module_path(file: &Path, source: &Path) -> Vec<String> {
    let inside = file.strip_prefix(source).expect("a file of src").with_extension("");
    let mut path: Vec<String> =
        inside.components().map(|part| part.as_os_str().to_string_lossy().into_owned()).collect();
    if path.last().is_some_and(|last| last == "mod" || last == "lib" || last == "main") {
        path.pop();
    }
    path
}

/// Paths from the root of the crate with the line they stand on: after `crate::` and after so many
/// `super::` that they reach the root. Comments are left out, and so is what follows
/// `#[cfg(test)]`: a test may make its values from a build file.
fn imports(text: &str, depth: usize) -> Vec<(usize, String)> {
    let code: Vec<&str> = text.lines().take_while(|line| line.trim() != "#[cfg(test)]").collect();
    let code: Vec<&str> = code
        .into_iter()
        .map(|line| if line.trim_start().starts_with("//") { "" } else { line })
        .collect();
    let code = code.join("\n");
    let up = "super::".repeat(depth);
    let mut found = Vec::new();
    for root in ["crate::", up.as_str()] {
        for (at, _) in code.match_indices(root) {
            let line = code[..at].matches('\n').count() + 1;
            let rest = &code[at + root.len()..];
            if let Some(group) = rest.strip_prefix('{') {
                found.extend(members(group).into_iter().map(|name| (line, name)));
            } else {
                found.push((line, path_of(rest)));
            }
        }
    }
    found.retain(|(_, path)| !path.is_empty() && !path.starts_with("super"));
    found
}

/// The first two names of a path.
fn path_of(text: &str) -> String {
    let end =
        text.find(|c: char| !(c.is_alphanumeric() || c == '_' || c == ':')).unwrap_or(text.len());
    let names: Vec<&str> =
        text[..end].split("::").filter(|name| !name.is_empty()).take(2).collect();
    names.join("::")
}

/// The names at the first level of a group between braces.
fn members(group: &str) -> Vec<String> {
    let mut names = Vec::new();
    let mut level = 0;
    let mut name = String::new();
    for c in group.chars() {
        match c {
            '{' => level += 1,
            '}' if level == 0 => break,
            '}' => level -= 1,
            ',' if level == 0 => names.push(std::mem::take(&mut name)),
            _ if level == 0 => name.push(c),
            _ => {}
        }
    }
    names.push(name);
    names.iter().map(|name| path_of(name.trim())).filter(|name| !name.is_empty()).collect()
}

//! Tables of the reader's own, beside those that come with the program.

use super::args::Own;
use super::fault::Fault;
use super::say;
use crate::read;
use crate::read::codes::{own_folder, own_row};
use crate::source::{Finding, Span, Text};
use crate::tables::Tables;
use std::borrow::Cow;
use std::io;
use std::path::{Path, PathBuf};
use toml::de::DeTable;

/// What was read of them.
pub struct Read {
    /// Ours and theirs.
    pub tables: Cow<'static, Tables>,
    /// Files with faults, and what is wrong with each.
    pub faulty: Vec<(Text, Vec<Finding>)>,
    /// What is wrong with the line of the build file that names the folder.
    pub finding: Option<Finding>,
    /// The folder and its files, to be watched.
    pub files: Vec<PathBuf>,
}

/// Ours alone.
fn ours() -> Read {
    Read {
        tables: Cow::Borrowed(Tables::builtin()),
        faulty: Vec::new(),
        finding: None,
        files: Vec::new(),
    }
}

/// Tables for a command without a build file.
pub fn tables(own: &Own) -> Result<Cow<'static, Tables>, Fault> {
    let Some(folder) = &own.materials else { return Ok(ours().tables) };
    let read = from(folder).map_err(|error| Fault::Read(folder.clone(), error))?;
    for (text, findings) in &read.faulty {
        say::drawn(text, findings);
    }
    if read.faulty.is_empty() { Ok(read.tables) } else { Err(Fault::Tables(folder.clone())) }
}

/// Tables for a build file: those of the folder that was asked for, else of the one that it names.
pub fn for_build(own: &Own, path: &Path, contents: &str) -> Result<Read, Fault> {
    if let Some(folder) = &own.materials {
        return from(folder).map_err(|error| Fault::Read(folder.clone(), error));
    }
    let Some((named, span)) = named(contents) else { return Ok(ours()) };
    let beside = path.parent().unwrap_or(Path::new(""));
    Ok(from(&beside.join(&named)).unwrap_or_else(|error| Read {
        finding: Some(own_folder::raise(&named, &why(&error), span)),
        ..ours()
    }))
}

/// In the words of a workshop, alike on every system.
fn why(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "it is not there".to_owned(),
        io::ErrorKind::NotADirectory => "it is a file".to_owned(),
        io::ErrorKind::PermissionDenied => "it is locked".to_owned(),
        _ => error.to_string(),
    }
}

/// The folder that the build file names.
fn named(contents: &str) -> Option<(String, Span)> {
    let (file, _) = DeTable::parse_recoverable(contents);
    let value = file.get_ref().get("materials")?;
    let folder = value.get_ref().as_str()?.trim();
    (!folder.is_empty()).then(|| (folder.to_owned(), value.span().into()))
}

/// Reads every table file of a folder, in the order of their names.
fn from(folder: &Path) -> io::Result<Read> {
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder)?
        .map(|entry| entry.map(|entry| entry.path()))
        .collect::<io::Result<_>>()?;
    files.retain(|path| path.extension().is_some_and(|end| end.eq_ignore_ascii_case("toml")));
    files.sort();
    let mut tables = Tables::builtin().clone();
    let mut faulty = Vec::new();
    for path in &files {
        let name = path.display().to_string();
        let short = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let bytes = std::fs::read(path)?;
        let text = match read::open(&name, &bytes) {
            Ok(text) => text,
            Err(finding) => {
                faulty.push((Text::new(name, ""), vec![*finding]));
                continue;
            }
        };
        let faults = tables.add_toml(text.contents(), &short);
        if !faults.is_empty() {
            faulty.push((text, own_row::raise(&faults)));
        }
    }
    files.push(folder.to_owned());
    Ok(Read { tables: Cow::Owned(tables), faulty, finding: None, files })
}

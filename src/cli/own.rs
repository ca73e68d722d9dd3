//! Tables and steps of the reader's own, beside those that come with the program.

use super::args::{Own, OwnTables};
use super::fault::Fault;
use super::say;
use crate::compute::steps::Steps;
use crate::compute::steps::rules::{t107_own_template, t108_own_templates};
use crate::compute::steps::template::{TemplateFault, Templates};
use crate::read;
use crate::read::codes::{own_folder, own_row};
use crate::source::{Finding, Span, Text};
use crate::tables::Tables;
use sha2::{Digest, Sha256};
use std::borrow::Cow;
use std::io;
use std::path::{Path, PathBuf};
use toml::de::DeTable;

/// What was read of them.
pub struct Read {
    /// Ours and theirs.
    pub tables: Cow<'static, Tables>,
    /// Ours and theirs.
    pub templates: Cow<'static, Templates>,
    /// Files with faults, and what is wrong with each.
    pub faulty: Vec<(Text, Vec<Finding>)>,
    /// What is wrong with the lines of the build file that name the folders.
    pub findings: Vec<Finding>,
    /// The folders and their files, to be watched.
    pub files: Vec<PathBuf>,
    /// Marks of their contents, for the fingerprint.
    pub marks: Vec<u8>,
    /// Files of steps, as [`TemplateFault::file`] counts them, and what is wrong with each.
    steps: Vec<Text>,
    faults: Vec<TemplateFault>,
    /// Where the build file names the folder of steps.
    named: Span,
}

/// Ours alone.
fn ours() -> Read {
    Read {
        tables: Cow::Borrowed(Tables::builtin()),
        templates: Cow::Borrowed(Templates::builtin()),
        faulty: Vec::new(),
        findings: Vec::new(),
        files: Vec::new(),
        marks: Vec::new(),
        steps: Vec::new(),
        faults: Vec::new(),
        named: Span::NONE,
    }
}

/// Tables for a command without a build file.
pub fn tables(own: &OwnTables) -> Result<Cow<'static, Tables>, Fault> {
    let mut read = ours();
    let Some(folder) = &own.materials else { return Ok(read.tables) };
    read.add_tables(folder).map_err(|error| Fault::Read(folder.clone(), error))?;
    for (text, findings) in &read.faulty {
        say::drawn(text, findings);
    }
    if read.faulty.is_empty() { Ok(read.tables) } else { Err(Fault::Tables(folder.clone())) }
}

/// Reads one kind of file out of a folder.
type Add = fn(&mut Read, &Path) -> io::Result<()>;

/// What goes with a build file: from the folders that were asked for, else from those that it names.
pub fn for_build(own: &Own, path: &Path, contents: &str) -> Result<Read, Fault> {
    let mut read = ours();
    let kinds: [(&str, &Option<PathBuf>, Add); 2] = [
        ("materials", &own.tables.materials, Read::add_tables),
        ("templates", &own.templates, Read::add_templates),
    ];
    let beside = path.parent().unwrap_or(Path::new(""));
    // Only a line that begins so can name a folder, and few files have one; a key may be written with
    // escapes.
    let names = contents.contains('\\') || kinds.iter().any(|(key, _, _)| contents.contains(key));
    let file = names.then(|| DeTable::parse_recoverable(contents).0);
    for (key, asked, add) in kinds {
        if let Some(folder) = asked {
            add(&mut read, folder).map_err(|error| Fault::Read(folder.clone(), error))?;
        } else if let Some((folder, span)) =
            file.as_ref().and_then(|file| named(file.get_ref(), key))
        {
            match add(&mut read, &beside.join(&folder)) {
                Ok(()) if key == "templates" => read.named = span,
                Ok(()) => {}
                Err(error) => {
                    read.findings.push(own_folder::raise(key, &folder, &why(&error), span));
                }
            }
        }
    }
    Ok(read)
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
fn named(file: &DeTable<'_>, key: &str) -> Option<(String, Span)> {
    let value = file.get(key)?;
    let folder = value.get_ref().as_str()?.trim();
    (!folder.is_empty()).then(|| (folder.to_owned(), value.span().into()))
}

/// A file of a folder: its short name, and its text or what is wrong with it.
struct OwnFile {
    short: String,
    text: Result<Text, (Text, Finding)>,
}

impl Read {
    /// Reads every table file of a folder.
    fn add_tables(&mut self, folder: &Path) -> io::Result<()> {
        let files = self.open(folder)?;
        let mut tables = self.tables.as_ref().clone();
        for file in files {
            match file.text {
                Err((text, finding)) => self.faulty.push((text, vec![finding])),
                Ok(text) => {
                    let faults = tables.add_toml(text.contents(), &file.short);
                    if !faults.is_empty() {
                        self.faulty.push((text, own_row::raise(&faults)));
                    }
                }
            }
        }
        self.tables = Cow::Owned(tables);
        Ok(())
    }

    /// Reads every template of a folder.
    fn add_templates(&mut self, folder: &Path) -> io::Result<()> {
        let mut named = Vec::new();
        for file in self.open(folder)? {
            match file.text {
                Err((text, finding)) => self.faulty.push((text, vec![finding])),
                Ok(text) => {
                    named.push((file.short, text.contents().to_owned()));
                    self.steps.push(text);
                }
            }
        }
        let (templates, faults) = Templates::with(&named);
        self.templates = Cow::Owned(templates);
        self.faults = faults;
        Ok(())
    }

    /// Opens the .toml files of a folder, in the order of their names. What a link leads to outside the
    /// folder is not read.
    fn open(&mut self, folder: &Path) -> io::Result<Vec<OwnFile>> {
        let mut paths: Vec<PathBuf> = std::fs::read_dir(folder)?
            .map(|entry| entry.map(|entry| entry.path()))
            .collect::<io::Result<_>>()?;
        paths.retain(|path| path.extension().is_some_and(|end| end.eq_ignore_ascii_case("toml")));
        paths.sort();
        let home = folder.canonicalize()?;
        let mut all = Vec::new();
        for path in &paths {
            let name = path.display().to_string();
            let short = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
            let refused = |finding| Err((Text::new(&*name, ""), finding));
            let real = path.canonicalize()?;
            let size = std::fs::metadata(&real)?;
            let text = if !real.starts_with(&home) {
                refused(own_folder::outside(&short))
            } else if !size.is_file() {
                continue;
            } else if let Some(finding) = read::too_large(size.len()) {
                refused(finding)
            } else {
                let bytes = std::fs::read(&real)?;
                self.marks.extend(mark(&short, &bytes));
                match read::open(&name, &bytes) {
                    Ok(text) => Ok(text),
                    Err(finding) => refused(*finding),
                }
            };
            all.push(OwnFile { short, text });
        }
        self.files.append(&mut paths);
        self.files.push(folder.to_owned());
        Ok(all)
    }

    /// Once the steps are made: what is wrong with the reader's own, and that they are used.
    pub fn judge_steps(&mut self, steps: Option<&Steps>) {
        let mut faults = std::mem::take(&mut self.faults);
        if let Some(steps) = steps {
            faults.extend(self.templates.filled_in(steps));
            let own = steps.steps.iter().filter(|step| self.templates.is_own(&step.key));
            let titles: Vec<&str> = own.map(|step| step.title.as_str()).collect();
            self.findings.extend(t108_own_templates::raise(&titles, self.named));
        }
        for (index, text) in std::mem::take(&mut self.steps).into_iter().enumerate() {
            let found = t107_own_template::raise(faults.iter().filter(|f| f.file == index));
            if !found.is_empty() {
                self.faulty.push((text, found));
            }
        }
    }
}

/// Stands for a file in the fingerprint: two files of other names or bytes have other marks.
pub fn mark(name: &str, bytes: &[u8]) -> [u8; 32] {
    let whole = Sha256::new().chain_update(Sha256::digest(name)).chain_update(bytes);
    whole.finalize().into()
}

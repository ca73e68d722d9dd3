//! From a file to results, the stages in order.

use super::fault::Fault;
use super::photos::photo_files;
use crate::build::Build;
use crate::compute::photos::photos;
use crate::compute::{self, Results};
use crate::derive::{self, Work};
use crate::read;
use crate::source::{Finding, Severity, Text, sort};
use crate::tables::Tables;
use std::io::Read;
use std::path::{Path, PathBuf};

/// A build file and all that followed from it.
pub struct Loaded {
    /// Its bytes as they were, to travel in the packet.
    pub bytes: Vec<u8>,
    /// The text with its name; empty if it is no text.
    pub text: Text,
    /// Everything to say about it, what to do first in front.
    pub findings: Vec<Finding>,
    /// The stages' results; absent if the file could not be read as a build.
    pub done: Option<Done>,
}

/// Results of all stages.
pub struct Done {
    /// What was written.
    pub build: Build,
    /// What is to be made.
    pub work: Work,
    /// What was worked out.
    pub results: Results,
}

impl Loaded {
    /// Whether a finding forbids the use of the packet.
    pub fn stopped(&self) -> bool {
        self.done.is_none() || self.findings.iter().any(|f| f.severity == Severity::Stop)
    }

    /// A file that is no build at all.
    fn refused(name: &str, bytes: Vec<u8>, finding: Finding) -> Self {
        Self { bytes, text: Text::new(name, ""), findings: vec![finding], done: None }
    }
}

/// Reads the file and runs every stage.
pub fn load(path: &Path) -> Result<Loaded, Fault> {
    let name = if path == Path::new("-") {
        "standard input".to_owned()
    } else {
        path.display().to_string()
    };
    let fault = |error| Fault::Read(path.to_owned(), error);
    let mut bytes = Vec::new();
    // One byte more than may be read, so that what is too large is seen without loading it.
    let most = read::MOST_BYTES + 1;
    if path == Path::new("-") {
        std::io::stdin().lock().take(most).read_to_end(&mut bytes).map_err(fault)?;
    } else {
        let file = std::fs::File::open(path).map_err(fault)?;
        let meta = file.metadata().map_err(fault)?;
        if meta.is_dir() {
            return Err(fault(std::io::Error::other("this is a folder, not a build file")));
        }
        if let Some(finding) = read::too_large(meta.len()) {
            return Ok(Loaded::refused(&name, Vec::new(), finding));
        }
        file.take(most).read_to_end(&mut bytes).map_err(fault)?;
    }
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    Ok(run(&name, bytes, Some(folder)))
}

/// Runs every stage over the bytes of a build file; photographs are those of the folder, if there is one.
pub fn run(name: &str, bytes: Vec<u8>, folder: Option<&Path>) -> Loaded {
    let tables = Tables::builtin();
    let text = match read::open(name, &bytes) {
        Ok(text) => text,
        Err(finding) => return Loaded::refused(name, bytes, *finding),
    };
    let (build, mut findings) = read::read(&text, tables);
    let done = build.map(|build| {
        let (work, more) = derive::derive(&build);
        findings.extend(more);
        let (mut results, more) = compute::compute(&build, &work, tables);
        findings.extend(more);
        if let Some(folder) = folder {
            let (photos, more) = photos(&build, &photo_files(&build, folder));
            results.photos = photos;
            findings.extend(more);
        }
        Done { build, work, results }
    });
    sort(&mut findings);
    Loaded { bytes, text, findings, done }
}

/// Where a packet goes that nobody named a file for: the build file's name with `.pdf`, here.
pub fn default_output(build: &Path) -> PathBuf {
    let stem = build.file_stem().filter(|_| build != Path::new("-"));
    let mut name = stem.map_or_else(|| "packet".into(), std::ffi::OsStr::to_os_string);
    name.push(".pdf");
    name.into()
}

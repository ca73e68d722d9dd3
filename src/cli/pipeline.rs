//! From a file to results, the stages in order.

use super::fault::Fault;
use crate::build::Build;
use crate::compute::{self, Results};
use crate::derive::{self, Work};
use crate::source::{Finding, Severity, Text, finding};
use crate::tables::Tables;
use crate::read;
use std::io::Read;
use std::path::{Path, PathBuf};

/// Largest build file that is read: a hundred times the longest example.
pub const LARGEST_BUILD: u64 = 1 << 20;

/// A build file and all that followed from it.
pub struct Loaded {
    /// The text with its name.
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
}

/// Reads the file and runs every stage.
pub fn load(path: &Path) -> Result<Loaded, Fault> {
    let bytes = read_bytes(path)?;
    let name = if path == Path::new("-") { "standard input".to_owned() } else { path.display().to_string() };
    Ok(run(&name, bytes))
}

/// Runs every stage over the bytes of a build file.
pub fn run(name: &str, bytes: Vec<u8>) -> Loaded {
    let tables = Tables::builtin();
    let (text, build, mut findings) = read::read_bytes(name, bytes, tables);
    let done = build.map(|build| {
        let (work, more) = derive::derive(&build);
        findings.extend(more);
        let (results, more) = compute::compute(&build, &work, tables);
        findings.extend(more);
        Done { build, work, results }
    });
    finding::sort(&mut findings);
    Loaded { text, findings, done }
}

fn read_bytes(path: &Path) -> Result<Vec<u8>, Fault> {
    let fault = |error| Fault::Read(path.to_owned(), error);
    let mut bytes = Vec::new();
    if path == Path::new("-") {
        std::io::stdin().lock().take(LARGEST_BUILD + 1).read_to_end(&mut bytes).map_err(fault)?;
    } else {
        let file = std::fs::File::open(path).map_err(fault)?;
        let meta = file.metadata().map_err(fault)?;
        if meta.is_dir() {
            return Err(fault(std::io::Error::other("this is a folder, not a build file")));
        }
        if meta.len() > LARGEST_BUILD {
            return Err(Fault::TooLarge(path.to_owned(), meta.len()));
        }
        file.take(LARGEST_BUILD + 1).read_to_end(&mut bytes).map_err(fault)?;
    }
    let size = bytes.len() as u64;
    if size > LARGEST_BUILD { Err(Fault::TooLarge(path.to_owned(), size)) } else { Ok(bytes) }
}

/// Where a packet goes that nobody named a file for: the build file's name with `.pdf`, here.
pub fn default_output(build: &Path) -> PathBuf {
    let stem = build.file_stem().filter(|_| build != Path::new("-"));
    let mut name = stem.map_or_else(|| "packet".into(), std::ffi::OsStr::to_os_string);
    name.push(".pdf");
    name.into()
}

//! From a file to results, the stages in order.

use super::args::Own;
use super::fault::Fault;
use super::own;
use super::photos::photo_files;
use super::surroundings;
use crate::build::Build;
use crate::compute::photos::{PhotoFile, photos};
use crate::compute::side::both;
use crate::compute::steps::safety;
use crate::compute::steps::template::Templates;
use crate::compute::{self, Results};
use crate::derive::{self, Work};
use crate::read;
use crate::read::codes::own_rows;
use crate::source::{Finding, Severity, Stated, Text, sort};
use crate::tables::GivenBy;
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
    /// Files of the reader's own tables with what is wrong with them.
    pub own: Vec<(Text, Vec<Finding>)>,
    /// Other files that it was made from.
    pub files: Vec<PathBuf>,
    /// Marks of their contents, for the fingerprint.
    pub beside: Vec<u8>,
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
        self.done.is_none() || self.all().any(|finding| finding.severity == Severity::Stop)
    }

    /// Findings of the build file and of own tables.
    pub fn all(&self) -> impl Iterator<Item = &Finding> {
        self.own.iter().flat_map(|(_, findings)| findings).chain(&self.findings)
    }

    /// Each text with its findings, own tables first: what is wrong there makes the rest wrong.
    pub fn texts(&self) -> impl Iterator<Item = (&Text, &[Finding])> {
        let own = self.own.iter().map(|(text, findings)| (text, findings.as_slice()));
        own.chain([(&self.text, self.findings.as_slice())])
    }

    /// A file that is no build at all.
    fn refused(name: &str, bytes: Vec<u8>, finding: Finding) -> Self {
        Self {
            bytes,
            text: Text::new(name, ""),
            findings: vec![finding],
            own: Vec::new(),
            files: Vec::new(),
            beside: Vec::new(),
            done: None,
        }
    }
}

/// What is made of the results.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum For {
    /// Findings and figures alone.
    Figures,
    /// Sheets, which tell more.
    Sheets,
}

/// Steps and safety messages of the program are read while the tables and the build file are.
fn read_ahead() {
    // Where no thread is to be had, they are read when they are asked for.
    let _ = std::thread::Builder::new().spawn(|| {
        Templates::builtin();
        safety::keys().count()
    });
}

/// Reads the file and runs every stage.
pub fn load(path: &Path, own: &Own, wanted: For) -> Result<Loaded, Fault> {
    let name = if path == Path::new("-") {
        "standard input".to_owned()
    } else {
        path.display().to_string()
    };
    read_ahead();
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
    run(&name, path, bytes, (own, wanted))
}

/// Runs every stage over the bytes of a build file; `path` tells what it lies beside.
pub fn run(
    name: &str,
    path: &Path,
    bytes: Vec<u8>,
    (own, wanted): (&Own, For),
) -> Result<Loaded, Fault> {
    let text = match read::open(name, &bytes) {
        Ok(text) => text,
        Err(finding) => return Ok(Loaded::refused(name, bytes, *finding)),
    };
    let mut own = own::for_build(own, path, text.contents())?;
    let tables = own.tables.as_ref();
    let issue = surroundings::issue()?;
    let (build, mut findings) = read::read_on(&text, tables, issue);
    let mut beside = std::mem::take(&mut own.marks);
    if let Some(date) = build.as_ref().map(|build| build.job.date).filter(Stated::is_default) {
        // The same build file issued on another day is another packet.
        beside.extend(own::mark("date of issue", date.value.to_string().as_bytes()));
    }
    let done = build.map(|build| {
        findings.extend(own_rows::raise(&readers_rows(&build)));
        let (work, more) = derive::derive(&build);
        findings.extend(more);
        let strips = || compute::what_if::strips(&build, &work, tables);
        let templates = own.templates.as_ref();
        let computed = || compute::compute_by(&build, &work, tables, templates);
        let (strips, (mut results, more)) = match wanted {
            For::Sheets => both(strips, computed),
            For::Figures => (Vec::new(), computed()),
        };
        results.what_if = strips;
        findings.extend(more);
        let files = photo_files(&build, folder(path));
        for (name, file) in &files {
            if let PhotoFile::Bytes(bytes) = file {
                beside.extend(own::mark(name, bytes));
            }
        }
        let (photos, more) = photos(&build, &files);
        results.photos = photos;
        findings.extend(more);
        Done { build, work, results }
    });
    own.judge_steps(done.as_ref().map(|done| &done.results.steps));
    findings.append(&mut own.findings);
    sort(&mut findings);
    Ok(Loaded { bytes, text, findings, own: own.faulty, files: own.files, beside, done })
}

/// The folder that a build file lies in.
fn folder(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

fn readers_rows(build: &Build) -> Vec<(crate::source::Span, String, String)> {
    let own = build.rows.iter().filter_map(|row| match &row.origin.given_by {
        GivenBy::Reader(file) => Some((row.span, row.name.clone(), file.clone())),
        GivenBy::Program(_) => None,
    });
    own.collect()
}

/// Where a packet goes that nobody named a file for: the build file's name with `.pdf`, here.
pub fn default_output(build: &Path) -> PathBuf {
    let stem = build.file_stem().filter(|_| build != Path::new("-"));
    let mut name = stem.map_or_else(|| "packet".into(), std::ffi::OsStr::to_os_string);
    name.push(".pdf");
    name.into()
}

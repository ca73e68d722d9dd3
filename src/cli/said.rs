//! What a command has to say of one build file: gathered first, so that files worked out side by
//! side do not speak at once.

use super::args::Format;
use super::change::Snapshot;
use super::fault::Fault;
use super::pipeline::Loaded;
use super::{Ended, output, say};
use std::fmt::Write;
use std::path::PathBuf;

/// Texts for both streams, and how it ended.
pub struct Said {
    /// For standard output.
    pub out: Vec<u8>,
    /// For standard error.
    pub err: String,
    /// How it ended.
    pub ended: Result<(), Ended>,
    /// Figures and findings, to be held against those of the next run.
    pub snapshot: Option<Snapshot>,
    /// Files that it was made from, beside the build file.
    pub files: Vec<PathBuf>,
}

impl Said {
    /// Nothing yet.
    pub const fn new() -> Self {
        Self {
            out: Vec::new(),
            err: String::new(),
            ended: Ok(()),
            snapshot: None,
            files: Vec::new(),
        }
    }

    /// A fault of the world alone.
    pub fn fault(fault: Fault) -> Self {
        Self { ended: Err(fault.into()), ..Self::new() }
    }

    /// A line on standard error.
    pub fn line(&mut self, line: impl std::fmt::Display) {
        // Writing to a String has no failure.
        let _ = writeln!(self.err, "{line}");
    }

    /// The findings of a file, in a form for people or editors.
    pub fn findings(&mut self, loaded: &Loaded, format: Format) {
        for (text, findings) in loaded.texts() {
            match format {
                Format::Text => self.err += &crate::terminal::drawn(text, findings, say::look()),
                Format::Line => self.err += &crate::terminal::lines(text, findings),
                Format::Json => {}
            }
        }
        self.snapshot = Some(Snapshot::of(loaded));
        self.files.clone_from(&loaded.files);
        if loaded.stopped() {
            self.ended = Err(Ended::Stopped);
        }
    }

    /// Says it, and gives how it ended.
    pub fn speak(self) -> Result<(), Ended> {
        say::err(&self.err);
        if !self.out.is_empty() {
            output::write(None, &self.out)?;
        }
        self.ended
    }
}

/// What is said where a step may meet a fault of the world.
pub fn said(work: impl FnOnce(&mut Said) -> Result<(), Fault>) -> Said {
    let mut said = Said::new();
    if let Err(fault) = work(&mut said) {
        said.ended = Err(fault.into());
    }
    said
}

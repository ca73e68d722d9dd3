//! From the text of a build file to a [`Build`]: every fault of the file in one run.
//!
//! [`open`] takes bytes and gives a [`Text`]; [`read`] takes the text and the tables that names
//! point to, and gives the build, if nothing stops it, with everything there is to say. The file
//! is TOML; its keys are listed in [`keys`], its findings in [`codes`]. Nothing is ignored in
//! silence: a key that no reader asks for is a finding, a default carries the ground it stands on.
//!
//! Assumes nothing of the text: any bytes give findings, never a panic.

pub mod codes;
pub mod keys;

mod actions;
mod battery;
mod circuit;
mod corner;
mod cursor;
mod cutting;
mod direct;
mod field;
mod fixture;
mod frame;
mod job;
mod mount;
mod panel;
mod parse;
mod reader;
mod record;
mod restraint;
mod roof;
mod shape;
mod survey;
mod take;
mod vehicle;
mod weather;
mod whole;

use crate::build::Build;
use crate::source::{Finding, Severity, Span, Text};
use crate::tables::Tables;
use cursor::Cursor;
use field::Home;
use jiff::civil::Date;
use reader::Reader;
pub use shape::Shape;
pub use survey::{Known, Told, Variant, known};

/// The largest file that is read, in bytes.
pub const MOST_BYTES: u64 = 1 << 20;

/// The finding for a file of `size` bytes that is too large to be read at all, so that the command
/// line need not load it.
pub fn too_large(size: u64) -> Option<Finding> {
    (size > MOST_BYTES).then(|| codes::file_too_large::raise(size, MOST_BYTES))
}

/// Bytes of a file as a text. A byte-order mark at its start is left out.
///
/// # Errors
/// The finding that says why it is no text.
pub fn open(name: &str, bytes: &[u8]) -> Result<Text, Box<Finding>> {
    if let Some(finding) = too_large(bytes.len() as u64) {
        return Err(Box::new(finding));
    }
    match std::str::from_utf8(bytes) {
        Ok(contents) => Ok(Text::new(name, contents.strip_prefix('\u{FEFF}').unwrap_or(contents))),
        Err(error) => {
            let at = error.valid_up_to();
            // The lines before the first bad byte, and the one it is on.
            let line = String::from_utf8_lossy(&bytes[..at]).matches('\n').count() + 1;
            Err(Box::new(codes::not_text::raise(at, line, bytes)))
        }
    }
}

/// Reads a build file. The build is there exactly if no finding stops it; findings are in the order
/// in which to deal with them.
pub fn read(text: &Text, tables: &Tables) -> (Option<Build>, Vec<Finding>) {
    read_on(text, tables, None)
}

/// The same; `issue` is the date of issue of a build file that states none.
pub fn read_on(text: &Text, tables: &Tables, issue: Option<Date>) -> (Option<Build>, Vec<Finding>) {
    if let Some(finding) = too_large(text.contents().len() as u64) {
        return (None, vec![finding]);
    }
    let mut r = Reader::new(text, tables);
    r.issue = issue;
    let Some(tree) = parse::parse(&mut r) else { return (None, r.finish()) };
    if tree.get_ref().is_empty() {
        if !r.is_stopped() {
            r.raise(codes::empty_file::raise());
        }
        return (None, r.finish());
    }
    let top = Cursor::new(tree.get_ref(), Home { path: "", span: Span::NONE, inline: false });
    let build = whole::whole(&mut r, top);
    let build = build.filter(|_| !r.is_stopped());
    let findings = r.finish();
    debug_assert!(
        build.is_some() || findings.iter().any(|finding| finding.severity == Severity::Stop),
        "a build that can't be made has a finding that stops it"
    );
    (build, findings)
}

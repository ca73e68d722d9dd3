//! What can go wrong outside the build file.

use crate::sheets::pick;
use std::fmt;
use std::io;
use std::path::PathBuf;

/// A fault of the world: a file or a name, never the build.
pub enum Fault {
    /// The file could not be read.
    Read(PathBuf, io::Error),
    /// The file is larger than anything this program writes.
    TooLarge(PathBuf, u64),
    /// The file could not be written.
    Write(PathBuf, io::Error),
    /// The folder of the output, named second, takes no new file.
    Folder(PathBuf, PathBuf, io::Error),
    /// The output would replace the input.
    SameFile(PathBuf),
    /// A file is there that was not to be written over.
    Exists(PathBuf),
    /// An answer or a flag, named first, can't be used.
    Answer(String, String),
    /// Own tables in this folder have faults, which were told.
    Tables(PathBuf),
    /// No table or key has this name; the nearest.
    UnknownKey(String, String),
    /// No table has rows of this kind; all kinds.
    UnknownRows(String, Vec<String>),
    /// No rule has this code.
    UnknownCode(String, Vec<&'static str>),
    /// No sheet of the packet is of this kind, step or part.
    UnknownSheet(pick::Unknown),
    /// The survey has no form of this word.
    UnknownForm(String, Vec<&'static str>),
    /// The packet has no step of this number or name.
    UnknownStep(String, Vec<String>),
    /// The packet has no page of this number.
    NoPage(usize, usize),
    /// The page has no drawing of this number: drawing, page, how many there are.
    NoDrawing(usize, usize, usize),
    /// One drawing is written as SVG only.
    DrawingNotSvg(PathBuf),
    /// The file can't be read as a build at all.
    NotABuild(PathBuf),
    /// The packet holds no build file.
    NoBuildFile(PathBuf, String),
    /// The pages could not be turned into a file; a fault of ours.
    Paper(String),
}

impl Fault {
    /// The exit code.
    pub const fn code(&self) -> u8 {
        match self {
            Self::Answer(..)
            | Self::UnknownCode(..)
            | Self::UnknownKey(..)
            | Self::UnknownSheet(..)
            | Self::UnknownForm(..)
            | Self::UnknownStep(..)
            | Self::UnknownRows(..)
            | Self::NoPage(..)
            | Self::NoDrawing(..)
            | Self::DrawingNotSvg(_) => 2,
            Self::Tables(_) => 1,
            _ => 3,
        }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Read(path, error) => write!(f, "can't read {}: {error}", path.display()),
            Self::TooLarge(path, bytes) => write!(
                f,
                "{} has {bytes} bytes; no packet is that large (is it the right file?)",
                path.display()
            ),
            Self::Write(path, error) => {
                write!(f, "can't write {}: {error}; nothing was changed", path.display())
            }
            Self::Folder(path, folder, error) => {
                write!(f, "can't write {}: ", path.display())?;
                let folder = folder.display();
                match error.kind() {
                    io::ErrorKind::NotFound => write!(f, "there is no folder {folder}"),
                    io::ErrorKind::PermissionDenied | io::ErrorKind::ReadOnlyFilesystem => {
                        write!(f, "the folder {folder} is read-only")
                    }
                    io::ErrorKind::StorageFull => write!(f, "the disk is full"),
                    // The temporary file's own name would only puzzle.
                    _ => write!(f, "{folder}: {}", error.kind()),
                }?;
                write!(f, "; nothing was changed; name another place with -o")
            }
            Self::SameFile(path) => {
                write!(f, "{} is the build file itself; name another file with -o", path.display())
            }
            Self::Exists(path) => write!(
                f,
                "{} is there already and was left alone; name another file, or --replace it",
                path.display()
            ),
            Self::Answer(flag, why) => write!(f, "{flag}: {why}"),
            Self::Tables(folder) => write!(f, "tables in {} can't be read", folder.display()),
            Self::UnknownKey(name, near) => {
                write!(f, "no table or key is named {name}; the nearest is {near}")
            }
            Self::UnknownRows(kind, kinds) => {
                write!(f, "there are no rows of the kind {kind}; there are {}", kinds.join(", "))
            }
            Self::UnknownCode(code, near) => {
                write!(f, "no finding has the code {code}")?;
                if near.is_empty() {
                    Ok(())
                } else {
                    write!(f, "; did you mean {}?", near.join(", "))
                }
            }
            Self::UnknownSheet(unknown) => {
                let wanted = &unknown.wanted;
                write!(
                    f,
                    "this packet has no {wanted} sheet; it has {}",
                    unknown.kinds.join(", ")
                )?;
                if unknown.steps > 0 {
                    write!(f, "; steps 1 to {}", unknown.steps)?;
                }
                if !unknown.marks.is_empty() {
                    write!(f, "; sheets of the parts {}", unknown.marks.join(", "))?;
                }
                Ok(())
            }
            Self::UnknownForm(form, known) => {
                write!(f, "the survey has no form {form}; it has {}", known.join(", "))
            }
            Self::UnknownStep(step, known) => {
                write!(f, "this packet has no step {step}")?;
                if known.is_empty() {
                    return write!(f, "; it has no steps at all");
                }
                write!(f, "; it has {}", known.join(", "))
            }
            Self::NoPage(page, pages) => {
                write!(f, "there is no page {page}: the packet has {pages}")
            }
            Self::NoDrawing(number, page, 0) => {
                write!(f, "there is no drawing {number} on page {page}: it has none")
            }
            Self::NoDrawing(number, page, count) => {
                write!(f, "there is no drawing {number} on page {page}: it has {count}")
            }
            Self::DrawingNotSvg(path) => write!(
                f,
                "{}: one drawing is written as SVG: give a name that ends in .svg",
                path.display()
            ),
            Self::NotABuild(path) => write!(
                f,
                "{} can't be read as a build file; `rungsheet check` tells why",
                path.display()
            ),
            Self::NoBuildFile(path, why) => write!(f, "{}: {why}", path.display()),
            Self::Paper(why) => write!(f, "the packet could not be written: {why}"),
        }
    }
}

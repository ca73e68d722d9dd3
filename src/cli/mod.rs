//! The command line: one file a command. Only here are files, clock and terminal touched.
//!
//! Results go to standard output or to the named file, findings to standard error. Exit codes:
//! 0 done, 1 the build file has `stop` findings, 2 the command was not understood, 3 a file could
//! not be read or written.

mod args;
mod around;
mod change;
mod check;
mod compare;
mod explain;
mod fault;
mod figures;
mod jobs;
mod keys;
mod new;
mod output;
mod own;
mod photos;
mod pipeline;
mod print;
mod record;
mod recover;
mod said;
mod say;
mod schema;
mod spoken;
mod starts;
mod summary;
mod surroundings;
mod survey;
mod tables;

pub use photos::photo_files;

use crate::source::{Finding, Text};
use args::{Arguments, Command};
use clap::Parser;
use fault::Fault;
use std::ffi::OsString;
use std::path::Path;
use std::process::ExitCode;

/// Why a command did not do what was asked.
enum Ended {
    /// Open `stop` findings; they were printed.
    Stopped,
    /// Told already; the exit code.
    Told(u8),
    /// The world did not play along.
    Fault(Fault),
}

impl From<Fault> for Ended {
    fn from(fault: Fault) -> Self {
        Self::Fault(fault)
    }
}

impl Ended {
    /// The exit code.
    fn code(&self) -> u8 {
        match self {
            Self::Stopped => 1,
            Self::Told(code) => *code,
            Self::Fault(fault) => fault.code(),
        }
    }
}

/// A build file and tables of the reader's own with what is to be said of each, for tests.
///
/// # Errors
/// What can't be read, in words.
pub fn judged(path: &Path) -> Result<Vec<(Text, Vec<Finding>)>, String> {
    let loaded = pipeline::load(path, &args::Own::default(), pipeline::For::Figures)
        .map_err(|fault| fault.to_string())?;
    let mut texts = loaded.own;
    texts.push((loaded.text, loaded.findings));
    Ok(texts)
}

/// Runs the command that the arguments name.
pub fn run(arguments: impl IntoIterator<Item = OsString>) -> ExitCode {
    let arguments = match Arguments::try_parse_from(arguments) {
        Ok(arguments) => arguments,
        Err(message) => {
            // Help and version come this way too; they are no error.
            let asked = !message.use_stderr();
            let _ = message.print();
            return ExitCode::from(if asked { 0 } else { 2 });
        }
    };
    let ended = match arguments.command {
        Command::New(options) => new::new(&options),
        Command::Check(options) => check::check(&options),
        Command::Print(options) => print::print(&options),
        Command::Compare(options) => compare::compare(&options),
        Command::Survey(options) => survey::survey(&options),
        Command::Record(options) => record::record(&options),
        Command::Figures(options) => figures::figures(&options),
        Command::Explain(options) => explain::explain(&options),
        Command::Keys(options) => keys::keys(&options),
        Command::Tables(options) => tables::tables(&options),
        Command::Schema(options) => schema::schema(&options),
        Command::Completions(options) => around::completions(&options),
        Command::Man(options) => around::man(&options),
        Command::Recover(options) => recover::recover(&options),
    };
    let Err(ended) = ended else { return ExitCode::SUCCESS };
    if let Ended::Fault(fault) = &ended {
        say::fault(fault);
    }
    ExitCode::from(ended.code())
}

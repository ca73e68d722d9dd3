//! The command line: one file a command. Only here are files, clock and terminal touched.
//!
//! Results go to standard output or to the named file, findings to standard error. Exit codes:
//! 0 done, 1 the build file has `stop` findings, 2 the command was not understood, 3 a file could
//! not be read or written.

mod args;
mod check;
mod explain;
mod fault;
mod figures;
mod keys;
mod new;
mod output;
mod own;
mod photos;
mod pipeline;
mod print;
mod record;
mod recover;
mod say;
mod schema;
mod starts;
mod survey;
mod tables;

pub use photos::photo_files;

use args::{Arguments, Command};
use clap::Parser;
use fault::Fault;
use std::ffi::OsString;
use std::process::ExitCode;

/// Why a command did not do what was asked.
enum Ended {
    /// Open `stop` findings; they were printed.
    Stopped,
    /// The world did not play along.
    Fault(Fault),
}

impl From<Fault> for Ended {
    fn from(fault: Fault) -> Self {
        Self::Fault(fault)
    }
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
        Command::Survey(options) => survey::survey(&options),
        Command::Record(options) => record::record(&options),
        Command::Figures(options) => figures::figures(&options),
        Command::Explain(options) => explain::explain(&options),
        Command::Keys(options) => keys::keys(&options),
        Command::Tables(options) => tables::tables(&options),
        Command::Schema(options) => schema::schema(&options),
        Command::Recover(options) => recover::recover(&options),
    };
    match ended {
        Ok(()) => ExitCode::SUCCESS,
        Err(Ended::Stopped) => ExitCode::from(1),
        Err(Ended::Fault(fault)) => {
            say::fault(&fault);
            ExitCode::from(if matches!(fault, Fault::Answer(..)) { 2 } else { 3 })
        }
    }
}

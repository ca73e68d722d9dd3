//! What is said on the terminal.

use super::args::Format;
use super::fault::Fault;
use super::pipeline::Loaded;
use crate::terminal::{self, Look};
use std::io::IsTerminal;

/// A fault of the world, on standard error.
pub fn fault(fault: &Fault) {
    eprintln!("rungsheet: {fault}");
}

/// Findings, on standard error; JSON goes to standard output.
pub fn findings(loaded: &Loaded, format: Format) {
    match format {
        Format::Text => eprint!("{}", terminal::drawn(&loaded.text, &loaded.findings, look())),
        Format::Line => eprint!("{}", terminal::lines(&loaded.text, &loaded.findings)),
        Format::Json => {
            let json = terminal::json(&loaded.text, &loaded.findings)
                .expect("findings are plain text and numbers");
            println!("{json}");
        }
    }
}

/// Columns of standard output: those of the terminal, else 80.
pub fn columns_out() -> usize {
    terminal_size::terminal_size_of(std::io::stdout())
        .map_or(80, |(terminal_size::Width(width), _)| usize::from(width))
        .clamp(40, 100)
}

fn look() -> Look {
    let color = std::io::stderr().is_terminal() && std::env::var_os("NO_COLOR").is_none();
    // Columns as the shell tells them, else as most terminals have them.
    let columns = std::env::var("COLUMNS").ok().and_then(|columns| columns.parse().ok());
    Look { color, width: columns.unwrap_or(Look::default().width), graphics: true }
}

/// "1 stop, 2 cautions, 1 note".
pub fn tally(loaded: &Loaded) -> String {
    terminal::tally(&loaded.findings)
}

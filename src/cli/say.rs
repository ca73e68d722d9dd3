//! What is said on the terminal.

use super::fault::Fault;
use super::pipeline::Loaded;
use crate::source::{Finding, Text};
use crate::terminal::{self, Look};
use std::io::{IsTerminal, Write};

/// A fault of the world, on standard error.
pub fn fault(fault: &Fault) {
    eprintln!("rungsheet: {fault}");
}

/// Text on standard error; who reads it may stop early.
pub fn err(text: &str) {
    let _ = std::io::stderr().lock().write_all(text.as_bytes());
}

/// Findings, on standard error.
pub fn drawn(text: &Text, findings: &[Finding]) {
    err(&terminal::drawn(text, findings, look()));
}

/// How far a run over several files has come; on a terminal alone.
pub fn progress(done: usize, of: usize) {
    const WIDTH: usize = 30;
    if std::io::stderr().is_terminal() && done < of {
        let full = WIDTH * done / of.max(1);
        err(&format!("\r[{}{}] {done} of {of}", "#".repeat(full), ".".repeat(WIDTH - full)));
    }
}

/// Takes the bar away again.
pub fn progress_off() {
    if std::io::stderr().is_terminal() {
        err("\r\u{1b}[K");
    }
}

/// Columns of standard output: those of the terminal, else 80.
pub fn columns_out() -> usize {
    terminal_size::terminal_size_of(std::io::stdout())
        .map_or(80, |(terminal_size::Width(width), _)| usize::from(width))
        .clamp(40, 100)
}

/// How findings are drawn on standard error: in colour on a terminal that takes it, unless
/// `NO_COLOR` is set to something; as wide as the terminal.
pub fn look() -> Look {
    let set = |name: &str| std::env::var_os(name).is_some_and(|value| !value.is_empty());
    let dumb = std::env::var_os("TERM").is_some_and(|term| term == "dumb");
    let color = std::io::stderr().is_terminal() && !set("NO_COLOR") && !dumb;
    // Columns as the shell tells them, then as the terminal does, else as most have them.
    let told = std::env::var("COLUMNS").ok().and_then(|columns| columns.parse().ok());
    let seen = || {
        let size = terminal_size::terminal_size_of(std::io::stderr());
        size.map(|(terminal_size::Width(width), _)| usize::from(width))
    };
    let width = told.or_else(seen).unwrap_or(Look::default().width);
    Look { color, width, graphics: true }
}

/// "1 stop, 2 cautions, 1 note".
pub fn tally(loaded: &Loaded) -> String {
    terminal::tally(loaded.all())
}

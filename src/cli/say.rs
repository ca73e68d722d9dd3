//! What is said on the terminal.

use super::args::Format;
use super::fault::Fault;
use super::pipeline::Loaded;
use crate::source::{Count, Severity};
use crate::terminal;
use std::io::IsTerminal;

/// A fault of the world, on standard error.
pub fn fault(fault: &Fault) {
    eprintln!("rungsheet: {fault}");
}

/// Findings, on standard error; JSON goes to standard output.
pub fn findings(loaded: &Loaded, format: Format) {
    let text = match format {
        Format::Text => terminal::text(&loaded.text, &loaded.findings, style()),
        Format::Line => terminal::lines(&loaded.text, &loaded.findings),
        Format::Json => {
            println!("{}", terminal::json(&loaded.text, &loaded.findings));
            return;
        }
    };
    eprint!("{text}");
}

fn style() -> terminal::Style {
    let error = std::io::stderr();
    let colour = error.is_terminal() && std::env::var_os("NO_COLOR").is_none();
    terminal::Style { colour, width: terminal_width() }
}

/// Columns by the environment, 80 where it does not say.
fn terminal_width() -> usize {
    std::env::var("COLUMNS").ok().and_then(|c| c.parse().ok()).filter(|c| *c >= 20).unwrap_or(80)
}

/// "1 stop, 2 cautions, 1 note".
pub fn count(loaded: &Loaded) -> String {
    let of = |severity| loaded.findings.iter().filter(|f| f.severity == severity).count();
    format!(
        "{}, {}, {}",
        Count(of(Severity::Stop), "stop"),
        Count(of(Severity::Caution), "caution"),
        Count(of(Severity::Note), "note")
    )
}

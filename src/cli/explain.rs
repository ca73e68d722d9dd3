//! `explain`: what a finding's code means.

use super::args::Explain;
use super::fault::Fault;
use super::{Ended, output};
use crate::findings;
use std::fmt::Write;

/// Prints one rule, or the list of all.
pub fn explain(options: &Explain) -> Result<(), Ended> {
    let text = match &options.code {
        None => list(),
        Some(code) => findings::explain(code).ok_or_else(|| {
            let near = findings::nearest(code).iter().map(|rule| rule.code).collect();
            Fault::UnknownCode(code.clone(), near)
        })?,
    };
    output::write(None, text.as_bytes())?;
    Ok(())
}

fn list() -> String {
    findings::all().iter().fold(String::new(), |mut text, rule| {
        let _ = writeln!(text, "{} {:8} {}", rule.code, rule.severity, rule.name);
        text
    })
}

//! `explain`: what a finding's code means.

use super::args::Explain;
use super::fault::Fault;
use super::{Ended, output};
use crate::findings;
use crate::source::Rule;
use std::fmt::Write;

/// Prints one rule, or the list of all.
pub fn explain(options: &Explain) -> Result<(), Ended> {
    let text = match &options.code {
        None => list(),
        Some(code) => {
            let wanted = code.to_uppercase();
            match findings::all().iter().find(|rule| rule.code == wanted) {
                Some(rule) => tell(rule),
                None => {
                    let near = findings::all()
                        .iter()
                        .map(|rule| rule.code)
                        .min_by_key(|known| strsim::levenshtein(known, &wanted));
                    return Err(Fault::UnknownCode(wanted, near).into());
                }
            }
        }
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

fn tell(rule: &Rule) -> String {
    let mut text = format!("{} {} ({})\n", rule.code, rule.name, rule.severity);
    for (heading, body) in [
        ("What it checks", rule.checks),
        ("Why it matters", rule.why),
        ("Example", rule.example),
        ("Remedy", rule.remedy),
        ("Source and limits", rule.source_limits),
    ] {
        let _ = write!(text, "\n{heading}\n");
        for line in body.lines() {
            let _ = writeln!(text, "  {line}");
        }
    }
    text
}

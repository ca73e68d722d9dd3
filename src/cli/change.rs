//! What changed in figures and findings since the last run.

use super::pipeline::Loaded;
use crate::units::display;
use std::collections::BTreeMap;

/// Figures and findings of one run.
pub struct Snapshot {
    /// By name: value and unit. Absent where the file could not be worked out.
    figures: Option<BTreeMap<String, (f64, &'static str)>>,
    /// How many there are of each, by severity, code and words.
    findings: BTreeMap<(String, String), usize>,
}

/// More changes than this are counted only.
const MOST: usize = 20;

impl Snapshot {
    /// Of what was worked out.
    pub fn of(loaded: &Loaded) -> Self {
        let figures = loaded.done.as_ref().map(|done| {
            let ledger = done.results.ledger.iter();
            ledger.map(|figure| (figure.id.clone(), (figure.value, figure.unit))).collect()
        });
        let mut findings = BTreeMap::new();
        for finding in loaded.all() {
            let code = format!("{} {}", finding.severity, finding.rule.code);
            *findings.entry((code, finding.message.clone())).or_default() += 1;
        }
        Self { figures, findings }
    }

    /// Whether the file could be worked out.
    pub const fn is_whole(&self) -> bool {
        self.figures.is_some()
    }
}

/// A line a change: findings that are gone, new ones, then figures.
pub fn told(old: &Snapshot, new: &Snapshot) -> Vec<String> {
    let mut lines = Vec::new();
    let mut findings = |word: &str, from: &Snapshot, to: &Snapshot| {
        for ((code, words), count) in &from.findings {
            let left = to.findings.get(&(code.clone(), words.clone())).copied().unwrap_or(0);
            if left < *count {
                lines.push(format!("  {word}{code} {words}"));
            }
        }
    };
    // What was not worked out is not gone.
    if new.is_whole() || !old.is_whole() {
        findings("gone: ", old, new);
    }
    findings("new:  ", new, old);
    let (Some(before), Some(after)) = (&old.figures, &new.figures) else {
        if old.is_whole() {
            lines.push("  it can't be worked out now: figures stay untold".to_owned());
        } else if new.is_whole() {
            lines.push("  it can be worked out now".to_owned());
        }
        return lines;
    };
    let mut changes = Vec::new();
    for (id, (value, unit)) in after {
        match before.get(id) {
            Some((old, _)) if old == value => {}
            Some((old, _)) => {
                changes.push(format!("  {id}: {} → {}", shown(*old, unit), shown(*value, unit)));
            }
            None => changes.push(format!("  {id}: {} (new)", shown(*value, unit))),
        }
    }
    let gone = before.iter().filter(|(id, _)| !after.contains_key(*id));
    changes
        .extend(gone.map(|(id, (value, unit))| format!("  {id}: {} (gone)", shown(*value, unit))));
    let more = changes.len().saturating_sub(MOST);
    lines.extend(changes.into_iter().take(MOST));
    if more > 0 {
        lines.push(format!("  and {more} more figures"));
    }
    if lines.is_empty() {
        lines.push("  no figure and no finding changed".to_owned());
    }
    lines
}

fn shown(value: f64, unit: &str) -> String {
    let number = display::plain(value, 4);
    if unit.is_empty() { number } else { format!("{number} {unit}") }
}

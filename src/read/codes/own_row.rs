//! A fault in a table of the reader's own.

use crate::source::{Finding, Rule, Severity, Span};
use crate::tables::TableFault;

/// N009.
pub static RULE: Rule = Rule {
    code: "N009",
    name: "own-row",
    severity: Severity::Stop,
    checks: "Whether each row of your own tables has every value that its kind needs, with its unit.",
    why: "A row takes the place of one of ours in every sum; half a row would be filled in with guesses.",
    example: "[[section]]\nname = \"my-tube\"\nshape = \"square-tube\"\nmaterial = \"aluminium-6060-t66\"\na = 26",
    remedy: "Give the values that are named. `rungsheet tables` lists the kinds; the built-in tables of the source show every key.",
    source_limits: "Only the writing is checked; whether a value is true its data sheet tells.",
};

/// What reading the rows told, the missing values of a row in one. Spans are those of the table file.
pub fn raise(faults: &[TableFault]) -> Vec<Finding> {
    const MISSING: &str = " is missing";
    let mut findings = Vec::new();
    let mut rows: Vec<(&TableFault, Vec<&str>)> = Vec::new();
    for fault in faults {
        match fault.message.strip_suffix(MISSING) {
            Some(key) => match rows.iter_mut().find(|(first, _)| first.span == fault.span) {
                Some((_, keys)) => keys.push(key),
                None => rows.push((fault, vec![key])),
            },
            None => findings.push(one(fault)),
        }
    }
    findings.extend(rows.into_iter().map(|(row, keys)| {
        let list = keys.join(", ");
        Finding::new(&RULE, format!("{} lacks {list}", row.row))
            .at(span(row), if keys.len() == 1 { "it is missing here" } else { "missing here" })
            .means(MEANS)
            .help("add them, each with its unit, from the data sheet of the thing in hand")
    }));
    crate::source::sort(&mut findings);
    findings
}

const MEANS: &str = "this row is not used; a row half filled in would be worked out with guesses";

fn span(fault: &TableFault) -> Span {
    Span::new(fault.span.start, fault.span.end)
}

fn one(fault: &TableFault) -> Finding {
    let finding = Finding::new(&RULE, format!("{}: {}", fault.row, fault.message))
        .at(span(fault), "this one")
        .means(MEANS);
    finding.help(fault.help.clone().unwrap_or_else(|| "mend the row, or take it out".to_owned()))
}

//! A number without its unit.

use crate::read::field::Field;
use crate::read::reader::Reader;
use crate::source::{Finding, Rule, Severity};
use crate::units::Kind;

/// U001.
pub static RULE: Rule = Rule {
    code: "U001",
    name: "missing-unit",
    severity: Severity::Stop,
    checks: "Whether each quantity has a unit. A bare number is allowed for lengths alone and counts in the job's unit.",
    why: "6.4 can be kilograms or pounds. On a roof that is the difference between a mount that holds and one that does not.",
    example: "[[panel]]\nmass = 6.4",
    remedy: "Write number and unit between quotation marks.",
    source_limits: super::WRITING,
};

/// A bare number where a unit is asked for.
pub(in crate::read) fn bare(r: &Reader<'_>, field: &Field<'_>, wanted: Kind) -> Finding {
    let written = field.written(r.text);
    let unit = unit_of(field, wanted);
    let finding = told(field, wanted);
    if wanted == Kind::Length {
        return finding.help(format!(
            "write the unit with it: `{}` if {unit} is meant",
            field.line(&format!("\"{written} {unit}\""))
        ));
    }
    let share = written
        .parse::<f64>()
        .ok()
        .filter(|share| wanted == Kind::Ratio && *share > 0.0 && *share < 1.0);
    let finding = match share {
        // To the nearest tenth: 0.62 × 100 is not quite 62 in binary.
        Some(share) => {
            let percent = (share * 1000.0).round() / 10.0;
            finding.help(format!(
                "write `{}` if a share of one is meant",
                field.line(&format!("\"{percent} %\""))
            ))
        }
        None => finding,
    };
    finding
        .help(format!(
            "write `{}` if {unit} is the unit",
            field.line(&format!("\"{written} {unit}\""))
        ))
        .help(others(wanted))
}

/// Text that holds a number alone.
pub(in crate::read) fn in_text(r: &Reader<'_>, field: &Field<'_>, wanted: Kind) -> Finding {
    let inner = field.value.as_str().unwrap_or("").trim().to_owned();
    let unit = if wanted == Kind::Length { r.unit.symbol } else { unit_of(field, wanted) };
    told(field, wanted)
        .help(format!(
            "write `{}` if {unit} is the unit",
            field.line(&format!("\"{inner} {unit}\""))
        ))
        .help(others(wanted))
}

fn told(field: &Field<'_>, wanted: Kind) -> Finding {
    Finding::new(&RULE, format!("`{}` is a number without a unit", field.key))
        .at(field.span, "no unit")
        .means(format!("{} belongs here, and its unit can't be guessed", wanted.name()))
}

fn unit_of(field: &Field<'_>, wanted: Kind) -> &'static str {
    field.usual_unit().or_else(|| wanted.units().next().map(|unit| unit.symbol)).unwrap_or("")
}

fn others(wanted: Kind) -> String {
    let units: Vec<&str> =
        wanted.units().map(|unit| unit.symbol).filter(|symbol| !symbol.is_empty()).collect();
    format!("{} takes {}", wanted.name(), super::or_list(&units))
}

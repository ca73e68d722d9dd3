//! Values beyond what the thing can be.

use crate::read::field::Field;
use crate::read::reader::Reader;
use crate::source::{Finding, Rule, Severity, Span, Stated};

/// U007.
pub static RULE: Rule = Rule {
    code: "U007",
    name: "out-of-range",
    severity: Severity::Stop,
    checks: "Whether values lie where such things lie: no panel is 40 m long, no tape 300 mm thick.",
    why: "A point in the wrong place or a wrong unit shows as a value that no such thing has.",
    example: "[[panel]]\nlength = \"1040 m\"",
    remedy: "Check the unit and the place of the point.",
    source_limits: "Limits of our own, wide of anything on a vehicle; that a value lies within them does not make it right.",
};

/// `value`, `least` and `most` as printed; `meant` are the same number with other units that would do.
pub(in crate::read) fn raise(
    r: &Reader<'_>,
    field: &Field<'_>,
    value: &str,
    [least, most]: [&str; 2],
    meant: &[String],
) -> Finding {
    let written = field.written(r.text);
    let same = written.trim_matches('"') == value;
    let finding = Finding::new(
        &RULE,
        format!("`{}` is {}; from {least} to {most} is taken", field.key, value),
    )
    .at(
        field.span,
        if same || field.value.as_str().is_some() {
            String::new()
        } else {
            format!("that is {value}")
        },
    )
    .means(if value.starts_with(['-', '−']) && least.starts_with('0') {
        "it can't be less than nothing"
    } else {
        "a unit or the point is in the wrong place"
    });
    let finding = match meant {
        [] => finding,
        meant => {
            let lines: Vec<String> = meant
                .iter()
                .map(|text| format!("`{}`", field.line(&format!("\"{text}\""))))
                .collect();
            finding.help(format!("write {} if that is its unit", lines.join(" or ")))
        }
    };
    match field.example() {
        Some(example) if field.element => finding.help(format!(
            "check the order and the units; it is usually written as in `{example}`"
        )),
        Some(example) => {
            finding.help(format!("check the unit and the point; a usual value is `{example}`"))
        }
        None => finding.help("check the unit and the point"),
    }
}

/// A count beyond what one packet holds.
pub(in crate::read) fn count(r: &Reader<'_>, field: &Field<'_>, least: u32, most: u32) -> Finding {
    let written = field.written(r.text);
    let finding = Finding::new(
        &RULE,
        format!("`{}` is {written}; from {least} to {most} is taken", field.key),
    )
    .at(field.span, "beyond that")
    .means("so many do not fit a vehicle, or so few are of no use");
    match field.example() {
        Some(example) => finding.help(format!("check the count; a usual one is `{example}`")),
        None => finding.help("check the count"),
    }
}

/// Larger than anything can be.
pub(in crate::read) fn beyond_sense(field: &Field<'_>) -> Finding {
    let finding = Finding::new(&RULE, format!("`{}` is too large to be meant", field.key))
        .at(field.span, "larger than anything on a vehicle")
        .means("a unit or the point is in the wrong place");
    match field.example() {
        Some(example) => finding.help(format!("write the value as measured, as in `{example}`")),
        None => finding.help("write the value as measured"),
    }
}

/// Colder than anything can be.
pub(in crate::read) fn below_zero(field: &Field<'_>) -> Finding {
    Finding::new(&RULE, format!("`{}` is below absolute zero", field.key))
        .at(field.span, "no temperature is below −273.15 °C")
        .means("the sign or the unit is wrong")
        .help("write the temperature in °C or °F, as in `\"15 °C\"`")
}

/// A value whose limit is another value of the file.
pub(in crate::read) fn of_other<T: std::fmt::Display>(
    key: &str,
    value: &Stated<T>,
    least: &str,
    most: &str,
    other: (&str, Span),
) -> Finding {
    Finding::new(&RULE, format!("`{key}` is {}; from {least} to {most} is taken", value.value))
        .at(value.span, "beyond its limit")
        .also(other.1, format!("{} is the limit", other.0))
        .means("no such thing can be drawn")
        .help("check both values, their units and their points")
}

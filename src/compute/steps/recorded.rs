//! What was measured, held against the limits of the actions.

use super::rules::{t105_measured_outside, t106_no_such_value};
use super::{Action, Done, Step};
use crate::build::{Build, Measured, Record};
use crate::source::Finding;
use crate::units::{Length, Unit, display, parse};

/// The record of a step, if it was recorded: by its key or its title.
pub fn record_of<'a>(build: &'a Build, step: &Step) -> Option<&'a Record> {
    build.records.iter().find(|record| is_of(record, step))
}

fn is_of(record: &Record, step: &Step) -> bool {
    let wanted = record.step.trim();
    step.key == wanted || step.title.eq_ignore_ascii_case(wanted)
}

/// The values of a record that belong to an action.
pub fn values_of<'a>(record: &'a Record, step: &Step, action: &Action) -> Vec<&'a Measured> {
    record.measured.iter().filter(|m| find(step, m).is_some_and(|(own, _)| own == action)).collect()
}

/// The action that a value belongs to: by number, or by the words of its limits; among actions of
/// the same words the first.
fn find<'a>(step: &'a Step, measured: &Measured) -> Option<(&'a Action, &'a Done)> {
    let wanted = measured.what.trim();
    let number = wanted.parse::<u32>().ok();
    step.actions().filter_map(|action| Some((action, action.done.as_ref()?))).find(
        |(action, done)| {
            let named = Some(action.number) == number || done.words.eq_ignore_ascii_case(wanted);
            named && (done.measured() || !done.unit.is_empty())
        },
    )
}

/// Values outside their limits, and those that belong to nothing.
pub(super) fn judge(build: &Build, steps: &[Step], findings: &mut Vec<Finding>) {
    for record in &build.records {
        let Some(step) = steps.iter().find(|step| is_of(record, step)) else { continue };
        for measured in &record.measured {
            let Some((action, done)) = find(step, measured) else {
                findings.push(t106_no_such_value::raise(step, measured));
                continue;
            };
            let Some(value) = read(&measured.value, &done.unit) else {
                findings.push(t106_no_such_value::unreadable(&done.unit, measured));
                continue;
            };
            let low = number(&done.low).is_none_or(|low| value >= low - 1e-9);
            let high = number(&done.high).is_none_or(|high| value <= high + 1e-9);
            if !(low && high) {
                findings.push(t105_measured_outside::raise(step, action, done, measured));
            }
        }
    }
}

/// A value in the unit of its limits.
fn read(value: &str, unit: &str) -> Option<f64> {
    if unit == "mm" {
        return parse::<Length>(value, Some(Unit::MM)).ok().map(Length::to_mm);
    }
    let (number_part, rest) = value.split_at(
        value
            .find(|c: char| !(c.is_ascii_digit() || "+-.,\u{2212}".contains(c)))
            .unwrap_or(value.len()),
    );
    let plain = |words: &str| -> String { words.chars().filter(|c| !c.is_whitespace()).collect() };
    (plain(rest).is_empty() || plain(rest) == plain(unit)).then(|| number(number_part)).flatten()
}

/// A printed number.
fn number(words: &str) -> Option<f64> {
    let plain: String = words
        .chars()
        .filter(|c| !c.is_whitespace())
        .map(|c| if c == display::MINUS { '-' } else { c })
        .collect();
    plain.parse::<f64>().ok().filter(|value| value.is_finite())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_are_read_in_the_unit_of_their_limits() {
        assert_eq!(read("8 mm", "mm"), Some(8.0));
        assert_eq!(read("8", "mm"), Some(8.0));
        // 5/16 in = 7.9375 mm, as an inch is 25.4 mm.
        assert!(read("5/16 in", "mm").is_some_and(|value| (value - 7.9375).abs() < 1e-9));
        assert_eq!(read("9.5 N·m", "N·m"), Some(9.5));
        assert_eq!(read("\u{2212}0.3\u{a0}V", "V"), Some(-0.3));
        assert_eq!(read("9.5 lb", "N·m"), None);
        assert_eq!(read("tight", "N·m"), None);
    }
}

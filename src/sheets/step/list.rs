//! The list of a step: hold lines, safety messages, actions, notes.

use super::StepBasis;
use crate::build::LengthUnit;
use crate::compute::steps::{self, Done, Line, Step};
use crate::page::block::{
    Action, ActionRow, Actions, Blank, BlankWidth, Block, DoneWhen, Hold, Mode,
};
use crate::page::text::Text;
use crate::sheets::safety;
use crate::units::Length;
use crate::units::display::{self, InchStep};

/// The blocks of a step's list. A note ends a list and another begins behind it.
pub(super) fn list(basis: &StepBasis<'_>, step: &Step) -> Vec<Block> {
    let mut blocks = Vec::new();
    let mut rows: Vec<ActionRow> = Vec::new();
    for (index, line) in step.lines.iter().enumerate() {
        match line {
            Line::Hold(hold) => {
                let hold = hold_block(hold, step, index);
                if rows.is_empty() {
                    blocks.push(Block::Hold(hold));
                } else {
                    rows.push(ActionRow::Hold(hold));
                }
            }
            Line::Caution(key) => {
                if let Some(message) = basis.steps.message(key) {
                    rows.push(ActionRow::Safety(safety::block(message)));
                }
            }
            Line::Action(action) => rows.push(ActionRow::Action(action_row(basis, action, step))),
            Line::Note(note) => {
                close(&mut rows, step, &mut blocks);
                blocks.push(Block::Paragraph(note.as_str().into()));
            }
        }
    }
    close(&mut rows, step, &mut blocks);
    blocks
}

fn close(rows: &mut Vec<ActionRow>, step: &Step, blocks: &mut Vec<Block>) {
    if rows.is_empty() {
        return;
    }
    let rows = std::mem::take(rows);
    let each = rows.iter().any(|row| matches!(row, ActionRow::Action(action) if action.each));
    blocks.push(Block::Actions(Actions {
        mode: match step.mode {
            steps::Mode::ReadDo => Mode::ReadDo,
            steps::Mode::DoConfirm => Mode::DoConfirm,
        },
        note: step.round.as_str().into(),
        boxes: if each { step.works_on.clone() } else { Vec::new() },
        rows,
    }));
}

/// "Hold before 41": the action that the person who signs releases.
fn hold_block(hold: &steps::Hold, step: &Step, index: usize) -> Hold {
    let next = step.lines[index..].iter().find_map(|line| match line {
        Line::Action(action) => Some(action.number),
        _ => None,
    });
    let title = next.map_or_else(|| "Hold".to_owned(), |number| format!("Hold before {number}"));
    Hold {
        title: title.into(),
        condition: hold.words.as_str().into(),
        blanks: hold
            .blanks
            .iter()
            .map(|(label, unit)| Blank::value(label.as_str(), unit.as_str()))
            .collect(),
    }
}

fn action_row(basis: &StepBasis<'_>, action: &steps::Action, step: &Step) -> Action {
    let done = match (&action.wait, &action.done) {
        (Some(_), _) => DoneWhen::Blank(Blank::of(BlankWidth::Date, "not before")),
        (None, Some(done)) => done_when(done),
        (None, None) => DoneWhen::State(Text::new()),
    };
    let mut row = Action::new(action.number.to_string(), action.text.as_str(), done);
    if *basis.build.job.units == LengthUnit::Inch
        && let Some(inches) = action.done.as_ref().and_then(inch_limits)
    {
        row = row.also(inches);
    }
    if let Some(wait) = &action.wait {
        let marks: Vec<&str> = wait.cures.iter().map(|cure| cure.mark.as_str()).collect();
        let (marks, air) = (marks.join(", "), &wait.air);
        row = row.why(if marks.is_empty() {
            "As the build file says.".to_owned()
        } else if wait.time.is_some() {
            format!("{marks}: by the plan, for air of {air}")
        } else {
            format!("{marks}: not worked out; air planned {air}")
        });
    }
    // A step whose boxes stand for several things has one box for what is done once.
    if action.boxes.is_empty() && !step.works_on.is_empty() { row.once() } else { row }
}

fn done_when(done: &Done) -> DoneWhen {
    // A value without its limits still shows the dashes and the unit that it is read in.
    if done.measured() || !done.unit.is_empty() {
        DoneWhen::limits(
            done.words.as_str(),
            done.low.as_str(),
            done.high.as_str(),
            done.unit.as_str(),
        )
    } else {
        DoneWhen::State(done.words.as_str().into())
    }
}

/// Limits in inches to the 1/32 or, where these lie too close, the 1/64, rounded inwards so that
/// what is within them is within the limits in mm. None for other units or limits closer still.
fn inch_limits(done: &Done) -> Option<String> {
    if done.unit != "mm" {
        return None;
    }
    let read = |words: &str| {
        let plain: String = words
            .chars()
            .filter(|c| !c.is_whitespace())
            .map(|c| if c == display::MINUS { '-' } else { c })
            .collect();
        plain.parse::<f64>().ok().filter(|v| v.is_finite()).map(Length::mm)
    };
    let (low, high) = (read(&done.low), read(&done.high));
    for (step, parts) in [(InchStep::ThirtySecond, 32.0), (InchStep::SixtyFourth, 64.0)] {
        let on = |steps: f64| Length::inches(steps / parts);
        let up = |v: Length| on((v.to_inches() * parts - 1e-6).ceil());
        let down = |v: Length| on((v.to_inches() * parts + 1e-6).floor());
        let say = |v: Length| display::inches(v, step);
        match (low.map(up), high.map(down)) {
            // Within a hair of nothing a rule says nothing.
            (Some(low), Some(high)) if low <= high && low.abs().max(high.abs()) > Length::ZERO => {
                let first = say(low);
                let first = first.strip_suffix("\u{a0}in").unwrap_or(&first);
                return Some(if low == high {
                    say(low)
                } else {
                    format!("{first} to {}", say(high))
                });
            }
            (Some(low), None) => return Some(format!("{} or more", say(low))),
            (None, Some(high)) => return Some(format!("{} or less", say(high))),
            _ => {}
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    fn limits(low: &str, high: &str, unit: &str) -> Option<String> {
        let done =
            Done { words: "length".into(), low: low.into(), high: high.into(), unit: unit.into() };
        inch_limits(&done).map(|words| words.replace('\u{a0}', " "))
    }

    /// 469.4 mm is 18.480 in and 470.4 mm is 18.520 in (25.4 mm an inch), so 18 1/2 in alone of the
    /// thirty-seconds lies between; 1.8 to 2.4 mm is 4.54 to 6.05 sixty-fourths.
    #[test]
    fn inches_lie_inside_the_limits_in_mm() {
        assert_eq!(limits("469.4", "470.4", "mm").as_deref(), Some("18 1/2 in"));
        assert_eq!(
            limits("1\u{202f}521", "1\u{202f}527", "mm").as_deref(),
            Some("59 29/32 to 60 3/32 in")
        );
        assert_eq!(limits("5.8", "6.0", "mm").as_deref(), Some("15/64 in"));
        assert_eq!(limits("", "3", "mm").as_deref(), Some("3/32 in or less"));
        assert_eq!(limits("1.8", "2.2", "N·m"), None);
        assert_eq!(limits("2.0", "2.1", "mm"), None);
        assert_eq!(limits("\u{2212}0.3", "0.3", "mm"), None);
    }
}

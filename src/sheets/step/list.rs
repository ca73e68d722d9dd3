//! The list of a step: hold lines, safety messages, actions, notes.

use super::StepBasis;
use crate::compute::steps::{self, Done, Line, Step};
use crate::page::block::{
    Action, ActionRow, Actions, Blank, BlankWidth, Block, DoneWhen, Hold, Mode,
};
use crate::page::text::Text;
use crate::sheets::safety;

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
            Line::Action(action) => rows.push(ActionRow::Action(action_row(action, step))),
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

fn action_row(action: &steps::Action, step: &Step) -> Action {
    let done = match (&action.wait, &action.done) {
        (Some(_), _) => DoneWhen::Blank(Blank::of(BlankWidth::Date, "not before")),
        (None, Some(done)) => done_when(done),
        (None, None) => DoneWhen::State(Text::new()),
    };
    let mut row = Action::new(action.number.to_string(), action.text.as_str(), done);
    if let Some(wait) = &action.wait {
        let marks: Vec<&str> = wait.cures.iter().map(|cure| cure.mark.as_str()).collect();
        let until = match wait.time {
            Some(_) => "by the plan, for air of",
            None => "not worked out; air planned",
        };
        row = row.why(format!("{}: {until} {}", marks.join(", "), wait.air));
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

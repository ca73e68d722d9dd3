//! Pauses in a long list: a person who is called away finds the place again.

use super::step::{Hold, Line};

/// Most actions from one pause to the next (page rule 21: nine or fewer).
const MOST: usize = 9;

/// What is looked at in a pause that no step states.
const WORDS: &str = "every box above ticked; each value inside its limits";

/// Puts holds into runs of more than nine actions, as few as it takes and evenly, before what belongs
/// to the action behind it.
pub(super) fn pauses(lines: &mut Vec<Line>) {
    let mut at = 0;
    while at < lines.len() {
        let end = lines[at..]
            .iter()
            .position(|line| matches!(line, Line::Hold(_)))
            .map_or(lines.len(), |hold| at + hold);
        let actions: Vec<usize> =
            (at..end).filter(|index| matches!(lines[*index], Line::Action(_))).collect();
        let parts = actions.len().div_ceil(MOST);
        for part in (1..parts).rev() {
            let mut before = actions[actions.len() * part / parts];
            while matches!(lines[before - 1], Line::Caution(_)) {
                before -= 1;
            }
            let hold = Hold { words: WORDS.to_owned(), blanks: Vec::new() };
            lines.insert(before, Line::Hold(hold));
        }
        at = end + parts.max(1);
    }
}

#[cfg(test)]
mod tests {
    use super::super::step::Action;
    use super::*;

    fn action() -> Line {
        let text = "Drill the hole.".to_owned();
        Line::Action(Action { number: 0, boxes: Vec::new(), text, done: None, wait: None })
    }

    /// Page rule 21, from "fewer than 10 items per pause point" (checklist guidance for surgery and
    /// flying).
    #[test]
    fn nine_actions_are_the_most_between_pauses() {
        for count in 0..40 {
            let mut lines: Vec<Line> = (0..count).map(|_| action()).collect();
            pauses(&mut lines);
            let runs: Vec<usize> =
                lines.split(|line| matches!(line, Line::Hold(_))).map(<[Line]>::len).collect();
            assert_eq!(runs.iter().sum::<usize>(), count);
            assert!(runs.iter().all(|run| *run <= MOST), "{runs:?}");
            assert_eq!(runs.len(), count.div_ceil(MOST).max(1));
        }
    }

    #[test]
    fn a_caution_stays_with_its_action() {
        let mut lines: Vec<Line> = (0..6).map(|_| action()).collect();
        lines.push(Line::Caution("drilling".into()));
        lines.extend((0..6).map(|_| action()));
        pauses(&mut lines);
        let hold = lines.iter().position(|line| matches!(line, Line::Hold(_)));
        assert_eq!(hold, Some(6));
        assert!(matches!(lines[7], Line::Caution(_)));
    }
}

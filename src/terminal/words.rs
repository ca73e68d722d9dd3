//! Small matters of wording.

use crate::source::{Finding, Severity};

/// "1 stop", "3 stops", "no stops".
///
/// ```
/// use rungsheet::terminal::count;
/// assert_eq!(count(1, "caution"), "1 caution");
/// assert_eq!(count(0, "stop"), "no stops");
/// ```
pub fn count(number: usize, noun: &str) -> String {
    match number {
        0 => format!("no {noun}s"),
        1 => format!("1 {noun}"),
        _ => format!("{number} {noun}s"),
    }
}

/// How many there are of each severity, the gravest first; "nothing found" for none.
pub fn tally<'a>(findings: impl IntoIterator<Item = &'a Finding>) -> String {
    let findings: Vec<&Finding> = findings.into_iter().collect();
    let told: Vec<String> = [Severity::Stop, Severity::Caution, Severity::Note]
        .into_iter()
        .map(|severity| (severity, findings.iter().filter(|f| f.severity == severity).count()))
        .filter(|(_, number)| *number > 0)
        .map(|(severity, number)| count(number, severity.name()))
        .collect();
    if told.is_empty() { "nothing found".to_owned() } else { told.join(", ") }
}

/// Without what would break a line or steer a terminal: a name in the build file may hold anything.
pub(super) fn one_line(text: &str) -> String {
    text.chars().map(|c| if steers(c) { ' ' } else { c }).collect()
}

/// Control characters and those that reverse the direction of what follows (Unicode UAX #9).
fn steers(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}' | '\u{2028}' | '\u{2029}')
}

/// Broken at spaces so that no line but that of an over-long word passes `width` characters; the
/// first line has `used` of them taken already.
pub(super) fn wrapped(text: &str, width: usize, used: usize) -> String {
    let mut out = String::new();
    let mut column = used;
    for word in one_line(text).split(' ').filter(|word| !word.is_empty()) {
        let length = word.chars().count();
        if !out.is_empty() && column + 1 + length > width {
            out.push('\n');
            column = used;
        } else if !out.is_empty() {
            out.push(' ');
            column += 1;
        }
        out.push_str(word);
        column += length;
    }
    out
}

/// Lines of at most so many characters.
pub fn lines_of(text: &str, width: usize) -> Vec<String> {
    wrapped(text, width, 0).lines().map(str::to_owned).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_break_at_spaces_and_keep_every_word() {
        let text = "move the hole inwards by 2 mm or take the wider plate";
        let broken = wrapped(text, 30, 10);
        assert!(broken.lines().all(|line| line.chars().count() <= 20), "{broken}");
        assert_eq!(broken.replace('\n', " "), text);
        assert_eq!(wrapped("unbreakable", 4, 2), "unbreakable");
    }

    #[test]
    fn a_name_cannot_steer_the_terminal() {
        assert_eq!(one_line("a\u{1B}[31mb\nc\u{202E}d"), "a [31mb c d");
    }
}

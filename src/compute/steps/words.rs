//! How an action must read: one sentence, at most 20 words, an approved verb first.
//!
//! Limits after ASD-STE100 (issue 9, rules 5.1 to 5.3). Words are counted as paper tells them
//! apart: a number and its unit are one word, as is a mark.

use super::template::Templates;

/// Most words of an action.
pub const MOST_WORDS: usize = 20;
/// Most words of a note or description.
pub const MOST_NOTE_WORDS: usize = 25;

/// Words of a text. No-break spaces join: "6 mm" is one word.
pub fn count(text: &str) -> usize {
    text.split([' ', '\n']).filter(|word| word.chars().any(char::is_alphanumeric)).count()
}

/// What is wrong with the words of an action; empty if nothing is.
pub fn faults(action: &str) -> Vec<String> {
    let mut faults = Vec::new();
    let words = count(action);
    if words > MOST_WORDS {
        faults.push(format!("{words} words"));
    }
    if action.contains([':', ';']) || action.contains(". ") {
        faults.push("more than one sentence".to_owned());
    }
    if !action.ends_with('.') {
        faults.push("no full stop".to_owned());
    }
    let clause = clause(action);
    let verbs = &Templates::builtin().verbs;
    let told: Vec<String> = clause
        .split_whitespace()
        .map(|word| word.trim_matches([',', '.']).to_lowercase())
        .collect();
    let is_verb = |word: &String| verbs.contains(word);
    match told.first() {
        Some(first) if is_verb(first) => {}
        first => {
            let word = first.map_or("", String::as_str);
            faults.push(format!("begins with `{word}`, no approved verb"));
        }
    }
    for pair in told.windows(2) {
        if matches!(pair[0].as_str(), "and" | "then" | "or") && is_verb(&pair[1]) {
            faults.push(format!("a second verb: {}", pair[1]));
        }
    }
    faults
}

/// The instruction: behind an IF or WHEN clause and its comma, where there is one.
fn clause(action: &str) -> &str {
    let first = action.split_whitespace().next().unwrap_or_default();
    if matches!(first, "IF" | "WHEN" | "If" | "When") {
        action.split_once(", ").map_or(action, |(_, rest)| rest)
    } else {
        action
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn number_and_unit_are_one_word() {
        assert_eq!(count("Drill H3 and H4 to 6.6\u{A0}mm."), 6);
        assert_eq!(count("10 × 12 – x"), 3);
    }

    #[test]
    fn one_verb_and_it_comes_first() {
        assert!(faults("Drill H3 to 6.6\u{A0}mm.").is_empty());
        assert!(faults("WHEN the bead is firm, lift the block.").is_empty());
        assert_eq!(faults("Deburr the hole and wipe it.").len(), 1);
        assert_eq!(faults("The hole is drilled.").len(), 1);
        assert_eq!(faults("Drill it: slowly").len(), 2);
        let long = format!("Drill{}.", " far".repeat(20));
        assert_eq!(faults(&long), ["21 words"]);
    }
}

//! What is held of every example's steps at once: names, notes, and looking behind before drilling.

use super::support::{all, example};
use crate::support::worked;
use rungsheet::compute::steps::template::Templates;
use rungsheet::compute::steps::{Line, Step};
use rungsheet::sheets;
use std::collections::BTreeSet;

const EXAMPLES: [&str; 8] = [
    "field-van.toml",
    "harbour-trailer.toml",
    "rescue-minibus.toml",
    "forest-pod.toml",
    "canal-tender.toml",
    "galley-shelf.toml",
    "roof-fan.toml",
    "wheel-carrier.toml",
];

/// Words such as `H12`, `A1` or `F3`: capital letters, then figures.
fn names(text: &str) -> impl Iterator<Item = &str> {
    let words = text.split(|c: char| !(c.is_alphanumeric() || c == '.' || c == '-'));
    words.map(|word| word.trim_matches(['.', '-'])).filter(|word| {
        let letters = word.chars().take_while(char::is_ascii_uppercase).count();
        let rest = &word[letters..];
        (1..=3).contains(&letters) && !rest.is_empty() && rest.chars().all(|c| c.is_ascii_digit())
    })
}

/// Every word of a text; "L1 to L4" stands for those between too.
fn known(text: &str) -> BTreeSet<String> {
    let all: Vec<&str> =
        text.split(|c: char| !c.is_ascii_alphanumeric()).filter(|word| !word.is_empty()).collect();
    let mut known: BTreeSet<String> = all.iter().map(|word| (*word).to_owned()).collect();
    for three in all.windows(3).filter(|three| three[1] == "to") {
        let letters = three[0].trim_end_matches(|c: char| c.is_ascii_digit());
        let number = |word: &str| word.strip_prefix(letters)?.parse::<u32>().ok();
        if let (Some(from), Some(until)) = (number(three[0]), number(three[2])) {
            known.extend((from..=until.min(from + 999)).map(|n| format!("{letters}{n}")));
        }
    }
    known
}

/// A name that an action uses is found on a sheet that is no step's own: a part, a plan, a list.
#[test]
fn names_in_actions_are_on_other_sheets() {
    for name in EXAMPLES {
        let made = worked(&example(name));
        let packet = sheets::packet(&made.basis());
        let other = |tab: &str| !["Step", "Safety", "Record", "Cover"].contains(&tab);
        let others =
            packet.sheets.iter().filter(|s| s.tab.as_ref().is_some_and(|t| other(&t.word)));
        let told: Vec<String> =
            others.map(|sheet| format!("{} {:?}", sheet.title, sheet.blocks)).collect();
        let told = told.concat();
        let known = known(&told);
        let mut unknown: Vec<String> = Vec::new();
        for step in &made.results.steps.steps {
            for action in step.actions() {
                for word in names(&action.text).filter(|word| !known.contains(*word)) {
                    unknown.push(format!("{word} in {}: {}", step.key, action.text));
                }
            }
        }
        assert!(unknown.is_empty(), "{name}: {unknown:#?}");
    }
}

/// A note, a hazard and a consequence tell; only actions and the avoiding words of a message ask
/// (DOE-STD-1029, 4.10, from memory; page rule 18).
#[test]
fn no_action_hides_in_a_note() {
    let verbs = &Templates::builtin().verbs;
    let asks = |text: &str| {
        text.split(['.', ';', ':']).any(|sentence| {
            let first = sentence.split_whitespace().next().unwrap_or_default();
            first.starts_with(char::is_uppercase) && verbs.contains(&first.to_lowercase())
        })
    };
    for made in all() {
        for step in &made.steps.steps {
            for line in &step.lines {
                let (Line::Note(words) | Line::Hold(rungsheet::compute::steps::Hold { words, .. })) =
                    line
                else {
                    continue;
                };
                assert!(!asks(words), "{}: {}: {words}", made.name, step.key);
            }
        }
        for message in &made.steps.messages {
            for words in [&message.hazard, &message.consequence] {
                assert!(!asks(words), "{}: {}: {words}", made.name, message.key);
            }
        }
    }
}

/// On the vehicle wires, hoses, tanks and airbags may lie behind; parts on the bench hide nothing.
#[test]
fn who_drills_the_vehicle_has_looked_behind() {
    let bench = |step: &Step| step.places == ["bench"];
    // What is clamped or lies on the vehicle, and is drilled away from its skin.
    let away = ["top of each block", "panel flanges", "tube"];
    let mut seen = 0;
    for made in all() {
        for step in made.steps.steps.iter().filter(|step| !bench(step)) {
            let (mut held, mut warned) = (false, false);
            for line in &step.lines {
                match line {
                    Line::Hold(_) => held = true,
                    Line::Caution(key) => warned |= key == "hidden-lines",
                    Line::Action(action) => {
                        let into = action.text.starts_with("Drill ")
                            || action.text.starts_with("Cut the opening");
                        if into && !away.iter().any(|what| action.text.contains(what)) {
                            seen += 1;
                            assert!(held && warned, "{}: {}: {}", made.name, step.key, action.text);
                        }
                    }
                    Line::Note(_) => {}
                }
            }
        }
    }
    assert!(seen > 20, "{seen} holes in vehicles");
}

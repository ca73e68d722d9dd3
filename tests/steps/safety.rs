//! Safety messages: lengths, words, and their places above the actions that raise them.

use super::support::all;
use rungsheet::compute::steps::template::Templates;
use rungsheet::compute::steps::{Line, Signal, safety, words};

#[test]
fn files_read_and_lines_name_known_messages() {
    assert!(safety::faults().is_empty(), "{:#?}", safety::faults());
    for template in &Templates::builtin().steps {
        for key in template.line.iter().filter_map(|line| line.caution.as_ref()) {
            assert!(safety::is_known(key), "{}: {key}", template.key);
        }
    }
}

/// Hazard, consequence and avoidance in 40 words; injury words only where people can be hurt.
#[test]
fn messages_are_short_and_whole() {
    for made in all() {
        for message in &made.steps.messages {
            let all = message.words();
            assert!(words::count(&all) <= 40, "{}: {}", message.key, words::count(&all));
            for part in [&message.hazard, &message.consequence, &message.avoid] {
                assert!(part.ends_with('.'), "{}: {part}", message.key);
            }
            if message.word == Signal::Notice {
                for hurt in ["kill", "injure", "burn", "cut ", "crush"] {
                    assert!(!all.contains(hurt), "a NOTICE is about things: {all}");
                }
                assert_ne!(message.sign.as_deref().and_then(|sign| sign.chars().next()), Some('W'));
            }
        }
    }
}

#[test]
fn each_message_that_steps_name_is_told_with_its_steps() {
    for made in all() {
        for step in &made.steps.steps {
            for line in &step.lines {
                if let Line::Caution(key) = line {
                    let message = made.steps.message(key);
                    let message = message.unwrap_or_else(|| panic!("{}: {key}", made.name));
                    assert!(message.steps.contains(&step.number), "{key}");
                }
            }
        }
    }
}

/// A message stands right above the action that it is about; at most one that could kill.
#[test]
fn messages_stand_before_an_action() {
    for made in all() {
        for step in &made.steps.steps {
            let mut grave = 0;
            for (index, line) in step.lines.iter().enumerate() {
                match line {
                    Line::Caution(key) => {
                        let word = made.steps.message(key).map(|message| message.word);
                        grave +=
                            usize::from(matches!(word, Some(Signal::Danger | Signal::Warning)));
                        assert!(grave <= 1, "{}: two grave messages before one action", step.key);
                        let next = step.lines.get(index + 1);
                        assert!(
                            matches!(next, Some(Line::Action(_) | Line::Caution(_))),
                            "{}: {key} stands over {next:?}",
                            step.key
                        );
                    }
                    Line::Action(_) => grave = 0,
                    _ => {}
                }
            }
        }
    }
}

#[test]
fn the_gravest_comes_first_and_danger_is_rare() {
    for made in all() {
        let words: Vec<Signal> = made.steps.messages.iter().map(|message| message.word).collect();
        assert!(words.is_sorted(), "{words:?}");
        let actions: usize = made.steps.steps.iter().map(|step| step.actions().count()).sum();
        let dangers = words.iter().filter(|word| **word == Signal::Danger).count();
        assert!(dangers * 50 <= actions.max(50));
    }
}

#[test]
fn what_is_used_decides_what_is_warned_of() {
    let told = |name: &str, key: &str| {
        let made = all().into_iter().find(|made| made.name == name).expect("one of the builds");
        made.steps.message(key).is_some()
    };
    assert!(told("van, adhesive that sensitises", "isocyanate"));
    assert!(!told("parts-only", "isocyanate"));
    assert!(told("disc", "cutting-disc"));
    assert!(!told("parts-only", "cutting-disc"));
    assert!(told("parts-only", "authority"));
    assert!(!told("parts-only", "height"));
}

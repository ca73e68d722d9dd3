//! Words of the steps: ASD-STE100 limits, page rules of the packet, and figures that are filled in.

use super::support::{all, example, make, make_with};
use rungsheet::compute::steps::template::Templates;
use rungsheet::compute::steps::{Line, words};
use std::collections::BTreeSet;

#[test]
fn every_placeholder_is_filled() {
    for made in all() {
        assert!(made.steps.missing.is_empty(), "{}: {:#?}", made.name, made.steps.missing);
        let told = format!("{:?}", made.steps.steps) + &format!("{:?}", made.steps.messages);
        for bad in ["{it.", "NaN", " inf", "\"inf", "−0\""] {
            assert!(!told.contains(bad), "{}: {bad}", made.name);
        }
    }
}

#[test]
fn every_line_of_every_template_is_told_for_some_build() {
    // Only where a part that derive always makes is missing because something else stopped it.
    let rare = ["!panel-screws"];
    let builds = all();
    let mut untold: Vec<String> = Vec::new();
    for template in &Templates::builtin().steps {
        assert!(
            builds.iter().any(|made| made.steps.facts.holds(&template.when)),
            "no build has the step {}",
            template.key
        );
        for line in &template.line {
            let told = builds.iter().any(|made| {
                made.steps.facts.holds(&template.when) && made.steps.facts.holds(&line.when)
            });
            if !told && !rare.contains(&line.when.as_str()) {
                untold.push(format!("{}: {}", template.key, line.when));
            }
        }
        for ready in &template.ready {
            let told = builds.iter().any(|made| made.steps.facts.holds(&ready.when));
            if !told {
                untold.push(format!("{}, ready: {}", template.key, ready.when));
            }
        }
    }
    assert!(untold.is_empty(), "no build has {untold:#?}");
}

/// ASD-STE100 issue 9, rules 5.1 to 5.3: 20 words, one instruction, imperative.
#[test]
fn actions_are_short_and_begin_with_an_approved_verb() {
    for made in all() {
        for step in &made.steps.steps {
            for action in step.actions() {
                let faults = words::faults(&action.text);
                assert!(faults.is_empty(), "{}: {}: {faults:?}", made.name, action.text);
            }
        }
    }
}

/// ASD-STE100 issue 9, rules 5.5 and 6.3: 25 words.
#[test]
fn notes_titles_and_purposes_are_short() {
    for made in all() {
        for step in &made.steps.steps {
            assert!(words::count(&step.title) <= 4, "{}", step.title);
            assert!(words::count(&step.purpose) <= words::MOST_NOTE_WORDS, "{}", step.purpose);
            let first = step.title.split(' ').next().unwrap_or_default().to_lowercase();
            let plain = ["build", "make", "dry"];
            let verbs = &Templates::builtin().verbs;
            assert!(verbs.contains(&first) || plain.contains(&first.as_str()), "{}", step.title);
            for line in &step.lines {
                match line {
                    Line::Note(note) => {
                        for sentence in note.split(". ") {
                            let count = words::count(sentence);
                            assert!(count <= words::MOST_NOTE_WORDS, "{note}");
                        }
                    }
                    Line::Hold(hold) => {
                        assert!(words::count(&hold.words) <= words::MOST_NOTE_WORDS, "{hold:?}");
                    }
                    _ => {}
                }
            }
        }
    }
}

#[test]
fn no_step_speaks_to_anybody() {
    for made in all() {
        for step in &made.steps.steps {
            let told = format!("{:?}", step.lines).to_lowercase();
            for word in [" you ", " your ", " yourself", " please "] {
                assert!(!told.contains(word), "{}: {word}", step.key);
            }
        }
    }
}

#[test]
fn every_action_ends_in_a_state_or_a_measure() {
    for made in all() {
        // What ends the reader's own actions only the reader can tell.
        for step in made.steps.steps.iter().filter(|step| step.span.is_none()) {
            for action in step.actions() {
                let done = action.done.as_ref();
                assert!(done.is_some_and(|done| !done.words.is_empty()), "{}", action.text);
                if let Some(done) = done.filter(|done| done.measured()) {
                    let value =
                        |text: &str| text.replace('\u{202F}', "").replace('−', "-").parse::<f64>();
                    if let (Ok(low), Ok(high)) = (value(&done.low), value(&done.high)) {
                        assert!(low <= high, "{}: {done:?}", action.text);
                    }
                }
            }
        }
    }
}

#[test]
fn action_numbers_run_on_through_the_packet() {
    for made in all() {
        let numbers: Vec<u32> = made
            .steps
            .steps
            .iter()
            .flat_map(rungsheet::compute::steps::Step::actions)
            .map(|a| a.number)
            .collect();
        let expected: Vec<u32> = (1..=numbers.len() as u32).collect();
        assert_eq!(numbers, expected, "{}", made.name);
    }
}

/// Marks in lists to have ready, boxes and emphasis are marks of this work.
#[test]
fn marks_that_steps_name_exist() {
    for made in all() {
        let mut known: BTreeSet<String> = BTreeSet::new();
        for part in &made.work.parts {
            known.extend(part.pieces.iter().map(|piece| piece.mark.clone()));
        }
        // A lone length off a reel bears its part's mark.
        known.extend(made.build.lengths.iter().map(|length| length.mark.value.clone()));
        known.extend(made.work.mounts.iter().map(|mount| mount.mark.clone()));
        known.extend(made.work.entry.iter().map(|entry| entry.mark.clone()));
        known.extend(made.build.fixtures.iter().map(|fixture| fixture.mark.value.clone()));
        known.extend(made.build.battery.iter().map(|battery| battery.mark.value.clone()));
        for step in &made.steps.steps {
            for mark in step.concerns.iter().chain(&step.works_on) {
                assert!(known.contains(mark), "{}: {}: {mark}", made.name, step.key);
            }
        }
    }
}

#[test]
fn waits_and_torques_come_from_the_ledger() {
    let van = example("field-van.toml");
    let open = make("van", &van);
    let bond = open.steps.step("bond").expect("feet are bonded");
    assert!(bond.waits().all(|wait| wait.time.is_none()));
    let bolt = open.steps.step("bolt").expect("feet are bolted");
    assert!(
        bolt.actions().any(|a| a.done.as_ref().is_some_and(|d| d.unit == "N·m" && !d.measured()))
    );

    let figures = [
        ("cure.F1.load", 17.0, "h"),
        ("cure.F2.load", 20.5, "h"),
        ("fasteners.torque.M6", 5.0, "N·m"),
        ("loads.tension.F1", 100.0, "N"),
        ("loads.tension.F2", 220.0, "N"),
        ("loads.tension.F3", 100.0, "N"),
        ("electrics.voc.cold", 27.4, "V"),
    ];
    let made = make_with("van", &van, &figures);
    let bond = made.steps.step("bond").expect("feet are bonded");
    let hours: Vec<f64> =
        bond.waits().filter_map(|w| w.time).map(rungsheet::units::Duration::to_hours).collect();
    assert_eq!(hours, [21.0], "the slowest foot decides, in whole hours");
    let bolt = made.steps.step("bolt").expect("feet are bolted");
    let torque = bolt.actions().filter_map(|a| a.done.as_ref()).find(|d| d.unit == "N·m");
    let torque = torque.expect("bolts have a torque");
    // 5 N·m with a tenth either way.
    assert_eq!((torque.low.as_str(), torque.high.as_str()), ("4.5", "5.5"));
    let tether = made.steps.step("tether").expect("one edge is held by adhesive alone");
    let load = tether.actions().filter_map(|a| a.done.as_ref()).find(|d| d.unit == "N");
    assert_eq!(load.map(|d| d.low.as_str()), Some("420"));
    let connect = made.steps.step("connect").expect("there are circuits");
    let highs: Vec<&str> =
        connect.actions().filter_map(|a| a.done.as_ref()).map(|d| d.high.as_str()).collect();
    assert!(highs.contains(&"27.4"), "{highs:?}");
}

#[test]
fn times_are_counts_times_rates() {
    let made = make("van", &example("field-van.toml"));
    let nuts = made.steps.step("rivet-nuts").expect("mounts need rivet nuts");
    let figure = made.ledger.get("steps.time.rivet-nuts").expect("times are figures");
    assert_eq!(nuts.time.to_minutes(), figure.value);
    assert!(figure.value % 5.0 == 0.0 && figure.value > 0.0);
    assert_eq!(figure.inputs.len(), 3, "marking, drilling, setting: {:?}", figure.inputs);
}

//! Steps of the reader's own, put among the others.

use super::support::{Made, example, make};
use rungsheet::compute::steps::{Line, order};

fn with(step: &str) -> Made {
    let head = "\n[[step]]\ntitle = \"Paint the rail\"\ntime = \"30 min\"\npeople = 1\n";
    let actions = "actions = [\"Brush paint on the rail.\", \"Wait 2 h.\"]\n";
    let text = format!("{}{head}{actions}{step}", example("field-van.toml"));
    make("van with a step", &text)
}

fn place(made: &Made, key: &str) -> usize {
    made.steps.steps.iter().position(|step| step.key == key).unwrap_or_else(|| panic!("{key}"))
}

#[test]
fn before_and_after() {
    let made = with("before = \"hinges\"");
    assert_eq!(place(&made, "own-1") + 1, place(&made, "hinges"));
    let hinges = made.steps.step("hinges").unwrap();
    assert!(hinges.after.iter().any(|need| need.key == "own-1"));
    assert_eq!(made.steps.step("own-1").unwrap().time.to_minutes(), 30.0);
    assert!(order::faults(&made.steps.steps, &made.work).is_empty());

    let made = with("after = \"hinges\"");
    assert_eq!(place(&made, "own-1"), place(&made, "hinges") + 1);
    let own = made.steps.step("own-1").unwrap();
    assert!(own.after.iter().any(|need| need.key == "hinges"));
}

#[test]
fn at_the_end() {
    let made = with("");
    assert_eq!(place(&made, "own-1"), made.steps.steps.len() - 1);
    assert!(made.findings.is_empty());
}

#[test]
fn instead_of_keeps_holds_messages_and_what_others_wait_for() {
    let plain = make("van", &example("field-van.toml"));
    let made = with("instead-of = \"entry\"");
    assert_eq!(made.steps.steps.len(), plain.steps.steps.len());
    let step = made.steps.step("entry").expect("keeps its name");
    assert_eq!(step.title, "Paint the rail");
    assert!(step.holds());
    assert!(step.lines.contains(&Line::Caution("hidden-lines".to_owned())));
    let texts: Vec<&str> = step.actions().map(|action| action.text.as_str()).collect();
    assert_eq!(texts, ["Brush paint on the rail.", "Wait 2 h."]);
    let seal = made.steps.step("seal").unwrap();
    assert!(seal.after.iter().any(|need| need.key == "entry"));

    let made = with("instead-of = \"bond\"");
    let step = made.steps.step("bond").expect("keeps its name");
    assert_eq!(step.waits().count(), 1, "the cure still ends it");
}

#[test]
fn what_it_needs_and_how_it_is_right_stand_on_its_sheet() {
    let step = r#"
[[step]]
title = "Hang the shelf"
purpose = "The shelf hides the cables."
time = "20 min"
tools = ["driver PH2"]
hold = "cables tried"
cautions = ["lift", "height"]
actions = [
    "Lift the shelf.",
    { do = "Set the gap to the wall.", done = "gap", low = 2, high = 3.25, unit = "mm" },
]
"#;
    let made = make("van with a shelf", &format!("{}{step}", example("field-van.toml")));
    assert!(made.findings.is_empty(), "{:?}", made.findings);
    let own = made.steps.step("own-1").unwrap();
    assert_eq!(own.purpose, "The shelf hides the cables.");
    assert_eq!(own.ready[0].what, "driver PH2");
    let before: Vec<bool> =
        own.lines.iter().take(3).map(|line| !matches!(line, Line::Action(_))).collect();
    assert_eq!(before, [true; 3], "hold and messages come before the first action");
    let done: Vec<_> = own.actions().map(|action| action.done.clone()).collect();
    assert_eq!(done[0], None);
    let gap = done[1].as_ref().expect("is measured");
    assert_eq!((gap.low.as_str(), gap.high.as_str(), gap.unit.as_str()), ("2.00", "3.25", "mm"));
    assert!(made.steps.message("lift").is_some_and(|message| message.steps.contains(&own.number)));
}

#[test]
fn an_unknown_place_is_told_with_the_nearest_name() {
    let made = with("before = \"hinge\"");
    let finding = made.findings.iter().find(|f| f.rule.code == "T101").expect("is told");
    assert!(finding.helps[0].contains("`hinges`"), "{finding:?}");
    assert_eq!(place(&made, "own-1"), made.steps.steps.len() - 1);
}

#[test]
fn long_actions_and_a_small_crew_are_told() {
    let long = format!("Brush paint on the rail{}.", " and again".repeat(10));
    let text = format!(
        "{}\n[[step]]\ntitle = \"Paint\"\ntime = \"1 h\"\nactions = [\"{long}\"]\n",
        example("field-van.toml").replace("people = 2", "people = 1")
    );
    let made = make("van", &text);
    let codes: Vec<&str> = made.findings.iter().map(|finding| finding.rule.code).collect();
    assert_eq!(codes, ["T102", "T103"]);
}

/// Who drills into a vehicle looks behind first; at the bench nothing hides.
#[test]
fn drilling_of_the_readers_own_has_its_look_behind() {
    let step = |actions: &str| {
        format!("\n[[step]]\ntitle = \"Fit the fan\"\ntime = \"30 min\"\nactions = [{actions}]\n")
    };
    let drill = "\"Place the fan.\", \"Drill the roof at the fan.\", \"Drill the other side.\"";
    let made = make("fan", &format!("{}{}", example("field-van.toml"), step(drill)));
    let own = made.steps.steps.iter().find(|step| step.title == "Fit the fan").expect("is there");
    let at = |wanted: &dyn Fn(&Line) -> bool| own.lines.iter().position(wanted);
    let hold = at(&|line| matches!(line, Line::Hold(_))).expect("a hold point");
    let caution = at(&|line| *line == Line::Caution("hidden-lines".to_owned())).expect("a warning");
    let first =
        at(&|line| matches!(line, Line::Action(action) if action.text.starts_with("Drill")));
    assert!(hold < caution && Some(caution + 1) == first);
    assert_eq!(own.lines.iter().filter(|line| matches!(line, Line::Hold(_))).count(), 1);
    let made = make("shelf", &format!("{}{}", example("galley-shelf.toml"), step(drill)));
    let own = made.steps.steps.iter().find(|step| step.title == "Fit the fan").expect("is there");
    assert!(!own.holds());
}

#[test]
fn a_step_of_ours_may_be_left_out_and_others_hand_on_what_it_waited_for() {
    let text = "\n[[step]]\ntitle = \"A rail stops it\"\nleave-out = \"dry-fit\"\n";
    let made = make("van", &format!("{}{text}", example("field-van.toml")));
    assert!(made.steps.step("dry-fit").is_none());
    assert!(made.findings.iter().any(|finding| finding.rule.code == "T104"));
    let keys = |key: &str| -> Vec<String> {
        made.steps.step(key).expect(key).after.iter().map(|need| need.key.clone()).collect()
    };
    assert!(!keys("prepare").contains(&"dry-fit".to_owned()));
    assert!(!keys("prepare").is_empty());
    // What it would have made is missed: the outlines on the skin.
    assert!(!order::faults(&made.steps.steps, &made.work).is_empty());
}

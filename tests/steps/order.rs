//! What is there when it is needed, and where somebody must stop first.

use super::support::{all, example, make};
use rungsheet::compute::steps::order::faults;
use rungsheet::compute::steps::{CureState, Line, Step};

#[test]
fn nothing_is_needed_before_it_is_made() {
    for made in all() {
        let faults = faults(&made.steps.steps, &made.work);
        // A build without an entry step or the like leaves nothing unmade either.
        assert!(faults.is_empty(), "{}: {faults:#?}", made.name);
    }
}

#[test]
fn a_wrong_order_is_seen() {
    let made = make("van", &example("field-van.toml"));
    let keys = |steps: &[Step]| steps.iter().map(|step| step.key.clone()).collect::<Vec<_>>();
    let at = |key: &str| keys(&made.steps.steps).iter().position(|k| k == key).expect("is there");
    for (early, late) in [
        ("cut", "drill"),
        ("feet", "rivet-nuts"),
        ("prepare", "bond"),
        ("dry-fit", "entry"),
        ("bond", "bolt"),
        ("feet", "bond"),
        ("drill", "panels"),
        ("entry", "bolt"),
    ] {
        let mut steps = made.steps.steps.clone();
        steps.swap(at(early), at(late));
        assert!(!faults(&steps, &made.work).is_empty(), "{early} after {late}");
    }
    // Each of these alone: a tool does not come to its place any more.
    for (early, late, words) in
        [("feet", "bond", "from under a bond"), ("entry", "bolt", "lies under or beside the frame")]
    {
        let mut steps = made.steps.steps.clone();
        let step = steps.remove(at(early));
        let place = steps.iter().position(|step| step.key == late).expect("is there");
        steps.insert(place + 1, step);
        let told = faults(&steps, &made.work);
        assert!(told.iter().any(|fault| fault.contains(words)), "{early}, {late}: {told:#?}");
    }
    let mut steps = made.steps.steps.clone();
    steps.remove(at("hinges"));
    assert!(!faults(&steps, &made.work).is_empty(), "hinge bolts are driven by no step");
}

#[test]
fn bolts_wait_for_load_and_driving_for_its_own_cure() {
    let made = make("van", &example("field-van.toml"));
    for (key, state) in [("bolt", CureState::Load), ("check", CureState::Drive)] {
        let step = made.steps.step(key).expect("is there");
        let need = step.after.iter().find(|need| need.key == "bond").expect("waits for the bond");
        let marks: Vec<&str> = need.cures.iter().map(|cure| cure.mark.as_str()).collect();
        assert_eq!(marks, ["F1", "F2", "F3"]);
        assert!(need.cures.iter().all(|cure| cure.state == state));
    }
    assert_eq!(made.steps.step("bond").unwrap().after.len(), 1);
}

#[test]
fn a_step_that_is_not_there_hands_on_what_it_waited_for() {
    let made = make("trailer", &example("harbour-trailer.toml"));
    assert!(made.steps.step("hinges").is_none());
    let prepare = made.steps.step("prepare").expect("feet are bonded");
    let keys: Vec<&str> = prepare.after.iter().map(|need| need.key.as_str()).collect();
    assert_eq!(keys, ["dry-fit", "feet"]);
}

/// Drilling, bonding, cutting to length and first power are released by a person first.
#[test]
fn what_cannot_be_undone_is_held() {
    let verbs = ["Drill ", "Cut ", "Lay one bead", "Peel ", "Close "];
    for made in all() {
        for step in made.steps.steps.iter().filter(|step| step.span.is_none()) {
            let mut held = false;
            for line in &step.lines {
                match line {
                    Line::Hold(_) => held = true,
                    Line::Action(action)
                        if verbs.iter().any(|verb| action.text.starts_with(verb)) =>
                    {
                        // Cables are cut long and can be cut again.
                        assert!(held || step.key == "cables", "{}: {}", made.name, action.text);
                    }
                    _ => {}
                }
            }
        }
    }
}

#[test]
fn a_lift_needs_two_and_calm_air() {
    let made = make("van", &example("field-van.toml"));
    let lift = made.steps.step("dry-fit").expect("is there");
    assert!(lift.people >= 2);
    let wind = made.ledger.get("steps.wind.lift").expect("is a figure");
    // By hand: three panels of 0.54 × 1.04 m with gaps of 10 mm; 2 to 3 people at 100 N each;
    // sqrt(2 · 200 / (1.25 · 1.8 · 1.70)) / 1.5 = 6.8 m/s for two, 8.3 for three.
    assert!((6.0..=8.0).contains(&wind.value), "{}", wind.value);
    assert!(lift.weather.contains("m/s"));
}

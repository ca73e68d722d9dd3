//! A build has the steps of what it has, and no others.

use super::support::{ELECTRIC, Made, PARTS, example, make, without};

fn keys(made: &Made) -> Vec<&str> {
    made.steps.steps.iter().map(|step| step.key.as_str()).collect()
}

#[test]
fn parts_and_stock_alone_are_measured_and_cut() {
    assert_eq!(keys(&make("parts", PARTS)), ["measure", "cut"]);
}

#[test]
fn the_van_has_all_steps() {
    let made = make("van", &example("field-van.toml"));
    assert_eq!(
        keys(&made),
        [
            "measure",
            "cut",
            "drill",
            "feet",
            "frame",
            "rivet-nuts",
            "panels",
            "dry-fit",
            "hinges",
            "prepare",
            "bond",
            "entry",
            "seal",
            "cables",
            "battery",
            "bolt",
            "tether",
            "connect",
            "check"
        ]
    );
}

#[test]
fn bonded_feet_alone_have_no_hinge_step_and_a_tether() {
    let made = make("trailer", &example("harbour-trailer.toml"));
    let keys = keys(&made);
    assert!(!keys.contains(&"hinges"));
    assert!(keys.contains(&"tether"));
    let tether = made.steps.step("tether").unwrap();
    let edges: Vec<&str> = tether
        .actions()
        .map(|action| action.text.as_str())
        .filter(|text| text.starts_with("Fit a tether"))
        .collect();
    assert_eq!(edges.len(), 2, "both sides are held by adhesive alone: {edges:?}");
}

#[test]
fn no_electrics_no_electrical_steps() {
    let made = make("van", &without(&example("field-van.toml"), ELECTRIC));
    for key in ["cables", "battery", "connect"] {
        assert!(!keys(&made).contains(&key), "{key}");
    }
}

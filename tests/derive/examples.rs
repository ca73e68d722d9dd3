//! The example build files come out as sound designs.

use rungsheet::build::Build;
use rungsheet::derive::{clashes, closure, derive};
use rungsheet::read::read;
use rungsheet::source::{Severity, Text};
use rungsheet::tables::Tables;

const EXAMPLES: [(&str, &str); 4] = [
    ("field-van.toml", include_str!("../../examples/field-van.toml")),
    ("harbour-trailer.toml", include_str!("../../examples/harbour-trailer.toml")),
    ("rescue-minibus.toml", include_str!("../../examples/rescue-minibus.toml")),
    ("forest-pod.toml", include_str!("../../examples/forest-pod.toml")),
];

/// An example as read.
pub fn example(contents: &str) -> Build {
    read(&Text::new("build.toml", contents), Tables::builtin()).0.expect("the examples read")
}

#[test]
fn no_example_has_a_stop_and_all_holes_meet() {
    for (name, contents) in EXAMPLES {
        let (work, findings) = derive(&example(contents));
        let stops: Vec<String> = findings
            .iter()
            .filter(|finding| finding.severity == Severity::Stop)
            .map(|finding| format!("{} {} {:?}", finding.rule.code, finding.message, finding.helps))
            .collect();
        assert!(stops.is_empty(), "{name}: {stops:#?}");
        assert_eq!(closure(&work), [], "{name}");
        for check in clashes(&work) {
            assert!(check.is_clear() && check.looked > 0, "{name}: {check:?}");
        }
        assert!(work.parts.len() > 5 && work.holes.len() > 20, "{name}");
    }
}

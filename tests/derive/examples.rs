//! The example build files come out as sound designs.

use rungsheet::build::Build;
use rungsheet::derive::{ClashCheck, PartKind, clashes, closure, derive, joint_checks};
use rungsheet::geometry::Vec3;
use rungsheet::read::read;
use rungsheet::source::{Severity, Text};
use rungsheet::tables::Tables;
use rungsheet::units::Length;

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

/// A piece put down a little off its place shows in the check of its holes, one put down inside another
/// in that of the solids.
#[test]
fn a_piece_off_its_place_is_seen() {
    let (mut work, _) = derive(&example(EXAMPLES[0].1));
    let at = work.parts.iter().position(|part| part.kind == PartKind::FootAngle).expect("a foot");
    let place = work.parts[at].pieces[0].place;
    let shifted = |by: f64| place.moved(Vec3::mm(by, 0.0, 0.0));
    work.parts[at].pieces[0].place = shifted(0.005);
    assert_eq!(closure(&work), []);
    work.parts[at].pieces[0].place = shifted(0.02);
    let off = closure(&work);
    assert!(!off.is_empty() && off.iter().all(|error| error.off_axis > Length::mm(0.015)));
    let wrong: Vec<String> = joint_checks(&work)
        .into_iter()
        .filter(|check| !check.sound)
        .map(|check| check.name)
        .collect();
    assert_eq!(wrong, ["foot plate to angle", "foot angle to tube"]);
    assert!(clashes(&work).iter().all(ClashCheck::is_clear));
    work.parts[at].pieces[0].place = place.moved(Vec3::mm(0.0, 0.0, -8.0));
    let clash: Vec<&str> =
        clashes(&work).iter().filter(|check| !check.is_clear()).map(|check| check.what).collect();
    assert!(clash.contains(&"bracket or plate in the roof"), "{clash:?}");
}

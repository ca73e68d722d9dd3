//! What is looked at, when, and what stops driving; from what the build has.

use crate::build::FixedOn;
use crate::compute::steps::Line;
use crate::compute::steps::facts::marks;
use crate::derive::{MountShape, Screw};
use crate::page::text::Text;
use crate::sheets::step::StepBasis;
use crate::units::Duration;
use jiff::civil::Date;

pub(super) struct Look {
    /// What, and what to see.
    pub what: String,
    /// After 100 km, 1 000 km, half a year, a year.
    pub due: [bool; 4],
}

/// What is looked at, from what the build has. Intervals are common practice: bolted joints settle
/// early, bonds age late.
pub(super) fn looks(basis: &StepBasis<'_>) -> Vec<Look> {
    let work = basis.work;
    let mut looks = Vec::new();
    let mut add = |what: String, due: [bool; 4]| looks.push(Look { what, due });
    // Bolts of one name and thread are one row, whatever their lengths.
    let mut joints: Vec<(&str, String, usize)> = Vec::new();
    let mut joint = |name, thread: &str, count| match joints
        .iter_mut()
        .find(|row: &&mut (&str, String, usize)| row.0 == name && row.1 == thread)
    {
        Some(row) => row.2 += count,
        None => joints.push((name, thread.to_owned(), count)),
    };
    for fastening in &work.fastenings {
        let bolt = match &fastening.screw {
            Screw::BoltInRivetNut { thread, .. } | Screw::BoltAndNut { thread, .. } => {
                Some(thread.name.clone())
            }
            Screw::Tapping { .. } | Screw::BlindRivet { .. } | Screw::Pin { .. } => None,
        };
        match bolt {
            Some(thread) => joint(fastening.name.as_str(), &thread, fastening.places.len()),
            None => joint(fastening.name.as_str(), "", fastening.places.len()),
        }
    }
    for (name, thread, count) in joints {
        if thread.is_empty() {
            add(format!("{name}, {count}: none loose"), [false, true, false, true]);
        } else {
            add(format!("{name}, {count} × {thread}: lines of paint"), [true; 4]);
        }
    }
    for fixture in &basis.build.fixtures {
        let (name, thread) = (&fixture.name.value, &fixture.thread.name);
        let count = fixture.holes(&basis.build.holes).count();
        add(format!("bolts of the {name}, {count} × {thread}: lines of paint"), [true; 4]);
        add(format!("skin round the {name}: no crack, dent or rust; seal whole"), [true; 4]);
        if *fixture.on == FixedOn::RearDoor {
            add("rear door: hinges, lock and stay without play".to_owned(), [true; 4]);
        }
    }
    let bonds: Vec<&str> = work.bonds.iter().map(|bond| bond.mark.as_str()).collect();
    if !bonds.is_empty() {
        add(format!("bonds {}: edges, no lifting, no rust", marks(&bonds)), [true; 4]);
    }
    if work.mounts.iter().any(|mount| matches!(mount.kind, MountShape::Hinge { .. })) {
        add("hinges: pins, play".to_owned(), [true; 4]);
    }
    let latched: Vec<&str> = work
        .mounts
        .iter()
        .filter(|mount| {
            let written = basis.build.mounts.get(mount.mount);
            written.is_some_and(|mount| mount.kind.latch().is_some())
        })
        .map(|mount| mount.mark.as_str())
        .collect();
    if !latched.is_empty() {
        let marks = marks(&latched);
        add(format!("latches {marks}: close firmly, lock, no play; strap whole"), [true; 4]);
    }
    if let Some(entry) = &work.entry {
        add(format!("seal {}: no crack, no water inside", entry.mark), [true, false, true, true]);
    }
    let warned = |key: &str| {
        basis.steps.steps.iter().any(|step| {
            step.key == key && step.lines.iter().any(|line| matches!(line, Line::Action(_)))
        })
    };
    if warned("tether") {
        add("tethers: slack, fittings closed".to_owned(), [true, true, true, true]);
    }
    if !work.arrays.is_empty() {
        add("panels: glass, frame corners, clean".to_owned(), [false, false, true, true]);
    }
    if !basis.build.circuits.is_empty() {
        add(
            "cables: chafe, glands, terminals cool under load".to_owned(),
            [true, false, true, true],
        );
    }
    if basis.build.battery.is_some() {
        add("battery: strap tight, blocks firm, dry".to_owned(), [true, true, true, true]);
    }
    looks
}

/// When driving with it stops until it is mended.
pub(super) fn stops(basis: &StepBasis<'_>) -> Vec<Text> {
    let work = basis.work;
    let mut list: Vec<Text> = Vec::new();
    if !work.bonds.is_empty() {
        list.push("An edge of a bond lifts, or a foot moves by hand.".into());
    }
    if !basis.build.fixtures.is_empty() {
        list.push("A fixture moves by hand, or the skin round it is cracked or dented.".into());
    }
    if basis.build.fixtures.iter().any(|fixture| *fixture.on == FixedOn::RearDoor) {
        list.push("The rear door hangs, rattles or does not lock by itself.".into());
    }
    if !work.fastenings.is_empty() || !basis.build.fixtures.is_empty() {
        list.push("A bolt is gone, or two lines of paint on one mount are broken.".into());
    }
    if work.mounts.iter().any(|mount| matches!(mount.kind, MountShape::Hinge { .. })) {
        list.push("A hinge pin has crept out, or a leaf is bent.".into());
    }
    if !work.arrays.is_empty() {
        list.push("A tube, bracket or panel's glass is cracked.".into());
        list.push("It whistles or knocks as never before.".into());
    }
    if basis.build.battery.is_some() {
        list.push("The battery is swollen, hot or wet, or its strap slack.".into());
    }
    if !basis.build.circuits.is_empty() {
        list.push("A terminal or fuse holder is hot or brown.".into());
    }
    list
}

/// Whether some bolt has a line of paint over its nut.
pub(super) fn has_paint_lines(basis: &StepBasis<'_>) -> bool {
    basis.work.fastenings.iter().any(|fastening| {
        matches!(fastening.screw, Screw::BoltInRivetNut { .. } | Screw::BoltAndNut { .. })
    })
}

/// What kinds of thing are looked at: "Joints, bonds and seals".
pub(super) fn kinds(basis: &StepBasis<'_>) -> String {
    let (build, work) = (basis.build, basis.work);
    let kinds = [
        ("joints", !work.fastenings.is_empty()),
        ("bonds", !work.bonds.is_empty()),
        ("seals", work.entry.is_some()),
        ("cables", !build.circuits.is_empty()),
        ("battery", build.battery.is_some()),
    ];
    let there: Vec<&str> = kinds.into_iter().filter_map(|(kind, is)| is.then_some(kind)).collect();
    let words = match there.as_slice() {
        [] => "what was made".to_owned(),
        [one] => (*one).to_owned(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    };
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The first two inspections: by distance on a vehicle, else by time.
pub(super) const fn first_two(driven: bool) -> [&'static str; 2] {
    if driven { ["100 km", "1\u{202f}000 km"] } else { ["1 week", "1 month"] }
}

/// The inspections: after which distance or time, and the day by which, where that is a time.
pub(super) fn inspections(ready: Option<Date>, driven: bool) -> Vec<(&'static str, Option<Date>)> {
    let later = |span: jiff::Span| ready.and_then(|date| date.checked_add(span).ok());
    let months = |months: i32| later(jiff::Span::new().months(months));
    let [first, second] = first_two(driven);
    let [week, month] =
        if driven { [None, None] } else { [later(jiff::Span::new().days(7)), months(1)] };
    vec![
        (first, week),
        (second, month),
        ("½ year", months(6)),
        ("1 year", months(12)),
        ("2 years", months(24)),
        ("3 years", months(36)),
        ("4 years", months(48)),
        ("5 years", months(60)),
    ]
}

/// The first day on which it may be driven, by the plan.
pub(in crate::sheets) fn ready(first: Date, drive: Option<Duration>) -> Option<Date> {
    let days = drive?.to_days().floor();
    (days < 40_000.0).then(|| first.checked_add(jiff::Span::new().days(days as i64)).ok())?
}

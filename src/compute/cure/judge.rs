//! What the waits mean for the build file: one finding a line of mounts, not one a foot.

use super::forecast::{Forecast, Limits};
use super::{JointCure, Stage, rules};
use crate::build::{BondedFoot, Build};
use crate::compute::bonding::Carrier;
use crate::compute::steps;
use crate::source::{Finding, Span};
use crate::units::{Duration, Temperature};

/// Full strength later than this is told of.
const LONG: Duration = Duration::days(21.0);

/// A joint with what the finding needs to know besides.
pub(super) struct Judged<'a> {
    /// Index of the joint.
    pub joint: usize,
    /// Table that it comes from.
    pub span: Span,
    /// The foot as it was written; absent for a seal.
    pub foot: Option<&'a BondedFoot>,
    /// What carries it.
    pub carrier: Option<Carrier>,
}

pub(super) fn judge(
    build: &Build,
    joints: &[JointCure],
    judged: &[Judged<'_>],
    air: &Forecast,
    findings: &mut Vec<Finding>,
) {
    let mut lines: Vec<(&Judged, Vec<&JointCure>)> = Vec::new();
    for entry in judged {
        let joint = &joints[entry.joint];
        match lines.iter_mut().find(|(first, _)| first.span == entry.span) {
            Some((_, list)) => list.push(joint),
            None => lines.push((entry, vec![joint])),
        }
    }
    for (first, list) in lines {
        findings.extend(no_window(build, first, &list, air));
        findings.extend(trapped(first, &list));
    }
}

/// Marks of some joints in words.
fn marks(joints: &[&JointCure]) -> String {
    let marks: Vec<&str> = joints.iter().map(|joint| joint.mark.as_str()).collect();
    steps::facts::marks(&marks)
}

fn no_window(
    build: &Build,
    first: &Judged,
    joints: &[&JointCure],
    air: &Forecast,
) -> Option<Finding> {
    let surface = joints.first()?.surface;
    let last = Duration::days(f64::from(air.days()));
    if !air.windows(&surface, Duration::ZERO, last).is_empty() {
        return None;
    }
    let (hour, short) = best_hour(&surface, air, last);
    let moment = air.at(hour);
    let (cold, warm) = air.skin(hour);
    let finding = Finding::new(
        &rules::NO_WINDOW,
        format!(
            "no hour is fit to bond {}: the skin must be dry, {:.0} °C to {:.0} °C and {:.0} K over the dew point",
            marks(joints),
            surface.low.to_celsius(),
            surface.high.to_celsius(),
            surface.margin.to_k()
        ),
    )
    .at(first.span, "bonded here")
    .also(
        build.weather.day.temperature.span,
        format!(
            "best on {}: air {:.1} °C, skin {}, dew point {:.1} °C; {:.1} K short",
            super::date_words(*build.crew.start, hour),
            moment.temperature.to_celsius(),
            between(cold, warm),
            moment.dew_point().to_celsius(),
            short
        ),
    )
    .means("on a cold, hot or damp skin tape and bead stick at first and peel later");
    let hot = (warm - surface.high).to_k() > 0.0;
    Some(if hot {
        finding
            .help("shade the roof, or wait for cooler days; `sun-warms` in [weather] says how warm the sun makes it")
    } else {
        finding
            .help("wait for warmer or drier days")
            .help("or work under a roof with heat, and state that air and `sky = \"covered\"` in [weather]")
    })
}

/// "9.0 °C to 13.0 °C", or one of them.
fn between(cold: Temperature, warm: Temperature) -> String {
    let told = |t: Temperature| format!("{:.1} °C", t.to_celsius());
    if (warm - cold).to_k() < 0.05 {
        told(cold)
    } else {
        format!("{} to {}", told(cold), told(warm))
    }
}

/// The hour that comes nearest to the limits, and the kelvins that it lacks.
fn best_hour(surface: &Limits, air: &Forecast, last: Duration) -> (Duration, f64) {
    let quarters = (last.to_hours() * 4.0).round().max(1.0) as u32;
    (0..quarters)
        .map(|quarter| Duration::minutes(f64::from(quarter) * 15.0))
        .map(|hour| (hour, air.misses(surface, hour)))
        .fold(
            (Duration::ZERO, f64::INFINITY),
            |best, next| if next.1 < best.1 { next } else { best },
        )
}

fn trapped(first: &Judged, joints: &[&JointCure]) -> Option<Finding> {
    let slow: Vec<&JointCure> = joints
        .iter()
        .copied()
        .filter(|joint| {
            joint.wait(Stage::Full).is_some_and(|wait| wait.time.is_none_or(|time| time > LONG))
        })
        .collect();
    let worst = slow.first()?;
    let path = worst.path?;
    let foot = first.foot;
    let long = worst.wait(Stage::Full).and_then(|wait| wait.time).map_or_else(
        || "more than a year".to_owned(),
        |time| format!("{:.0} days", time.to_days()),
    );
    let bead = foot.and_then(|foot| foot.bead.as_ref());
    let (place, label) = match bead {
        Some(bead) => (bead.width.span, "air gets at this bead only from its ends"),
        None => (first.span, "this seal"),
    };
    let label = if bead.is_some_and(|bead| *bead.width * 0.5 >= path) {
        "air must come in from the sides of this bead"
    } else {
        label
    };
    let finding = Finding::new(
        &rules::TRAPPED,
        format!(
            "the bead of {} needs {long} to harden through: air must reach {:.0} mm deep",
            marks(&slow),
            path.to_mm()
        ),
    )
    .at(place, label)
    .means(if first.carrier == Some(Carrier::Tape) {
        "the tape carries meanwhile; the bead helps later"
    } else {
        "nobody may drive on it until then"
    });
    Some(if foot.is_some_and(|foot| foot.tape.is_some()) {
        finding
            .help("leave a channel of 3 mm or more between bead and tape, open at both ends of the plate")
            .help("or use narrower beads, or a two-part adhesive")
    } else {
        finding
            .help("let tape carry meanwhile, with channels of 3 mm between it and the bead")
            .help("or use narrower beads, or a two-part adhesive")
    })
}

//! What the waits mean for the build file: one finding a line of mounts, not one a foot.

use super::forecast::Forecast;
use super::{JointCure, Stage, Surface, rules};
use crate::build::{BondedFoot, Build};
use crate::compute::bonding::Carrier;
use crate::compute::steps;
use crate::source::{Finding, Span};
use crate::units::Duration;

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
    if !air.windows(surface.low, surface.high, surface.margin).is_empty() {
        return None;
    }
    let (hour, short) = best_hour(&surface, air);
    let moment = air.at(hour);
    Some(
        Finding::new(
            &rules::NO_WINDOW,
            format!(
                "no hour of the day is fit to bond {}: the skin must be {:.0} °C to {:.0} °C and {:.0} K over the dew point",
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
                "best at {:02.0}:{:02.0}: {:.1} °C, {:.1} K over the dew point; {:.1} K too little",
                hour.to_hours().floor(),
                hour.to_minutes().rem_euclid(60.0),
                moment.temperature.to_celsius(),
                moment.dew_margin().to_k(),
                short
            ),
        )
        .means("on a cold or damp skin tape and bead stick at first and peel later")
        .help("wait for warmer or drier days")
        .help("or work under a roof with heat, and state that air in [weather]"),
    )
}

/// The hour that comes nearest to the limits, and the kelvins that it lacks.
fn best_hour(surface: &Surface, air: &Forecast) -> (Duration, f64) {
    let lacks = |hour: Duration| {
        let now = air.at(hour);
        let cold = (surface.low - now.temperature).to_k();
        let hot = (now.temperature - surface.high).to_k();
        let damp = surface.margin.to_k() - now.dew_margin().to_k();
        cold.max(hot).max(damp)
    };
    (0..96)
        .map(|quarter| Duration::minutes(f64::from(quarter) * 15.0))
        .map(|hour| (hour, lacks(hour)))
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
        finding.help("use narrower beads, or a two-part adhesive")
    })
}

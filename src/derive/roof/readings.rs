//! Readings that no roof has.
//!
//! A straightedge that lies on a crowned roof touches it in one place and the gap grows from there
//! to both sides, ever faster. What breaks this is a slip of the tape or the pen, or a straightedge
//! that rocked between two readings; everything after would be built on it, so it is refused.

use crate::build::{Gap, Roof, RoofShape};
use crate::derive::rules::{l002, l003, l004, l005};
use crate::source::{Finding, Span};
use crate::units::Length;

/// A gap up to this counts as touching: a tape is read to the millimetre, and the place of touch
/// may lie between two readings.
const TOUCH: Length = Length::mm(2.0);
/// How far a reading may stand off the straight line between its neighbours on the hollow side:
/// beads pressed into roof sheets and reading errors stay below it (common practice, no source).
const HOLLOW: Length = Length::mm(4.0);
/// Share by which the reading at the same place of two neighbouring stations may differ, over
/// [`JUMP`]: roofs change slowly along the vehicle (common practice, no source).
const SHARE: f64 = 0.35;
/// What two neighbouring stations may differ in any case.
const JUMP: Length = Length::mm(12.0);

const ALONG: &str = "the straightedge along the roof";

/// What is wrong with the readings of the roof.
pub fn check_readings(roof: &Roof) -> Vec<Finding> {
    let mut findings = Vec::new();
    let (stations, along, along_span) = match &roof.shape {
        RoofShape::Gaps { stations, along, along_span } => (stations, along, along_span),
        RoofShape::Crown(crown) => {
            if !crown.along.is_empty() {
                check_line(ALONG, &crown.along, crown.along_span, &mut findings);
            }
            return findings;
        }
        RoofShape::Flat => return findings,
    };
    for station in stations {
        let name = format!("the station at x = {}", station.x.value);
        check_line(&name, &station.gaps, station.span, &mut findings);
    }
    if !along.is_empty() {
        check_line(ALONG, along, *along_span, &mut findings);
    } else if let Some(first) = stations.first() {
        findings.push(l005::finding(stations.len(), first.span));
    }
    if findings.is_empty() || along.is_empty() {
        for pair in stations.windows(2) {
            for gap in &pair[1].gaps {
                let same = pair[0].gaps.iter().find(|other| other.at.is_near(gap.at, TOUCH));
                let Some(before) = same else { continue };
                let limit = JUMP.max(before.gap.max(gap.gap) * SHARE);
                if (before.gap - gap.gap).abs() > limit {
                    findings.push(l004::between_stations(before, gap, limit));
                }
            }
        }
    }
    findings
}

fn check_line(name: &str, gaps: &[Gap], span: Span, findings: &mut Vec<Finding>) {
    let Some(least) = gaps.iter().min_by(|a, b| a.gap.total_cmp(&b.gap)) else { return };
    if least.gap > TOUCH {
        findings.push(l002::finding(name, least, TOUCH, span));
        return;
    }
    if let Some(finding) = rocked(name, gaps) {
        findings.push(finding);
        return;
    }
    for three in gaps.windows(3) {
        let share = (three[1].at - three[0].at) / (three[2].at - three[0].at);
        let line = three[0].gap + (three[2].gap - three[0].gap) * share;
        if three[1].gap - line > HOLLOW {
            findings.push(l004::finding(name, &three[1], line, HOLLOW));
        }
    }
}

/// Two places of touch with open air between them.
fn rocked(name: &str, gaps: &[Gap]) -> Option<Finding> {
    let touches = |gap: &&Gap| gap.gap <= TOUCH;
    let first = gaps.iter().position(|gap| touches(&gap))?;
    let last = gaps.iter().rposition(|gap| touches(&gap))?;
    let between = gaps[first..=last].iter().max_by(|a, b| a.gap.total_cmp(&b.gap))?;
    (between.gap > HOLLOW).then(|| l003::finding(name, &gaps[first], &gaps[last], between))
}

//! Laws looked at place by place: a frame turned about its pins, and the edges of holes.

use proptest::prelude::*;
use rungsheet::derive::{MountShape, Work};
use rungsheet::geometry::Point3;
use rungsheet::source::Finding;
use rungsheet::units::Length;

/// A point of the hinges' pins.
pub fn pin(work: &Work) -> Point3 {
    let found = work.mounts.iter().find_map(|mount| match &mount.kind {
        MountShape::Hinge { pin, .. } => Some(*pin),
        _ => None,
    });
    found.expect("tilted about a hinge")
}

/// Whether one of some places, seen along the pins (across the vehicle and up, mm), is inside the first frame
/// at one of so many angles on its way up. Hinges are at the left edge.
pub fn sweeps(work: &Work, places: &[(f64, f64)], steps: u32) -> bool {
    let (Some(array), Some(tilt)) = (work.arrays.first(), work.lifts.first()) else { return false };
    let pin = pin(work);
    let near = (pin.y - array.outline.low().y).to_mm();
    let deep = array.outline.height().to_mm() - near;
    let (low, tall) = ((array.under - pin.z).to_mm(), (array.top - pin.z).to_mm());
    (0..=steps).any(|step| {
        let angle = (tilt.angle.to_deg() * f64::from(step) / f64::from(steps)).to_radians();
        let (sin, cos) = angle.sin_cos();
        places.iter().any(|(at, z)| {
            // Turned back about the pin it must lie outside of the frame as it lies.
            let (a, b) = (at - pin.y.to_mm(), z - pin.z.to_mm());
            let (a, b) = (a * cos + b * sin, b * cos - a * sin);
            a > -near && a < deep && b > low && b < tall
        })
    })
}

/// Whether one of these codes is told.
pub fn told(findings: &[Finding], codes: &[&str]) -> bool {
    findings.iter().any(|finding| codes.contains(&finding.rule.code))
}

/// Every hole keeps its edge, or one of these codes is told.
pub fn edges_kept(work: &Work, findings: &[Finding], codes: &[&str]) -> Result<(), TestCaseError> {
    let told = told(findings, codes);
    for hole in &work.holes {
        let kept = hole.edge.has.clears(hole.edge.least);
        let part = &work.parts[hole.part].name;
        prop_assert!(kept || told, "{} of {part} {:?}", hole.id, hole.edge);
    }
    Ok(())
}

/// Height of the skin, mm.
pub fn skin(work: &Work, x: f64, y: f64) -> f64 {
    let roof = work.roof.as_ref().expect("a roof");
    roof.height(Length::mm(x), Length::mm(y)).to_mm()
}

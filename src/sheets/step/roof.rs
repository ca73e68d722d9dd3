//! The roof as steps see it: from above, and cut across.

use super::StepBasis;
use crate::compute::steps::Step;
use crate::derive::Array;
use crate::page::scene::{Fill, Line, Scene, Side};
use crate::sheets::scenes::{Plan, PlanView, corner_size, roof_plan};
use crate::units::{Length, display};

fn number(length: Length) -> String {
    display::number_short(length.to_mm(), 1)
}

/// The roof from above with what the step is about drawn strong and its running dimensions.
pub(super) fn plan(basis: &StepBasis<'_>, step: &Step) -> Option<Scene> {
    let Some(roof) = &basis.build.roof else { return super::bench::bars(basis) };
    if step.key == "measure" {
        return Some(measuring(basis));
    }
    let about: Vec<&str> = step.concerns.iter().map(String::as_str).collect();
    // On the dry fit the array's own place decides, not those of each mount.
    let fitting = step.key == "dry-fit";
    let view = PlanView { about: &about, frame: fitting, small: false, ..PlanView::default() };
    let mut scene = roof_plan(&Plan { build: basis.build, work: basis.work }, view)?;
    let half = roof.width.to_mm() / 2.0;
    let mut below: Vec<((f64, f64), String)> = Vec::new();
    let mut above: Vec<((f64, f64), String)> = Vec::new();
    let strong = basis.work.mounts.iter().filter(|mount| about.contains(&mount.mark.as_str()));
    for mount in strong.filter(|_| !fitting) {
        let at = (mount.at.x.to_mm(), mount.roof.y.to_mm());
        if at.1 > 0.0 { &mut above } else { &mut below }.push((at, number(mount.at.x)));
    }
    for array in basis.work.arrays.iter().filter(|_| fitting) {
        let (low, size) = corner_size(array.outline);
        above.push(((low.0, low.1 + size.1), number(array.outline.low().x)));
        // Frames that end alike at the right are told once, at the last.
        let alike = |other: &&Array| {
            other.frame > array.frame
                && other.outline.high().y.is_near(array.outline.high().y, Length::mm(0.5))
        };
        if basis.work.arrays.iter().any(|other| alike(&other)) {
            continue;
        }
        scene.dimension(
            Side::Right,
            (low.0 + size.0, 0.0),
            (low.0 + size.0, low.1 + size.1),
            number(array.outline.high().y),
        );
    }
    if let Some(entry) = &basis.work.entry
        && about.contains(&entry.mark.as_str())
    {
        below.push(((entry.at.x.to_mm(), entry.at.y.to_mm()), number(entry.at.x)));
    }
    for (side, places) in [(Side::Below, below), (Side::Above, above)] {
        if !places.is_empty() {
            scene.running(side, (0.0, if side == Side::Below { -half } else { half }), &places);
        }
    }
    Some(scene)
}

/// The roof with the places of the straightedge.
fn measuring(basis: &StepBasis<'_>) -> Scene {
    let mut scene = Scene::new("roof from above, front at left; strong: where to measure");
    let Some(roof) = &basis.build.roof else { return scene };
    let (length, half) = (roof.length.to_mm(), roof.width.to_mm() / 2.0);
    scene.rounded((0.0, -half), (length, half * 2.0), half * 0.12, Line::THIN);
    scene.line(&[(0.0, 0.0), (length, 0.0)], Line::CENTRE);
    for keep_out in &roof.keep_outs {
        let low = (keep_out.x.to_mm(), keep_out.y.to_mm());
        let size = (keep_out.length.to_mm(), keep_out.width.to_mm());
        scene.filled_rectangle(low, size, Fill::HATCH, Some(Line::THIN));
        scene.label((low.0 + size.0 / 2.0, low.1), keep_out.name.value.clone());
    }
    stations(basis, &mut scene, half);
    scene.datum((0.0, 0.0), "datum");
    scene.front((length * 0.45, -half * 0.72), 180.0);
    scene.view("from above, right side up");
    scene
}

/// Where the straightedge lies.
fn stations(basis: &StepBasis<'_>, scene: &mut Scene, half: f64) {
    use crate::build::RoofShape;
    let Some(roof) = &basis.build.roof else { return };
    let mut places: Vec<((f64, f64), String)> = Vec::new();
    match &roof.shape {
        RoofShape::Gaps { stations, along, .. } => {
            for station in stations {
                let x = station.x.to_mm();
                scene.line(&[(x, -half * 0.95), (x, half * 0.95)], Line::HEAVY);
                for gap in &station.gaps {
                    scene.dot((x, gap.at.to_mm()));
                }
                places.push(((x, -half), number(*station.x)));
            }
            for gap in along {
                scene.dot((gap.at.to_mm(), 0.0));
            }
        }
        RoofShape::Crown(crown) => {
            let (x, reach) = (roof.length.to_mm() / 2.0, crown.chord.to_mm() / 2.0);
            scene.line(&[(x, -reach), (x, reach)], Line::HEAVY);
            scene.dot((x, -reach));
            scene.dot((x, reach));
            for gap in &crown.along {
                scene.dot((gap.at.to_mm(), 0.0));
            }
            places.push(((x, -half), number(*roof.length / 2.0)));
        }
        RoofShape::Flat => {}
    }
    if !places.is_empty() {
        scene.running(Side::Below, (0.0, -half), &places);
        scene.label((places[0].0.0, half * 0.5), "straightedge");
    }
}

/// The array on its mounts over the roof's curve, seen from the rear: the right side is at the right.
pub(super) fn across(basis: &StepBasis<'_>, step: &Step) -> Option<Scene> {
    let first = basis.work.mounts.first();
    let array = basis.work.arrays.get(first.map_or(0, |mount| mount.frame));
    let (Some(surface), Some(array), Some(roof)) = (&basis.work.roof, array, &basis.build.roof)
    else {
        return plan(basis, step);
    };
    let x = first.map_or(array.outline.centre().x, |mount| mount.at.x);
    let half = roof.width.to_mm() / 2.0;
    let mut scene = Scene::new("array on its mounts over the roof, seen from the rear");
    let skin: Vec<(f64, f64)> = (0..=48)
        .map(|step| {
            let y = -half + half * 2.0 * f64::from(step) / 48.0;
            (y, surface.height(x, Length::mm(y)).to_mm())
        })
        .collect();
    scene.line(&skin, Line::VISIBLE);
    let (low, high) = (array.outline.low().y.to_mm(), array.outline.high().y.to_mm());
    let (under, tube, top) = (array.under.to_mm(), array.tube_top.to_mm(), array.top.to_mm());
    scene.rectangle((low, under), (high - low, tube - under), Line::THIN);
    scene.rectangle((low, tube), (high - low, top - tube), Line::THIN);
    let mut told: Vec<&str> = Vec::new();
    for (_, mount) in basis.work.mounts_of(array.frame) {
        let place = (mount.at.y.to_mm(), mount.roof.z.to_mm());
        let strong = step.concerns.contains(&mount.mark);
        let line = if strong { Line::HEAVY } else { Line::THIN };
        let letter = mount.mark.trim_end_matches(|digit: char| digit.is_ascii_digit());
        if told.contains(&letter) {
            continue;
        }
        told.push(letter);
        scene.line(&[place, (place.0, tube)], line);
        let out = if place.0 < 0.0 { -60.0 } else { 60.0 };
        let foot = surface.height(x, Length::mm(place.0 + out)).to_mm();
        scene.line(&[place, (place.0 + out, foot)], line);
        let marks: Vec<&str> = basis
            .work
            .mounts
            .iter()
            .filter(|other| other.mark.trim_end_matches(|d: char| d.is_ascii_digit()) == letter)
            .map(|other| other.mark.as_str())
            .collect();
        scene.leader(
            (place.0, f64::midpoint(place.1, tube)),
            crate::compute::steps::facts::marks(&marks),
        );
    }
    scene.dimension(
        Side::Left,
        (low, surface.height(x, Length::ZERO).to_mm()),
        (low, top),
        number(Length::mm(top) - surface.height(x, Length::ZERO)),
    );
    scene.view("from the rear, cut across");
    Some(scene)
}

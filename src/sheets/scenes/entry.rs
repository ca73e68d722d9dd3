//! A section through the cable entry.

use super::Plan;
use crate::page::scene::{Fill, Line, Scene, Side};
use crate::sheets::words::bare;

/// The hole through the skin, cut across, with housing and cables.
pub fn entry_section(on: &Plan<'_>) -> Option<Scene> {
    let place = on.work.entry.as_ref()?;
    let entry = on.build.entry.as_ref()?;
    let hole = entry.hole.to_mm();
    let (across, reach) = (place.foot.height().to_mm() / 2.0, place.foot.height().to_mm());
    let mut scene =
        Scene::new("cable entry cut across: skin with its hole, housing, sealant, cables");
    let thick = on.build.vehicle.as_ref().map_or(1.0, |v| v.skin.thickness.to_mm().max(1.0));
    for side in [-1.0, 1.0] {
        let (a, b) = (side * hole / 2.0, side * reach);
        scene.filled_rectangle(
            (a.min(b), -thick),
            ((a - b).abs(), thick),
            Fill::HATCH,
            Some(Line::VISIBLE),
        );
        let bead = side * (across - 4.0);
        scene.filled_rectangle((bead - 4.0, 0.0), (8.0, 3.0), Fill::Black, None);
    }
    scene.outline(
        &[
            (-across, 3.0),
            (across, 3.0),
            (across * 0.7, across * 0.8),
            (-across * 0.7, across * 0.8),
        ],
        Line::HEAVY,
    );
    let cables = (*entry.cables).clamp(1, 6);
    for cable in 0..cables {
        let x = (f64::from(cable) - f64::from(cables - 1) / 2.0) * hole / f64::from(cables + 1);
        scene.curve(
            (x, -reach * 0.8),
            &[((x, reach * 0.1), (x, across * 0.5), (-reach * 0.95, across * 0.3 + x))],
            Line::VISIBLE,
        );
    }
    // No words on the cables.
    scene.keep_clear((-reach, 3.0), (reach + hole / 2.0, across * 0.7));
    scene.leader((across - 4.0, 1.5), "sealant");
    scene.leader((0.0, across * 0.8), format!("housing {}", place.mark));
    scene.leader((reach * 0.9, -thick / 2.0), "skin");
    scene.dimension(
        Side::Below,
        (-hole / 2.0, -thick),
        (hole / 2.0, -thick),
        format!("⌀{}", bare(*entry.hole, 1)),
    );
    scene.front((-reach, -reach * 0.45), 180.0);
    scene.view("cut along the vehicle, front at left");
    Some(scene)
}

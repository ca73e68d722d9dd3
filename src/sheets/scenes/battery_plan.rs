//! The battery from above and from its side, with blocks and strap.

use crate::build::{Battery, Restraint};
use crate::page::scene::{Fill, Line, Place, Scene, Side, Style};
use crate::sheets::words::bare;

/// How thick and how long a block is drawn, mm: the build file states its height alone.
const BLOCK: (f64, f64) = (40.0, 120.0);
/// Width of a strap as drawn, mm.
const STRAP: f64 = 25.0;

/// Plan at the left, side view at the right, one scale.
pub fn battery_plan(battery: &Battery, held: &Restraint) -> Scene {
    let (length, width) = (battery.length.to_mm(), battery.width.to_mm());
    let mut scene = Scene::new(format!(
        "battery {} from above and from the rear, {} blocks, {} straps",
        battery.mark.value, *held.blocks, *held.straps
    ));
    scene.scale =
        crate::page::scene::ScaleChoice::Fit { largest: crate::page::scene::Scale::new(1, 2) };
    let (thick, long) = BLOCK;
    scene.rectangle((0.0, 0.0), (length, width), Line::HEAVY);
    // Blocks in turn: front, rear, left, right.
    let across = long.min(width * 0.7);
    let along = long.min(length * 0.7);
    let places = [
        ((-thick, (width - across) / 2.0), (thick, across)),
        ((length, (width - across) / 2.0), (thick, across)),
        (((length - along) / 2.0, -thick), (along, thick)),
        (((length - along) / 2.0, width), (along, thick)),
    ];
    for (corner, size) in places.iter().take(*held.blocks as usize) {
        scene.filled_rectangle(*corner, *size, Fill::HATCH, Some(Line::VISIBLE));
        let screws = f64::from(*held.screws_a_block);
        for screw in 0..*held.screws_a_block {
            let part = (f64::from(screw) + 0.5) / screws;
            let upright = size.1 > size.0;
            let at = if upright {
                (corner.0 + size.0 / 2.0, corner.1 + size.1 * part)
            } else {
                (corner.0 + size.0 * part, corner.1 + size.1 / 2.0)
            };
            scene.disc(at, held.screw_diameter.to_mm() / 2.0, Fill::White, Some(Line::THIN));
        }
    }
    let straps = f64::from(*held.straps);
    let middles: Vec<f64> =
        (0..*held.straps).map(|s| length * (f64::from(s) + 0.5) / straps).collect();
    for x in &middles {
        let (from, to) = (-thick - 25.0, width + thick + 25.0);
        scene.filled_rectangle(
            (x - STRAP / 2.0, from),
            (STRAP, to - from),
            Fill::White,
            Some(Line::THIN),
        );
        scene.filled_rectangle(
            (x - STRAP / 2.0, from),
            (STRAP, to - from),
            Fill::Tint(10),
            Some(Line::THIN),
        );
    }
    let name_at = if middles.len() == 1 { length * 0.2 } else { length / 2.0 };
    scene.words((name_at, width / 2.0), battery.mark.value.clone(), Place::Centre, Style::BOLD);
    scene.dimension(Side::Below, (0.0, 0.0), (length, 0.0), bare(*battery.length, 0));
    rear(&mut scene, battery, held, length + 2.0 * thick + 75.0);
    if let Some(first) = middles.first() {
        scene.label_on((*first, width + thick + 25.0), Side::Above, "strap");
    }
    scene.view("left: from above, front at left; right: from the rear");
    scene
}

fn rear(scene: &mut Scene, battery: &Battery, held: &Restraint, start: f64) {
    let (width, height) = (battery.width.to_mm(), battery.height.to_mm());
    let (thick, _) = BLOCK;
    let block = held.block_height.to_mm();
    let floor = held.floor_thickness.to_mm();
    scene.rectangle((start, 0.0), (width, height), Line::HEAVY);
    scene.filled_rectangle(
        (start - thick - 25.0, -floor),
        (width + 2.0 * thick + 50.0, floor),
        Fill::HATCH_BACK,
        Some(Line::VISIBLE),
    );
    if *held.blocks > 2 {
        for x in [start - thick, start + width] {
            scene.filled_rectangle((x, 0.0), (thick, block), Fill::HATCH, Some(Line::VISIBLE));
        }
        scene.label_on((start - thick / 2.0, block), Side::Above, "block");
    }
    if *held.straps > 0 {
        // Over the top and down beside the blocks.
        let out = thick + 14.0;
        scene.line(
            &[
                (start - out, 0.0),
                (start - 3.0, height + 3.0),
                (start + width + 3.0, height + 3.0),
                (start + width + out, 0.0),
            ],
            Line::VISIBLE,
        );
        scene.label_on((start + width * 0.5, height + 3.0), Side::Above, "strap");
    }
    let below = Side::Below;
    scene.dimension(below, (start, 0.0), (start + width, 0.0), bare(*battery.width, 0));
    let side = Side::Right;
    let edge = start + width;
    scene.dimension(side, (edge, 0.0), (edge, height), bare(*battery.height, 0));
    scene.words(
        (start + width / 2.0, height * 0.6),
        battery.mark.value.clone(),
        Place::Centre,
        Style::BOLD,
    );
}

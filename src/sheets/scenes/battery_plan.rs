//! The battery from above and from its side, with blocks and strap.

use crate::build::{Battery, HoldBy, Restraint, RowWay};
use crate::page::scene::{Fill, Line, Place, Scene, Side, Style};
use crate::sheets::words::bare;
use crate::units::Length;

/// How thick and how long a block is drawn, mm: the build file states its height alone.
const BLOCK: (f64, f64) = (40.0, 120.0);
/// Foot of a cradle as drawn, mm.
const CRADLE: f64 = 30.0;
/// Width of a strap as drawn, mm.
const STRAP: f64 = 25.0;

/// Plan at the left, side view at the right, one scale.
pub fn battery_plan(battery: &Battery, held: &Restraint) -> Scene {
    let (length, width) = row(battery);
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
            scene.disc(at, hole(held) / 2.0, Fill::White, Some(Line::THIN));
        }
    }
    let middles = match *held.kind {
        HoldBy::TopOver => over(&mut scene, battery, held),
        HoldBy::Direct => {
            from_each_side(&mut scene, battery, held);
            Vec::new()
        }
        HoldBy::Cradle => {
            cradle(&mut scene, battery, held);
            Vec::new()
        }
    };
    let bars = if *held.kind == HoldBy::Cradle { vec![length / 2.0] } else { middles.clone() };
    apart(&mut scene, battery, &bars);
    scene.dimension(Side::Below, (0.0, 0.0), (length, 0.0), bare(battery.row_size().0, 0));
    rear(&mut scene, battery, held, length + thick + 50.0 + reach(battery, held).max(thick));
    if let Some(first) = middles.first() {
        scene.label_on((*first, width + reach(battery, held)), Side::Above, "strap");
    }
    scene.view("left: from above, front at left; right: from the rear");
    scene
}

/// Along and across, of the whole row, mm.
fn row(battery: &Battery) -> (f64, f64) {
    let (length, width) = battery.row_size();
    (length.to_mm(), width.to_mm())
}

/// The middle of the widest part of a battery, from one place along the row to another, that no strap or bar
/// lies over; `bars` are their middles in order.
pub fn clear_of(bars: &[f64], (from, to): (f64, f64)) -> f64 {
    let half = STRAP / 2.0 + 3.0;
    let mut best = (0.0, f64::midpoint(from, to));
    let mut start = from;
    for end in bars.iter().map(|bar| bar - half).chain([to]) {
        let end = end.clamp(from, to);
        if end - start > best.0 + 1e-6 {
            best = (end - start, f64::midpoint(start, end));
        }
        start = start.max((end + 2.0 * half).min(to));
    }
    best.1
}

/// Each battery of the row with its mark, clear of the straps or bars at these places along.
fn apart(scene: &mut Scene, battery: &Battery, bars: &[f64]) {
    let (length, width) = row(battery);
    let marks = battery.marks();
    let (across, gap) = (*battery.row == RowWay::Across, battery.row_gap.to_mm());
    let one = if across { battery.width.to_mm() } else { battery.length.to_mm() };
    for (number, mark) in marks.iter().enumerate() {
        let start = number as f64 * (one + gap);
        if number > 0 {
            let (corner, size) = if across {
                ((0.0, start - gap), (length, gap))
            } else {
                ((start - gap, 0.0), (gap, width))
            };
            scene.filled_rectangle(corner, size, Fill::White, Some(Line::THIN));
        }
        let at = if across {
            (clear_of(bars, (0.0, length)), start + one / 2.0)
        } else {
            (clear_of(bars, (start, start + one)), width / 2.0)
        };
        scene.words(at, mark.clone(), Place::Centre, Style::BOLD);
    }
}

/// Diameter of what holds a block, or of a cradle's bolt.
fn hole(held: &Restraint) -> f64 {
    let bolt = held.bolt.as_ref().map(|bolt| bolt.thread.diameter);
    let screw = held.screw.as_ref().map(|screw| *screw.diameter);
    bolt.or(screw).map_or(5.0, Length::to_mm)
}

/// From the battery's side to where a strap meets the floor: clear of the blocks.
fn reach(battery: &Battery, held: &Restraint) -> f64 {
    let slope = held.strap_angle.sin() / held.strap_angle.cos().max(0.05);
    let blocks = if *held.blocks > 2 { BLOCK.0 + 8.0 } else { 8.0 };
    (battery.height.to_mm() / slope).clamp(blocks, battery.height.to_mm() * 1.5)
}

/// Straps across the top; gives where they lie.
fn over(scene: &mut Scene, battery: &Battery, held: &Restraint) -> Vec<f64> {
    let (length, width) = row(battery);
    let straps = f64::from(*held.straps);
    let middles: Vec<f64> =
        (0..*held.straps).map(|s| length * (f64::from(s) + 0.5) / straps).collect();
    let out = reach(battery, held);
    for x in &middles {
        let corner = (x - STRAP / 2.0, -out);
        let size = (STRAP, width + 2.0 * out);
        scene.filled_rectangle(corner, size, Fill::White, Some(Line::THIN));
        scene.filled_rectangle(corner, size, Fill::Tint(10), Some(Line::THIN));
    }
    middles
}

/// Straps from the corners out to the floor, as many as there are, corner by corner.
fn from_each_side(scene: &mut Scene, battery: &Battery, held: &Restraint) {
    let (length, width) = row(battery);
    let out = reach(battery, held);
    let (along, across) = (held.strap_turn.cos() * out, held.strap_turn.sin() * out);
    let corners = [
        ((0.0, 0.0), (-along, -across)),
        ((length, width), (length + along, width + across)),
        ((length, 0.0), (length + along, -across)),
        ((0.0, width), (-along, width + across)),
    ];
    for (from, to) in corners.into_iter().take(*held.straps as usize) {
        scene.line(&[from, to], Line::HEAVY);
        scene.disc(to, 4.0, Fill::White, Some(Line::VISIBLE));
    }
    if *held.straps > 0 {
        scene.leader((-along * 0.5, -across * 0.5), "strap");
    }
}

/// The cradle's foot round the battery with its bolts.
fn cradle(scene: &mut Scene, battery: &Battery, held: &Restraint) {
    let (length, width) = row(battery);
    scene.rectangle(
        (-CRADLE, -CRADLE),
        (length + 2.0 * CRADLE, width + 2.0 * CRADLE),
        Line::VISIBLE,
    );
    let bolts = held.bolt.as_ref().map_or(0, |bolt| *bolt.count);
    for bolt in 0..bolts {
        // In turn on both long sides.
        let a_side = bolts.div_ceil(2);
        let part = (f64::from(bolt / 2) + 0.5) / f64::from(a_side.max(1));
        let y = if bolt % 2 == 0 { -CRADLE / 2.0 } else { width + CRADLE / 2.0 };
        scene.disc((length * part, y), hole(held) / 2.0, Fill::White, Some(Line::THIN));
    }
    let bar = (length * 0.5 - 15.0, -CRADLE);
    scene.filled_rectangle(bar, (30.0, width + 2.0 * CRADLE), Fill::White, Some(Line::THIN));
    scene.label_on((length * 0.5, width + CRADLE), Side::Above, "cradle’s bar");
}

fn rear(scene: &mut Scene, battery: &Battery, held: &Restraint, start: f64) {
    let (width, height) = (row(battery).1, battery.height.to_mm());
    let (thick, _) = BLOCK;
    let block = held.block_height.to_mm();
    let floor = held.floor_thickness.to_mm();
    scene.rectangle((start, 0.0), (width, height), Line::HEAVY);
    let wide = (thick + 25.0).max(reach(battery, held) + 12.0);
    scene.filled_rectangle(
        (start - wide, -floor),
        (width + 2.0 * wide, floor),
        Fill::HATCH_BACK,
        Some(Line::VISIBLE),
    );
    if *held.blocks > 2 {
        for x in [start - thick, start + width] {
            scene.filled_rectangle((x, 0.0), (thick, block), Fill::HATCH, Some(Line::VISIBLE));
        }
        if *held.kind == HoldBy::TopOver {
            scene.leader((start - thick / 2.0, block / 2.0), "block");
        }
    }
    if *held.kind == HoldBy::Cradle {
        let (low, high) = (start - CRADLE, start + width + CRADLE);
        let bar = [
            (low, 0.0),
            (start - 3.0, 0.0),
            (start - 3.0, height + 3.0),
            (start + width + 3.0, height + 3.0),
            (start + width + 3.0, 0.0),
            (high, 0.0),
        ];
        scene.line(&bar, Line::HEAVY);
        for x in [start - CRADLE / 2.0, start + width + CRADLE / 2.0] {
            scene.line(&[(x, 6.0), (x, -floor - 10.0)], Line::VISIBLE);
            let half = held
                .bolt
                .as_ref()
                .and_then(|bolt| bolt.spreader.as_ref())
                .map_or(9.0, |plate| plate.width.to_mm() / 2.0);
            scene.line(&[(x - half, -floor - 2.0), (x + half, -floor - 2.0)], Line::HEAVY);
        }
    } else if *held.kind == HoldBy::Direct && *held.straps > 0 {
        let out = reach(battery, held);
        for (from, to) in [(start, start - out), (start + width, start + width + out)] {
            scene.line(&[(from, height), (to, 0.0)], Line::HEAVY);
        }
        scene.leader((start - out / 2.0, height / 2.0), "strap");
    } else if *held.straps > 0 {
        // Over the top and down beside the blocks.
        let out = reach(battery, held);
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
    scene.dimension(below, (start, 0.0), (start + width, 0.0), bare(battery.row_size().1, 0));
    let side = Side::Right;
    let edge = start + width;
    scene.dimension(side, (edge, 0.0), (edge, height), bare(*battery.height, 0));
    let marks = battery.marks();
    // Side by side across they stand beside each other here, along behind each other.
    let shown =
        if *battery.row == RowWay::Across { marks } else { vec![battery.mark.value.clone()] };
    let one = battery.width.to_mm();
    let pitch = one + battery.row_gap.to_mm();
    for (number, mark) in shown.iter().enumerate() {
        let left = start + number as f64 * pitch;
        if number > 0 {
            scene.line(&[(left, 0.0), (left, height)], Line::THIN);
            let before = left - battery.row_gap.to_mm();
            scene.line(&[(before, 0.0), (before, height)], Line::THIN);
        }
        scene.words((left + one / 2.0, height * 0.6), mark.clone(), Place::Centre, Style::BOLD);
    }
}

#[cfg(test)]
mod tests {
    use super::{STRAP, clear_of};

    #[test]
    fn a_mark_stands_clear_of_straps() {
        for (bars, from, to) in [
            (vec![], 0.0, 300.0),
            (vec![150.0], 0.0, 300.0),
            (vec![75.0, 225.0], 0.0, 150.0),
            (vec![75.0, 225.0], 150.0, 300.0),
            (vec![50.0, 150.0, 250.0], 0.0, 300.0),
        ] {
            let at = clear_of(&bars, (from, to));
            assert!((from..=to).contains(&at));
            let least = bars.iter().map(|bar| (bar - at).abs()).fold(f64::INFINITY, f64::min);
            assert!(least > STRAP / 2.0 + 15.0, "{at} beside {bars:?}");
        }
        assert!((clear_of(&[], (0.0, 300.0)) - 150.0).abs() < 1e-9);
    }
}

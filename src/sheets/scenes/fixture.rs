//! A fixture from the side, on its skin.

use crate::build::{Build, FixedOn, Fixture};
use crate::page::scene::{At, Fill, Line, Scene, Side};
use crate::sheets::words::bare;
use crate::units::Length;

/// The skin goes on by so much beyond the fixture.
const BEYOND: f64 = 60.0;
/// How far a bolt is drawn through the skin on either side.
const BOLT: f64 = 25.0;

/// The fixture with its part, bolts and the middle of its mass; front at the left.
pub fn fixture_view(build: &Build, fixture: &Fixture) -> Scene {
    let lying = *fixture.on == FixedOn::Roof;
    // Along the skin and off it, to paper.
    let to = |along: f64, off: f64| -> At { if lying { (along, off) } else { (off, along) } };
    let (half, depth) = (fixture.length.to_mm() / 2.0, fixture.depth.to_mm());
    let alt = format!("{} {} from the side, on its skin", *fixture.name, *fixture.mark);
    let mut scene = Scene::new(alt);
    let rectangle = |scene: &mut Scene, a: At, b: At, line: Line| {
        let corner = (a.0.min(b.0), a.1.min(b.1));
        scene.rectangle(corner, ((a.0 - b.0).abs(), (a.1 - b.1).abs()), line);
    };
    rectangle(&mut scene, to(-half, 0.0), to(half, depth), Line::VISIBLE);
    let open = fixture.opening.as_ref().map_or(0.0, |sides| sides[0].to_mm() / 2.0);
    let end = half + BEYOND;
    let skin: &[[f64; 2]] = if open > 0.0 { &[[-end, -open], [open, end]] } else { &[[-end, end]] };
    for [from, until] in skin {
        scene.line(&[to(*from, 0.0), to(*until, 0.0)], Line::VISIBLE);
    }
    let plate = build.plates.iter().find(|plate| plate.mark.eq_ignore_ascii_case(&fixture.part));
    if let (Some(plate), Some(backing)) = (plate, &fixture.backing) {
        let long = plate.length.to_mm() / 2.0;
        let thick = backing.to_mm().max(4.0);
        rectangle(&mut scene, to(-long, -thick), to(long, 0.0), Line::VISIBLE);
        scene.leader(to(long * 0.6, -thick), "plate behind");
    }
    let middle = plate.map_or(0.0, |plate| plate.length.to_mm() / 2.0);
    let mut rows: Vec<f64> =
        fixture.holes(&build.holes).map(|hole| hole.x.to_mm() - middle).collect();
    rows.sort_by(f64::total_cmp);
    rows.dedup_by(|a, b| (*a - *b).abs() < 1.0);
    for row in &rows {
        scene.line(&[to(*row, -BOLT), to(*row, BOLT)], Line::CENTRE);
    }
    let reach = fixture.reach.to_mm();
    scene.disc(to(0.0, reach), 6.0, Fill::Tint(10), Some(Line::VISIBLE));
    scene.leader(to(0.0, reach), "middle of the mass");
    let (off, along) = if lying { (Side::Right, Side::Below) } else { (Side::Below, Side::Right) };
    let told = |length: Length| bare(length, 0);
    scene.dimension(off, to(half, 0.0), to(half, depth), told(*fixture.depth));
    scene.dimension(
        if lying { Side::Left } else { Side::Above },
        to(if lying { -half } else { half }, 0.0),
        to(0.0, reach),
        told(*fixture.reach),
    );
    if let (Some(first), Some(last)) = (rows.first(), rows.last()) {
        let ends = (to(*first, -BOLT), to(*last, -BOLT));
        let side = if lying { along } else { Side::Left };
        scene.dimension(side, ends.0, ends.1, told(Length::mm(last - first)));
    }
    scene.view("from the left, front at left");
    scene
}

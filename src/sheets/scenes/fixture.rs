//! Fixtures on their skin: from the side, and where they sit.

use super::{Plan, PlanView, roof_plan};
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

/// A fixture on the skin seen square to it: outline, holes of its part, opening.
///
/// On a roof the length of its part runs to the rear, on a door upwards; both are seen from outside.
pub(super) fn draw_on_skin(scene: &mut Scene, build: &Build, fixture: &Fixture, strong: bool) {
    let (x, y) = (fixture.x.to_mm(), fixture.y.to_mm());
    let lying = *fixture.on == FixedOn::Roof;
    // From the middle: along its length, then to the right of that direction's left.
    let to = |along: f64, across: f64| -> At {
        if lying { (x + along, y + across) } else { (x - across, y + along) }
    };
    let around = |scene: &mut Scene, length: f64, width: f64, line: Line| {
        let (a, b) = (to(-length / 2.0, -width / 2.0), to(length / 2.0, width / 2.0));
        scene.rectangle((a.0.min(b.0), a.1.min(b.1)), ((a.0 - b.0).abs(), (a.1 - b.1).abs()), line);
    };
    let line = if strong { Line::HEAVY } else { Line::THIN };
    around(scene, fixture.length.to_mm(), fixture.width.to_mm(), line);
    if let Some([long, wide]) = &fixture.opening {
        around(scene, long.to_mm(), wide.to_mm(), Line::HIDDEN);
    }
    let plate = build.plates.iter().find(|plate| plate.mark.eq_ignore_ascii_case(&fixture.part));
    let Some(plate) = plate.filter(|_| strong) else { return };
    let (long, wide) = (plate.length.to_mm(), plate.width.to_mm());
    around(scene, long, wide, Line::THIN);
    for hole in fixture.holes(&build.holes) {
        let at = to(hole.x.to_mm() - long / 2.0, hole.y.to_mm() - wide / 2.0);
        scene.circle(at, hole.diameter.to_mm() / 2.0, Line::VISIBLE);
    }
}

/// Where the fixtures of a build sit: the roof from above, else the rear door from behind.
pub fn fixture_places(on: &Plan<'_>) -> Option<Scene> {
    let on_roof: Vec<&Fixture> = sitting(on.build, FixedOn::Roof);
    if on_roof.is_empty() {
        return door(on.build, &sitting(on.build, FixedOn::RearDoor));
    }
    roof_places(on, &on_roof)
}

/// Where one fixture sits, the others light.
pub fn fixture_place(on: &Plan<'_>, fixture: &Fixture) -> Option<Scene> {
    match *fixture.on {
        FixedOn::Roof => roof_places(on, &[fixture]),
        FixedOn::RearDoor => door(on.build, &[fixture]),
    }
}

fn sitting(build: &Build, on: FixedOn) -> Vec<&Fixture> {
    build.fixtures.iter().filter(|fixture| *fixture.on == on).collect()
}

fn roof_places(on: &Plan<'_>, strong: &[&Fixture]) -> Option<Scene> {
    let marks: Vec<&str> = strong.iter().map(|fixture| fixture.mark.as_str()).collect();
    let view = PlanView { about: &marks, ..PlanView::default() };
    let mut scene = roof_plan(on, view)?;
    let half = on.build.roof.as_ref()?.width.to_mm() / 2.0;
    let at = |fixture: &Fixture| (fixture.x.to_mm(), fixture.y.to_mm());
    let along: Vec<(At, String)> = strong.iter().map(|f| (at(f), bare(*f.x, 0))).collect();
    scene.running(Side::Below, (0.0, -half), &along);
    for fixture in strong.iter().filter(|f| !f.y.is_near(Length::ZERO, Length::mm(0.5))) {
        let (x, y) = at(fixture);
        scene.dimension(Side::Right, (x, 0.0), (x, y), bare(fixture.y.abs(), 0));
    }
    Some(scene)
}

/// The rear door from behind, its lower edge and its middle as they are measured from.
fn door(build: &Build, strong: &[&Fixture]) -> Option<Scene> {
    let all = sitting(build, FixedOn::RearDoor);
    if all.is_empty() {
        return None;
    }
    let names: Vec<String> = strong.iter().map(|f| format!("{} {}", *f.name, *f.mark)).collect();
    let mut scene = Scene::new(format!("rear door with {}, seen from the rear", names.join(", ")));
    let (mut reach, mut top) = (0.0_f64, 0.0_f64);
    for fixture in &all {
        reach = reach.max(fixture.x.abs().to_mm() + fixture.width.to_mm() / 2.0);
        top = top.max(fixture.y.to_mm() + fixture.length.to_mm() / 2.0);
        let is_strong = strong.iter().any(|one| one.mark == fixture.mark);
        draw_on_skin(&mut scene, build, fixture, is_strong);
        let corner = (fixture.x.to_mm(), fixture.y.to_mm() + fixture.length.to_mm() / 2.0);
        scene.label_on(corner, Side::Above, fixture.mark.value.clone());
    }
    let reach = reach + BEYOND;
    scene.line(&[(-reach, 0.0), (reach, 0.0)], Line::VISIBLE);
    scene.line(&[(0.0, 0.0), (0.0, top + BEYOND)], Line::CENTRE);
    scene.label_on((-reach, 0.0), Side::Above, "lower edge");
    scene.datum((0.0, 0.0), "zero");
    for fixture in strong {
        let at = (fixture.x.to_mm(), fixture.y.to_mm());
        scene.dimension(Side::Right, (reach, 0.0), at, bare(*fixture.y, 0));
        if !fixture.x.is_near(Length::ZERO, Length::mm(0.5)) {
            scene.dimension(Side::Below, (0.0, 0.0), at, bare(fixture.x.abs(), 0));
        }
    }
    scene.view("from the rear, left side at left");
    Some(scene)
}

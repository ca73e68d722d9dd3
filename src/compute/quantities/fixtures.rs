//! What fixtures are bolted and sealed with.

use super::{ShopLine, pieces};
use crate::build::{Build, Fixture};
use crate::tables::Tables;
use crate::units::{Length, display};

/// Bead round holes and openings, mm² (6 mm wide).
const BEAD: f64 = 28.0;
/// Threads that stand out of a nut, in pitches; flange of a bought thing, mm: common practice.
const OUT: f64 = 2.0;
const FLANGE: Length = Length::mm(3.0);

/// Bolts, nuts and washers.
pub(super) fn fasteners(build: &Build, tables: &Tables) -> Vec<ShopLine> {
    let mut lines = Vec::new();
    for fixture in &build.fixtures {
        let count = fixture.holes(&build.holes).count() as f64;
        let thread = &fixture.thread.value;
        let small = thread.diameter <= Length::mm(6.0);
        let bolt = if small { "screws-small" } else { "screws-large" };
        let length =
            thread.length_at_least(grip(build, fixture)).map_or_else(String::new, |long| {
                format!("\u{a0}×\u{a0}{}", display::number(long.to_mm(), 0))
            });
        let large = if fixture.backing.is_some() { 0.0 } else { count };
        for (what, pack, count) in [
            (format!("hexagon bolt A2-70 {}{length}", thread.name), bolt, count),
            (format!("locking nut {}", thread.name), "nuts", count),
            (format!("washer {}", thread.name), "washers", 2.0 * count - large),
            (format!("large washer {}", thread.name), "washers", large),
        ] {
            if count > 0.0 {
                let (need, buy) = pieces(tables, pack, count);
                lines.push(ShopLine { what, need, buy, price: None });
            }
        }
    }
    lines
}

/// Under the head to the end: flange, part, skin, plate behind, washers, nut.
fn grip(build: &Build, fixture: &Fixture) -> Length {
    let plate = build.plates.iter().find(|plate| plate.mark.eq_ignore_ascii_case(&fixture.part));
    let part = plate.map_or(Length::ZERO, |plate| *plate.thickness);
    let behind = fixture.backing.as_ref().map_or(Length::ZERO, |thick| **thick);
    let flange = if fixture.opening.is_some() { FLANGE } else { Length::ZERO };
    let thread = &fixture.thread.value;
    part + behind
        + flange
        + *fixture.skin_thickness
        + thread.washer.thickness * 2.0
        + thread.locking_nut_height
        + thread.pitch * OUT
}

/// Sealants.
pub(super) fn sealants(build: &Build) -> Vec<ShopLine> {
    let mut lines: Vec<(String, f64, f64)> = Vec::new();
    for fixture in &build.fixtures {
        let ring = fixture.thread.diameter.to_mm() * 2.0 * std::f64::consts::PI;
        let open = fixture
            .opening
            .as_ref()
            .map_or(0.0, |sides| 2.0 * (sides[0].to_mm() + sides[1].to_mm()));
        let long = fixture.holes(&build.holes).count() as f64 * ring + open;
        let ml = long * BEAD / 1000.0;
        let adhesive = &fixture.sealing.value;
        let packs = adhesive.packs.iter().map(|pack| pack.to_ml());
        let pack = packs.reduce(f64::min).unwrap_or(290.0);
        match lines.iter_mut().find(|(what, ..)| *what == adhesive.words) {
            Some((_, need, _)) => *need += ml,
            None => lines.push((adhesive.words.clone(), ml, pack)),
        }
    }
    let line = |(what, ml, pack): (String, f64, f64)| ShopLine {
        what,
        need: format!("{:.0}\u{a0}ml", ml.ceil()),
        buy: format!("{:.0}\u{a0}×\u{a0}{pack:.0}\u{a0}ml", (ml / pack).ceil().max(1.0)),
        price: None,
    };
    lines.into_iter().map(line).collect()
}

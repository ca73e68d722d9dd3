//! Roof, vehicle, wind, and what is measured first.

use super::{Facts, Item, Sources, item, say, with_range};
use crate::build::{Gap, RoofShape};
use crate::derive::{PartKind, Piece};
use crate::source::{Figure, Ledger, Seen};
use crate::units::{Area, Length, Mass, display};

/// Force coefficient of a flat board square to the wind, EN 1991-1-4:2005, 7.4.3 (signboards).
const BOARD: f64 = 1.8;
/// Density of the air, EN 1991-1-4:2005, 4.5 note 2, kg/m³.
const AIR: f64 = 1.25;
/// Mass that one person lifts from waist to shoulder with both hands, kg: between the guideline
/// figures of HSE INDG143 for men (15 to 20 kg at arm's length); from memory.
const LIFT_EACH: f64 = 15.0;

pub(super) fn set(facts: &mut Facts, from: &Sources<'_>, ledger: &mut Ledger) {
    let (build, work) = (from.build, from.work);
    let (day, night) = (&build.weather.day, &build.weather.night);
    let between = |low: f64, high: f64, unit: &str| {
        let told = |value: f64| display::with_unit(&display::number(value, 0), unit);
        format!("{} to {}", told(low.min(high)), told(low.max(high)))
    };
    facts.set(
        "air",
        format!(
            "{}, {}",
            between(night.temperature.to_celsius(), day.temperature.to_celsius(), "°C"),
            between(night.humidity.to_percent(), day.humidity.to_percent(), "%")
        ),
    );
    let mut once = 0;
    facts.set("place.measure", if build.roof.is_some() { "roof" } else { "bench" });
    facts.count("roof", usize::from(build.roof.is_some()));
    facts.count("height", 0);
    let mut stations = Vec::new();
    if let Some(roof) = &build.roof {
        facts.set("roof.datum", roof.datum.value.clone());
        once += roof.keep_outs.len();
        if let RoofShape::Gaps { stations: measured, .. } = &roof.shape {
            stations = measured
                .iter()
                .enumerate()
                .filter_map(|(index, station)| {
                    let (column, farthest) = farthest(&station.gaps)?;
                    let row = item([("x", say::mm(*station.x)), ("at", place_across(farthest.at))]);
                    Some(with_range(row, from.size(&format!("station {index} {column}"))))
                })
                .collect();
        }
        let along: &[Gap] = match &roof.shape {
            RoofShape::Gaps { along, .. } => along,
            RoofShape::Crown(crown) => &crown.along,
            RoofShape::Flat => &[],
        };
        if let Some((index, farthest)) = farthest(along) {
            facts.count("roof.along", along.len());
            facts.set("roof.along.at", format!("at {}", say::mm(farthest.at)));
            facts.range("roof.along", from.size(&format!("along {index}")));
            once += 1;
        }
        if let RoofShape::Crown(crown) = &roof.shape {
            // The rise shows as the gap at both ends of the chord.
            let row = item([
                ("x", say::mm(*roof.length / 2.0)),
                ("at", format!("{} out", say::mm(*crown.chord / 2.0))),
            ]);
            stations.push(with_range(row, from.size("crown right")));
        }
        facts.set("roof.straightedge", say::mm(*roof.width));
        let keep_outs = roof.keep_outs.iter().map(|keep_out| {
            let name = &keep_out.name.value;
            with_range(item([("name", name.clone())]), from.size(&format!("{name} front edge X")))
        });
        let keep_outs: Vec<Item> = keep_outs.collect();
        facts.list("keep-outs", keep_outs);
    } else {
        facts.list("keep-outs", Vec::new());
    }
    if facts.number_of("roof.along").is_none() {
        facts.count("roof.along", 0);
    }
    let rails: Vec<Item> = build
        .mounts
        .iter()
        .filter(|mount| mount.kind.rail().is_some())
        .map(|mount| {
            let marks: Vec<&str> = work
                .mounts
                .iter()
                .filter(|place| build.mounts.get(place.mount).is_some_and(|m| m.mark == mount.mark))
                .map(|place| place.mark.as_str())
                .collect();
            let row = item([("marks", say::marks(&marks))]);
            let first = marks.first().copied().unwrap_or_default();
            with_range(row, from.size(&format!("{first} rail height")))
        })
        .collect();
    once += rails.len() + build.panels.len();
    facts.list("rails", rails);
    facts.list("roof.stations", stations);
    set_vehicle(facts, from);
    set_wind(facts, from, ledger);
    let to_cut = work.parts.iter().any(super::cutting::is_cut);
    once += usize::from(to_cut) + usize::from(build.battery.is_some());
    facts.count("measure.once", once);
    facts.count("measure.any", once + facts.rows("roof.stations").map_or(0, <[Item]>::len));
}

/// The gap that tells most of a shape, and its place in the list.
fn farthest(gaps: &[Gap]) -> Option<(usize, &Gap)> {
    gaps.iter().enumerate().max_by(|(_, a), (_, b)| a.gap.total_cmp(&b.gap))
}

/// "at 700 mm right".
fn place_across(y: Length) -> String {
    let told = say::mm(y.abs());
    if y < Length::ZERO { format!("{told} left") } else { format!("{told} right") }
}

fn set_vehicle(facts: &mut Facts, from: &Sources<'_>) {
    use crate::build::Finish;
    use crate::tables::MaterialKind;
    let Some(vehicle) = &from.build.vehicle else {
        facts.list("behind", Vec::new());
        facts.count("skin.steel", 0);
        facts.count("skin.fibre", 0);
        return;
    };
    let finish = match *vehicle.skin.finish {
        Finish::Paint | Finish::OldPaint => "paint",
        Finish::Gelcoat | Finish::ChalkyGelcoat => "gelcoat",
        Finish::Bare => "skin",
    };
    facts.set("skin.finish", finish);
    let steel = vehicle.skin.material.kind == MaterialKind::Steel;
    facts.count("skin.steel", usize::from(steel));
    let fibre = vehicle.skin.material.name.starts_with("gfrp");
    facts.count("skin.fibre", usize::from(fibre));
    if let Some(limit) = &vehicle.limit {
        facts.set("roof.limit", say::with(limit.standing.to_kg(), "kg"));
    }
    let behind: Vec<Item> =
        vehicle.behind_roof.iter().map(|name| item([("name", name.value.clone())])).collect();
    let words: Vec<String> = vehicle.behind_roof.iter().map(|name| name.value.clone()).collect();
    facts.set(
        "behind.words",
        if words.is_empty() { "nothing there".to_owned() } else { say::list(&words) },
    );
    facts.list("behind", behind);
    let fixed = crate::compute::weights::height_with_fixtures(from.build);
    if let Some(after) = fixed.into_iter().chain(from.work.height_after()).reduce(Length::max) {
        facts.number("height", after.to_mm(), say::mm(after));
        let range = facts.about(after.to_mm(), "placing");
        facts.range("height", range);
        facts.set("height.words", display::clearance_height(after));
    }
}

/// How much wind the lifting and the ladder stand, and how many lift.
fn set_wind(facts: &mut Facts, from: &Sources<'_>, ledger: &mut Ledger) {
    let roof = facts.high("roof-wind");
    let calm = |speed: f64| display::with_unit(&display::number(speed.min(roof).floor(), 0), "m/s");
    facts.set("wind.roof", calm(roof));
    facts.count("array", usize::from(!from.work.arrays.is_empty()));
    if from.work.arrays.is_empty() {
        return;
    }
    let lifted = |kind| {
        matches!(
            kind,
            PartKind::SideTube
                | PartKind::EndTube
                | PartKind::CrossTube
                | PartKind::JointAngle
                | PartKind::CornerAngle
                | PartKind::EndPlug
                | PartKind::Connector
                | PartKind::Panel
        )
    };
    // Each frame is lifted by itself: the heaviest tells how many lift, the largest the wind.
    let masses: Vec<Mass> = from
        .work
        .arrays
        .iter()
        .map(|array| {
            let own = |piece: &&Piece| piece.frame == Some(array.frame);
            let parts = from.work.parts.iter().filter(|part| lifted(part.kind));
            parts.map(|part| part.mass * part.pieces.iter().filter(own).count() as f64).sum()
        })
        .collect();
    let mass = masses.iter().copied().fold(Mass::ZERO, Mass::max);
    let told = display::with_unit(&display::number(mass.to_kg(), 0), "kg");
    facts.set("array.mass", if masses.len() > 1 { format!("{told} a frame") } else { told });
    let people = (mass.to_kg() / LIFT_EACH).ceil().max(2.0);
    facts.number("lift.people", people, display::number(people, 0));
    let area =
        from.work.arrays.iter().map(|array| array.outline.area()).fold(Area::ZERO, Area::max);
    let (force, gust) = (facts.high("hold-person"), facts.high("gust"));
    let limit =
        (2.0 * force * people / (AIR * BOARD * area.to_m2().max(1e-3))).sqrt() / gust.max(1.0);
    let speed = limit.min(roof).floor().max(1.0);
    facts.set("wind.lift", calm(speed));
    ledger.push(
        Figure::new("steps.wind.lift", "wind up to which the array may be lifted", speed, "m/s")
            .formula("v = √(2 n F / (ρ c A)) / g, rounded down")
            .input("n", format!("{people} people"))
            .input("F", display::with_unit(&display::number(force, 0), "N a person"))
            .input("c", BOARD.to_string())
            .input("A", display::with_unit(&display::number(area.to_m2(), 2), "m²"))
            .input("g", format!("{gust} gust over mean"))
            .source("EN 1991-1-4:2005, 4.5 and 7.4.3", Seen::Memory)
            .assume("force that a person holds and gust factor: common practice")
            .decides(),
    );
    ledger.push(
        Figure::new("steps.lift.people", "people who lift the array", people, "")
            .formula("n = m / m₁, two at least")
            .input("m", display::with_unit(&display::number(mass.to_kg(), 0), "kg"))
            .input("m₁", display::with_unit(&display::number(LIFT_EACH, 0), "kg a person"))
            .source("HSE INDG143, guideline figures", Seen::Memory),
    );
}

//! Other things bolted through a skin.

use super::{Facts, Item, Sources, item, say};
use crate::build::{FixedOn, Fixture};
use crate::source::Ledger;
use crate::tables::MaterialKind;
use crate::units::{Length, display};

pub(super) fn set(facts: &mut Facts, from: &Sources<'_>, ledger: &Ledger) {
    let all = &from.build.fixtures;
    let of = |on: FixedOn| all.iter().filter(move |fixture| *fixture.on == on).count();
    facts.count("fixtures.roof", of(FixedOn::Roof));
    facts.count("fixtures.door", of(FixedOn::RearDoor));
    facts.set("place.fixtures", if of(FixedOn::Roof) > 0 { "roof" } else { "door" });
    let steel = all.iter().any(|fixture| fixture.skin.kind == MaterialKind::Steel);
    facts.count("fixtures.steel", usize::from(steel));
    facts.count(
        "fixtures.fibre",
        usize::from(all.iter().any(|f| f.skin.kind == MaterialKind::GlassReinforced)),
    );
    let isocyanate = all.iter().any(|fixture| fixture.sealing.has_hazard("isocyanate"));
    facts.count("fixtures.isocyanate", usize::from(isocyanate));
    let rows: Vec<Item> = all.iter().map(|fixture| row(facts, from, fixture, ledger)).collect();
    let holes: usize = all.iter().map(|fixture| bolts(from, fixture)).sum();
    facts.count("fixtures.holes", holes);
    facts.list("fixtures.backed", with(all, &rows, |fixture| fixture.backing.is_some()));
    facts.list("fixtures.washered", with(all, &rows, |fixture| fixture.backing.is_none()));
    facts.list("fixtures.openings", with(all, &rows, |fixture| fixture.opening.is_some()));
    let parts = all.iter().map(|fixture| item([("mark", fixture.part.to_uppercase())]));
    facts.list("fixtures.parts", parts.collect());
    facts.list("fixtures", rows);
}

fn with(all: &[Fixture], rows: &[Item], wanted: impl Fn(&Fixture) -> bool) -> Vec<Item> {
    let both = all.iter().zip(rows).filter(|(fixture, _)| wanted(fixture));
    both.map(|(_, row)| row.clone()).collect()
}

fn bolts(from: &Sources<'_>, fixture: &Fixture) -> usize {
    fixture.holes(&from.build.holes).count()
}

fn row(facts: &Facts, from: &Sources<'_>, fixture: &Fixture, ledger: &Ledger) -> Item {
    let hole = fixture.holes(&from.build.holes).next();
    // "on the centre line", "120 mm right of it".
    let beside = |at: Length, line: &str| {
        if at.is_near(Length::ZERO, Length::mm(0.5)) {
            format!("on the {line}")
        } else {
            let told = say::mm(at.abs());
            if at < Length::ZERO {
                format!("{told} left of the {line}")
            } else {
                format!("{told} right of the {line}")
            }
        }
    };
    let place = match *fixture.on {
        FixedOn::Roof => {
            format!(
                "{} behind the datum, {}",
                say::mm(*fixture.x),
                beside(*fixture.y, "centre line")
            )
        }
        FixedOn::RearDoor => {
            format!("{} up, {}", say::mm(*fixture.y), beside(*fixture.x, "middle"))
        }
    };
    let plate =
        from.build.plates.iter().find(|plate| plate.mark.eq_ignore_ascii_case(&fixture.part));
    let part = plate.map_or_else(
        || fixture.part.value.clone(),
        |plate| format!("{} {}", *plate.name, *plate.mark),
    );
    let (seen, at) = match *fixture.on {
        FixedOn::Roof => ("datum to middle", *fixture.x),
        FixedOn::RearDoor => ("lower edge to middle", *fixture.y),
    };
    let (low, high) = facts.about(at.to_mm(), "placing");
    let bored = hole.map_or(fixture.thread.clearance.medium, |hole| *hole.diameter);
    let (bore_low, bore_high) = say::range(bored.to_mm(), bored.to_mm() + 0.3);
    let torque = ledger.get(&format!("fixture.{}.torque", *fixture.mark)).map(|f| f.value);
    let (torque_low, torque_high) =
        torque.map_or_else(Default::default, |torque| say::range(torque * 0.5, torque));
    let [long, wide] =
        fixture.opening.as_ref().map_or([Length::ZERO; 2], |sides| [*sides[0], *sides[1]]);
    let (open_low, open_high) = say::range(long.to_mm(), long.to_mm() + 2.0);
    item([
        ("mark", fixture.mark.value.clone()),
        ("name", fixture.name.value.clone()),
        ("part", part),
        ("place", place),
        ("seen", seen.to_owned()),
        ("low", low),
        ("high", high),
        ("count", bolts(from, fixture).to_string()),
        ("hole", say::mm(bored)),
        ("hole.low", bore_low),
        ("hole.high", bore_high),
        ("thread", fixture.thread.name.clone()),
        ("torque.low", torque_low),
        ("torque.high", torque_high),
        (
            "opening",
            display::with_unit(
                &format!(
                    "{} × {}",
                    display::number(long.to_mm(), 0),
                    display::number(wide.to_mm(), 0)
                ),
                "mm",
            ),
        ),
        ("opening.low", open_low),
        ("opening.high", open_high),
        ("mass", display::with_unit(&display::number(fixture.mass.to_kg(), 1), "kg")),
        ("sealant", fixture.sealing.words.clone()),
    ])
}

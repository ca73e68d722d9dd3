//! Bolted feet and rail clamps: making them, the holes through the skin, their seals and bolts.

use super::mounts::{bolt, fastenings, scatter};
use super::{Facts, Item, Sources, drilling, item, say, with_range};
use crate::build::{BoltedFoot, MountKind};
use crate::compute::steps::assign::Stage;
use crate::derive::{Fastening, MountPlace, MountShape, Part, PartKind, Screw};
use crate::source::Ledger;
use crate::tables::Tables;
use crate::units::{Angle, Length, Temperature, display};

/// Width to which a bead of sealant under a leg is pressed, mm; common practice, no source.
const SPREAD: f64 = 10.0;

pub(super) fn set(facts: &mut Facts, from: &Sources<'_>, ledger: &Ledger) {
    let of = |is: fn(&MountShape) -> bool| -> Vec<&MountPlace> {
        from.work.mounts.iter().filter(|mount| is(&mount.kind)).collect()
    };
    let bolted = of(|kind| matches!(kind, MountShape::BoltedFoot { .. }));
    let clamps = of(|kind| matches!(kind, MountShape::RailClamp { .. }));
    let both: Vec<&MountPlace> = bolted.iter().chain(&clamps).copied().collect();
    for (name, mounts) in [("bolted", &bolted), ("clamps", &clamps), ("brackets", &both)] {
        let rows = mounts.iter().map(|mount| item([("mark", mount.mark.clone())]));
        facts.list(name, rows.collect());
        let marks: Vec<&str> = mounts.iter().map(|mount| mount.mark.as_str()).collect();
        facts.set(format!("{name}.marks"), say::marks(&marks));
    }
    set_making(facts, from, &both);
    set_roof(facts, from, &bolted, ledger);
    set_clamps(facts, from, &clamps, ledger);
}

/// Bends, and the plates that are drilled through their brackets.
fn set_making(facts: &mut Facts, from: &Sources<'_>, mounts: &[&MountPlace]) {
    let work = from.work;
    let mut bends: Vec<Item> = Vec::new();
    let mut folds: Vec<Item> = Vec::new();
    let mut all_wedges: Vec<String> = Vec::new();
    let mut pairs: Vec<Item> = Vec::new();
    let mut angles: Vec<String> = Vec::new();
    let mut plates: Vec<String> = Vec::new();
    for mount in mounts {
        let (angle, plate) = match mount.kind {
            MountShape::BoltedFoot { .. } => (PartKind::FootAngle, PartKind::Spreader),
            _ => (PartKind::ClampAngle, PartKind::ClampPlate),
        };
        let angle = say::nearest(work, angle, mount.at);
        let plate = say::nearest(work, plate, mount.at);
        let fold = angle.as_deref().and_then(|angle| fold_of(from, &mount.mark, angle));
        if let (None, Some(angle), MountShape::BoltedFoot { bend, .. }) =
            (&fold, &angle, &mount.kind)
        {
            add_bend(&mut bends, bend_of(from, &mount.mark, angle, *bend));
        }
        add_bend(&mut folds, fold);
        if let (Some(angle), Some(plate)) = (&angle, &plate) {
            let row = |what: &str, mark: String| {
                item([("what", what.to_owned()), ("mark", mark), ("angle", angle.clone())])
            };
            let wedges = wedges_of(from, angle);
            all_wedges.extend(wedges.iter().cloned());
            if let [_, ..] = wedges.as_slice() {
                pairs.push(row("wedges", say::marks(&wedges)));
            }
            pairs.push(row("plate", plate.clone()));
        }
        angles.extend(angle);
        plates.extend(plate);
    }
    facts.count("brackets.bent", bent(&bends) + bent(&folds));
    facts.count("brackets.folded", bent(&folds));
    facts.list("brackets.folds", told_bends(folds));
    facts.list("brackets.bends", told_bends(bends));
    facts.count("brackets.wedged", all_wedges.len());
    facts.set("brackets.wedges", say::marks(&all_wedges));
    facts.list("brackets.pairs", pairs);
    for marks in [&mut angles, &mut plates] {
        marks.sort_by_key(|mark| say::mark_order(mark));
    }
    facts.set("brackets.angles", say::marks(&angles));
    facts.set("brackets.plates", say::marks(&plates));
    let parts: Vec<Item> =
        angles.iter().chain(&plates).map(|mark| item([("mark", mark.clone())])).collect();
    facts.list("brackets.parts", parts);
    drilling::through(facts, from, Stage::Brackets, |_| true, "brackets");
}

/// Takes a bend into the list; what is bent alike is one row.
pub(super) fn add_bend(bends: &mut Vec<Item>, bend: Option<Item>) {
    let Some(bend) = bend else { return };
    let same = |row: &&mut Item| ["bend", "radius"].iter().all(|of| row.get(*of) == bend.get(*of));
    match bends.iter_mut().find(same) {
        Some(row) => {
            for field in ["angle", "mark"] {
                let all = format!("{} {}", row[field], bend[field]);
                row.insert(field.to_owned(), all);
            }
        }
        None => bends.push(bend),
    }
}

/// The bend of a straight angle, unless it stays square.
pub(super) fn bend_of(from: &Sources<'_>, mount: &str, angle: &str, bend: Angle) -> Option<Item> {
    if bend.is_near(Angle::RIGHT, Angle::deg(0.25)) {
        return None;
    }
    let row = item([
        ("mark", mount.to_owned()),
        ("angle", angle.to_owned()),
        ("bend", format!("{}°", display::number_short(bend.to_deg(), 1))),
    ]);
    bend_range(from, row, angle)
}

/// A bracket's bend with its limits.
fn bend_range(from: &Sources<'_>, row: Item, angle: &str) -> Option<Item> {
    let (part, _) = from.work.piece(angle)?;
    let (low, high) = bend_limits(part)?;
    Some(with_range(row, say::range(low.to_deg(), high.to_deg())))
}

/// Least and greatest angle between a bracket's legs, ISO 2768-1 class c by the shorter leg.
pub fn bend_limits(part: &Part) -> Option<(Angle, Angle)> {
    let bracket = part.body.bracket()?;
    let (section, bend) = (bracket.section, bracket.between);
    let plus = Tables::builtin()
        .tolerance("iso-2768-c")
        .ok()
        .and_then(|class| class.angular(section.a.min(section.b)))?;
    Some((bend - plus, bend + plus))
}

/// How many brackets the rows stand for.
pub(super) fn bent(rows: &[Item]) -> usize {
    rows.iter().map(|row| row["mark"].split(' ').count()).sum()
}

/// Rows of bends with their marks told together.
pub(super) fn told_bends(bends: Vec<Item>) -> Vec<Item> {
    let told = |mut row: Item| {
        let each = row["mark"].clone();
        let mut marks: Vec<&str> = row["angle"].split(' ').collect();
        marks.sort_by_key(|mark| say::mark_order(mark));
        let marks = say::marks(&marks);
        row.insert("angle".to_owned(), marks);
        row.insert("each".to_owned(), each);
        row
    };
    bends.into_iter().map(told).collect()
}

/// The bend of a bracket from flat stuff.
pub(super) fn fold_of(from: &Sources<'_>, mount: &str, angle: &str) -> Option<Item> {
    let (part, _) = from.work.piece(angle)?;
    let fold = part.body.fold()?;
    let row = item([
        ("mark", mount.to_owned()),
        ("angle", angle.to_owned()),
        ("bend", format!("{}°", display::number_short(fold.between.to_deg(), 1))),
        ("radius", say::mm(fold.bend.inside)),
    ]);
    bend_range(from, row, angle)
}

/// Wedges that a bracket is drilled through, by their marks.
pub(super) fn wedges_of(from: &Sources<'_>, angle: &str) -> Vec<String> {
    let work = from.work;
    let mut marks: Vec<String> = Vec::new();
    let places = work.fastenings.iter().flat_map(|fastening| &fastening.places);
    for place in places.filter(|place| place.iter().any(|at| at.piece == angle)) {
        for at in place {
            let is_wedge =
                work.piece(&at.piece).is_some_and(|(part, _)| part.kind == PartKind::Wedge);
            if is_wedge && !marks.contains(&at.piece) {
                marks.push(at.piece.clone());
            }
        }
    }
    marks
}

/// What to ask for, thread and torque of the bolts of a stage.
fn set_bolts(facts: &mut Facts, from: &Sources<'_>, stage: Stage, name: &str, ledger: &Ledger) {
    let all: Vec<&Fastening> = fastenings(from, stage).collect();
    let count: usize = all.iter().map(|fastening| fastening.places.len()).sum();
    facts.count(&format!("{name}.bolts"), count);
    let rows = all.iter().filter_map(|fastening| {
        let (_, words) = bolt(&fastening.screw)?;
        Some(item([("words", words), ("count", fastening.places.len().to_string())]))
    });
    facts.list(&format!("{name}.bolt-kinds"), rows.collect());
    if let Some(Screw::BoltAndNut { thread, .. }) = all.first().map(|first| &first.screw) {
        facts.set(format!("{name}.thread"), thread.name.clone());
        facts.set(format!("{name}.key"), say::mm(thread.hex_width));
        if let Some(range) = say::torque(ledger, &thread.name, scatter(facts)) {
            facts.range(&format!("{name}.torque"), range);
        }
    }
}

fn celsius(temperature: Temperature) -> String {
    display::with_unit(&display::number(temperature.to_celsius(), 0), "°C")
}

fn set_roof(facts: &mut Facts, from: &Sources<'_>, bolted: &[&MountPlace], ledger: &Ledger) {
    facts.count("bolted.isocyanate", 0);
    facts.count("bolted.wedged", 0);
    set_bolts(facts, from, Stage::RoofBolts, "bolted", ledger);
    let written = bolted.iter().find_map(|mount| match &from.build.mounts.get(mount.mount)?.kind {
        MountKind::BoltedFoot(foot) => Some(foot),
        _ => None,
    });
    let Some(foot) = written else { return };
    drilling::through(facts, from, Stage::RoofHoles, |_| true, "bolted");
    set_places(facts, from, bolted);
    let wedged = from.work.fastenings.iter().any(|fastening| {
        fastening.name == "foot to roof"
            && fastening.stack.iter().any(|layer| layer.0.starts_with("wedge"))
    });
    facts.count("bolted.wedged", usize::from(wedged));
    let clamped = if wedged { "leg, upper wedge and skin" } else { "leg and skin" };
    facts.set("bolted.clamped", clamped);
    facts.set("bolted.below", if wedged { "lower wedge, spreader" } else { "spreader" });
    set_seal(facts, foot, bolted);
}

/// The gap that is left under them, and how far a drill may go.
fn set_places(facts: &mut Facts, from: &Sources<'_>, bolted: &[&MountPlace]) {
    let least = bolted
        .iter()
        .filter_map(|mount| match mount.kind {
            MountShape::BoltedFoot { bed, .. } => Some(bed),
            _ => None,
        })
        .reduce(Length::min)
        .unwrap_or_default();
    let most = bolted.iter().map(|mount| mount.plate_gap).fold(Length::ZERO, Length::max) + least;
    let (less, more) = (facts.low("reading").abs(), facts.high("reading"));
    let told = |value: f64| display::number(value.max(0.0), 1);
    facts.range("bolted.gap", (told(least.to_mm() - less), told(most.to_mm() + more)));
    let (low, high) = (facts.low("drill-free"), facts.high("drill-free"));
    let high = display::with_unit(&display::number(high, 0), "mm");
    facts.set("bolted.stop", format!("{} to {high} free", display::number(low, 0)));
    let spreaders: Vec<String> = bolted
        .iter()
        .filter_map(|mount| say::nearest(from.work, PartKind::Spreader, mount.at))
        .collect();
    facts.set("bolted.spreaders", say::marks(&spreaders));
}

fn set_seal(facts: &mut Facts, foot: &BoltedFoot, bolted: &[&MountPlace]) {
    let seals = crate::compute::cure::FOOT_SEALS;
    facts.list("foot-seals", vec![item([("mark", seals.to_owned())])]);
    let sealant = &foot.sealing;
    facts.set("bolted.sealant", sealant.words.clone());
    facts.count("bolted.isocyanate", usize::from(sealant.has_hazard("isocyanate")));
    let [coldest, hottest] = sealant.application;
    facts.set("bolted.low", celsius(coldest));
    facts.set("bolted.high", celsius(hottest));
    let dew = display::number(sealant.dew_margin.to_k(), 0);
    facts.set("bolted.dew", display::with_unit(&dew, "°C"));
    facts.maybe("bolted.skin", sealant.skin.map(|skin| display::number(skin[0].to_minutes(), 0)));
    let round = (*foot.angle_length + foot.angle.a.min(foot.angle.b)) * 2.0;
    let all = round.to_m() * bolted.len() as f64;
    facts.number("bolted.seal.metres", all, say::with(all, "m"));
    // Pressed to the bed it must spread to a hand's finger width: a triangle as high as wide.
    let bed = bolted
        .iter()
        .map(|mount| match mount.kind {
            MountShape::BoltedFoot { bed, .. } => bed + mount.plate_gap,
            _ => Length::ZERO,
        })
        .fold(Length::ZERO, Length::max);
    let low = (2.0 * SPREAD * bed.to_mm()).sqrt().ceil();
    facts.range("bolted.bead", say::range(low, (low * facts.high("bead-high")).round()));
    facts.set("bolted.nozzle", display::with_unit(&display::number(low, 0), "mm"));
    facts.set("bolted.wipes", format!("{} wipes", bolted.len() * 3));
    facts.set("bolted.gloves", format!("{} pairs", bolted.len() + 1));
}

fn set_clamps(facts: &mut Facts, from: &Sources<'_>, clamps: &[&MountPlace], ledger: &Ledger) {
    set_bolts(facts, from, Stage::Clamps, "clamps", ledger);
    let packs: Vec<Item> = clamps
        .iter()
        .filter_map(|clamp| {
            let MountShape::RailClamp { packer, .. } = clamp.kind else { return None };
            let mark = say::nearest(from.work, PartKind::ClampPacker, clamp.at)?;
            if packer < Length::mm(0.05) {
                return None;
            }
            let row = item([("mark", clamp.mark.clone()), ("packer", mark)]);
            Some(with_range(row, facts.about(packer.to_mm(), "block-height")))
        })
        .collect();
    facts.list("clamps.packs", packs);
}

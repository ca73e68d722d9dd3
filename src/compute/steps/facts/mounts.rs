//! Feet and hinges: making them, the rivet nuts that hold them, bolting them.

use super::{Facts, Item, Sources, brackets, drilling, item, props, say, with_range};
use crate::build::{Edge, Latch, LatchKind, MountKind};
use crate::compute::steps::assign::{self, Stage};
use crate::derive::{Fastening, HoleKind, MountPlace, MountShape, PartKind, Screw};
use crate::source::Ledger;
use crate::units::{Length, display};

pub(super) fn set(facts: &mut Facts, from: &Sources<'_>, ledger: &Ledger) {
    let work = from.work;
    let all = |mounts: &[&MountPlace]| -> Vec<Item> {
        mounts.iter().map(|mount| item([("mark", mount.mark.clone())])).collect()
    };
    let every: Vec<&MountPlace> = work.mounts.iter().collect();
    let of = |is: fn(&MountShape) -> bool| -> Vec<&MountPlace> {
        every.iter().filter(|mount| is(&mount.kind)).copied().collect()
    };
    let feet = of(|kind| matches!(kind, MountShape::BondedFoot { .. }));
    let hinges = of(|kind| matches!(kind, MountShape::Hinge { .. }));
    let latched = |mount: &&MountPlace| latch_of(from, mount).is_some();
    let mut on_tube = of(|kind| !matches!(kind, MountShape::Hinge { .. }));
    on_tube.retain(|mount| !latched(mount));
    set_latches(facts, from);
    facts.list("on-tube", all(&on_tube));
    let when = if feet.is_empty() { "last of all" } else { "after the bonds may take load" };
    facts.set("bolt.when", when);
    facts.list("mounts", all(&every));
    facts.list("feet", all(&feet));
    facts.list("hinges", all(&hinges));
    facts.count("hinges.many", hinges.len().saturating_sub(1));
    facts.count("feet-on", if work.arrays.is_empty() { 0 } else { feet.len() });
    let marks = |mounts: &[&MountPlace]| {
        say::marks(&mounts.iter().map(|mount| mount.mark.as_str()).collect::<Vec<_>>())
    };
    facts.set("feet.marks", marks(&feet));
    facts.set("hinges.marks", marks(&hinges));
    set_feet(facts, from, &feet, ledger);
    set_frame_bolts(facts, from, ledger);
    brackets::set(facts, from, ledger);
    set_places(facts, from, &every);
    set_rivet_nuts(facts, from);
    set_hinges(facts, from, &hinges, ledger);
    props::set(facts, from);
    set_packing(facts, &every, from);
    set_tethers(facts, from, ledger);
}

fn latch_of<'a>(from: &'a Sources<'_>, mount: &MountPlace) -> Option<&'a Latch> {
    from.build.mounts.get(mount.mount)?.kind.latch()
}

/// What is opened by hand to lift the frame.
fn set_latches(facts: &mut Facts, from: &Sources<'_>) {
    let mut rows: Vec<Item> = Vec::new();
    let (mut knobs, mut draws) = (0_usize, 0_usize);
    for mount in &from.work.mounts {
        let Some(latch) = latch_of(from, mount) else { continue };
        rows.push(item([("mark", mount.mark.clone())]));
        match *latch.kind {
            LatchKind::Knob => knobs += latch.kind.each() as usize,
            LatchKind::DrawLatch => draws += latch.kind.each() as usize,
        }
    }
    let marks: Vec<&str> = rows.iter().map(|row| row["mark"].as_str()).collect();
    facts.set("latches.marks", say::marks(&marks));
    facts.list("latches", rows);
    facts.count("latches.knobs", knobs);
    facts.count("latches.draws", draws);
    let bolts: Vec<&Fastening> = fastenings(from, Stage::Latch).collect();
    facts.maybe(
        "latches.bolt",
        bolts.iter().filter(|found| found.undone).find_map(|found| bolt(&found.screw)).map(|b| b.1),
    );
    let fixings: Vec<&Fastening> = bolts.iter().filter(|found| !found.undone).copied().collect();
    let rows = fixings.iter().map(|fastening| {
        let words = match &fastening.screw {
            Screw::BlindRivet { rivet, length } => {
                format!("{} × {}", rivet.words, say::mm(*length))
            }
            other => bolt(other).map_or_else(String::new, |told| told.1),
        };
        item([("words", words), ("count", fastening.places.len().to_string())])
    });
    facts.list("latches.fixings", rows.collect());
    drilling::through(facts, from, Stage::Latch, |_| true, "latches");
    let kinds = [(knobs, format!("{knobs} knob bolts")), (draws, format!("{draws} draw latches"))];
    let told: Vec<String> =
        kinds.into_iter().filter(|(count, _)| *count > 0).map(|(_, told)| told).collect();
    facts.set("latches.words", say::list(&told));
    facts.count("frame-free", usize::from(knobs + draws > 0));
}

/// Edges of the frame and what they are called.
const EDGES: [(Edge, &str); 4] = [
    (Edge::Left, "left side"),
    (Edge::Right, "right side"),
    (Edge::Front, "front"),
    (Edge::Rear, "rear"),
];

/// Every edge of every frame with what it is called: "left side", or "left side of the rear frame".
fn edges(from: &Sources<'_>) -> impl Iterator<Item = (usize, (Edge, String))> {
    let build = from.build;
    (0..build.frames.len()).flat_map(move |frame| {
        EDGES.into_iter().map(move |(edge, words)| {
            let words = match build.frames.len() {
                0 | 1 => words.to_owned(),
                _ => {
                    let the = build.the_frame(frame);
                    match edge {
                        Edge::Left => format!("left side of {the}"),
                        Edge::Right => format!("right side of {the}"),
                        Edge::Front => format!("front of {the}"),
                        Edge::Rear => format!("rear of {the}"),
                    }
                }
            };
            (frame, (edge, words))
        })
    })
}

/// "51 to 55 mm", or one value.
fn span(low: f64, high: f64) -> String {
    let told = |value: f64| display::number(value, 0);
    let numbers =
        if low == high { told(low) } else { format!("{}\u{A0}to\u{A0}{}", told(low), told(high)) };
    display::with_unit(&numbers, "mm")
}

pub(super) fn scatter(facts: &Facts) -> (f64, f64) {
    (facts.low("torque"), facts.high("torque"))
}

/// Fastenings of a stage, with how many of each.
pub(super) fn fastenings<'a>(
    from: &'a Sources<'_>,
    stage: Stage,
) -> impl Iterator<Item = &'a Fastening> {
    let work = from.work;
    work.fastenings.iter().filter(move |fastening| assign::of_fastening(work, fastening) == stage)
}

/// Name of the thread and what to ask for.
pub(super) fn bolt(screw: &Screw) -> Option<(String, String)> {
    match screw {
        Screw::BoltInRivetNut { thread, length, .. } => {
            Some((thread.name.clone(), format!("bolt {} × {}", thread.name, say::mm(*length))))
        }
        Screw::BoltAndNut { thread, length, countersunk, .. } => {
            let told = if *countersunk {
                format!("countersunk screw {} × {}", thread.name, say::mm(*length))
            } else {
                format!("bolt {} × {}", thread.name, say::mm(*length))
            };
            Some((thread.name.clone(), told))
        }
        Screw::Tapping { .. } | Screw::BlindRivet { .. } | Screw::Pin { .. } => None,
    }
}

fn set_feet(facts: &mut Facts, from: &Sources<'_>, feet: &[&MountPlace], ledger: &Ledger) {
    let work = from.work;
    let mut angles: Vec<String> = Vec::new();
    let mut plates: Vec<String> = Vec::new();
    let mut bends: Vec<Item> = Vec::new();
    let mut folds: Vec<Item> = Vec::new();
    let mut wedges: Vec<String> = Vec::new();
    for foot in feet {
        let angle = say::nearest(work, PartKind::FootAngle, foot.at);
        let plate = say::nearest(work, PartKind::FootPlate, foot.roof);
        let fold = angle.as_deref().and_then(|angle| brackets::fold_of(from, &foot.mark, angle));
        if let (None, Some(angle), MountShape::BondedFoot { bend, .. }) =
            (&fold, &angle, &foot.kind)
        {
            brackets::add_bend(&mut bends, brackets::bend_of(from, &foot.mark, angle, *bend));
        }
        brackets::add_bend(&mut folds, fold);
        wedges.extend(angle.iter().flat_map(|angle| brackets::wedges_of(from, angle)));
        angles.extend(angle);
        plates.extend(plate);
    }
    let parts: Vec<Item> =
        angles.iter().chain(&plates).map(|mark| item([("mark", mark.clone())])).collect();
    facts.count("feet.bent", brackets::bent(&bends) + brackets::bent(&folds));
    facts.count("feet.folded", brackets::bent(&folds));
    facts.list("feet.folds", brackets::told_bends(folds));
    facts.count("feet.wedged", wedges.len());
    facts.set("feet.wedges", say::marks(&wedges));
    facts.list("feet.bends", brackets::told_bends(bends));
    facts.list("feet.parts", parts);
    facts.set("feet.angles", say::marks(&angles));
    facts.set("feet.plates", say::marks(&plates));
    let screws: Vec<&Fastening> = fastenings(from, Stage::Feet).collect();
    let count: usize = screws.iter().map(|fastening| fastening.places.len()).sum();
    facts.count("feet.screws", count);
    facts.count("feet.screws-each", count / feet.len().max(1));
    if let Some((thread, words)) = screws.first().and_then(|fastening| bolt(&fastening.screw)) {
        facts.set("feet.screw", words);
        if let Some(range) = say::torque(ledger, &thread, scatter(facts)) {
            facts.range("feet.torque", range);
        }
        facts.set("feet.screw.thread", thread.as_str());
    }
    drilling::through(facts, from, Stage::Feet, |_| true, "feet");
    let made = if wedges.is_empty() {
        "Each foot angle is drilled through its own plate and screwed to it."
    } else {
        "Each wedge takes up the slope between leg and plate; both are drilled through the leg."
    };
    facts.set("feet.made", made);
    let square = facts.has("holes.feet") && wedges.is_empty();
    facts.count("feet.square", usize::from(square));
}

/// Bolts from feet and clamps into the frame's tubes.
fn set_frame_bolts(facts: &mut Facts, from: &Sources<'_>, ledger: &Ledger) {
    let bolts: Vec<&Fastening> = fastenings(from, Stage::Bolt).collect();
    facts.count("feet.bolts", bolts.iter().map(|fastening| fastening.places.len()).sum());
    if let Some(Screw::BoltInRivetNut { thread, .. } | Screw::BoltAndNut { thread, .. }) =
        bolts.first().map(|fastening| &fastening.screw)
    {
        facts.maybe("feet.bolt", bolts.first().and_then(|f| bolt(&f.screw)).map(|told| told.1));
        facts.set("feet.bolt.key", say::mm(thread.hex_width));
        if let Some(range) = say::torque(ledger, &thread.name, scatter(facts)) {
            facts.range("feet.bolt.torque", range);
        }
        facts.set("feet.bolt.thread", thread.name.clone());
    }
}

/// Where each mount is clamped on its tube: from the outside of the frame's front or left end.
fn set_places(facts: &mut Facts, from: &Sources<'_>, mounts: &[&MountPlace]) {
    let work = from.work;
    let mut rows: Vec<Item> = Vec::new();
    for mount in mounts {
        let Some(array) = work.arrays.get(mount.frame) else { continue };
        let (end, at) = match mount.edge {
            Edge::Left | Edge::Right => ("front edge", mount.at.x - array.outline.low().x),
            Edge::Front | Edge::Rear => ("left edge", mount.at.y - array.outline.low().y),
        };
        let row = item([
            ("mark", mount.mark.clone()),
            ("name", mount.name.clone()),
            ("tube", tube_at(from, mount).unwrap_or_else(|| "its tube".to_owned())),
            ("at", say::mm(at)),
            ("end", format!("the {end}")),
            ("from", format!("{end} to middle")),
        ]);
        rows.push(with_range(row, facts.about(at.to_mm(), "setting")));
    }
    // Hinges and feet that need no clamping because nothing is drilled through them still go to
    // their marks: all are told.
    facts.list("mount-places", rows);
}

/// Mark of the tube that a mount holds: the one with rivet nuts opposite its holes.
fn tube_at(from: &Sources<'_>, mount: &MountPlace) -> Option<String> {
    let kind = match mount.edge {
        Edge::Left | Edge::Right => PartKind::SideTube,
        Edge::Front | Edge::Rear => PartKind::EndTube,
    };
    let across = |point: crate::geometry::Point3| match mount.edge {
        Edge::Left | Edge::Right => point.y,
        Edge::Front | Edge::Rear => point.x,
    };
    from.work
        .parts_of(kind)
        .flat_map(|part| &part.pieces)
        .filter(|piece| piece.frame == Some(mount.frame))
        .min_by(|a, b| {
            let far = |piece: &crate::derive::Piece| {
                (across(piece.place.origin()) - across(mount.at)).abs()
            };
            far(a).total_cmp(&far(b))
        })
        .map(|piece| piece.mark.clone())
}

fn set_rivet_nuts(facts: &mut Facts, from: &Sources<'_>) {
    let work = from.work;
    let nuts: usize = work
        .holes
        .iter()
        .filter(|hole| hole.kind == HoleKind::RivetNut)
        .map(|hole| work.parts[hole.part].pieces.len())
        .sum();
    facts.count("rivet-nuts", nuts);
    let mut kinds: Vec<(String, String, usize)> = Vec::new();
    for fastening in &work.fastenings {
        if let Screw::BoltInRivetNut { nut, thread, .. } = &fastening.screw {
            match kinds.iter_mut().find(|row| row.0 == nut.words) {
                Some(row) => row.2 += fastening.places.len(),
                None => {
                    kinds.push((nut.words.clone(), thread.name.clone(), fastening.places.len()));
                }
            }
        }
    }
    let kinds = kinds.into_iter().map(|(words, thread, count)| {
        item([("words", words), ("thread", thread), ("count", count.to_string())])
    });
    facts.list("rivet-nut-kinds", kinds.collect());
    let holes: Vec<_> = work
        .holes
        .iter()
        .filter(|hole| assign::of_hole(work, hole) == Some(Stage::RivetNuts))
        .collect();
    facts.set("rivet-nuts.drills", say::all_drills(holes.iter().copied()));
    // The drills that fit the mount's hole go through it, the others follow without it.
    let mut rows: Vec<(String, &[Length], &[Length])> = Vec::new();
    let mut tubes: Vec<Item> = Vec::new();
    for hole in &holes {
        let held = hole.mates.iter().find_map(|mate| {
            let mate = work.hole(mate)?;
            let part = &work.parts[mate.part];
            matches!(part.kind, PartKind::FootAngle | PartKind::ClampAngle | PartKind::Hinge)
                .then(|| (part.name.clone(), mate.diameter))
        });
        let (held, through) = held.unwrap_or_else(|| ("mount".to_owned(), hole.diameter));
        let fits = |size: &&Length| **size <= through + Length::mm(0.05);
        let count = hole.drills.iter().take_while(fits).count();
        let (through, rest) = hole.drills.split_at(count);
        if !rows.iter().any(|row| row.0 == held && (row.1, row.2) == (through, rest)) {
            rows.push((held, through, rest));
        }
        for piece in &work.parts[hole.part].pieces {
            tubes.push(item([("mark", piece.mark.clone())]));
        }
    }
    facts.list("rivet-nuts.tubes", tubes);
    let row = |name: &String, drills: &[Length]| {
        let size = drills.last()?.to_mm();
        let range = say::range(size + facts.low("hole-over"), size + facts.high("hole-over"));
        Some(with_range(item([("name", name.clone()), ("drills", say::drills(drills))]), range))
    };
    let through: Vec<Item> =
        rows.iter().filter_map(|(name, through, _)| row(name, through)).collect();
    let opened: Vec<Item> = rows.iter().filter_map(|(name, _, rest)| row(name, rest)).collect();
    facts.list("rivet-nut-opened", opened);
    facts.list("rivet-nut-drills", through);
}

fn set_hinges(facts: &mut Facts, from: &Sources<'_>, hinges: &[&MountPlace], ledger: &Ledger) {
    let work = from.work;
    let mut packs: Vec<Item> = Vec::new();
    let mut packers: Vec<String> = Vec::new();
    for hinge in hinges {
        if let MountShape::Hinge { packer, .. } = &hinge.kind
            && *packer > Length::mm(0.05)
        {
            let mark = say::nearest(work, PartKind::HingePacker, hinge.at).unwrap_or_default();
            let row = item([("mark", hinge.mark.clone()), ("packer", mark.clone())]);
            packs.push(with_range(row, facts.about(packer.to_mm(), "block-height")));
            if !mark.is_empty() {
                packers.push(mark);
            }
        }
    }
    facts.set("hinges.packers", say::marks(&packers));
    facts.list("hinge-packs", packs);
    let bolts: Vec<&Fastening> = fastenings(from, Stage::Hinges).collect();
    let rows = bolts.iter().filter_map(|fastening| {
        let (_, words) = bolt(&fastening.screw)?;
        Some(item([("words", words), ("count", fastening.places.len().to_string())]))
    });
    facts.list("hinge-bolts", rows.collect());
    if let Some((thread, _)) = bolts.first().and_then(|fastening| bolt(&fastening.screw)) {
        if let Some(range) = say::torque(ledger, &thread, scatter(facts)) {
            facts.range("hinges.torque", range);
        }
        facts.set("hinges.thread", thread.as_str());
    }
    drilling::through(facts, from, Stage::Hinges, |_| true, "hinges");
    let lift = from.build.mounts.iter().find_map(|mount| match &mount.kind {
        MountKind::Hinge(line) => Some(line.lift.to_deg()),
        _ => None,
    });
    facts.maybe("hinges.lift", lift.map(|angle| display::number(angle, 0)));
}

/// Blocks that hold the array at its height while feet and hinges are fitted.
fn set_packing(facts: &mut Facts, mounts: &[&MountPlace], from: &Sources<'_>) {
    let mut heights: Vec<f64> = Vec::new();
    let mut rows: Vec<Item> = Vec::new();
    for (frame, (edge, words)) in edges(from) {
        let here: Vec<&&MountPlace> =
            mounts.iter().filter(|mount| mount.frame == frame && mount.edge == edge).collect();
        let height = |mount: &&&MountPlace| (mount.at.z - mount.roof.z).to_mm().round();
        let Some(low) = here.iter().map(height).reduce(f64::min) else { continue };
        let high = here.iter().map(height).fold(low, f64::max);
        let marks: Vec<&str> = here.iter().map(|mount| mount.mark.as_str()).collect();
        let blocks = if here.len() == 1 {
            "1 padded block"
        } else {
            &format!("{} padded blocks", here.len())
        };
        let row = item([
            ("height", span(low, high)),
            ("marks", say::marks(&marks)),
            ("blocks", blocks.to_owned()),
            ("edge", words),
        ]);
        let (less, more) = (facts.low("reading"), facts.high("reading"));
        rows.push(with_range(row, say::range(low - less, high + more)));
        heights.extend([low, high]);
    }
    let least = heights.iter().copied().fold(f64::INFINITY, f64::min);
    let most = heights.iter().copied().fold(0.0, f64::max);
    facts
        .set("packing.heights", if heights.is_empty() { String::new() } else { span(least, most) });
    facts.list("packing", rows);
}

/// Edges that adhesive alone holds, and the load that two tethers each must carry: all the pull of
/// that edge, so that the two together carry it twice.
fn set_tethers(facts: &mut Facts, from: &Sources<'_>, ledger: &Ledger) {
    let work = from.work;
    let mut rows: Vec<Item> = Vec::new();
    for (frame, (edge, words)) in edges(from) {
        let here: Vec<&MountPlace> =
            work.mounts.iter().filter(|mount| mount.frame == frame && mount.edge == edge).collect();
        let bonded = |mount: &&MountPlace| matches!(mount.kind, MountShape::BondedFoot { .. });
        if here.is_empty() || !here.iter().all(bonded) {
            continue;
        }
        let mut row = item([("edge", words.clone())]);
        let pulls: Option<f64> = here
            .iter()
            .map(|mount| ledger.get(&format!("loads.tension.{}", mount.mark)).map(|f| f.value))
            .sum();
        let load = pulls.filter(|pull| *pull > 0.0);
        // A load that is not worked out stays open: an empty limit prints as a dash.
        row.insert(
            "load".to_owned(),
            load.map_or_else(String::new, |pull| display::number((pull / 10.0).ceil() * 10.0, 0)),
        );
        rows.push(row);
    }
    let edges = rows.len();
    facts.list("adhesive-edges", rows);
    facts.count("tethers", edges * 2);
    facts.count("tethers.ends", edges * 4);
}

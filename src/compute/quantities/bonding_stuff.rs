//! Tape, adhesive, sealant, cleaner, primer, masking.

use super::{Amount, ShopLine, packs};
use crate::build::{BoltedFoot, Build, MountKind};
use crate::compute::cure::{self, JointCure};
use crate::compute::plan::OPEN_CARTRIDGE;
use crate::compute::steps::facts::{cleaner_for, faces_of, faces_under, primer_for, wipes_for};
use crate::derive::{Body, Bond, MountShape, PartKind, Work};
use crate::source::{Figure, Ledger, Seen};
use crate::tables::{Adhesive, Tables, Tape};
use crate::units::{Area, Duration, Length, Volume, display};

/// Section of a seal's fillet round the edge of a housing: a triangle of two equal legs.
fn fillet() -> Area {
    cure::FILLET * cure::FILLET * 0.5
}

/// What is laid at each joint.
pub(super) fn amounts(build: &Build, work: &Work) -> Vec<Amount> {
    let mut list = Vec::new();
    for bond in &work.bonds {
        if let Some((tape, _)) = &bond.tape
            && !bond.strips.is_empty()
        {
            list.push(Amount {
                mark: bond.mark.clone(),
                what: tape.words.clone(),
                length: bond.strips.iter().map(|s| s.width()).sum(),
                volume: None,
            });
        }
        if let Some(adhesive) = &bond.adhesive
            && !bond.beads.is_empty()
        {
            list.push(Amount {
                mark: bond.mark.clone(),
                what: adhesive.words.clone(),
                length: bond.beads.iter().map(|b| b.width()).sum(),
                volume: Some(bead_volume(bond)),
            });
        }
    }
    if let (Some(entry), Some(place)) = (&build.entry, &work.entry) {
        let round = (place.foot.width() + place.foot.height()) * 2.0;
        list.push(Amount {
            mark: place.mark.clone(),
            what: entry.sealing.words.clone(),
            length: round,
            // A bead of the same section under the foot, and the fillet round it.
            volume: Some(fillet() * round * 2.0),
        });
    }
    for mount in &work.mounts {
        let Some(MountKind::BoltedFoot(foot)) = build.mounts.get(mount.mount).map(|m| &m.kind)
        else {
            continue;
        };
        let MountShape::BoltedFoot { bed, .. } = &mount.kind else { continue };
        let (long, wide) = (*foot.angle_length, foot.angle.a.min(foot.angle.b));
        let round = (long + wide) * 2.0;
        list.push(Amount {
            mark: mount.mark.clone(),
            what: foot.sealing.words.clone(),
            length: round,
            // The bed at its mean thickness over the whole leg, and the fillet round it.
            volume: Some(long * wide * (*bed + mount.plate_gap / 2.0) + fillet() * round),
        });
    }
    if let Some(sealant) = packer_sealant(build) {
        for (mark, length, width) in packers(work) {
            let round = (length + width) * 2.0;
            list.push(Amount {
                mark,
                what: sealant.words.clone(),
                length: round,
                volume: Some(fillet() * round),
            });
        }
    }
    list
}

/// What seals the packers under the panels to the skin: the sealant of the entry, or else the
/// adhesive of the feet.
pub fn packer_sealant(build: &Build) -> Option<&Adhesive> {
    let of_entry = build.entry.as_ref().map(|entry| &entry.sealing.value);
    let of_feet = || {
        build.mounts.iter().find_map(|mount| match &mount.kind {
            MountKind::BondedFoot(foot) => foot.bead.as_ref().map(|bead| &bead.kind.value),
            MountKind::BoltedFoot(foot) => Some(&foot.sealing.value),
            MountKind::Hinge(_) | MountKind::RailClamp(_) => None,
        })
    };
    of_entry.or_else(of_feet)
}

/// Mark, length and width of each packer under a panel.
fn packers(work: &Work) -> impl Iterator<Item = (String, Length, Length)> {
    work.parts.iter().filter(|part| part.kind == PartKind::PanelPacker).flat_map(|part| {
        let size = match &part.body {
            Body::Block { length, width, .. } => (*length, *width),
            _ => (Length::ZERO, Length::ZERO),
        };
        part.pieces.iter().map(move |piece| (piece.mark.clone(), size.0, size.1))
    })
}

/// Volume of the pressed beads of a joint: what is laid higher is pressed flat and stays.
pub(super) fn bead_volume(bond: &Bond) -> Volume {
    bond.beads.iter().map(|b| b.area() * bond.thickness).sum()
}

/// Lines to buy.
pub(super) fn lines(
    build: &Build,
    work: &Work,
    cures: &[JointCure],
    amounts: &[Amount],
    tables: &Tables,
    ledger: &mut Ledger,
) -> Vec<ShopLine> {
    let mut lines = Vec::new();
    for (tape, width, thickness) in tapes(work) {
        lines.push(roll(amounts, tape, width, thickness, ledger));
    }
    for adhesive in adhesives(build, work) {
        lines.push(cartridges(cures, amounts, adhesive, ledger));
    }
    if !work.bonds.is_empty() || work.entry.is_some() {
        lines.extend(preparation(build, work, tables));
    }
    lines
}

/// Rolls of a tape, with what stays on the last one.
fn roll(
    amounts: &[Amount],
    tape: &Tape,
    width: Length,
    thickness: Length,
    ledger: &mut Ledger,
) -> ShopLine {
    let length: Length = amounts.iter().filter(|a| a.what == tape.words).map(|a| a.length).sum();
    // A tenth more for ends and a strip that goes wrong; common practice.
    let with_waste = length * 1.1;
    let roll = tape.roll_lengths.iter().copied().find(|roll| *roll >= with_waste);
    let roll = roll.or_else(|| tape.roll_lengths.last().copied()).unwrap_or(Length::m(5.0));
    let rolls = (with_waste / roll).ceil().max(1.0);
    let left = roll * rolls - with_waste;
    ledger.push(
        Figure::new("quantities.tape", "tape laid", length.to_m(), "m")
            .formula("Σ strips × length")
            .input("with a tenth for ends", format!("{:.2} m", with_waste.to_m()))
            .input("to buy", format!("{rolls:.0} × {:.0} m", roll.to_m()))
            .input("left", format!("{:.1} m", left.to_m()))
            .source("strip layout of this build", Seen::Computed),
    );
    ShopLine {
        what: format!(
            "{}, {}\u{a0}mm wide, {}\u{a0}mm thick",
            tape.words,
            display::number_short(width.to_mm(), 1),
            display::number_short(thickness.to_mm(), 1)
        ),
        need: format!("{:.2}\u{a0}m", length.to_m()),
        buy: format!(
            "{}, {:.1}\u{a0}m left",
            packs(&[(roll.to_m(), rolls as u32)], "m"),
            left.to_m()
        ),
        price: None,
    }
}

/// Cartridges of an adhesive: those that one working day opens are used up on it, so each day has its
/// own.
fn cartridges(
    cures: &[JointCure],
    amounts: &[Amount],
    adhesive: &Adhesive,
    ledger: &mut Ledger,
) -> ShopLine {
    let net = |mark: Option<&str>| -> Volume {
        amounts
            .iter()
            .filter(|a| a.what == adhesive.words && mark.is_none_or(|mark| a.mark == mark))
            .filter_map(|a| a.volume)
            .sum()
    };
    let whole = net(None);
    let mut nets: Vec<Volume> = sessions(cures, adhesive)
        .iter()
        .map(|marks| marks.iter().map(|mark| net(Some(mark))).sum())
        .collect();
    // What cures are not worked out for goes with the first of them.
    let rest = whole - nets.iter().copied().sum();
    match nets.first_mut() {
        Some(first) => *first += rest,
        None => nets.push(whole),
    }
    let gross: Vec<Volume> = nets.into_iter().map(|net| adhesive.gross(net)).collect();
    // The pack that leaves the least over on all days together; of equal ones the smaller.
    let total: Volume = gross.iter().copied().sum();
    let count = |pack: Volume| gross.iter().map(|g| (*g / pack).ceil().max(1.0)).sum::<f64>();
    let pack = adhesive
        .packs
        .iter()
        .copied()
        .min_by(|a, b| (*a * count(*a)).total_cmp(&(*b * count(*b))).then(a.total_cmp(b)))
        .unwrap_or(Volume::ml(290.0));
    let left = pack * count(pack) - total;
    ledger.push(
        Figure::new(
            format!("quantities.volume.{}", adhesive.name),
            format!("{} in place", adhesive.words),
            whole.to_ml(),
            "ml",
        )
        .formula("Σ section × length; mm² × m = ml")
        .input("with waste", format!("{:.0} ml", total.to_ml()))
        .input("days on which a cartridge is opened", gross.len().to_string())
        .input("left", format!("{:.0} ml", left.to_ml()))
        .source("geometry; waste share of the adhesive's row", Seen::Computed)
        .assume("a cartridge is used up on the day on which it is opened, common practice"),
    );
    ShopLine {
        what: adhesive.words.clone(),
        need: format!("{:.0}\u{a0}ml", whole.to_ml().ceil()),
        buy: format!(
            "{}, {:.0}\u{a0}ml left",
            packs(&[(pack.to_ml(), count(pack) as u32)], "ml"),
            left.to_ml()
        ),
        price: None,
    }
}

/// Marks of the joints that use an adhesive, by the working day on which they are made.
fn sessions(cures: &[JointCure], adhesive: &Adhesive) -> Vec<Vec<String>> {
    let mut joints: Vec<&JointCure> = cures
        .iter()
        .filter(|joint| joint.product.as_deref() == Some(adhesive.name.as_str()))
        .collect();
    joints.sort_by(|a, b| a.made.total_cmp(&b.made));
    let mut list: Vec<(Duration, Vec<String>)> = Vec::new();
    for joint in joints {
        match list.last_mut() {
            Some((opened, marks)) if joint.made - *opened <= OPEN_CARTRIDGE => {
                marks.push(joint.mark.clone());
            }
            _ => list.push((joint.made, vec![joint.mark.clone()])),
        }
    }
    list.into_iter().map(|(_, marks)| marks).collect()
}

/// Feet that are bolted through the skin, and how many of each line.
fn bolted(build: &Build) -> impl Iterator<Item = (&BoltedFoot, usize)> {
    build.mounts.iter().filter_map(|mount| match &mount.kind {
        MountKind::BoltedFoot(foot) => Some((foot, mount.at.len())),
        _ => None,
    })
}

fn preparation(build: &Build, work: &Work, tables: &Tables) -> Vec<ShopLine> {
    let mut lines = Vec::new();
    let bonds: Vec<&Bond> = work.bonds.iter().collect();
    let faces = bonds
        .first()
        .map(|first| faces_of(build, first))
        .or_else(|| bolted(build).next().map(|(foot, _)| faces_under(build, &foot.angle.material)));
    let cleaner = match &faces {
        Some(faces) => cleaner_for(tables, faces),
        None => tables.cleaners.iter().next(),
    };
    let housing = work.entry.as_ref().map_or(Area::ZERO, |e| e.foot.area() * 2.0);
    let legs: Area = bolted(build)
        .map(|(foot, count)| {
            *foot.angle_length * foot.angle.a.min(foot.angle.b) * (2.0 * count as f64)
        })
        .sum();
    let housing = housing + legs;
    let area: Area = bonds.iter().map(|b| b.length * b.width * 2.0).sum::<Area>() + housing;
    let feet: usize = bolted(build).map(|(_, count)| count).sum();
    let joints = bonds.len() + feet + usize::from(work.entry.is_some());
    if let (Ok(pack), Some(cleaner)) = (tables.pack("wipes"), cleaner) {
        // Wipes to clean, and two dry ones a joint for what comes out of it.
        let need = wipes_for(cleaner, area, joints) + 2.0 * joints as f64;
        lines.push(ShopLine {
            what: "lint-free wipes".into(),
            need: format!("{need:.0}"),
            buy: packs(&pack.packs_for(pack.with_spares(need)), ""),
            price: None,
        });
    }
    if let (Ok(pack), Some(cleaner)) = (tables.pack("cleaner"), cleaner) {
        // Wiped twice over.
        let need = cleaner.volume_for(area).to_ml() * 2.0;
        lines.push(ShopLine {
            what: cleaner.words.clone(),
            need: format!("{:.0}\u{a0}ml", need.ceil()),
            buy: packs(&pack.packs_for(pack.with_spares(need)), "ml"),
            price: None,
        });
    }
    let primer = faces.as_ref().and_then(|faces| primer_for(tables, &bonds, faces));
    if let (Ok(pack), Some(primer)) = (tables.pack("primer"), primer) {
        let need = primer.volume_for(area - housing).to_ml();
        lines.push(ShopLine {
            what: primer.words.clone(),
            need: format!("{:.0}\u{a0}ml", need.ceil()),
            buy: packs(&pack.packs_for(pack.with_spares(need)), "ml"),
            price: None,
        });
    }
    if let Ok(pack) = tables.pack("masking-tape") {
        let round: Length = work.bonds.iter().map(|b| (b.length + b.width) * 2.0).sum();
        let entry =
            work.entry.as_ref().map_or(Length::ZERO, |e| (e.foot.width() + e.foot.height()) * 2.0);
        let need = (round + entry).to_m();
        lines.push(ShopLine {
            what: "masking tape".into(),
            need: format!("{need:.1}\u{a0}m"),
            buy: packs(&pack.packs_for(pack.with_spares(need)), "m"),
            price: None,
        });
    }
    lines
}

/// Tapes with the width and thickness in use, each once.
fn tapes(work: &Work) -> Vec<(&Tape, Length, Length)> {
    let mut list: Vec<(&Tape, Length, Length)> = Vec::new();
    for bond in &work.bonds {
        let (Some((tape, thickness)), Some(strip)) = (&bond.tape, bond.strips.first()) else {
            continue;
        };
        let entry = (tape, strip.height(), *thickness);
        if !list.iter().any(|(t, w, k)| t.name == entry.0.name && *w == entry.1 && *k == entry.2) {
            list.push(entry);
        }
    }
    list
}

/// Adhesives and sealants, each once.
fn adhesives<'a>(build: &'a Build, work: &'a Work) -> Vec<&'a Adhesive> {
    let bonds =
        work.bonds.iter().filter(|b| !b.beads.is_empty()).filter_map(|b| b.adhesive.as_ref());
    let sealing = build.entry.as_ref().filter(|_| work.entry.is_some()).map(|e| &e.sealing.value);
    let packers = packer_sealant(build).filter(|_| packers(work).next().is_some());
    let mut list: Vec<&Adhesive> = Vec::new();
    let bolted =
        work.mounts.iter().filter_map(|mount| match &build.mounts.get(mount.mount)?.kind {
            MountKind::BoltedFoot(foot) => Some(&foot.sealing.value),
            _ => None,
        });
    for adhesive in bonds.chain(sealing).chain(packers).chain(bolted) {
        if !list.iter().any(|known| known.name == adhesive.name) {
            list.push(adhesive);
        }
    }
    list
}

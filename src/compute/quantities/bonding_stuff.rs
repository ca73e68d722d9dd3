//! Tape, adhesive, sealant, cleaner, primer, masking.

use super::{Amount, ShopLine, packs};
use crate::build::{Build, Finish, MountKind};
use crate::derive::{Body, Bond, PartKind, Work};
use crate::source::{Figure, Ledger, Seen};
use crate::tables::{Adhesive, Tables, Tape};
use crate::units::{Area, Length, Volume, display};

/// Wipes a face: one before and one after abrading, one to dry. Common practice.
const WIPES_A_FACE: f64 = 3.0;
/// A seal's fillet round the edge of a housing: legs of 6 mm, a triangle. Common practice.
const FILLET: f64 = 6.0;

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
            volume: Some(Area::mm2(FILLET * FILLET / 2.0) * round * 2.0),
        });
    }
    if let Some(sealant) = packer_sealant(build) {
        for (mark, length, width) in packers(work) {
            let round = (length + width) * 2.0;
            list.push(Amount {
                mark,
                what: sealant.words.clone(),
                length: round,
                volume: Some(Area::mm2(FILLET * FILLET / 2.0) * round),
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
            MountKind::Hinge(_) => None,
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
    amounts: &[Amount],
    tables: &Tables,
    ledger: &mut Ledger,
) -> Vec<ShopLine> {
    let mut lines = Vec::new();
    for (tape, width, thickness) in tapes(work) {
        let length: Length =
            amounts.iter().filter(|a| a.what == tape.words).map(|a| a.length).sum();
        // A tenth more for ends and a strip that goes wrong; common practice.
        let with_waste = length * 1.1;
        let roll = tape.roll_lengths.iter().copied().find(|roll| *roll >= with_waste);
        let roll = roll.or_else(|| tape.roll_lengths.last().copied()).unwrap_or(Length::m(5.0));
        let rolls = (with_waste / roll).ceil().max(1.0);
        lines.push(ShopLine {
            what: format!(
                "{}, {}\u{a0}mm wide, {}\u{a0}mm thick",
                tape.words,
                display::number_short(width.to_mm(), 1),
                display::number_short(thickness.to_mm(), 1)
            ),
            need: format!("{:.2}\u{a0}m", length.to_m()),
            buy: packs(&[(roll.to_m(), rolls as u32)], "m"),
            price: None,
        });
        ledger.push(
            Figure::new("quantities.tape", "tape laid", length.to_m(), "m")
                .formula("Σ strips × length")
                .input("to buy", format!("{rolls:.0} × {:.0} m", roll.to_m()))
                .source("strip layout of this build", Seen::Computed),
        );
    }
    for adhesive in adhesives(build, work) {
        let net: Volume =
            amounts.iter().filter(|a| a.what == adhesive.words).filter_map(|a| a.volume).sum();
        let gross = adhesive.gross(net);
        let pack = adhesive
            .packs
            .iter()
            .copied()
            .find(|p| *p >= gross)
            .or_else(|| adhesive.packs.last().copied());
        let pack = pack.unwrap_or(Volume::ml(290.0));
        let count = (gross / pack).ceil().max(1.0);
        lines.push(ShopLine {
            what: adhesive.words.clone(),
            need: format!("{:.0}\u{a0}ml", net.to_ml().ceil()),
            buy: packs(&[(pack.to_ml(), count as u32)], "ml"),
            price: None,
        });
        ledger.push(
            Figure::new(
                format!("quantities.volume.{}", adhesive.name),
                format!("{} in place", adhesive.words),
                net.to_ml(),
                "ml",
            )
            .formula("Σ section × length; mm² × m = ml")
            .input("with waste", format!("{:.0} ml", gross.to_ml()))
            .source("geometry; waste share of the adhesive's row", Seen::Computed),
        );
    }
    if !work.bonds.is_empty() || work.entry.is_some() {
        lines.extend(preparation(build, work, tables));
    }
    lines
}

fn preparation(build: &Build, work: &Work, tables: &Tables) -> Vec<ShopLine> {
    let mut lines = Vec::new();
    // Each joint has two faces.
    let faces = 2.0 * work.bonds.len() as f64 + if work.entry.is_some() { 2.0 } else { 0.0 };
    let area: Area = work.bonds.iter().map(|b| b.length * b.width * 2.0).sum();
    if let Ok(pack) = tables.pack("wipes") {
        lines.push(ShopLine {
            what: "lint-free wipes".into(),
            need: format!("{:.0}", faces * WIPES_A_FACE),
            buy: packs(&pack.packs_for(pack.with_spares(faces * WIPES_A_FACE)), ""),
            price: None,
        });
    }
    if let (Ok(pack), Some(cleaner)) = (tables.pack("cleaner"), tables.cleaners.iter().next()) {
        // Wiped twice over.
        let need = area / cleaner.covers_by_ml * 2.0;
        lines.push(ShopLine {
            what: cleaner.words.clone(),
            need: format!("{:.0}\u{a0}ml", need.ceil()),
            buy: packs(&pack.packs_for(pack.with_spares(need)), "ml"),
            price: None,
        });
    }
    let finish = build.vehicle.as_ref().map(|v| *v.skin.finish);
    let bare = finish == Some(Finish::Bare)
        || work.bonds.iter().any(|b| b.adhesive.as_ref().is_some_and(|a| a.needs_primer));
    if let (true, Ok(pack), Some(primer)) =
        (bare, tables.pack("primer"), tables.primers.iter().next())
    {
        let need = area / primer.covers_by_ml;
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
    for adhesive in bonds.chain(sealing).chain(packers) {
        if !list.iter().any(|known| known.name == adhesive.name) {
            list.push(adhesive);
        }
    }
    list
}

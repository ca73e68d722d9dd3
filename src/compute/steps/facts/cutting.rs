//! Pieces to cut.

use super::{Facts, Item, Sources, item, say, with_range};
use crate::derive::{Body, Part, PartKind, Piece};
use crate::tables::MaterialKind;
use crate::units::{Length, display};

/// Whether a part is cut from a bar or plate, and not bought ready.
pub(super) fn is_cut(part: &Part) -> bool {
    matches!(part.body, Body::Bar { .. } | Body::Plate { .. })
}

pub(super) fn set(facts: &mut Facts, from: &Sources<'_>) {
    let saw = &from.build.cutting.saw;
    facts.set("saw.words", saw.words.clone());
    let finest = saw.teeth.iter().max();
    facts.set("saw.teeth", finest.map_or("1".to_owned(), |teeth| format!("{teeth} teeth an inch")));
    let disc = saw.teeth.is_empty() && matches!(saw.name.as_str(), "angle-grinder" | "chop-saw");
    facts.count("saw.disc", usize::from(disc));
    let trim = *from.build.cutting.trim;
    facts.number("trim", trim.to_mm(), say::mm(trim));
    let range = say::range(trim.to_mm() - 1.0, trim.to_mm());
    facts.range("trim", range);

    let mut cuts: Vec<Item> = Vec::new();
    let mut blocks: Vec<Item> = Vec::new();
    let mut sections: Vec<(String, Length)> = Vec::new();
    let (mut pieces, mut aluminium, mut steel) = (0, 0, 0);
    for part in &from.work.parts {
        let names: Vec<&str> = part.pieces.iter().map(|piece: &Piece| piece.mark.as_str()).collect();
        let row = |length: Length| {
            with_range(
                item([
                    ("name", part.name.clone()),
                    ("marks", say::marks(&names)),
                    ("each", names.join(" ")),
                    ("length", say::mm(length)),
                ]),
                facts.about(length.to_mm(), "setting"),
            )
        };
        let count = part.pieces.len();
        let (length, section, metal) = match &part.body {
            Body::Bar { section, length, .. } => {
                let metal = from.tables.material(&section.material).ok().map(|row| row.kind);
                (*length, Some(section.words.clone()), metal)
            }
            Body::Plate { material, length, section, .. } => {
                (*length, section.as_ref().map(|row| row.words.clone()), Some(material.kind))
            }
            Body::Block { length, width, height, .. } => {
                if matches!(part.kind, PartKind::HingePacker | PartKind::PanelPacker) {
                    let block = item([
                        ("name", part.name.clone()),
                        ("marks", say::marks(&names)),
                        ("length", say::mm(*length)),
                        ("width", say::mm(*width)),
                    ]);
                    let range = say::range(height.to_mm() - 0.5, height.to_mm() + 0.5);
                    blocks.push(with_range(block, range));
                }
                continue;
            }
            Body::Bought { .. } | Body::OnVehicle => continue,
        };
        cuts.push(row(length));
        pieces += count;
        if metal == Some(MaterialKind::Steel) || metal == Some(MaterialKind::Stainless) {
            steel += count;
        } else {
            aluminium += count;
        }
        let section = section.unwrap_or_else(|| "plate".to_owned());
        match sections.iter_mut().find(|(name, _)| *name == section) {
            Some((_, all)) => *all += length * count as f64,
            None => sections.push((section, length * count as f64)),
        }
    }
    let powered = matches!(saw.name.as_str(), "mitre-saw" | "bandsaw" | "jigsaw" | "chop-saw" | "angle-grinder" | "circular-saw");
    facts.count("cuts.pieces", pieces);
    facts.count("cuts.powered", if powered { pieces } else { 0 });
    facts.count("cuts.aluminium", if powered { 0 } else { aluminium });
    facts.count("cuts.steel", if powered { 0 } else { steel });
    let rows = sections.into_iter().map(|(section, all)| {
        let need = display::with_unit(&display::number(all.to_m(), 2), "m");
        item([("section", section), ("need", need)])
    });
    facts.list("cut-sections", rows.collect());
    facts.list("cuts", cuts);
    facts.list("soft-blocks", blocks);
}

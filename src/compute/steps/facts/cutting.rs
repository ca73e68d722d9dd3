//! Pieces to cut.

use super::{Facts, Item, Sources, item, say, with_range};
use crate::compute::cut_list::Limits;
use crate::derive::{Body, Ends, Part, PartKind, Piece};
use crate::tables::MaterialKind;
use crate::units::{Angle, Length, display};

/// Whether a part is cut from a bar or plate, and not bought ready.
pub(super) fn is_cut(part: &Part) -> bool {
    matches!(part.body, Body::Bar { .. } | Body::Plate { .. })
}

/// "both ends 45°", or each end by its own angle.
fn slant(ends: Ends) -> String {
    let told = |angle: Angle| format!("{}°", display::number_short(angle.to_deg().abs(), 1));
    let (zero, far) = (told(ends.zero), told(ends.far));
    if zero == far { format!("both ends {zero}") } else { format!("ends {zero} and {far}") }
}

pub(super) fn set(facts: &mut Facts, from: &Sources<'_>) {
    let saw = &from.build.cutting.saw;
    facts.set("saw.words", saw.words.clone());
    let finest = saw.teeth.iter().max();
    facts.set("saw.teeth", finest.map_or("1".to_owned(), |teeth| format!("{teeth} teeth an inch")));
    let disc = saw.teeth.is_empty() && matches!(saw.name.as_str(), "angle-grinder" | "chop-saw");
    facts.count("saw.disc", usize::from(disc));
    let trim = *from.build.cutting.trim;
    let sawn =
        |part: &Part| matches!(part.body, Body::Bar { .. } | Body::Plate { section: Some(_), .. });
    let trimmed = if from.work.parts.iter().any(sawn) { trim.to_mm() } else { 0.0 };
    facts.number("trim", trimmed, say::mm(trim));
    let range = say::range(trim.to_mm() - 1.0, trim.to_mm());
    facts.range("trim", range);

    let mut cuts: Vec<Item> = Vec::new();
    let mut blocks: Vec<(Item, Heights)> = Vec::new();
    let mut wedges: Vec<Item> = Vec::new();
    let mut sections: Vec<(String, Length)> = Vec::new();
    let (mut pieces, mut aluminium, mut steel, mut mitres) = (0, 0, 0, 0);
    for part in &from.work.parts {
        let names: Vec<&str> =
            part.pieces.iter().map(|piece: &Piece| piece.mark.as_str()).collect();
        let row = |length: Length, size: String| {
            let limits = Limits::of(length, saw, from.tables);
            with_range(
                item([
                    ("name", part.name.clone()),
                    ("marks", say::marks(&names)),
                    ("each", names.join(" ")),
                    ("length", size),
                ]),
                say::range(limits.low.to_mm(), limits.high.to_mm()),
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
                if matches!(
                    part.kind,
                    PartKind::HingePacker
                        | PartKind::PanelPacker
                        | PartKind::ClampPacker
                        | PartKind::PropPacker
                ) {
                    let block = item([
                        ("name", part.name.clone()),
                        ("each", names.join(" ")),
                        ("marks", say::marks(&names)),
                        ("length", say::mm(*length)),
                        ("width", say::mm(*width)),
                    ]);
                    let height = display::number_short(height.to_mm(), 1);
                    let heights = names.iter().map(|mark| ((*mark).to_owned(), height.clone()));
                    let same = |row: &&mut (Item, Heights)| {
                        ["name", "length", "width"]
                            .iter()
                            .all(|field| row.0[*field] == block[*field])
                    };
                    match blocks.iter_mut().find(same) {
                        Some((old, told)) => {
                            add_marks(old, &block);
                            told.extend(heights);
                        }
                        None => blocks.push((block, heights.collect())),
                    }
                }
                continue;
            }
            Body::Wedge { length, width, thin, thick, .. } => {
                wedges.push(item([
                    ("name", part.name.clone()),
                    ("marks", say::marks(&names)),
                    ("length", say::mm(*length)),
                    ("width", say::mm(*width)),
                    ("thin", say::mm(*thin)),
                    ("thick", say::mm(*thick)),
                ]));
                continue;
            }
            Body::Bought { .. } | Body::OnVehicle => continue,
        };
        // Pieces of one name and length are cut at one setting, whatever holes they get.
        let size = match &part.body {
            Body::Plate { width, section: None, .. } => {
                format!("{} by {}", say::mm(length), say::mm(*width))
            }
            Body::Bar { ends, .. } if !ends.are_square() => {
                mitres += count;
                format!("{}, {},", say::mm(length), slant(*ends))
            }
            _ => say::mm(length),
        };
        let new = row(length, size);
        let same = |old: &&mut Item| old["name"] == new["name"] && old["length"] == new["length"];
        match cuts.iter_mut().find(same) {
            Some(old) => add_marks(old, &new),
            None => cuts.push(new),
        }
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
    facts.count("mitres", mitres);
    // Cable and tape are cut with a blade; the time goes with the rest.
    for stated in &from.build.lengths {
        let names: Vec<String> = if *stated.count == 1 {
            vec![stated.mark.value.clone()]
        } else {
            (1..=*stated.count).map(|k| format!("{}{k}", *stated.mark)).collect()
        };
        let names: Vec<&str> = names.iter().map(String::as_str).collect();
        let limits = Limits::of(*stated.length, saw, from.tables);
        cuts.push(with_range(
            item([
                ("name", stated.name.value.clone()),
                ("marks", say::marks(&names)),
                ("each", names.join(" ")),
                ("length", say::mm(*stated.length)),
            ]),
            say::range(limits.low.to_mm(), limits.high.to_mm()),
        ));
    }
    let powered = matches!(
        saw.name.as_str(),
        "mitre-saw" | "bandsaw" | "jigsaw" | "chop-saw" | "angle-grinder" | "circular-saw"
    );
    facts.count("cuts.pieces", pieces);
    let bars = from.work.parts.iter().filter(|part| matches!(part.body, Body::Bar { .. })).count();
    facts.count("cuts.bars", bars);
    facts.count("cuts.powered", if powered { pieces } else { 0 });
    facts.count("cuts.aluminium", if powered { 0 } else { aluminium });
    facts.count("cuts.steel", if powered { 0 } else { steel });
    let rows = sections.into_iter().map(|(section, all)| {
        let need = display::with_unit(&display::number(all.to_m(), 2), "m");
        item([("section", section), ("need", need)])
    });
    facts.list("cut-sections", rows.collect());
    facts.list("cuts", cuts);
    let blocks = blocks.into_iter().map(|(mut row, mut heights)| {
        heights.sort_by_key(|(mark, _)| say::mark_order(mark));
        let heights: Vec<String> = heights.into_iter().map(|(_, height)| height).collect();
        let told = display::with_unit(&say::list(&heights), "mm");
        row.insert("heights".to_owned(), told);
        row
    });
    facts.list("soft-blocks", blocks.collect());
    facts.list("wedges", wedges);
}

/// Height of each block by its mark.
type Heights = Vec<(String, String)>;

/// Takes the marks of another row into this one.
pub(super) fn add_marks(row: &mut Item, other: &Item) {
    let each = format!("{} {}", row["each"], other["each"]);
    let mut all: Vec<&str> = each.split(' ').collect();
    all.sort_by_key(|mark| say::mark_order(mark));
    row.insert("marks".to_owned(), say::marks(&all));
    row.insert("each".to_owned(), all.join(" "));
}

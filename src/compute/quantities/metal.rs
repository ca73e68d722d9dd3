//! Bars and parts that are bought ready.

use super::ShopLine;
use crate::compute::cut_list::CutList;
use crate::derive::{Body, PartKind, Work};
use crate::units::{Length, Unit, display};
use std::collections::BTreeSet;

/// Bars to buy.
pub(super) fn lines(cuts: Option<&CutList>) -> Vec<ShopLine> {
    let Some(cuts) = cuts else { return Vec::new() };
    let sheets = cuts.sheet_sections.iter().flat_map(|section| {
        section.buy.iter().map(|(length, width, count, price)| ShopLine {
            what: format!(
                "{}, {}\u{a0}×\u{a0}{}",
                section.stuff.words(),
                display::number(length.to_mm(), 0),
                display::in_unit(*width, Unit::MM, 0)
            ),
            need: count.to_string(),
            buy: count.to_string(),
            price: price.map(|one| one * u64::from(*count)),
        })
    });
    cuts.sections
        .iter()
        .flat_map(|section| {
            section.buy.iter().map(|(length, count, price)| ShopLine {
                what: format!(
                    "{}, {} long",
                    section.section.words,
                    display::in_unit(*length, Unit::MM, 0)
                ),
                need: count.to_string(),
                buy: count.to_string(),
                price: price.map(|one| one * u64::from(*count)),
            })
        })
        .chain(sheets)
        .collect()
}

/// Parts bought ready, panels and hinges among them, and plates and blocks that no sheet is stated for.
pub(super) fn bought(work: &Work, cuts: Option<&CutList>) -> Vec<ShopLine> {
    let from_sheet: BTreeSet<&str> = cuts
        .iter()
        .flat_map(|cuts| &cuts.plates)
        .flat_map(|plate| plate.pieces.iter().map(|piece| piece.mark.as_str()))
        .collect();
    let cut = |part: &&crate::derive::Part| {
        !part.pieces.iter().any(|piece| from_sheet.contains(piece.mark.as_str()))
    };
    let ready = work
        .parts
        .iter()
        .filter(cut)
        .filter(|part| {
            !matches!(part.kind, PartKind::Rail | PartKind::Skin | PartKind::SkinUnderFoot)
        })
        .filter_map(|part| {
            let what = match &part.body {
                Body::Bought { item } => item.clone(),
                Body::Block { material, length, width, height } => {
                    format!("{} block, {}", material.words, by(&[length, width, height]))
                }
                Body::Plate { material, length, width, thickness, section: None, .. } => {
                    format!("{} plate, {}", material.words, by(&[length, width, thickness]))
                }
                Body::Wedge { material, length, width, thin, thick } => {
                    let [thin, thick] =
                        [thin, thick].map(|size| display::number_short(size.to_mm(), 1));
                    let edges = display::with_unit(&format!("{thin} to {thick}"), "mm");
                    format!("{} wedge, {}, {edges} thick", material.words, by(&[length, width]))
                }
                Body::Bar { .. } | Body::Plate { .. } | Body::OnVehicle => return None,
            };
            Some((what, part.pieces.len()))
        });
    let mut counted: Vec<(String, usize)> = Vec::new();
    for (what, count) in ready {
        match counted.iter_mut().find(|(known, _)| *known == what) {
            Some((_, all)) => *all += count,
            None => counted.push((what, count)),
        }
    }
    counted
        .into_iter()
        .map(|(what, count)| {
            let count = count.to_string();
            ShopLine { what, need: count.clone(), buy: count, price: None }
        })
        .collect()
}

/// "60 × 27 × 4.5 mm", to the tenth that parts are made to.
fn by(sizes: &[&Length]) -> String {
    let told: Vec<String> =
        sizes.iter().map(|size| display::number_short(size.to_mm(), 1)).collect();
    display::with_unit(&told.join("\u{a0}×\u{a0}"), "mm")
}

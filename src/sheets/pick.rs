//! Some sheets of a packet: kinds, steps, parts.

use super::{Basis, Kind, handover, step};
use crate::derive::Body;
use crate::page::{Packet, Sheet};
use std::collections::BTreeSet;

/// What nobody has in this packet, and what there is instead.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unknown {
    /// The word that was asked for.
    pub wanted: String,
    /// Kinds of sheet, as they are asked for.
    pub kinds: Vec<String>,
    /// How many steps there are.
    pub steps: usize,
    /// Marks of the parts that have a sheet.
    pub marks: Vec<String>,
}

/// Keeps the sheets that are asked for, in the packet's order: of a kind by the word on its tab, of a step
/// by its number, name or title, of a part (its holes and its templates) by its mark or name. A word
/// that is both is a kind first, then a step.
///
/// # Errors
/// The first word that names nothing here.
pub fn pick(packet: &mut Packet, basis: &Basis, wanted: &[String]) -> Result<(), Unknown> {
    let mut kept = BTreeSet::new();
    for word in wanted {
        let word = word.trim();
        let found = found(packet, basis, word);
        if found.is_empty() {
            return Err(unknown(packet, basis, word));
        }
        kept.extend(found);
    }
    let mut index = 0;
    packet.sheets.retain(|_| {
        index += 1;
        kept.contains(&(index - 1))
    });
    Ok(())
}

/// Places of the sheets that a word means.
fn found(packet: &Packet, basis: &Basis, word: &str) -> Vec<usize> {
    let places = |wanted: &dyn Fn(&Sheet) -> bool| -> Vec<usize> {
        packet.sheets.iter().enumerate().filter(|(_, s)| wanted(s)).map(|(at, _)| at).collect()
    };
    let of_kind = places(&|sheet| {
        sheet.tab.as_ref().is_some_and(|tab| {
            // "worked" is easier to type than "worked out".
            let mut names =
                [tab.word.as_str(), tab.word.split(' ').next().unwrap_or("")].into_iter();
            names.any(|name| name.eq_ignore_ascii_case(word))
        })
    });
    if !of_kind.is_empty() {
        return of_kind;
    }
    if let Some(step) = handover::find(basis, word) {
        let anchor = step::anchor(step);
        return places(&|sheet| sheet.anchor == anchor);
    }
    let marks = marks_of(basis, word);
    places(&|sheet| is_of_parts(sheet) && tells(sheet, &marks))
}

/// Marks that a word means: the mark itself, or all of a part with this name.
fn marks_of(basis: &Basis, word: &str) -> Vec<String> {
    let mut marks: Vec<String> = Vec::new();
    for part in &basis.work.parts {
        for piece in &part.pieces {
            if piece.mark.eq_ignore_ascii_case(word) || part.name.eq_ignore_ascii_case(word) {
                marks.push(piece.mark.clone());
            }
        }
    }
    let mounts = basis.work.mounts.iter().map(|mount| &mount.mark);
    marks.extend(mounts.filter(|mark| mark.eq_ignore_ascii_case(word)).cloned());
    marks
}

/// Part sheets and templates.
fn is_of_parts(sheet: &Sheet) -> bool {
    let kinds = [Kind::Part.word(), Kind::Template.word()];
    sheet.tab.as_ref().is_some_and(|tab| kinds.contains(&tab.word.as_str()))
}

/// Whether a sheet speaks of one of the marks, in words or in a drawing.
pub(super) fn tells(sheet: &Sheet, marks: &[String]) -> bool {
    // What a sheet holds is told by its whole content, drawings among it.
    let told = format!("{} {:?}", sheet.title, sheet.blocks);
    let words: BTreeSet<&str> = told.split(|letter: char| !letter.is_alphanumeric()).collect();
    marks.iter().any(|mark| words.contains(mark.as_str()))
}

fn unknown(packet: &Packet, basis: &Basis, word: &str) -> Unknown {
    let mut kinds: Vec<String> = packet
        .sheets
        .iter()
        .filter_map(|sheet| sheet.tab.as_ref())
        .map(|tab| tab.word.to_lowercase())
        .collect();
    kinds.dedup();
    let mut marks: Vec<String> = Vec::new();
    let made = basis.work.parts.iter().filter(|part| !matches!(part.body, Body::OnVehicle));
    for piece in made.flat_map(|part| &part.pieces) {
        let one = [piece.mark.clone()];
        if packet.sheets.iter().any(|sheet| is_of_parts(sheet) && tells(sheet, &one)) {
            marks.extend(one);
        }
    }
    Unknown { wanted: word.to_owned(), kinds, steps: basis.results.steps.steps.len(), marks }
}

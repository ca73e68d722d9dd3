//! Full-size templates of plates, angles and the entry's foot, with bars that prove the print.

use super::part::{anchor, marks};
use super::scenes::template_page;
use super::{Basis, Kind};
use crate::derive::{Body, Hole, Part, PartKind};
use crate::page::Sheet;
use crate::page::block::{Blank, Block, Figure};
use crate::page::text::Text;
use crate::units::Length;

/// What a template has room for beside its bars, mm: down and across the sheet.
const ROOM: (f64, f64) = (196.0, 146.0);

/// What is shorter is marked out faster with a square.
const LEAST: Length = Length::mm(60.0);

/// One outline on a template.
pub(super) struct Outline<'a> {
    /// Name and marks: "foot plate D1, D2, D3".
    pub name: String,
    /// Face name, where a part has several.
    pub face: String,
    /// Along the datum edge, downwards on the sheet.
    pub length: Length,
    /// Away from the datum edge, to the right.
    pub width: Length,
    /// Holes with their place as drawn: from the upper end, from the datum edge.
    pub holes: Vec<(&'a Hole, Length, Length)>,
    /// Distance from the upper end to zero: zero, or the length where zero is at the lower end.
    pub zero_low: bool,
    /// Line of the heel of an angle on it: distance from the datum edge and length from the upper end.
    pub heel: Option<(Length, Length, Length)>,
    /// Words on the datum line.
    pub datum: String,
    /// From where it is seen.
    pub seen: String,
}

/// One sheet for each part that fits one page.
pub(super) fn template(basis: &Basis) -> Vec<Sheet> {
    let mut sheets = Vec::new();
    for (index, part) in basis.work.parts.iter().enumerate() {
        if !matches!(part.kind, PartKind::FootPlate | PartKind::FootAngle | PartKind::Direct) {
            continue;
        }
        // Its outline would have to slant: a mitred end is marked by its angle, not by paper.
        if matches!(&part.body, Body::Bar { ends, .. } if !ends.are_square()) {
            continue;
        }
        let outlines: Vec<Outline> = part
            .faces
            .iter()
            .enumerate()
            .filter_map(|(number, face)| {
                let holes: Vec<(&Hole, Length, Length)> = basis
                    .work
                    .holes
                    .iter()
                    .filter(|h| h.part == index && h.face == number)
                    .map(|h| {
                        let down = if face.runs_left { face.length - h.at.x } else { h.at.x };
                        (h, down, h.at.y)
                    })
                    .collect();
                (!holes.is_empty()).then(|| Outline {
                    name: format!("{} {}", part.name, marks(part)),
                    face: if part.faces.len() > 1 { face.name.clone() } else { String::new() },
                    length: face.length,
                    width: face.width,
                    holes,
                    zero_low: face.runs_left,
                    heel: heel(basis, part),
                    datum: match (part.kind, &part.body) {
                        (PartKind::FootPlate, _) => "datum line = inboard edge of plate".into(),
                        (_, Body::Bar { bend: Some(_), .. }) => "datum line = heel".into(),
                        _ => "datum line = datum edge".into(),
                    },
                    seen: turned(&face.seen),
                })
            })
            .collect();
        let small = outlines.iter().any(|outline| outline.length < LEAST);
        if outlines.is_empty() || small || !fits(&outlines) {
            continue;
        }
        let title = format!("Template {} {}", part.name, marks(part));
        sheets.push(sheet(basis, &outlines, title, Some(anchor(part)), &anchor(part)));
    }
    sheets.extend(entry(basis));
    sheets
}

/// A face is drawn turned to the right by a quarter, with its upper side at the right of the sheet.
fn turned(seen: &str) -> String {
    for (from, to) in [
        ("at left", "at top"),
        ("at right", "at bottom"),
        ("at top", "at right"),
        ("at bottom", "at left"),
    ] {
        if let Some(words) = seen.strip_suffix(from) {
            return format!("{words}{to}");
        }
    }
    seen.to_owned()
}

fn fits(outlines: &[Outline]) -> bool {
    let across: f64 = outlines.iter().map(|o| o.width.to_mm() + 12.0).sum();
    outlines.iter().all(|o| o.length.to_mm() <= ROOM.0) && across - 12.0 <= ROOM.1
}

/// Where the angle's heel lies on a foot plate: as far from the datum as the angle's own screw rows
/// ask.
fn heel(basis: &Basis, plate: &Part) -> Option<(Length, Length, Length)> {
    if plate.kind != PartKind::FootPlate {
        return None;
    }
    let piece = plate.pieces.first()?;
    let top = plate.faces.first()?;
    // The angle that stands on this plate, told in the plate's own axes.
    let (angle, stands) = basis
        .work
        .parts_of(PartKind::FootAngle)
        .flat_map(|part| part.pieces.iter().map(move |piece| (part, piece)))
        .min_by(|a, b| {
            let far = |p: &crate::derive::Piece| p.place.origin().distance(piece.place.origin());
            far(a.1).total_cmp(&far(b.1))
        })?;
    let long = angle.faces.first()?.length;
    let from = piece.place.local(stands.place.origin());
    let start = from.x - top.origin.x;
    Some((from.y - top.origin.y, start, start + long))
}

fn sheet(
    basis: &Basis,
    outlines: &[Outline],
    title: String,
    table: Option<String>,
    key: &str,
) -> Sheet {
    let last: Text = match table {
        Some(table) => {
            Text::bold("Actual size, 100\u{a0}%, no fit to page. The table wins: sheet ")
                .and_page(table)
                .and(".")
        }
        None => Text::bold("Actual size, 100\u{a0}%, no fit to page."),
    };
    let blocks = vec![
        Block::Paragraph(last.in_bold()),
        Block::Figure(Figure::new(template_page(basis, outlines), 232.0).at_left()),
        Block::Blanks(vec![
            Blank::value("long: 199.5 to 200.5", "mm"),
            Blank::value("short: 149.5 to 150.5", "mm"),
            Blank::value("P to Q: 249.5 to 250.5", "mm"),
        ]),
    ];
    Sheet {
        anchor: format!("template-{key}"),
        title: if title.chars().count() > 44 {
            format!(
                "Template {}",
                outlines[0].name.split(' ').take(2).collect::<Vec<_>>().join(" ")
            )
        } else {
            title
        },
        purpose: "Outline and punch points at full size. Outside a limit: reprint at 100\u{a0}%."
            .into(),
        tab: Some(Kind::Template.tab()),
        steps: None,
        blocks,
        single_sided: true,
    }
}

/// The foot of the cable entry with its hole in the middle.
fn entry(basis: &Basis) -> Option<Sheet> {
    let entry = basis.work.entry.as_ref()?;
    let hole = basis.work.hole(&entry.hole)?;
    let (length, width) = (entry.foot.width(), entry.foot.height());
    let outline = Outline {
        name: format!("cable entry {}", entry.mark),
        face: String::new(),
        length,
        width,
        holes: vec![(hole, entry.at.x - entry.foot.low().x, entry.at.y - entry.foot.low().y)],
        zero_low: false,
        heel: None,
        datum: "datum line = left edge of foot".into(),
        seen: "from above, front at top".into(),
    };
    if !fits(std::slice::from_ref(&outline)) {
        return None;
    }
    let title = format!("Template cable entry {}", entry.mark);
    Some(sheet(basis, &[outline], title, None, &entry.mark.clone()))
}

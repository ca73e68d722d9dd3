//! Outlines of plates and brackets.

use super::Outline;
use crate::derive::{Body, Hole, Part, PartKind, Piece};
use crate::sheets::Basis;
use crate::sheets::part::marks;
use crate::units::{Angle, Length, display};

/// What is made by an outline: plates, angles, blocks. Tubes have paper that folds around them.
fn has_outline(part: &Part) -> bool {
    let square = match &part.body {
        // An outline with slanting ends is not drawn: the saw line stands in the cut list.
        Body::Bar { ends, section, .. } => ends.are_square() && !section.shape.is_tube(),
        Body::Plate { .. } | Body::Block { .. } | Body::Wedge { .. } => true,
        Body::Bought { .. } | Body::OnVehicle => false,
    };
    square && part.kind != PartKind::Panel
}

/// Faces of a part with holes; of a bent bracket, its flat.
pub(super) fn outlines<'a>(basis: &Basis<'a>, part: &'a Part, index: usize) -> Vec<Outline<'a>> {
    if !has_outline(part) {
        return Vec::new();
    }
    if let Some(flat) = flat(basis, part, index) {
        return vec![flat];
    }
    part.faces
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
                lines: heel(basis, part)
                    .map(|line| (line, "heel line of angle"))
                    .into_iter()
                    .collect(),
                datum: match (part.kind, &part.body) {
                    (PartKind::FootPlate, _) => "datum line = inboard edge of plate".into(),
                    (_, Body::Bar { bend: Some(bend), .. }) => bend_words(*bend),
                    _ => "datum line = datum edge".into(),
                },
                seen: turned(&face.seen),
                on_roof: Vec::new(),
            })
        })
        .collect()
}

/// The flat of a bent bracket, seen on its inside face.
fn flat<'a>(basis: &Basis<'a>, part: &Part, index: usize) -> Option<Outline<'a>> {
    let Body::Plate { length, width, fold: Some(fold), .. } = &part.body else { return None };
    let holes = basis
        .work
        .holes
        .iter()
        .filter(|hole| hole.part == index)
        .map(|hole| {
            let standing = part.faces[hole.face].name == "standing leg";
            let at = fold.on_flat(hole.at, standing);
            (hole, at.x, at.y)
        })
        .collect();
    let (begins, ends) = fold.lines();
    let across = |line: Length| (line, Length::ZERO, *width);
    Some(Outline {
        name: format!("{} {}", part.name, marks(part)),
        face: "flat".into(),
        length: *width,
        width: *length,
        holes,
        zero_low: false,
        lines: vec![(across(begins), "bend from here"), (across(ends), "to here")],
        datum: format!(
            "datum = end of standing leg, bend to {}°",
            display::number_short(fold.between.to_deg(), 1)
        ),
        seen: "inside of the bend, standing leg at left".into(),
        on_roof: Vec::new(),
    })
}

/// Bend line and which way the legs of an angle are bent.
fn bend_words(bend: Angle) -> String {
    let told = display::number_short(bend.to_deg(), 1);
    if bend.is_near(Angle::RIGHT, Angle::deg(0.05)) {
        "datum line = heel".into()
    } else if bend < Angle::RIGHT {
        format!("datum = heel, bend line: close legs to {told}°")
    } else {
        format!("datum = heel, bend line: open legs to {told}°")
    }
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
            let far = |p: &Piece| p.place.origin().distance(piece.place.origin());
            far(a.1).total_cmp(&far(b.1))
        })?;
    let long = angle.faces.first()?.length;
    let from = piece.place.local(stands.place.origin());
    let start = from.x - top.origin.x;
    Some((from.y - top.origin.y, start, start + long))
}

//! The hole through the roof for the cables and the housing over it.

use super::Drawing;
use super::check::moves::{Room, Ways, words};
use super::check::{Foot, edge_of};
use super::draft::{DraftDrilling, DraftHole, DraftPiece, HoleRef, face};
use super::roof::RoofSurface;
use super::rules::{l030, written};
use super::work::{Array, Body, HoleKind, PartKind};
use crate::build::{Entry, Roof};
use crate::geometry::{Dir3, Frame3, Insets, Point2, Point3, Rect};
use crate::source::Span;
use crate::units::{Length, Mass};

/// Least way from the housing's foot to anything else: a sealant bead and a finger to draw it.
const BESIDE: Length = Length::mm(10.0);

/// The entry while its hole has no id yet.
pub(super) struct DraftEntry {
    pub mark: String,
    pub at: Point3,
    pub foot: Rect,
    pub hole: HoleRef,
}

/// Drills the skin and judges the place. `feet` are the plates on the roof.
pub(super) fn place(
    drawing: &mut Drawing<'_>,
    entry: &Entry,
    surface: &RoofSurface,
    arrays: &[Array],
    feet: &[Foot],
) -> Option<DraftEntry> {
    let roof = drawing.build.roof.as_ref()?;
    let middle = Point2::new(*entry.x, *entry.y);
    let foot = Rect::about(middle, *entry.length, *entry.width);
    judge(drawing, entry, roof, foot, arrays, feet);
    let at = middle.at_z(surface.height(middle.x, middle.y));
    let mark = numbered(&entry.mark);
    let skin = add_skin(drawing, roof);
    let hole = drawing.draft.drill(
        skin,
        DraftHole {
            face: 0,
            at: drawing.draft.on_face(skin, 0, at),
            diameter: *entry.hole,
            fastener: *entry.hole,
            kind: HoleKind::Cable,
            countersink: None,
            drilling: DraftDrilling::Apart,
            span: written(&[entry.hole.span, entry.span]),
        },
    );
    drawing.draft.add(DraftPiece {
        kind: PartKind::Entry,
        name: "cable entry".to_owned(),
        mark: Some(mark.clone()),
        body: Body::Bought { item: format!("cable entry housing for {} cables", *entry.cables) },
        faces: Vec::new(),
        place: Frame3::at(foot.low().at_z(at.z)),
        mass: Mass::ZERO,
        holes: Vec::new(),
        span: entry.span,
    });
    Some(DraftEntry { mark, at, foot, hole })
}

/// "E1" for "E"; a mark that ends in a digit stays.
fn numbered(mark: &str) -> String {
    if mark.ends_with(|letter: char| letter.is_ascii_digit()) {
        mark.to_owned()
    } else {
        format!("{mark}1")
    }
}

/// The skin as a part to drill: measured level from the datum, X rearward, Y from the left edge.
fn add_skin(drawing: &mut Drawing<'_>, roof: &Roof) -> usize {
    let corner = Point3::new(Length::ZERO, *roof.width / -2.0, Length::ZERO);
    let skin =
        drawing.build.vehicle.as_ref().map_or(Length::ZERO, |vehicle| *vehicle.skin.thickness);
    let top =
        face("top", Point3::ORIGIN, (Dir3::X, Dir3::Y, Dir3::Z), (*roof.length, *roof.width), skin);
    drawing.draft.add(DraftPiece {
        kind: PartKind::Skin,
        name: "roof skin".to_owned(),
        mark: Some("roof".to_owned()),
        body: Body::OnVehicle,
        faces: vec![top],
        place: Frame3::at(corner),
        mass: Mass::ZERO,
        holes: Vec::new(),
        span: roof.span,
    })
}

fn judge(
    drawing: &mut Drawing<'_>,
    entry: &Entry,
    roof: &Roof,
    foot: Rect,
    arrays: &[Array],
    feet: &[Foot],
) {
    let edge = edge_of(roof);
    let mut others: Vec<(String, Rect, Span)> = Vec::new();
    others.extend(
        arrays
            .iter()
            .map(|array| (drawing.build.the_frame(array.frame), array.outline, array.span)),
    );
    others.extend(
        feet.iter().map(|foot| (format!("the plate of {}", foot.mark), foot.plate, foot.span)),
    );
    others.extend(roof.keep_outs.iter().flat_map(|keep_out| {
        let name = format!("the {}", *keep_out.name);
        keep_out.taken().into_iter().map(move |taken| (name.clone(), taken, keep_out.span))
    }));
    let around: Vec<Rect> =
        others.iter().map(|(_, taken, _)| *taken + Insets::all(BESIDE)).collect();
    let room = Room { within: edge, taken: &around };
    let advice = room.shortest(foot, Ways::All).map_or_else(
        || "no place on this roof is free for it: take a smaller housing".to_owned(),
        |way| format!("move it {}: all is free there", words(way)),
    );
    if !edge.contains_rect(foot) {
        drawing.findings.push(l030::off_roof(entry, &advice));
    }
    for (what, taken, span) in others {
        let gap = if taken.overlaps(foot) { Length::ZERO } else { taken.gap_to(foot) };
        if !gap.clears(BESIDE) {
            let near = l030::Near { what: &what, span, gap, least: BESIDE };
            drawing.findings.push(l030::beside(entry, &near, &advice));
        }
    }
}

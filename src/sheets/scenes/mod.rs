//! Drawings that sheets share: the roof from above, sections, parts, bonds.
//!
//! They place what the work already knows; sizes in a drawing are sizes of the work.

mod battery_plan;
mod board;
mod bond_plan;
mod bracket_section;
mod circuit;
mod entry;
mod face_view;
mod fixture;
mod foot_apart;
mod frame_apart;
mod identity;
mod label_page;
mod lifted;
mod roof_plan;
mod section;
mod side_apart;
mod solid;
mod stack_apart;
mod template_cells;
mod template_page;
mod use_bar;
mod wrap_page;

pub(super) use battery_plan::{battery_plan, clear_of};
pub(super) use bond_plan::bond_plan;
pub(super) use bracket_section::bracket_section;
pub(super) use circuit::{circuit, terminals};
pub(super) use entry::entry_section;
pub(super) use face_view::{end_view, face_view, flat_view, strip_views, wedge_view};
pub(super) use fixture::{fixture_place, fixture_places, fixture_view};
pub(super) use foot_apart::foot_apart;
pub(super) use frame_apart::{Joined, frame_apart, in_order};
pub(super) use identity::{about_long, halves as identity_halves};
pub(super) use lifted::lifted;
pub(super) use roof_plan::{Plan, PlanView, roof_plan};
pub(super) use section::{FootShows, foot_section, hinge_section, roof_section, roof_side};
pub(super) use side_apart::{latch_apart, prop_apart};
pub(super) use stack_apart::stack_apart;
pub(super) use template_cells::{CELLS, cell_size};
pub(super) use template_page::{Shown, beside, template_page};
pub(super) use use_bar::use_bar;
pub(super) use wrap_page::{GAP, ROOM, flap_long, rows_of, words_over_holes};

use crate::derive::{Body, MountPlace, Part, PartKind, Piece, Work};
use crate::geometry::{Frame3, Point3, Rect};
use crate::page::scene::{At, Line, Scene};
use crate::units::Length;

/// A rectangle of the plan or of a plate as corner and size, mm.
pub(super) fn corner_size(rect: Rect) -> (At, (f64, f64)) {
    ((rect.low().x.to_mm(), rect.low().y.to_mm()), (rect.width().to_mm(), rect.height().to_mm()))
}

/// Draws a rectangle.
fn outline(scene: &mut Scene, rect: Rect, line: Line) {
    let (corner, size) = corner_size(rect);
    scene.rectangle(corner, size, line);
}

/// A place given in a piece's own axes, on the vehicle.
fn on_vehicle(place: Frame3, x: Length, y: Length, z: Length) -> Point3 {
    place.place(Point3::new(x, y, z))
}

/// Length, width and height of a body in its own axes, where it has them.
fn extents(body: &Body) -> Option<(Length, Length, Length)> {
    match body {
        Body::Plate { length, width, thickness, .. } => Some((*length, *width, *thickness)),
        Body::Block { length, width, height, .. } => Some((*length, *width, *height)),
        _ => None,
    }
}

/// The piece of a kind that stands nearest to a mount, seen from above.
pub(super) fn piece_at<'a>(
    work: &'a Work,
    kind: PartKind,
    mount: &MountPlace,
) -> Option<(&'a Part, &'a Piece)> {
    work.parts_of(kind)
        .flat_map(|part| part.pieces.iter().map(move |piece| (part, piece)))
        .map(|(part, piece)| {
            let middle = middle(part);
            let at = piece.place.place(middle);
            let (dx, dy) = ((at.x - mount.at.x).to_mm(), (at.y - mount.at.y).to_mm());
            (dx.hypot(dy), part, piece)
        })
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, part, piece)| (part, piece))
}

/// Wedges of a mount: those that lie over one another at its place.
pub(super) fn wedges_at<'a>(work: &'a Work, mount: &MountPlace) -> Vec<(&'a Part, &'a Piece)> {
    let far = |(part, piece): &(&Part, &Piece)| {
        let at = piece.place.place(middle(part));
        (at.x - mount.at.x).to_mm().hypot((at.y - mount.at.y).to_mm())
    };
    let all = || {
        work.parts_of(PartKind::Wedge)
            .flat_map(|part| part.pieces.iter().map(move |piece| (part, piece)))
    };
    let Some(nearest) = all().map(|found| far(&found)).min_by(f64::total_cmp) else {
        return Vec::new();
    };
    // A turned one has its own zero at the leg's other edge; those of other mounts stand farther off.
    let wide = |part: &Part| part.faces.first().map_or(0.0, |face| face.width.to_mm());
    let own = |found: &(&Part, &Piece)| far(found) < wide(found.0) * 1.5 + 10.0;
    all().filter(|found| own(found) && far(found) < nearest + wide(found.0) + 1.0).collect()
}

/// Middle of a part along its own x.
fn middle(part: &Part) -> Point3 {
    let along = match &part.body {
        Body::Plate { width, fold: Some(_), .. } => *width,
        Body::Wedge { length, .. } => *length,
        Body::Bar { length, .. } | Body::Plate { length, .. } | Body::Block { length, .. } => {
            *length
        }
        Body::Bought { .. } | Body::OnVehicle => {
            part.faces.first().map_or(Length::ZERO, |face| face.length)
        }
    };
    Point3::new(along / 2.0, Length::ZERO, Length::ZERO)
}

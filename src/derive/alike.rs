//! Which pieces are alike, so that one sheet serves them all.

use super::draft::{DraftDrilling, DraftHole, DraftPiece};
use super::work::{Body, Ends, PartKind};
use crate::geometry::{Dir3, Frame3, Point3, Vec3};
use crate::units::{Angle, Length};

/// Two pieces are alike when their sizes and holes agree to this. It is far below what a hand can
/// drill: what should come out alike (feet, packers) is rounded where it is worked out, so that
/// mating holes still meet to a hundredth of a millimetre.
const SLACK: Length = Length::mm(0.005);
const SLACK_ANGLE: Angle = Angle::deg(0.01);

/// How one piece becomes another: for each of its holes the other's hole, and its place told in the
/// other's own axes.
pub(super) struct Match {
    pub holes: Vec<usize>,
    pub place: Frame3,
    /// It lies turned about its upright axis, so left and right of it are changed.
    pub turned: bool,
}

/// Whether `piece` is made exactly as `model`, as it lies or (a tube or panel) turned end for end.
pub(super) fn alike(model: &DraftPiece, piece: &DraftPiece) -> Option<Match> {
    let same = model.kind == piece.kind
        && model.name == piece.name
        && model.holes.len() == piece.holes.len()
        && same_body(&model.body, &piece.body);
    if !same {
        return None;
    }
    let as_it_lies = Frame3::WORLD;
    let (own, other) = (ends_of(&model.body), ends_of(&piece.body));
    if own == other
        && let Some(holes) = holes_of(model, piece, as_it_lies)
    {
        return Some(Match { holes, place: piece.place, turned: false });
    }
    // Turned by half, near and far side and both ends change places.
    if own != (Ends { zero: -other.far, far: -other.zero, across: other.across }) {
        return None;
    }
    let turn = half_turn(piece)?;
    let holes = holes_of(model, piece, turn)?;
    // A half turn undoes itself.
    Some(Match { holes, place: piece.place.compose(turn), turned: true })
}

/// Turn by half about the upright axis through the middle, for what may be turned end for end.
fn half_turn(piece: &DraftPiece) -> Option<Frame3> {
    if !matches!(
        piece.kind,
        PartKind::SideTube | PartKind::EndTube | PartKind::CrossTube | PartKind::Panel
    ) {
        return None;
    }
    let face = piece.faces.first()?;
    let (length, width) = (face.length, face.width);
    Frame3::new(
        Point3::new(length, width, Length::ZERO),
        Vec3::mm(-1.0, 0.0, 0.0),
        Vec3::mm(0.0, -1.0, 0.0),
    )
}

/// For each hole of `piece`, told in axes turned by `turn`, the hole of `model` at the same place.
fn holes_of(model: &DraftPiece, piece: &DraftPiece, turn: Frame3) -> Option<Vec<usize>> {
    let place = |owner: &DraftPiece, hole: &DraftHole| -> (Point3, Dir3) {
        let face = &owner.faces[hole.face];
        (face.point(hole.at), face.outward)
    };
    let mut free: Vec<usize> = (0..model.holes.len()).collect();
    let mut found = Vec::with_capacity(piece.holes.len());
    for hole in &piece.holes {
        let (at, outward) = place(piece, hole);
        let (at, outward) = (turn.place(at), turn.place_dir(outward));
        let k = free.iter().position(|k| {
            let other = &model.holes[*k];
            let (other_at, other_outward) = place(model, other);
            at.distance(other_at).fits(SLACK)
                && outward.angle_to(other_outward) < SLACK_ANGLE
                && same_hole(hole, other)
        })?;
        found.push(free.remove(k));
    }
    // A piece without holes must still have the same faces, or it would be measured differently.
    let faces_agree = model.faces.len() == piece.faces.len()
        && model.faces.iter().all(|face| {
            piece.faces.iter().any(|other| {
                other.name == face.name
                    && turn.place_dir(other.outward).angle_to(face.outward) < SLACK_ANGLE
                    && other.length.is_near(face.length, SLACK)
                    && other.width.is_near(face.width, SLACK)
            })
        });
    faces_agree.then_some(found)
}

fn same_hole(a: &DraftHole, b: &DraftHole) -> bool {
    let way = |drilling: DraftDrilling| match drilling {
        DraftDrilling::Apart => 0,
        DraftDrilling::Through(_) => 1,
        DraftDrilling::Ready => 2,
    };
    a.kind == b.kind
        && a.diameter == b.diameter
        && a.countersink == b.countersink
        && way(a.drilling) == way(b.drilling)
}

/// How a bar is cut at its ends; square for what is none.
fn ends_of(body: &Body) -> Ends {
    match body {
        Body::Bar { ends, .. } => *ends,
        _ => Ends::SQUARE,
    }
}

/// Whether the bodies are the same but for the cuts at their ends.
fn same_body(a: &Body, b: &Body) -> bool {
    let near = |x: Length, y: Length| x.is_near(y, SLACK);
    match (a, b) {
        (
            Body::Bar { section: s, length: l, bend: d, plugged: p, .. },
            Body::Bar { section: s2, length: l2, bend: d2, plugged: p2, .. },
        ) => {
            s.name == s2.name
                && near(*l, *l2)
                && near(*p, *p2)
                && match (d, d2) {
                    (Some(d), Some(d2)) => (*d - *d2).abs() < SLACK_ANGLE,
                    (None, None) => true,
                    _ => false,
                }
        }
        (
            Body::Plate { material: m, length: l, width: w, thickness: t, fold: f, .. },
            Body::Plate { material: m2, length: l2, width: w2, thickness: t2, fold: f2, .. },
        ) => {
            m.name == m2.name
                && near(*l, *l2)
                && near(*w, *w2)
                && near(*t, *t2)
                && match (f, f2) {
                    (Some(f), Some(f2)) => (f.between - f2.between).abs() < SLACK_ANGLE,
                    (None, None) => true,
                    _ => false,
                }
        }
        (
            Body::Wedge { material: m, length: l, width: w, thin: a, thick: b },
            Body::Wedge { material: m2, length: l2, width: w2, thin: a2, thick: b2 },
        ) => m.name == m2.name && near(*l, *l2) && near(*w, *w2) && near(*a, *a2) && near(*b, *b2),
        (
            Body::Block { material: m, length: l, width: w, height: h },
            Body::Block { material: m2, length: l2, width: w2, height: h2 },
        ) => m.name == m2.name && near(*l, *l2) && near(*w, *w2) && near(*h, *h2),
        (Body::Bought { item: a }, Body::Bought { item: b }) => a == b,
        (Body::OnVehicle, Body::OnVehicle) => true,
        _ => false,
    }
}

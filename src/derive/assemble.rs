//! From single pieces to parts with marks, and from holes to ids.

use super::alike::{Match, alike};
use super::draft::{Draft, DraftDrilling, DraftHole, DraftPiece, HoleRef};
use super::drilling::drill_sequence;
use super::limits::edge_distance;
use super::marks::Letters;
use super::seen::{neutral, seen};
use super::work::{Drilling, Fastening, Hole, HoleAt, HoleKind, Part, Piece, Work};
use crate::geometry::{Axis3, Frame3};
use crate::units::{Angle, Length};
use std::collections::{BTreeMap, BTreeSet};

/// First number of a hole id: two digits from the start, so that ids keep their width.
const FIRST_ID: usize = 11;

/// Where each drafted piece and hole ended up.
pub(super) struct Assembled {
    /// Part and piece by drafted piece.
    pieces: Vec<(usize, usize)>,
    /// Hole of the work by drafted piece and hole.
    holes: Vec<Vec<usize>>,
}

impl Assembled {
    /// Id of a drafted hole.
    pub fn id<'w>(&self, work: &'w Work, at: HoleRef) -> &'w str {
        &work.holes[self.holes[at.piece][at.hole]].id
    }

    /// A drafted hole of its own single piece.
    pub fn hole_at(&self, work: &Work, at: HoleRef) -> HoleAt {
        let (part, piece) = self.pieces[at.piece];
        HoleAt {
            piece: work.parts[part].pieces[piece].mark.clone(),
            hole: self.id(work, at).to_owned(),
        }
    }
}

/// Groups alike pieces, gives marks and ids, and fills parts, holes and fastenings of the work.
pub(super) fn assemble(draft: &Draft, letters: &mut Letters, work: &mut Work) -> Assembled {
    let marks = marks(draft, letters);
    let groups = group(draft);
    let mut assembled = Assembled {
        pieces: vec![(0, 0); draft.pieces.len()],
        holes: draft.pieces.iter().map(|piece| vec![0; piece.holes.len()]).collect(),
    };
    let mut next = FIRST_ID;
    for members in &groups {
        let model = &draft.pieces[members[0].0];
        let part = work.parts.len();
        // Holes of the part in order along it.
        let mut order: Vec<usize> = (0..model.holes.len()).collect();
        order.sort_by(|a, b| along_part(&model.holes[*a], &model.holes[*b]));
        let mut place_of = vec![0; order.len()];
        for (rank, own) in order.iter().enumerate() {
            place_of[*own] = work.holes.len() + rank;
        }
        for own in &order {
            work.holes.push(hole_of(model, &model.holes[*own], part, next));
            next += 1;
        }
        let mut pieces = Vec::new();
        for (k, matched) in members {
            assembled.pieces[*k] = (part, pieces.len());
            for (own, of_model) in matched.holes.iter().enumerate() {
                assembled.holes[*k][own] = place_of[*of_model];
            }
            pieces.push(Piece {
                mark: marks[*k].clone(),
                place: matched.place,
                frame: draft.frames[*k],
            });
        }
        let turned = members
            .iter()
            .any(|(_, matched)| matched.turned || lies_otherwise(matched.place, model.place));
        let mut faces = model.faces.clone();
        for face in &mut faces {
            face.seen = if turned { neutral(face) } else { seen(face, model.place) };
        }
        work.parts.push(Part {
            kind: model.kind,
            name: model.name.clone(),
            pieces,
            body: model.body.clone(),
            faces,
            mass: model.mass,
            span: model.span,
        });
    }
    fasten(draft, work, &assembled);
    join(draft, work, &assembled);
    assembled
}

/// Whether two pieces stand so differently that words for the vehicle's sides fit one of them only.
/// Feet that follow the roof's slopes still stand alike.
fn lies_otherwise(a: Frame3, b: Frame3) -> bool {
    let slack = Angle::deg(20.0);
    [Axis3::X, Axis3::Y].into_iter().any(|axis| a.axis(axis).angle_to(b.axis(axis)) > slack)
}

/// Alike pieces together, in the order of kinds, then as they were drafted.
fn group(draft: &Draft) -> Vec<Vec<(usize, Match)>> {
    let mut groups: Vec<Vec<(usize, Match)>> = Vec::new();
    for k in by_kind(draft) {
        let piece = &draft.pieces[k];
        let found = groups.iter_mut().find_map(|members| {
            let model = &draft.pieces[members[0].0];
            alike(model, piece).map(|matched| (members, matched))
        });
        if let Some((members, matched)) = found {
            members.push((k, matched));
        } else {
            let holes = (0..piece.holes.len()).collect();
            groups.push(vec![(k, Match { holes, place: piece.place, turned: false })]);
        }
    }
    groups
}

/// Along the part, then by face, then across; rounding must not decide.
fn along_part(a: &DraftHole, b: &DraftHole) -> std::cmp::Ordering {
    let grid = |length: Length| (length.to_mm() * 1000.0).round();
    grid(a.at.x)
        .total_cmp(&grid(b.at.x))
        .then(a.face.cmp(&b.face))
        .then(grid(a.at.y).total_cmp(&grid(b.at.y)))
}

/// Marks by drafted piece. Numbers run as pieces were drafted, not as they come to share a part, so
/// that plate D2 and angle A2 belong to foot F2.
fn marks(draft: &Draft, letters: &mut Letters) -> Vec<String> {
    let mut marks: Vec<String> =
        draft.pieces.iter().map(|piece| piece.mark.clone().unwrap_or_default()).collect();
    let mut counts: BTreeMap<char, u32> = BTreeMap::new();
    for k in by_kind(draft).into_iter().filter(|k| draft.pieces[*k].mark.is_none()) {
        let letter = letters.of(draft.pieces[k].kind);
        let count = counts.entry(letter).or_default();
        *count += 1;
        marks[k] = format!("{letter}{count}");
    }
    marks
}

/// Drafted pieces in the order of kinds, then as they were drafted.
fn by_kind(draft: &Draft) -> Vec<usize> {
    let mut order: Vec<usize> = (0..draft.pieces.len()).collect();
    order.sort_by_key(|k| draft.pieces[*k].kind);
    order
}

/// The hole without what needs other holes' ids.
fn hole_of(piece: &DraftPiece, hole: &DraftHole, part: usize, number: usize) -> Hole {
    Hole {
        id: format!("H{number}"),
        part,
        face: hole.face,
        at: hole.at,
        diameter: hole.diameter,
        kind: hole.kind,
        drills: Vec::new(),
        countersink: hole.countersink,
        mates: Vec::new(),
        fastening: None,
        drilling: Drilling::Apart,
        edge: edge_distance(&piece.faces[hole.face], hole, &piece.body),
        span: hole.span,
    }
}

fn fasten(draft: &Draft, work: &mut Work, assembled: &Assembled) {
    for fastening in &draft.fastenings {
        let index = work.fastenings.len();
        let mut places: Vec<Vec<HoleAt>> = Vec::new();
        for row in &fastening.places {
            let mut told = Vec::new();
            for at in row {
                let (part, piece) = assembled.pieces[at.piece];
                let hole = assembled.holes[at.piece][at.hole];
                work.holes[hole].fastening = Some(index);
                told.push(HoleAt {
                    piece: work.parts[part].pieces[piece].mark.clone(),
                    hole: work.holes[hole].id.clone(),
                });
            }
            places.push(told);
        }
        work.fastenings.push(Fastening {
            name: fastening.name.clone(),
            screw: fastening.screw.clone(),
            stack: fastening.stack.clone(),
            count: places.len() as u32,
            places,
            lean: fastening.lean,
            undone: fastening.undone,
            span: fastening.span,
        });
    }
}

/// Mates, and how each hole is drilled.
fn join(draft: &Draft, work: &mut Work, assembled: &Assembled) {
    let mut mates: Vec<BTreeSet<usize>> = vec![BTreeSet::new(); work.holes.len()];
    for row in draft.fastenings.iter().flat_map(|fastening| &fastening.places) {
        let holes: Vec<usize> = row.iter().map(|at| assembled.holes[at.piece][at.hole]).collect();
        for hole in &holes {
            mates[*hole].extend(holes.iter().filter(|other| *other != hole));
        }
    }
    let mut drilled = vec![false; work.holes.len()];
    for (k, piece) in draft.pieces.iter().enumerate() {
        for (own, hole) in piece.holes.iter().enumerate() {
            let index = assembled.holes[k][own];
            if std::mem::replace(&mut drilled[index], true) {
                continue;
            }
            let (drilling, drills) = match hole.drilling {
                DraftDrilling::Apart => (Drilling::Apart, drill_sequence(hole.diameter, None)),
                DraftDrilling::Ready => (Drilling::Ready, Vec::new()),
                DraftDrilling::Through(guide) => {
                    let guide_hole = draft.hole(guide);
                    // An access hole is opened last: both walls are drilled through it as a pilot.
                    let size = (guide_hole.kind != HoleKind::Access).then_some(guide_hole.diameter);
                    let through = Drilling::Through(assembled.id(work, guide).to_owned());
                    (through, drill_sequence(hole.diameter, size))
                }
            };
            work.holes[index].drilling = drilling;
            work.holes[index].drills = drills;
        }
    }
    for (hole, mates) in mates.iter().enumerate() {
        work.holes[hole].mates = mates.iter().map(|mate| work.holes[*mate].id.clone()).collect();
    }
}

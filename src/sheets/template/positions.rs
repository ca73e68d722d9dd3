//! What lies on the roof at full size, with the sizes that a tape finds from the datum and the centre line:
//! plates and lying legs of feet, and the foot of the cable entry.

use super::Outline;
use crate::derive::{Body, Face, Hole, Part, PartKind, Piece};
use crate::geometry::{Point2, Point3};
use crate::sheets::Basis;
use crate::sheets::part::told;
use crate::units::Length;

/// Outlines nearer in size than a pencil's line share one template.
const ALIKE: Length = Length::mm(0.3);

/// All of them; what is alike in size and holes shares one.
pub(super) fn on_roof<'a>(basis: &Basis<'a>) -> Vec<Outline<'a>> {
    let mut outlines: Vec<Outline> = Vec::new();
    for (index, part) in basis.work.parts.iter().enumerate() {
        // A bonded foot has no holes in the skin.
        let holes: Vec<&Hole> = match part.kind {
            PartKind::FootPlate => Vec::new(),
            PartKind::SkinUnderFoot => {
                basis.work.holes.iter().filter(|hole| hole.part == index).collect()
            }
            _ => continue,
        };
        for piece in &part.pieces {
            let Some(outline) = seen(basis, part, piece, &holes) else { continue };
            match outlines.iter_mut().find(|known| alike(known, &outline)) {
                Some(known) => known.on_roof.extend(outline.on_roof),
                None => outlines.push(outline),
            }
        }
    }
    for outline in &mut outlines {
        let marks: Vec<&str> = outline.on_roof.iter().map(|row| row.0.as_str()).collect();
        outline.name = format!("foot {}", told(marks));
    }
    outlines.extend(entry(basis));
    outlines
}

fn alike(a: &Outline, b: &Outline) -> bool {
    let near = |p: Length, q: Length| p.is_near(q, ALIKE);
    near(a.length, b.length)
        && near(a.width, b.width)
        && a.holes.len() == b.holes.len()
        && a.holes.iter().zip(&b.holes).all(|(p, q)| near(p.1, q.1) && near(p.2, q.2))
}

/// A piece from above, front at the top, as large as it is along the skin.
fn seen<'a>(basis: &Basis, part: &Part, piece: &Piece, holes: &[&'a Hole]) -> Option<Outline<'a>> {
    let roof = basis.work.roof.as_ref()?;
    let face: &Face = part.faces.first()?;
    let (length, width) = match &part.body {
        Body::Plate { length, width, .. } => (*length, *width),
        _ => (face.length, face.width),
    };
    let zero = Length::ZERO;
    let at = |x: Length, y: Length| -> Point3 { piece.place.place(face.point(Point2::new(x, y))) };
    let corners = [at(zero, zero), at(length, zero), at(zero, width), at(length, width)];
    let along = corners[1] - corners[0];
    let across = corners[2] - corners[0];
    // Which of its own axes runs rearward, which to the right, and whether against it.
    let lengthwise = along.x.abs() > along.y.abs();
    let (down, right) = if lengthwise { (along.x, across.y) } else { (across.x, along.y) };
    let (long, wide) = if lengthwise { (length, width) } else { (width, length) };
    let place = |hole: &'a Hole| {
        let (x, y) = if lengthwise { (hole.at.x, hole.at.y) } else { (hole.at.y, hole.at.x) };
        let from = |way: Length, size: Length, at: Length| if way > zero { at } else { size - at };
        (hole, from(down, long, x), from(right, wide, y))
    };
    let x = corners.iter().map(|at| at.x).fold(corners[0].x, Length::min);
    let left = corners.iter().map(|at| at.y).fold(corners[0].y, Length::min);
    let mark = piece.mark.trim_start_matches("roof at ").to_owned();
    let mut holes: Vec<_> = holes.iter().map(|hole| place(hole)).collect();
    holes.sort_by(|a, b| a.1.total_cmp(&b.1).then(a.2.total_cmp(&b.2)));
    Some(Outline {
        name: "foot".into(),
        face: String::new(),
        length: long,
        width: wide,
        holes,
        zero_low: false,
        lines: Vec::new(),
        datum: "left edge: Y by tape".into(),
        seen: "from above, front at top".into(),
        on_roof: vec![(mark, x, roof.by_tape_across(x, left))],
    })
}

/// The foot of the cable entry with its hole.
fn entry<'a>(basis: &Basis<'a>) -> Option<Outline<'a>> {
    let entry = basis.work.entry.as_ref()?;
    let hole = basis.work.hole(&entry.hole)?;
    let (x, left) = (entry.foot.low().x, entry.foot.low().y);
    let tape = basis.work.roof.as_ref().map(|roof| roof.by_tape_across(x, left));
    Some(Outline {
        name: format!("cable entry {}", entry.mark),
        face: String::new(),
        length: entry.foot.width(),
        width: entry.foot.height(),
        holes: vec![(hole, entry.at.x - x, entry.at.y - left)],
        zero_low: false,
        lines: Vec::new(),
        datum: "left edge: Y by tape".into(),
        seen: "from above, front at top".into(),
        on_roof: tape.map(|tape| (entry.mark.clone(), x, tape)).into_iter().collect(),
    })
}

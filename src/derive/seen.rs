//! From where a face is seen, in words.

use super::work::Face;
use crate::geometry::{Dir3, Frame3};

/// Ways on the vehicle by the words for standing there, and for what lies that way.
fn ways() -> [(Dir3, &'static str, &'static str); 6] {
    [
        (Dir3::Z, "from above", "top"),
        (-Dir3::Z, "from below", "bottom"),
        (Dir3::Y, "from the right", "right side"),
        (-Dir3::Y, "from the left", "left side"),
        (Dir3::X, "from the rear", "rear"),
        (-Dir3::X, "from the front", "front"),
    ]
}

/// "from above, front at left": the face of a piece as it stands on the vehicle, drawn with
/// `across` upwards.
pub(super) fn seen(face: &Face, place: Frame3) -> String {
    let outward = place.place_dir(face.outward);
    let up = place.place_dir(face.across);
    // Looking against the face's normal, right-hand is across × outward.
    let right = up.cross(outward).unwrap_or(Dir3::X);
    let from = nearest(outward).1;
    // What is told of the picture's sides: the front, or the left side where the front is hidden.
    let mark = if outward.dot(Dir3::X).abs() > 0.7 { -Dir3::Y } else { -Dir3::X };
    let (name, across, upward) = (nearest(mark).2, mark.dot(right), mark.dot(up));
    let side = if across.abs() >= upward.abs() {
        if across > 0.0 { "right" } else { "left" }
    } else if upward > 0.0 {
        "top"
    } else {
        "bottom"
    };
    format!("{from}, {name} at {side}")
}

/// The same for pieces that lie turned to each other: the vehicle's sides would mislead.
pub(super) fn neutral(face: &Face) -> String {
    let side = if face.runs_left { "right" } else { "left" };
    let from = match face.name.as_str() {
        "top" => "from above",
        "bottom" | "underside" => "from below",
        super::draft::INNER => "from inside the frame",
        _ => "from outside",
    };
    format!("{from}, zero end at {side}")
}

fn nearest(way: Dir3) -> (Dir3, &'static str, &'static str) {
    let mut best = (Dir3::Z, "from above", "top");
    for known in ways() {
        if known.0.dot(way) > best.0.dot(way) {
            best = known;
        }
    }
    best
}

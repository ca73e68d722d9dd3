//! Paper that carries the saw line of a mitre round a tube or flat bar: its outside laid flat, one edge cut as the
//! plane of the mitre meets it. One paper serves every end that is cut alike, either hand.

use super::wrap::Wrap;
use crate::derive::{Body, Ends, Part};
use crate::geometry::Unrolled;
use crate::sheets::part::marks;
use crate::tables::{Section, Shape};
use crate::units::{Angle, Length, display};

/// What a strip has instead of holes.
#[derive(Debug, Clone, PartialEq)]
pub struct Mitre {
    /// The saw line, which is the paper's upper edge: from the left and from the long point down, mm.
    pub line: Vec<(f64, f64)>,
    /// From the long point to the deepest place of the line, mm.
    pub deep: f64,
    /// Where the middle of the long side lies, from the left, mm.
    pub long: f64,
    /// What the paper is laid round: "tube" or "bar".
    pub body: &'static str,
    /// What it is for, line by line: the tube, then "door stile D1 to D4: both ends, long points on one
    /// side".
    pub users: Vec<String>,
}

/// From the deepest place of the saw line to the names of the sides, from row to row of words under
/// them, and under the last, mm.
pub const FIRST_ROW: f64 = 5.0;
pub const ROW: f64 = 4.9;
const LAST_ROW: f64 = 3.5;
/// From the deepest place of the saw line down to the flap's upper edge: the flap lies under the first
/// pane and must not stick out over the saw line.
pub const FLAP_DOWN: f64 = 2.0;

/// An end cut alike: the same tube, off square by as much, over the same side.
struct Cut<'a> {
    section: &'a Section,
    angle: Angle,
    across: Length,
    users: Vec<(String, String)>,
}

/// Strips for all mitred tubes and flat bars. `rows` tells how many rows words take on a strip of a width.
pub fn mitres(
    parts: &[Part],
    least: f64,
    rows: impl Fn(&[String], f64) -> usize,
) -> Vec<(&Part, Wrap<'_>)> {
    let mut cuts: Vec<(&Part, Cut)> = Vec::new();
    for part in parts {
        let Body::Bar { section, ends, .. } = &part.body else { continue };
        if ends.are_square() || !(section.shape.is_tube() || section.shape == Shape::Flat) {
            continue;
        }
        for (angle, which) in leaning(ends) {
            let near = |a: Angle| a.is_near(angle, Angle::deg(0.01));
            let found = cuts.iter_mut().find(|(_, cut)| {
                cut.section.name == section.name
                    && near(cut.angle)
                    && cut.across.is_near(ends.across, Length::SLACK)
            });
            let user = (format!("{} {}", part.name, marks(part)), which.to_owned());
            match found {
                Some((_, cut)) => cut.users.push(user),
                None => {
                    let across = ends.across;
                    cuts.push((part, Cut { section, angle, across, users: vec![user] }));
                }
            }
        }
    }
    cuts.into_iter().map(|(part, cut)| (part, strip(&cut, least, &rows))).collect()
}

/// Ends that are not square, those off by the same angle together.
fn leaning(ends: &Ends) -> Vec<(Angle, &'static str)> {
    let size = |angle: Angle| if angle < Angle::ZERO { -angle } else { angle };
    let (zero, far) = (size(ends.zero), size(ends.far));
    if zero.is_near(far, Angle::deg(0.01)) {
        let one_side = (ends.zero > Angle::ZERO) == (ends.far > Angle::ZERO);
        let words = if one_side {
            "both ends, long points on one side"
        } else {
            "both ends, long points on opposite sides"
        };
        return vec![(zero, words)];
    }
    [(zero, "zero end"), (far, "far end")].into_iter().filter(|(a, _)| !a.is_zero()).collect()
}

fn strip<'a>(cut: &Cut<'_>, least: f64, rows: &impl Fn(&[String], f64) -> usize) -> Wrap<'a> {
    let (width, height) = (cut.section.width(), cut.section.height());
    let round = cut.section.shape == Shape::RoundTube;
    // Its width is the side that the mitre runs across.
    let outside = if round {
        Unrolled::Round { diameter: width }
    } else if cut.across.is_near(width, Length::SLACK) {
        Unrolled::flat(width, height, cut.section.outer_radius)
    } else {
        Unrolled::flat(height, width, cut.section.outer_radius)
    };
    let line: Vec<(f64, f64)> =
        outside.mitre(cut.angle).into_iter().map(|(s, down)| (s.to_mm(), down.to_mm())).collect();
    let deep = line.iter().map(|at| at.1).fold(0.0, f64::max);
    let around = outside.around().to_mm();
    let panes = outside.panes();
    // The edges of a flat bar are too narrow for a name; the saw line is highest at the long one.
    let names = match cut.section.shape {
        Shape::Flat => vec!["flat side", "", "flat side", ""],
        _ if round => vec!["long point"],
        _ => vec!["side", "long", "side", "short"],
    };
    let long = if round { around / 2.0 } else { panes[0].to_mm() + panes[1].to_mm() / 2.0 };
    let users: Vec<String> =
        std::iter::once(cut.section.words.replace(' ', "\u{a0}").replacen('\u{a0}', " ", 1))
            .chain(told(&cut.users))
            .collect();
    let name = format!("mitre {}°", display::number_short(cut.angle.to_deg(), 1));
    // The words with the length of the strip are as long for any length of three digits.
    let body = if cut.section.shape.is_tube() { "tube" } else { "bar" };
    let count = rows(&words(&users, body, 100.0), around);
    let below = FIRST_ROW + ROW * count as f64 + LAST_ROW;
    let length = (deep + below.max(FLAP_DOWN + least)).ceil();
    Wrap {
        name,
        panes: panes.iter().map(|p| p.to_mm()).zip(names.into_iter().map(str::to_owned)).collect(),
        holes: Vec::new(),
        length,
        edges: Vec::new(),
        whole: false,
        mitre: Some(Mitre { line, deep, long, body, users }),
    }
}

/// Parts with the same ends share a line.
fn told(users: &[(String, String)]) -> Vec<String> {
    let mut lines: Vec<(Vec<&str>, &str)> = Vec::new();
    for (part, which) in users {
        match lines.iter_mut().find(|line| line.1 == which) {
            Some(line) => line.0.push(part),
            None => lines.push((vec![part], which)),
        }
    }
    lines.into_iter().map(|(parts, which)| format!("{}: {which}", parts.join(", "))).collect()
}

/// What is written on a strip of a length: what it is for, and where its lower edge lies.
pub fn words(users: &[String], body: &str, length: f64) -> Vec<String> {
    let edge = format!(
        "upper edge = saw line; lower edge square round the {body}, {length:.0}\u{a0}mm from the long point"
    );
    users.iter().cloned().chain([edge]).collect()
}

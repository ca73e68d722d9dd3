//! Plates on the roof against its edge, keep-outs and each other.

use crate::build::{Build, Edge};
use crate::derive::roof::RoofSurface;
use crate::derive::Array;
use crate::derive::rules::{l006, l017, l022, l023, l024};
use crate::geometry::{Point2, Rect};
use crate::source::{Finding, Span};
use crate::units::Length;

/// A plate on the roof.
pub struct Foot {
    pub mark: String,
    pub plate: Rect,
    pub edge: Edge,
    pub span: Span,
}

/// Findings about frames against each other.
pub fn frames(build: &Build, arrays: &[Array]) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (k, first) in arrays.iter().enumerate() {
        for later in &arrays[k + 1..] {
            let (a, b) = (first.outline, later.outline);
            if a.overlaps(b) || !a.gap_to(b).clears(l017::APART) {
                findings.push(l017::finding(build, first, later));
            }
        }
    }
    findings
}

/// Findings about plates on the roof.
pub fn feet(build: &Build, surface: &RoofSurface, feet: &[Foot]) -> Vec<Finding> {
    let mut findings = Vec::new();
    let Some(roof) = &build.roof else { return findings };
    let edge = Rect::from_corners(
        Point2::new(Length::ZERO, *roof.width / -2.0),
        Point2::new(*roof.length, *roof.width / 2.0),
    );
    for (k, foot) in feet.iter().enumerate() {
        if !edge.contains_rect(foot.plate) {
            findings.push(l022::finding(&foot.mark, foot.plate, edge, foot.span));
        } else if let Some([front, rear, left, right]) = surface.measured_span() {
            let measured = Rect::from_corners(Point2::new(front, left), Point2::new(rear, right));
            if !measured.contains_rect(foot.plate) {
                findings.push(l006::finding(
                    &format!("the plate of {}", foot.mark),
                    foot.plate,
                    measured,
                    foot.span,
                ));
            }
        }
        for keep_out in &roof.keep_outs {
            let taken = Rect::from_size(
                Point2::new(*keep_out.x, *keep_out.y),
                *keep_out.length,
                *keep_out.width,
            );
            if taken.overlaps(foot.plate) {
                findings.push(l023::finding(foot, keep_out, taken));
            }
        }
        for other in &feet[k + 1..] {
            if other.plate.overlaps(foot.plate) {
                findings.push(l024::finding(&foot.mark, &other.mark, foot.span, other.span));
            }
        }
    }
    findings
}

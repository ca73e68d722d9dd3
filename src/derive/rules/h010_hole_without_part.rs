//! H010 hole-without-part.

use crate::build::DirectHole;
use crate::derive::Face;
use crate::source::{Finding, Rule, Severity};

/// A hole that belongs to nothing.
pub static RULE: Rule = Rule {
    code: "H010",
    name: "hole-without-part",
    severity: Severity::Stop,
    checks: "A stated hole names a stated part and one of its faces.",
    why: "A hole that belongs to nothing is on no sheet, and nobody drills it.",
    example: "[[hole]]\npart = \"W9\"\nface = \"top\"",
    remedy: "Name the mark of a `[[part]]` and a face that it has.",
    source_limits: "Faces by section: a tube has top, bottom, left and right; a flat bar has top.",
};

/// No part has that mark.
pub fn no_part(hole: &DirectHole, known: &[&str]) -> Finding {
    let finding = Finding::new(&RULE, format!("no part has the mark `{}`", *hole.part))
        .at(hole.part.span, "this mark")
        .means("the hole would be on no sheet");
    if known.is_empty() {
        finding.help(
            "state the part with `[[part]]`; parts that are derived get their holes by themselves",
        )
    } else {
        finding.help(format!("name one of the stated parts: {}", known.join(", ")))
    }
}

/// The part has no such face.
pub fn no_face(hole: &DirectHole, faces: &[Face]) -> Finding {
    let names: Vec<&str> = faces.iter().map(|face| face.name.as_str()).collect();
    let finding = Finding::new(&RULE, format!("`{}` has no face `{}`", *hole.part, *hole.face))
        .at(hole.face.span, "this face")
        .means("nobody would know where to drill");
    if names.is_empty() {
        finding.help("a round tube has no flat face to measure on; use another section")
    } else {
        finding.help(format!("its faces are: {}", names.join(", ")))
    }
}

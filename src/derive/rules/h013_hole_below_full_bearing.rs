//! H013 hole-below-full-bearing.

use crate::derive::{Hole, Part};
use crate::source::{Finding, Rule, Severity};
use crate::units::Length;

/// A hole whose edge is far enough away to be allowed, too near to carry all that the metal could.
pub static RULE: Rule = Rule {
    code: "H013",
    name: "hole-below-full-bearing",
    severity: Severity::Note,
    checks: "From the middle of a hole for a bolt or screw to the nearest cut edge: 1.5 times the hole. \
             Nearer than 1.2 times is a stop of its own.",
    why: "Between 1.2 and 1.5 times the hole the edge bulges before the metal has borne all that it could; \
          in line with the load the full value is reached at 3 times the hole alone.",
    example: "[[hole]]\npart = \"W\"\nface = \"top\"\nx = 9\ny = 12.5\ndiameter = 6.6",
    remedy: "Move the hole inwards by the amount told where it carries much.",
    source_limits: "EN 1993-1-8:2005 table 3.4: full bearing from e2 = 1.5 d0 across and e1 = 3 d0 along the \
                    load; EN 1999-1-1 in the same form (from memory). Strengths are counted with the real \
                    distances.",
};

/// Full bearing across the load begins here.
pub fn begins(hole: &Hole) -> Length {
    hole.diameter * 1.5
}

/// Holes of one face between the least and the full edge distance, told at the one that is nearest to it.
pub fn finding(holes: &[&Hole], part: &Part) -> Option<Finding> {
    let spare = |hole: &Hole| hole.edge.has / hole.diameter;
    let hole = holes.iter().min_by(|a, b| spare(a).total_cmp(&spare(b)))?;
    let (has, full) = (hole.edge.has, begins(hole));
    let all: Vec<&str> = holes.iter().map(|hole| hole.id.as_str()).collect();
    let others = if all.len() > 1 { format!(" ({} alike)", all.join(", ")) } else { String::new() };
    Some(
        Finding::new(
            &RULE,
            format!(
                "the {} hole of {:.1} in the {} is {has:.1} from the edge{others}; the wall bears fully from {full:.1}",
                hole.kind.name(),
                hole.diameter,
                part.name
            ),
        )
        .at(hole.span, "this hole")
        .also(part.span, "in this part")
        .means("the edge bulges before the metal has borne all that it could")
        .help(format!("move the hole inwards by {:.1} where it carries much", full - has)),
    )
}

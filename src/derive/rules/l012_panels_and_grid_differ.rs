//! L012 panels-and-grid-differ.

use super::written;
use crate::build::{Frame, Panel};
use crate::source::{Finding, Rule, Severity};

/// Panels do not fill the grid.
pub static RULE: Rule = Rule {
    code: "L012",
    name: "panels-and-grid-differ",
    severity: Severity::Stop,
    checks: "Rows times columns is the number of panels, and panels that share a row or column \
          have the same size there.",
    why: "The frame's size is the sum of its panels. A panel too many lies nowhere; a smaller \
          one has edges that no tube carries.",
    example: "[[panel]]\ncount = 3\n[frame]\nrows = 2\ncolumns = 2",
    remedy: "Change count, rows or columns; frame panels of unlike sizes apart.",
    source_limits: "Arithmetic; sizes within 1 mm count as alike.",
};

/// So many panels for another number of places.
pub fn count(panels: usize, frame: &Frame) -> Finding {
    let (rows, columns) = (*frame.arrangement.rows, *frame.arrangement.columns);
    Finding::new(
        &RULE,
        format!(
            "{panels} {} not fill {rows} × {columns} = {} places",
            if panels == 1 { "panel does" } else { "panels do" },
            rows * columns
        ),
    )
    .at(
        written(&[frame.arrangement.columns.span.to(frame.arrangement.rows.span), frame.span]),
        "rows and columns",
    )
    .means("the frame would be cut for another number of panels")
    .help("change `count`, `rows` or `columns` so that they agree")
}

/// A panel that is smaller than its place in the grid.
pub fn unlike(panel: &Panel, frame: &Frame) -> Finding {
    Finding::new(
        &RULE,
        format!(
            "the panel of {:.0} × {:.0} is smaller than its place",
            *panel.length, *panel.width
        ),
    )
    .at(panel.length.span.to(panel.width.span), "another size than its neighbours")
    .also(frame.span, "in this frame")
    .means("its edges would lie beside the tubes")
    .help("give panels of unlike sizes frames of their own")
}

//! Exact cutting of linear stock and of sheets.
//!
//! Takes pieces and stock as whole numbers (hundredths of a millimetre, cents) and gives bars with
//! their pieces, marks and leftovers. Criteria, one after the other: least cost; longest leftover of
//! one bar that was cut; fewest set-ups (different bars); long pieces first. For each the plan tells
//! its value and the best that is possible at all, so a proof is a pair of equal numbers. Work is
//! limited by counting steps, so the same job gives the same plan on every machine.
//!
//! Kerf: n pieces fit a bar when their lengths and n - 1 saw cuts do; the last cut may fall off the
//! end. Trims are lengths taken off the ends with their own saw cut in them. Mitred pieces that may
//! follow each other along one slanting cut are nested (`mitre`).
//!
//! Sheets are cut by straight cuts from edge to edge of what is being parted; the least rectangles of
//! every set of pieces are worked out, and sets take the place of patterns.
//!
//! How the cost is proven: column generation gives a bound and dual values (`relax`), these list all
//! patterns that a cheaper plan could hold (`patterns`), and a search over those finds the best or
//! shows that there is none (`search`). Every bound is worked out in integers.
mod costs;
mod cuts;
mod error;
mod greedy;
mod job;
mod knapsack;
mod linear;
mod mitre;
mod patterns;
mod plan;
mod problem;
mod relax;
mod search;
mod section;
mod settle;
mod sheet_greedy;
mod sheet_job;
mod sheet_search;
mod sheet_section;
mod sheet_shapes;
mod simplex;
mod wide;

pub use error::CuttingError;
pub use job::{Job, MOST_LENGTH, MOST_PIECES, MOST_PRICE, Piece, Section, Stock};
pub use mitre::{End, Mitre, cut_mitred};
pub use plan::{Bar, Cut, Measure, Plan, Proof, Remark, SectionPlan};
pub use section::cut;
pub use sheet_job::{
    CutSheet, MOST_SHEET_PIECES, MOST_SIDE, Panel, Placed, SheetCut, SheetJob, SheetPiece,
    SheetPlan, SheetSection, SheetSectionPlan, SheetStock,
};
pub use sheet_section::cut_sheets;

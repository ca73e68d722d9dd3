//! Boxes to write in.

use super::{GUTTER, Lines, Piece, limited, write_box};
use crate::page::context::Context;
use crate::page::model::{NodeId, Rect, Role};
use crate::page::strip::{Owner, Strip};
use crate::page::text::{Setting, Text};

/// Height of a blank, mm (page rule 25: 10 mm or more).
pub(crate) const HEIGHT: f64 = 10.0;

/// A box to write in, with its label above and its unit after it.
#[derive(Debug, Clone)]
pub struct Blank {
    /// What to write, 11 pt.
    pub label: Text,
    /// Unit printed after the box; may be empty.
    pub unit: String,
    /// How wide it has to be.
    pub width: BlankWidth,
    /// Height in mm, at least 10.
    pub height: f64,
}

/// How wide a blank has to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BlankWidth {
    /// A measured value: 35 mm or more.
    Value,
    /// Initials or a clock time: 20 mm or more.
    Short,
    /// A date: 26 mm or more.
    Date,
    /// A name or a remark: 50 mm or more.
    Long,
    /// The whole line.
    Line,
}

impl BlankWidth {
    fn least(self) -> f64 {
        match self {
            BlankWidth::Value => 35.0,
            BlankWidth::Short => 20.0,
            BlankWidth::Date => 26.0,
            BlankWidth::Long => 50.0,
            BlankWidth::Line => 10_000.0,
        }
    }
}

impl Blank {
    /// A blank for a measured value with its unit.
    pub fn value(label: impl Into<Text>, unit: impl Into<String>) -> Self {
        Self { label: label.into(), unit: unit.into(), width: BlankWidth::Value, height: HEIGHT }
    }

    /// A blank of another width without a unit.
    pub fn of(width: BlankWidth, label: impl Into<Text>) -> Self {
        Self { label: label.into(), unit: String::new(), width, height: HEIGHT }
    }

    /// The three blanks that end a hold line.
    pub(crate) fn sign_off(context: &Context) -> [Self; 3] {
        [
            Self::of(BlankWidth::Short, context.say("initials")),
            Self::of(BlankWidth::Date, context.say("date")),
            Self::of(BlankWidth::Short, context.say("time")),
        ]
    }

    /// With another height, mm.
    #[must_use]
    pub fn high(mut self, height: f64) -> Self {
        self.height = height;
        self
    }
}

pub(super) fn lay(blanks: &[Blank], width: f64, parent: NodeId, context: &Context) -> Vec<Piece> {
    rows(blanks, width, context)
        .into_iter()
        .enumerate()
        .map(|(index, row)| {
            let mut strip = Strip::new();
            let height = draw_row(&mut strip, &row, 0.0, 0.0, parent, context);
            Piece { before: 2.0, snap: index == 0, ..Piece::new(strip, height) }
        })
        .collect()
}

fn unit_lines(blank: &Blank, context: &Context) -> Lines {
    limited(&blank.unit.as_str().into(), Setting::new(context.small(), GUTTER * 2.0), 1, context)
}

/// A row: each blank with its box's left edge and width.
pub(super) type BlankRow<'a> = Vec<(&'a Blank, f64, f64)>;

/// Blanks shared out to rows of the given width, boxes widened to fill it.
pub(super) fn rows<'a>(blanks: &'a [Blank], width: f64, context: &Context) -> Vec<BlankRow<'a>> {
    const GAP: f64 = 3.5;
    let unit = |blank: &Blank| {
        if blank.unit.is_empty() { 0.0 } else { 1.2 + unit_lines(blank, context).width() }
    };
    let mut rows: Vec<Vec<&Blank>> = vec![Vec::new()];
    let mut used = 0.0;
    for blank in blanks {
        let own = blank.width.least().min(width) + unit(blank);
        let gap = if used > 0.0 { GAP } else { 0.0 };
        if used > 0.0 && used + gap + own > width + 1e-6 {
            rows.push(Vec::new());
            used = 0.0;
        }
        used += own + if used > 0.0 { GAP } else { 0.0 };
        if let Some(row) = rows.last_mut() {
            row.push(blank);
        }
    }
    rows.retain(|row| !row.is_empty());
    rows.into_iter()
        .map(|row| {
            let units: f64 = row.iter().map(|b| unit(b)).sum();
            let least: f64 = row.iter().map(|b| b.width.least().min(width - unit(b))).sum();
            let boxes = width - units - GAP * (row.len() - 1) as f64;
            // Boxes grow alike, but one alone does not stretch over the whole sheet.
            let stretch = (boxes / least).clamp(0.1, 1.6);
            let mut x = 0.0;
            row.into_iter()
                .map(|blank| {
                    let own = blank.width.least().min(width - unit(blank)) * stretch;
                    let place = (blank, x, own);
                    x += own + unit(blank) + GAP;
                    place
                })
                .collect()
        })
        .collect()
}

/// Draws a row of blanks; returns its height.
pub(super) fn draw_row(
    strip: &mut Strip,
    row: &BlankRow,
    x: f64,
    y: f64,
    parent: NodeId,
    context: &Context,
) -> f64 {
    let labels: Vec<_> = row
        .iter()
        .map(|(b, _, w)| limited(&b.label, Setting::new(context.small(), *w), 4, context))
        .collect();
    let over = labels.iter().map(Lines::height).fold(0.0, f64::max);
    let mut tall: f64 = 0.0;
    for ((blank, left, width), label) in row.iter().zip(&labels) {
        let group = context.tags.node(parent, Role::P);
        let top = y + over - label.height();
        label.draw(strip, x + left, top, Owner::Node(group), context);
        let height =
            if blank.height.is_finite() { blank.height.clamp(HEIGHT, 120.0) } else { HEIGHT };
        let area = Rect::new(x + left, y + over + 0.4, *width, height);
        write_box(strip, area, &blank.label.plain(), group, context);
        if !blank.unit.is_empty() {
            let unit = unit_lines(blank, context);
            let at = area.y + (HEIGHT - unit.height()) / 2.0;
            unit.draw(strip, area.right() + 1.2, at, Owner::Node(group), context);
        }
        tall = tall.max(height);
    }
    over + 0.4 + tall
}

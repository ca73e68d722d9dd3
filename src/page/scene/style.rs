//! Lines, fills, and where and how words stand.

use crate::page::model::Pen;

/// Height of the lettering of a drawing; one for all of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lettering {
    /// 14 pt, capitals 3.5 mm: drawings on step sheets.
    Large,
    /// 11 pt, capitals 2.8 mm: elsewhere.
    Small,
}

impl Lettering {
    /// Type size, points.
    pub fn size(self) -> f64 {
        match self {
            Lettering::Large => 14.0,
            Lettering::Small => 11.0,
        }
    }
}

/// Width and type of a line, by ISO 128-2.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Line {
    /// Width.
    pub pen: Pen,
    /// Type.
    pub kind: LineKind,
}

/// Line types of ISO 128-2 (in brackets its numbers).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineKind {
    /// Continuous (01).
    Continuous,
    /// Dashed (02): hidden edges.
    Dashed,
    /// Long dash, dot (04): centre lines.
    DashDot,
    /// Long dash, two dots (05): adjacent parts, other positions.
    DashDoubleDot,
    /// Dotted (07): raster of a timeline.
    Dotted,
}

impl Line {
    /// What the sheet is about: 0.7 mm.
    pub const HEAVY: Line = Line { pen: Pen::W070, kind: LineKind::Continuous };
    /// Visible edges: 0.5 mm.
    pub const VISIBLE: Line = Line { pen: Pen::W050, kind: LineKind::Continuous };
    /// Context, dimension, extension and leader lines: 0.25 mm.
    pub const THIN: Line = Line { pen: Pen::W025, kind: LineKind::Continuous };
    /// Hidden edges: 0.25 mm dashed.
    pub const HIDDEN: Line = Line { pen: Pen::W025, kind: LineKind::Dashed };
    /// Centre lines: 0.25 mm long dash, dot.
    pub const CENTRE: Line = Line { pen: Pen::W025, kind: LineKind::DashDot };
    /// Adjacent parts: 0.25 mm long dash, two dots.
    pub const ADJACENT: Line = Line { pen: Pen::W025, kind: LineKind::DashDoubleDot };
    /// Raster: 0.25 mm dotted.
    pub const RASTER: Line = Line { pen: Pen::W025, kind: LineKind::Dotted };

    /// A line of this width and type.
    pub const fn new(pen: Pen, kind: LineKind) -> Self {
        Self { pen, kind }
    }
}

/// What an area is filled with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fill {
    /// Paper white, hiding what was drawn before.
    White,
    /// Black.
    Black,
    /// Black at 1 to 10 percent.
    Tint(u8),
    /// Lines at an angle (degrees, anticlockwise) so many mm apart on paper.
    Hatch {
        /// Width of the lines.
        pen: Pen,
        /// Distance on paper, mm, 0.7 or more.
        pitch: f64,
        /// Direction, degrees.
        angle: f64,
    },
}

impl Fill {
    /// Hatching of cut faces on step sheets: 0.25 mm lines 1.8 mm apart at 45°.
    pub const HATCH: Fill = Fill::Hatch { pen: Pen::W025, pitch: 1.8, angle: 45.0 };
    /// The same, leaning the other way, for a second part.
    pub const HATCH_BACK: Fill = Fill::Hatch { pen: Pen::W025, pitch: 1.8, angle: 135.0 };
}

/// Where something stands against a point or a drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// Over it.
    Above,
    /// Under it.
    Below,
    /// At its left.
    Left,
    /// At its right.
    Right,
}

/// Where fixed words stand against their point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// With their middle on it.
    Centre,
    /// On one of its sides, a small gap away.
    Beside(Side),
}

/// Style of fixed words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Style {
    /// In bold.
    pub bold: bool,
    /// Reading upwards.
    pub upwards: bool,
    /// 11 pt whatever the drawing's lettering; 28 pt for a name along a template.
    pub size: Size,
}

/// Size of fixed words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Size {
    /// The drawing's own.
    Own,
    /// 11 pt.
    Caption,
    /// 9 pt, for an identity line on a part to be cut out.
    Identity,
    /// 18 pt.
    Title,
    /// 28 pt.
    Name,
}

impl Style {
    /// Regular weight, level, the drawing's own size.
    pub const PLAIN: Style = Style { bold: false, upwards: false, size: Size::Own };
    /// Bold, for marks.
    pub const BOLD: Style = Style { bold: true, upwards: false, size: Size::Own };
    /// 11 pt.
    pub const CAPTION: Style = Style { bold: false, upwards: false, size: Size::Caption };

    /// The same, reading upwards.
    #[must_use]
    pub const fn up(mut self) -> Self {
        self.upwards = true;
        self
    }

    /// The same in another size.
    #[must_use]
    pub const fn sized(mut self, size: Size) -> Self {
        self.size = size;
        self
    }
}

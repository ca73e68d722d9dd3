//! `[roof]`: what a straightedge and a tape tell.

use super::Edge;
use super::record::Photo;
use crate::geometry::{Point2, Rect};
use crate::source::{Span, Stated};
use crate::units::{Angle, Length};

/// Roof shape and what is in the way.
#[derive(Debug, Clone)]
pub struct Roof {
    /// Where X and Y are zero, in words that a person with a tape understands.
    pub datum: Stated<String>,
    /// Along X from the datum.
    pub length: Stated<Length>,
    /// Across Y, half on each side of the centre line.
    pub width: Stated<Length>,
    /// How the shape was measured.
    pub shape: RoofShape,
    /// What the frame and feet must stay clear of.
    pub keep_outs: Vec<KeepOut>,
    /// Photographs of it for the sheet of sizes.
    pub photos: Vec<Photo>,
    /// Place of the table.
    pub span: Span,
}

/// How the shape was measured.
#[derive(Debug, Clone)]
pub enum RoofShape {
    /// Gaps under a straightedge.
    Gaps {
        /// Stations across the roof, by increasing X.
        stations: Vec<Station>,
        /// Gaps under a straightedge along the centre line, by increasing X; empty if not measured.
        along: Vec<Gap>,
        /// Place of `along`, for findings.
        along_span: Span,
    },
    /// One circular arc across, alike over the whole length or tied along it.
    Crown(Crown),
    /// Level and flat (default where nothing is stated).
    Flat,
}

/// One station: a straightedge across the roof, level on the crown.
#[derive(Debug, Clone)]
pub struct Station {
    /// Distance behind the datum.
    pub x: Stated<Length>,
    /// Gaps by increasing Y.
    pub gaps: Vec<Gap>,
    /// Place of the station.
    pub span: Span,
}

/// One reading: distance along the straightedge and the gap down to the skin.
#[derive(Debug, Clone, Copy)]
pub struct Gap {
    /// Position along the straightedge (Y at a station, X along the centre line).
    pub at: Length,
    /// From the straightedge down to the skin; never negative.
    pub gap: Length,
    /// Place of the reading.
    pub span: Span,
}

/// Chord and rise of an arc across.
#[derive(Debug, Clone)]
pub struct Crown {
    /// Straight distance across.
    pub chord: Stated<Length>,
    /// Height of the arc over the middle of the chord.
    pub rise: Stated<Length>,
    /// Gaps under a straightedge along the centre line, by increasing X; empty if not measured.
    pub along: Vec<Gap>,
    /// Place of `along`, for findings.
    pub along_span: Span,
}

impl Crown {
    /// An arc that is alike over the whole length.
    pub const fn even(chord: Stated<Length>, rise: Stated<Length>) -> Self {
        Self { chord, rise, along: Vec::new(), along_span: Span::NONE }
    }
}

/// Something on the roof that stays.
#[derive(Debug, Clone)]
pub struct KeepOut {
    /// What it is.
    pub name: Stated<String>,
    /// Front edge.
    pub x: Stated<Length>,
    /// Left edge.
    pub y: Stated<Length>,
    /// Along X.
    pub length: Stated<Length>,
    /// Along Y.
    pub width: Stated<Length>,
    /// Over the skin.
    pub height: Stated<Length>,
    /// What kind of thing it is.
    pub kind: Stated<KeepOutKind>,
    /// Its lid, where one opens beside it.
    pub lid: Option<Lid>,
    /// How many alike lie beside each other, square to their long side.
    pub count: Stated<u32>,
    /// From one of them to the next.
    pub every: Stated<Length>,
    /// Place of the table.
    pub span: Span,
}

/// What kind of thing stays on the roof.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum KeepOutKind {
    /// Anything that is in the way.
    Thing,
    /// A vent or fan.
    Fan,
    /// A rod or dome that receives.
    Antenna,
    /// A lid that people or light come through.
    Hatch,
    /// Where somebody steps.
    Walkway,
    /// A rib or bead of the skin: frames pass over it, feet do not stand on it.
    Rib,
}

/// A lid that opens about one of its edges.
#[derive(Debug, Clone)]
pub struct Lid {
    /// Edge that it turns about.
    pub hinged: Stated<Edge>,
    /// How far it opens.
    pub opens: Stated<Angle>,
}

impl KeepOut {
    /// Whether a frame may lie over it.
    pub fn lets_frames_over(&self) -> bool {
        *self.kind == KeepOutKind::Rib
    }

    /// Where it stands: one place for each of those alike.
    pub fn places(&self) -> Vec<Rect> {
        let along = *self.length >= *self.width;
        (0..*self.count)
            .map(|k| {
                let by = *self.every * f64::from(k);
                let (dx, dy) = if along { (Length::ZERO, by) } else { (by, Length::ZERO) };
                let corner = Point2::new(*self.x + dx, *self.y + dy);
                Rect::from_size(corner, *self.length, *self.width)
            })
            .collect()
    }

    /// What it takes of the roof seen from above, an open lid with it. A lid that opens beyond
    /// upright reaches over its hinge by its depth times −cos of the angle.
    pub fn taken(&self) -> Vec<Rect> {
        let mut places = self.places();
        let Some(lid) = &self.lid else { return places };
        for place in &mut places {
            let (low, high) = (place.low(), place.high());
            let depth = match *lid.hinged {
                Edge::Left | Edge::Right => place.height(),
                Edge::Front | Edge::Rear => place.width(),
            };
            let over = (depth * -lid.opens.cos()).max(Length::ZERO);
            let (low, high) = match *lid.hinged {
                Edge::Left => (Point2::new(low.x, low.y - over), high),
                Edge::Right => (low, Point2::new(high.x, high.y + over)),
                Edge::Front => (Point2::new(low.x - over, low.y), high),
                Edge::Rear => (low, Point2::new(high.x + over, high.y)),
            };
            *place = Rect::from_corners(low, high);
        }
        places
    }
}

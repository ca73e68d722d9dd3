//! How the tubes of a frame meet at its corners.

use crate::source::{Span, Stated};
use crate::tables::{BlindRivet, CornerConnector, Section, TappingScrew};

/// How the tubes of a frame meet at its corners.
#[derive(Debug, Clone)]
// A frame has one: a box would cost every reader more than the room saves.
#[allow(clippy::large_enum_variant)]
pub enum Corner {
    /// A bought connector is pushed into both tubes.
    Connector(Stated<CornerConnector>),
    /// The tubes themselves meet.
    Tubes(TubeCorner),
}

/// Tubes that meet without a connector between them.
#[derive(Debug, Clone)]
pub struct TubeCorner {
    /// How their ends are cut.
    pub cut: Stated<CornerCut>,
    /// Which tubes run through at a butt corner.
    pub through: Stated<Through>,
    /// What holds them together.
    pub join: CornerJoin,
    /// Place of the table.
    pub span: Span,
}

/// How the ends of tubes are cut where they meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CornerCut {
    /// Both at 45°.
    Mitre,
    /// Both square: one tube ends against the side of the other.
    Butt,
}

/// Which tubes run over the whole size of the frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Through {
    /// Those along the vehicle.
    Sides,
    /// Those across it.
    Ends,
}

/// What holds two tubes together.
#[derive(Debug, Clone)]
#[allow(clippy::large_enum_variant)]
pub enum CornerJoin {
    /// Welded by a shop.
    Weld,
    /// An angle standing in the inner corner, a row of fasteners in each leg.
    Angle(CornerAngle),
}

/// An angle standing in the inner corner.
#[derive(Debug, Clone)]
pub struct CornerAngle {
    /// Section that it is cut from.
    pub section: Stated<Section>,
    /// Fasteners in each leg.
    pub each: Stated<u32>,
    /// What they are.
    pub fastener: CornerFastener,
}

/// What holds a leg of the angle to its tube.
#[derive(Debug, Clone)]
#[allow(clippy::large_enum_variant)]
pub enum CornerFastener {
    /// Blind rivets.
    Rivet(Stated<BlindRivet>),
    /// Tapping screws.
    Screw(Stated<TappingScrew>),
}

impl Corner {
    /// The connector, where there is one.
    pub const fn connector(&self) -> Option<&Stated<CornerConnector>> {
        match self {
            Self::Connector(row) => Some(row),
            Self::Tubes(_) => None,
        }
    }

    /// The angle in the inner corner, where there is one.
    pub const fn angle(&self) -> Option<&CornerAngle> {
        match self {
            Self::Tubes(TubeCorner { join: CornerJoin::Angle(angle), .. }) => Some(angle),
            _ => None,
        }
    }

    /// Whether a shop welds it.
    pub const fn is_welded(&self) -> bool {
        matches!(self, Self::Tubes(TubeCorner { join: CornerJoin::Weld, .. }))
    }

    /// Where it was written.
    pub const fn span(&self) -> Span {
        match self {
            Self::Connector(row) => row.span,
            Self::Tubes(corner) => corner.span,
        }
    }
}

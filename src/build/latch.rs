//! What holds a frame down that is lifted in use.

use crate::source::Stated;
use crate::units::{Force, Length};

/// In place of the bolts from a mount to the frame: opened by hand to lift the frame.
#[derive(Debug, Clone)]
pub struct Latch {
    /// What it is.
    pub kind: Stated<LatchKind>,
    /// What one of them holds by its own sheet.
    pub strength: Option<Stated<Force>>,
    /// Holes of a draw latch.
    pub holes: LatchHoles,
}

/// Two holes side by side in the body of a draw latch and two in its keeper.
#[derive(Debug, Clone)]
pub struct LatchHoles {
    /// Between the two of the body.
    pub body: Stated<Length>,
    /// Between the two of the keeper.
    pub keeper: Stated<Length>,
    /// From the body's to the keeper's, closed.
    pub reach: Stated<Length>,
}

impl LatchHoles {
    /// Those of small latches as sold.
    pub const fn usual() -> Self {
        const WHY: &str =
            "small draw latches as sold, common practice: measure yours before drilling";
        Self {
            body: Stated::default_of(Length::mm(20.0), WHY),
            keeper: Stated::default_of(Length::mm(18.0), WHY),
            reach: Stated::default_of(Length::mm(32.0), WHY),
        }
    }
}

/// Kinds of latch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LatchKind {
    /// Two bolts with a knob, into the rivet nuts of the tube.
    Knob,
    /// An over-centre latch between bracket and tube, with a hole for a locking pin.
    DrawLatch,
}

impl LatchKind {
    /// As printed.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Knob => "knob bolt",
            Self::DrawLatch => "draw latch",
        }
    }

    /// How many a mount has.
    pub const fn each(self) -> u32 {
        match self {
            Self::Knob => 2,
            Self::DrawLatch => 1,
        }
    }
}

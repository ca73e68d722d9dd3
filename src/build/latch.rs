//! What holds a frame down that is lifted in use.

use crate::source::Stated;
use crate::units::Force;

/// In place of the bolts from a mount to the frame: opened by hand to lift the frame.
#[derive(Debug, Clone)]
pub struct Latch {
    /// What it is.
    pub kind: Stated<LatchKind>,
    /// What one of them holds by its own sheet.
    pub strength: Option<Stated<Force>>,
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

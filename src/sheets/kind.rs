//! Kinds of sheet: the word on the tab and its place on the edge.

use crate::page::Tab;

/// Kinds of sheet in packet order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// What the packet is and what is open.
    Cover,
    /// Every safety message.
    Safety,
    /// What to confirm before anything is cut.
    Measure,
    /// What to buy and to bring.
    Shopping,
    /// Roof plan and sections.
    Roof,
    /// Bars and cuts.
    Cut,
    /// Parts with their holes.
    Part,
    /// Full-size outlines.
    Template,
    /// Loads on the mounts.
    Loads,
    /// Bonded joints.
    Bond,
    /// Cables and fuses.
    Wiring,
    /// Cables as work, and what is measured.
    Cables,
    /// The battery and what holds it.
    Battery,
    /// Masses, the roof's limits, the height.
    Weights,
    /// The plan by the clock.
    Timeline,
    /// One step.
    Step,
    /// How each figure was worked out.
    Worked,
    /// What was really done.
    Record,
}

impl Kind {
    const ALL: [Kind; 18] = [
        Kind::Cover,
        Kind::Safety,
        Kind::Measure,
        Kind::Shopping,
        Kind::Roof,
        Kind::Cut,
        Kind::Part,
        Kind::Template,
        Kind::Loads,
        Kind::Bond,
        Kind::Wiring,
        Kind::Cables,
        Kind::Battery,
        Kind::Weights,
        Kind::Timeline,
        Kind::Step,
        Kind::Worked,
        Kind::Record,
    ];

    /// The word on the tab.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Cover => "Cover",
            Self::Safety => "Safety",
            Self::Measure => "Measure",
            Self::Shopping => "Shopping",
            Self::Roof => "Roof",
            Self::Cut => "Cut",
            Self::Part => "Part",
            Self::Template => "Template",
            Self::Loads => "Loads",
            Self::Bond => "Bond",
            Self::Wiring => "Wiring",
            Self::Cables => "Cables",
            Self::Battery => "Battery",
            Self::Weights => "Weights",
            Self::Timeline => "Timeline",
            Self::Step => "Step",
            Self::Worked => "Worked out",
            Self::Record => "Record",
        }
    }

    /// The tab; neighbours in the stack stand one below the other. Eight places, taken in turn, so
    /// that a tab is large enough to read.
    pub fn tab(self) -> Tab {
        const PLACES: usize = 8;
        let index = Self::ALL.iter().position(|kind| *kind == self).unwrap_or(0);
        Tab::new(self.word(), index % PLACES, PLACES)
    }
}

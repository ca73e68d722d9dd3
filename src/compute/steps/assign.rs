//! Which step drills a hole, drives a fastener and makes a part.
//!
//! Holes that may be drilled from their own marks come first; one that must be drilled through its
//! mate is drilled when the two are put together.

use crate::derive::{Body, Drilling, Fastening, Hole, HoleKind, PartKind, Screw, Work};

/// Steps that make parts, holes and joints, in their order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    /// Cut the pieces.
    Cut,
    /// Drill the parts.
    Drill,
    /// Make the feet.
    Feet,
    /// Make the brackets of bolted feet and clamps.
    Brackets,
    /// Build the frame.
    Frame,
    /// Set the rivet nuts.
    RivetNuts,
    /// Fit the props to their tubes.
    Props,
    /// Screw the panels on.
    Panels,
    /// Fit the hinges.
    Hinges,
    /// Fit the rail clamps.
    Clamps,
    /// Set the bonded feet.
    Bond,
    /// Drill the skin under the bolted feet.
    RoofHoles,
    /// Seal and bolt the feet to the roof.
    RoofBolts,
    /// Drill the cable entry.
    Entry,
    /// Bolt the frame down.
    Bolt,
    /// Latch the frame that is lifted in use.
    Latch,
}

impl Stage {
    /// All, in order.
    pub const ALL: [Self; 16] = [
        Self::Cut,
        Self::Drill,
        Self::Feet,
        Self::Brackets,
        Self::Frame,
        Self::RivetNuts,
        Self::Props,
        Self::Panels,
        Self::Hinges,
        Self::Clamps,
        Self::Bond,
        Self::RoofHoles,
        Self::RoofBolts,
        Self::Entry,
        Self::Bolt,
        Self::Latch,
    ];

    /// Key of the step.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Cut => "cut",
            Self::Drill => "drill",
            Self::Feet => "feet",
            Self::Brackets => "brackets",
            Self::Frame => "frame",
            Self::RivetNuts => "rivet-nuts",
            Self::Props => "props",
            Self::Panels => "panels",
            Self::Hinges => "hinges",
            Self::Clamps => "clamps",
            Self::Bond => "bond",
            Self::RoofHoles => "roof-holes",
            Self::RoofBolts => "roof-bolts",
            Self::Entry => "entry",
            Self::Bolt => "bolt",
            Self::Latch => "latch",
        }
    }

    /// The stage of a step.
    pub fn of_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|stage| stage.key() == key)
    }
}

/// The step that drills a hole; none for one that is bought ready.
pub fn of_hole(work: &Work, hole: &Hole) -> Option<Stage> {
    let kind = work.parts[hole.part].kind;
    if kind == PartKind::Skin {
        return Some(Stage::Entry);
    }
    if kind == PartKind::SkinUnderFoot {
        return Some(Stage::RoofHoles);
    }
    match &hole.drilling {
        Drilling::Ready => None,
        Drilling::Apart => Some(match kind {
            PartKind::Rail => Stage::Hinges,
            PartKind::Panel => Stage::Panels,
            _ => Stage::Drill,
        }),
        Drilling::Through(guide) => {
            // A second wall of the same piece is drilled with the first.
            if let Some(guide) = work.hole(guide).filter(|guide| guide.part == hole.part) {
                return of_hole(work, guide);
            }
            let latched = hole
                .fastening
                .is_some_and(|k| of_fastening(work, &work.fastenings[k]) == Stage::Latch);
            if latched && hole.kind != HoleKind::RivetNut {
                return Some(Stage::Latch);
            }
            Some(match (kind, hole.kind) {
                (PartKind::Rail | PartKind::HingePacker, _) => Stage::Hinges,
                (PartKind::Panel, _) => Stage::Panels,
                (PartKind::FootAngle | PartKind::FootPlate, _) => Stage::Feet,
                (PartKind::Spreader | PartKind::ClampPlate, _) => Stage::Brackets,
                (PartKind::Wedge, _) => {
                    let of = hole.fastening.map(|k| of_fastening(work, &work.fastenings[k]));
                    if of == Some(Stage::Feet) { Stage::Feet } else { Stage::Brackets }
                }
                _ => match hole.fastening.map(|index| &work.fastenings[index]) {
                    Some(fastening) => match of_fastening(work, fastening) {
                        // Tubes take their rivet nut holes before the rivet nuts go in.
                        Stage::Hinges | Stage::Bolt | Stage::Latch => Stage::RivetNuts,
                        stage => stage,
                    },
                    None => Stage::Drill,
                },
            })
        }
    }
}

/// The step that drives a fastener.
pub fn of_fastening(work: &Work, fastening: &Fastening) -> Stage {
    let pieces = fastening.places.iter().flatten().filter_map(|at| work.piece(&at.piece));
    let kinds: Vec<PartKind> = pieces.map(|(part, _)| part.kind).collect();
    let joins = |kind: PartKind| kinds.contains(&kind);
    if joins(PartKind::Prop) {
        Stage::Props
    } else if fastening.undone || joins(PartKind::Latch) {
        Stage::Latch
    } else if joins(PartKind::Panel) {
        Stage::Panels
    } else if joins(PartKind::Hinge) || joins(PartKind::Rail) {
        Stage::Hinges
    } else if joins(PartKind::FootPlate) {
        Stage::Feet
    } else if joins(PartKind::ClampPlate) {
        Stage::Clamps
    } else if joins(PartKind::SkinUnderFoot) {
        Stage::RoofBolts
    } else if joins(PartKind::CornerAngle) || matches!(fastening.screw, Screw::BlindRivet { .. }) {
        Stage::Frame
    } else {
        Stage::Bolt
    }
}

/// Whether the step of cutting makes the part.
pub fn is_cut(work: &Work, part: usize) -> bool {
    matches!(
        work.parts[part].body,
        Body::Bar { .. } | Body::Plate { .. } | Body::Block { .. } | Body::Wedge { .. }
    )
}

/// Marks of the pieces that a step cuts, drills or joins, each once, in the order of the parts.
pub fn pieces_of(work: &Work, key: &str) -> Vec<String> {
    let Some(stage) = Stage::of_key(key) else { return Vec::new() };
    let joined = |mark: &str| {
        work.fastenings.iter().any(|fastening| {
            of_fastening(work, fastening) == stage
                && fastening.places.iter().flatten().any(|at| at.piece == mark)
        })
    };
    let mut marks = Vec::new();
    for (index, part) in work.parts.iter().enumerate() {
        let drilled = work.holes.iter().any(|hole| {
            let nut = stage == Stage::RivetNuts && hole.kind == HoleKind::RivetNut;
            hole.part == index && (nut || of_hole(work, hole) == Some(stage))
        });
        let cut = stage == Stage::Cut && is_cut(work, index);
        for piece in &part.pieces {
            if cut || drilled || joined(&piece.mark) {
                marks.push(piece.mark.clone());
            }
        }
    }
    marks
}

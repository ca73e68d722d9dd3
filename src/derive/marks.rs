//! Letters before the numbers of parts.
//!
//! The reader's own marks (panels, mounts, entry, battery, controller, stated parts) come first;
//! a letter that one of them takes is passed over for the next free one. `I`, `O`, `Q`, `S` and `Z`
//! are never used, as they are misread for 1, 0, 5 and 2; `H` stands for holes, `K` for leftovers
//! and `X` and `Y` for the axes.

use super::work::PartKind;
use crate::build::Build;

/// Letters that may be used, in the order in which they are tried.
const FREE: &str = "LCJADRUNVWFGEPBTM";

/// The letter for each kind of part.
#[derive(Debug, Clone)]
pub(super) struct Letters {
    taken: Vec<char>,
    given: Vec<(char, char)>,
}

impl Letters {
    /// Knows the marks of the build file.
    pub fn new(build: &Build) -> Self {
        let first = |mark: &str| mark.chars().next().map(|letter| letter.to_ascii_uppercase());
        let mut taken: Vec<char> = Vec::new();
        taken.extend(build.panels.iter().filter_map(|panel| first(&panel.mark)));
        taken.extend(build.mounts.iter().filter_map(|mount| first(&mount.mark)));
        taken.extend(build.entry.iter().filter_map(|entry| first(&entry.mark)));
        taken.extend(build.battery.iter().filter_map(|battery| first(&battery.mark)));
        taken.extend(build.controller.iter().filter_map(|controller| first(&controller.mark)));
        taken.extend(build.parts.iter().filter_map(|part| first(&part.mark)));
        taken.extend(build.plates.iter().filter_map(|plate| first(&plate.mark)));
        taken.extend(build.lengths.iter().filter_map(|length| first(&length.mark)));
        Self { taken, given: Vec::new() }
    }

    /// The letter for a kind; kinds that go together share one.
    pub fn of(&mut self, kind: PartKind) -> char {
        let wanted = match kind {
            PartKind::SideTube => 'L',
            PartKind::EndTube | PartKind::CrossTube => 'C',
            PartKind::JointAngle | PartKind::CornerAngle => 'J',
            PartKind::FootAngle | PartKind::ClampAngle => 'A',
            PartKind::FootPlate | PartKind::Spreader | PartKind::ClampPlate => 'D',
            PartKind::HingePacker
            | PartKind::PanelPacker
            | PartKind::ClampPacker
            | PartKind::PropPacker => 'R',
            PartKind::Prop => 'W',
            PartKind::Wedge => 'V',
            PartKind::Latch => 'G',
            PartKind::Connector | PartKind::EndPlug => 'U',
            // These carry marks from the build file; the letter is for what has none.
            PartKind::Hinge
            | PartKind::Panel
            | PartKind::Entry
            | PartKind::Direct
            | PartKind::Rail
            | PartKind::Skin
            | PartKind::SkinUnderFoot => 'N',
        };
        if let Some((_, letter)) = self.given.iter().find(|(asked, _)| *asked == wanted) {
            return *letter;
        }
        let letter = std::iter::once(wanted)
            .chain(FREE.chars())
            .find(|letter| !self.taken.contains(letter))
            // More than 17 marks of one letter each: two kinds then share one, still numbered on.
            .unwrap_or(wanted);
        self.taken.push(letter);
        self.given.push((wanted, letter));
        letter
    }
}

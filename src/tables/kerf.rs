//! Saws and what they take away.

use super::{MaterialKind, Row, RowOrigin};
use crate::units::{Angle, Length, Unit};

/// A saw.
#[derive(Clone, Debug, PartialEq)]
pub struct Kerf {
    /// `hacksaw`.
    pub name: String,
    /// For people.
    pub words: String,
    /// Kerf to plan with.
    pub width: Length,
    /// Lowest and highest kerf.
    pub range: [Length; 2],
    /// Teeth by inch sold; none where it doesn't matter.
    pub teeth: Vec<u32>,
    /// What it may cut.
    pub cuts: Vec<MaterialKind>,
    /// Whether it can be set to an angle.
    pub mitre: bool,
    /// How square it cuts.
    pub squareness: Angle,
    /// How true to length a careful cut is.
    pub length_tolerance: Length,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Kerf {
    /// Along the bar, a cut that is off square by `mitre` takes `kerf / cos(mitre)`.
    pub fn along_bar(&self, mitre: Angle) -> Length {
        self.width / mitre.cos().abs().max(f64::EPSILON)
    }

    /// The coarsest blade that keeps three teeth in a wall (workshop rule), else the finest sold
    /// and `false`. None where teeth don't matter.
    pub fn teeth_for(&self, wall: Length) -> Option<(u32, bool)> {
        let keeps = |teeth: u32| wall * f64::from(teeth) >= Length::inches(3.0);
        let coarsest = self.teeth.iter().copied().filter(|teeth| keeps(*teeth)).min();
        coarsest
            .map(|teeth| (teeth, true))
            .or_else(|| self.teeth.iter().copied().max().map(|teeth| (teeth, false)))
    }

    fn from_row(row: &mut Row<'_>) -> Self {
        Self {
            name: row.words("name"),
            words: row.words("words"),
            width: row.quantity("width", Unit::MM),
            range: row.quantities("range", Unit::MM),
            teeth: row.whole_list("teeth"),
            cuts: row.choices("cuts", MaterialKind::ALL),
            mitre: row.flag("mitre"),
            squareness: row.quantity("square", Unit::DEG),
            length_tolerance: row.quantity("length-tolerance", Unit::MM),
            origin: row.origin(),
        }
    }
}

entry!(Kerf, "kerf", from_row);

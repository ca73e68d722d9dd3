//! Rivet nuts.

use super::{Row, RowOrigin};
use crate::units::{Force, Length, Torque, Unit};

/// A rivet nut by thread, body metal and grip range. The hole differs from maker to maker: the one
/// printed for the insert in hand wins.
#[derive(Clone, Debug, PartialEq)]
pub struct RivetNut {
    /// `rivet-nut-M6-steel`.
    pub name: String,
    /// For people.
    pub words: String,
    /// Name of its [`super::Thread`].
    pub thread: String,
    /// Name of the body's [`super::Material`].
    pub material: String,
    /// Hole to drill.
    pub hole: Length,
    /// Thinnest wall that it grips.
    pub grip_min: Length,
    /// Thickest wall that it grips.
    pub grip_max: Length,
    /// Flange diameter.
    pub flange_diameter: Length,
    /// Flange thickness, which stands proud of the face.
    pub flange_thickness: Length,
    /// Length before setting: room needed behind the face.
    pub length: Length,
    /// Axial proof load of body and thread on a firm support. The sheet round it is another check.
    pub pull_out: Force,
    /// Shear strength.
    pub shear: Force,
    /// Torque that turns it in the sheet.
    pub spin_torque: Torque,
    /// The same in 0.76 mm steel sheet, where it was tested.
    pub spin_torque_thin_sheet: Option<Torque>,
    /// Greatest tightening torque to plan for.
    pub assembly_torque: Torque,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl RivetNut {
    /// Whether it grips a wall of this thickness.
    pub fn grips(&self, wall: Length) -> bool {
        self.grip_min <= wall && wall <= self.grip_max
    }
}

entry!(RivetNut, "rivet-nut", from_row);

impl RivetNut {
    fn from_row(row: &mut Row<'_>) -> Self {
        let [grip_min, grip_max] = row.quantities("grip", Unit::MM);
        let (flange_diameter, flange_thickness) = row.needed_inner("flange", |row| {
            (row.quantity("diameter", Unit::MM), row.quantity("thickness", Unit::MM))
        });
        if grip_min > grip_max {
            row.refuse("grip", "takes the thinnest wall, then the thickest");
        }
        Self {
            name: row.words("name"),
            words: row.words("words"),
            thread: row.words("thread"),
            material: row.words("material"),
            hole: row.quantity("hole", Unit::MM),
            grip_min,
            grip_max,
            flange_diameter,
            flange_thickness,
            length: row.quantity("length", Unit::MM),
            pull_out: row.quantity("pull-out", Unit::N),
            shear: row.quantity("shear", Unit::N),
            spin_torque: row.quantity("spin", Unit::NM),
            spin_torque_thin_sheet: row.maybe("spin-thin-sheet", Unit::NM),
            assembly_torque: row.quantity("torque", Unit::NM),
            origin: row.origin(),
        }
    }
}

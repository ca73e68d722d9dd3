//! Cable lugs and the torque of their screws.

use super::{Row, RowOrigin, Table};
use crate::units::{Torque, Unit};

/// A lug by conductor, with the studs it is made for.
#[derive(Clone, Debug, PartialEq)]
pub struct Lug {
    /// `lug-25mm2`, by its smallest conductor.
    pub name: String,
    /// Names of the [`super::CableSize`]s it takes (a size each, sold apart).
    pub conductors: Vec<String>,
    /// Names of the [`super::Thread`]s of its studs; the hole is the thread's fine clearance.
    pub studs: Vec<String>,
    /// Whether it is an insulated crimp terminal.
    pub insulated: bool,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Lug {
    fn from_row(row: &mut Row<'_>) -> Self {
        Self {
            name: row.words("name"),
            conductors: row.words_list("conductors"),
            studs: row.words_list("studs"),
            insulated: row.flag("insulated"),
            origin: row.origin(),
        }
    }
}

impl Table<Lug> {
    /// The lug for a conductor on a stud, where one is made.
    pub fn lug_for(&self, conductor: &str, stud: &str) -> Option<&Lug> {
        // Wire by SAE takes the lugs of its gauge number.
        let number = conductor.strip_prefix("sae-").map(|number| format!("awg-{number}"));
        let conductor = number.as_deref().unwrap_or(conductor);
        self.iter().find(|lug| {
            lug.conductors.iter().any(|size| size == conductor)
                && lug.studs.iter().any(|thread| thread == stud)
        })
    }
}

entry!(Lug, "lug", from_row);

/// Torque of a screw or stud that holds a ring lug. The label of the device wins.
#[derive(Clone, Debug, PartialEq)]
pub struct TerminalTorque {
    /// The thread, `M8`.
    pub name: String,
    /// Tightening torque at a fuse, a bus bar, a device.
    pub torque: Torque,
    /// What batteries' makers ask of it, from and to.
    pub battery: Option<[Torque; 2]>,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl TerminalTorque {
    fn from_row(row: &mut Row<'_>) -> Self {
        Self {
            name: row.words("name"),
            torque: row.quantity("torque", Unit::NM),
            battery: row.maybe_quantities("battery", Unit::NM),
            origin: row.origin(),
        }
    }
}

entry!(TerminalTorque, "terminal-torque", from_row);

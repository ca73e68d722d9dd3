//! `[battery]` and `[restraint]`.

use crate::source::{Span, Stated};
use crate::tables::{Chemistry, Material};
use crate::units::{Charge, Current, Force, Length, Mass, Resistance, Torque, Voltage};

/// The battery.
#[derive(Debug, Clone)]
pub struct Battery {
    /// Mark on the sheets.
    pub mark: Stated<String>,
    /// Chemistry row.
    pub chemistry: Stated<Chemistry>,
    /// Rated capacity.
    pub capacity: Stated<Charge>,
    /// Nominal voltage.
    pub voltage: Stated<Voltage>,
    /// Mass.
    pub mass: Stated<Mass>,
    /// Along X.
    pub length: Stated<Length>,
    /// Along Y.
    pub width: Stated<Length>,
    /// Height, terminals included.
    pub height: Stated<Length>,
    /// Where it stands, in words.
    pub place: Stated<String>,
    /// Short-circuit current by its data sheet, for the fuse's breaking capacity.
    pub short_circuit: Option<Stated<Current>>,
    /// Thread of its terminals, "M8".
    pub stud: Stated<&'static str>,
    /// Torque of its terminals by its label or data sheet.
    pub torque: Option<Stated<Torque>>,
    /// Internal resistance by its data sheet, for the same.
    pub internal_resistance: Option<Stated<Resistance>>,
    /// What keeps it from being charged in the cold.
    pub cold_charging: Option<Stated<ColdCharging>>,
    /// Place of the table.
    pub span: Span,
}

/// What keeps a battery from being charged in the cold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ColdCharging {
    /// The battery or the controller stops the current.
    Stopped,
    /// The battery is warmed.
    Heated,
}

/// What holds the battery.
#[derive(Debug, Clone)]
pub struct Restraint {
    /// Straps over the top.
    pub straps: Stated<u32>,
    /// Lashing capacity of one strap, in straight pull.
    pub strap_capacity: Stated<Force>,
    /// Blocks round the foot of it, one a side in turn.
    pub blocks: Stated<u32>,
    /// Screws in each block.
    pub screws_a_block: Stated<u32>,
    /// Screw diameter.
    pub screw_diameter: Stated<Length>,
    /// Screw length.
    pub screw_length: Stated<Length>,
    /// What the floor is made of.
    pub floor: Stated<Material>,
    /// Thickness of the floor.
    pub floor_thickness: Stated<Length>,
    /// Height of the blocks.
    pub block_height: Stated<Length>,
    /// Place of the table.
    pub span: Span,
}

//! `[battery]` and `[restraint]`.

use super::Centre;
use crate::source::{Span, Stated};
use crate::tables::{BoltGrade, Chemistry, Material, RestraintLevel, Thread};
use crate::units::{
    Angle, Charge, Current, Force, Length, Mass, Ratio, Resistance, Temperature, Torque, Voltage,
};

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
    /// Hottest air at its place.
    pub hottest: Stated<Temperature>,
    /// What keeps it from being charged in the cold.
    pub cold_charging: Option<Stated<ColdCharging>>,
    /// Batteries alike that stand in a row and are joined to one bank; all else here is of one.
    pub count: Stated<u32>,
    /// How many of them lie one behind the other; strings of so many lie side by side.
    pub in_series: Stated<u32>,
    /// Which way the row runs.
    pub row: Stated<RowWay>,
    /// Free room from one to the next.
    pub row_gap: Stated<Length>,
    /// Middle of all of them.
    pub centre: Option<Centre>,
    /// Place of the table.
    pub span: Span,
}

/// Which way a row of batteries runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RowWay {
    /// From the vehicle's left to its right.
    Across,
    /// From front to rear.
    Along,
}

impl Battery {
    /// Strings side by side; one where the batteries do not fill their strings.
    pub fn strings(&self) -> u32 {
        (*self.count / (*self.in_series).max(1)).max(1)
    }

    /// Nominal voltage of the bank.
    pub fn bank_voltage(&self) -> Voltage {
        *self.voltage * f64::from(*self.in_series)
    }

    /// Rated capacity of the bank.
    pub fn bank_capacity(&self) -> Charge {
        *self.capacity * f64::from(self.strings())
    }

    /// Cells of the bank, one behind the other.
    pub fn bank_cells(&self) -> u32 {
        self.chemistry.cells(*self.voltage) * *self.in_series
    }

    /// Mass of all of them.
    pub fn bank_mass(&self) -> Mass {
        *self.mass * f64::from(*self.count)
    }

    /// Along X and along Y, of the whole row.
    pub fn row_size(&self) -> (Length, Length) {
        let all = |one: Length| {
            let count = f64::from(*self.count);
            one * count + *self.row_gap * (count - 1.0)
        };
        match *self.row {
            RowWay::Across => (*self.length, all(*self.width)),
            RowWay::Along => (all(*self.length), *self.width),
        }
    }

    /// Mark of each: "B", or "B1", "B2" of a bank.
    pub fn marks(&self) -> Vec<String> {
        match *self.count {
            0 | 1 => vec![self.mark.value.clone()],
            count => (1..=count).map(|n| format!("{}{n}", *self.mark)).collect(),
        }
    }

    /// Mark of the battery whose plus is the bank's.
    pub fn at_plus(&self) -> String {
        self.marks().into_iter().next().unwrap_or_default()
    }

    /// Mark of the battery whose minus is the bank's: the far corner, so that all strings share alike.
    pub fn at_minus(&self) -> String {
        self.marks().into_iter().next_back().unwrap_or_default()
    }
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
    /// In which way.
    pub kind: Stated<HoldBy>,
    /// How hard it is pulled at.
    pub level: Stated<RestraintLevel>,
    /// Straps: over the top, or from the battery's corners to the floor.
    pub straps: Stated<u32>,
    /// Lashing capacity of one strap, in straight pull; zero without straps.
    pub strap_capacity: Stated<Force>,
    /// Tension that a hand leaves in a strap.
    pub strap_tension: Stated<Force>,
    /// Strap to the floor.
    pub strap_angle: Stated<Angle>,
    /// Strap, seen from above, to the vehicle's long axis; of direct straps.
    pub strap_turn: Stated<Angle>,
    /// What fixes each end of a strap to the floor.
    pub anchor: Option<Anchor>,
    /// Friction of the battery on its floor.
    pub friction: Stated<Ratio>,
    /// Blocks round the foot of it, one a side in turn.
    pub blocks: Stated<u32>,
    /// Screws or bolts in each block.
    pub screws_a_block: Stated<u32>,
    /// Screw of the blocks.
    pub screw: Option<WoodScrew>,
    /// Bolt through the floor: of the blocks in place of screws, or of a cradle.
    pub bolt: Option<ThroughBolt>,
    /// What the floor is made of.
    pub floor: Stated<Material>,
    /// Thickness of the floor.
    pub floor_thickness: Stated<Length>,
    /// Height of the blocks.
    pub block_height: Stated<Length>,
    /// Place of the table.
    pub span: Span,
}

/// Ways to hold a battery.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HoldBy {
    /// Straps over the top press it down; blocks or friction hold its foot.
    TopOver,
    /// Straps pull at it from each side.
    Direct,
    /// A metal cradle round it, bolted through the floor.
    Cradle,
}

/// A wood screw.
#[derive(Debug, Clone)]
pub struct WoodScrew {
    /// Nominal diameter.
    pub diameter: Stated<Length>,
    /// Length under the head.
    pub length: Stated<Length>,
}

/// A bolt through the floor.
#[derive(Debug, Clone)]
pub struct ThroughBolt {
    /// Thread.
    pub thread: Stated<Thread>,
    /// Property class.
    pub grade: Stated<BoltGrade>,
    /// How many: in a cradle, at an anchor.
    pub count: Stated<u32>,
    /// Plate under the floor; a large washer where none is stated.
    pub spreader: Option<SpreaderPlate>,
}

/// A plate under the floor.
#[derive(Debug, Clone)]
pub struct SpreaderPlate {
    /// One side.
    pub length: Stated<Length>,
    /// The other.
    pub width: Stated<Length>,
    /// Thickness.
    pub thickness: Stated<Length>,
    /// What it is made of.
    pub material: Stated<Material>,
}

/// What fixes one end of a strap to the floor.
#[derive(Debug, Clone)]
pub enum Anchor {
    /// A fitting with a capacity by its maker.
    Fitting(Stated<Force>),
    /// A plate with wood screws, which are pulled along their length.
    Screws(WoodScrew, Stated<u32>),
    /// Bolts through the floor.
    Bolts(ThroughBolt),
}

//! `[entry]`, `[controller]`, `[supply]`, `[isolator]`, `[earth]`, `[[circuit]]`.

use super::Centre;
use crate::source::{Span, Stated};
use crate::tables::{Adhesive, CableSize, area_words};
use crate::units::{Area, Current, Length, Mass, Ratio, Temperature, Torque, Voltage};

/// Where the cables go through the roof.
#[derive(Debug, Clone)]
pub struct Entry {
    /// Mark on the sheets.
    pub mark: Stated<String>,
    /// Middle behind the datum.
    pub x: Stated<Length>,
    /// Middle right of the centre line.
    pub y: Stated<Length>,
    /// Cables that pass.
    pub cables: Stated<u32>,
    /// Hole through the skin.
    pub hole: Stated<Length>,
    /// Foot of the housing along X.
    pub length: Stated<Length>,
    /// Foot of the housing along Y.
    pub width: Stated<Length>,
    /// Mass of the housing.
    pub mass: Option<Stated<Mass>>,
    /// Sealant under and round the housing.
    pub sealing: Stated<Adhesive>,
    /// Place of the table.
    pub span: Span,
}

/// The charge controller.
#[derive(Debug, Clone)]
pub struct Controller {
    /// Mark on the sheets.
    pub mark: Stated<String>,
    /// What it is.
    pub kind: Stated<ControllerKind>,
    /// Its mass.
    pub mass: Option<Stated<Mass>>,
    /// Its middle.
    pub centre: Option<Centre>,
    /// Torque of its clamps by its manual.
    pub torque: Option<Stated<Torque>>,
    /// Highest input voltage.
    pub max_voltage: Stated<Voltage>,
    /// Highest charging current.
    pub max_current: Stated<Current>,
    /// Highest short-circuit current of panels that its input stands.
    pub max_short_circuit: Option<Stated<Current>>,
    /// How the panels are joined, where no length of the strings is stated.
    pub connection: Stated<PanelConnection>,
    /// Panels in each string; the strings lie side by side.
    pub in_series: Option<Stated<u32>>,
    /// Charging voltage, for the hot-day check.
    pub charge_voltage: Stated<Voltage>,
    /// Place of the table.
    pub span: Span,
}

impl Controller {
    /// How the panels are joined, where that is written in the build file: the key and its place.
    pub fn joined_as(&self) -> Option<(&'static str, Span)> {
        let connection = Some(&self.connection).filter(|own| !own.is_default());
        let by_length = || self.in_series.as_ref().map(|own| ("in-series", own.span));
        connection.map(|own| ("connection", own.span)).or_else(by_length)
    }

    /// Panels in each string of so many panels.
    pub fn string_length(&self, panels: u32) -> u32 {
        match (&self.in_series, *self.connection) {
            (Some(stated), _) => **stated,
            (None, PanelConnection::Series) => panels.max(1),
            (None, PanelConnection::Parallel) => 1,
        }
    }
}

/// The vehicle's own battery, which feeds a charger that takes direct current.
#[derive(Debug, Clone)]
pub struct Supply {
    /// Nominal voltage.
    pub voltage: Stated<Voltage>,
    /// Highest current that the charger takes from it, by its data sheet.
    pub current: Option<Stated<Current>>,
    /// Short-circuit current by its data sheet.
    pub short_circuit: Option<Stated<Current>>,
    /// Place of the table.
    pub span: Span,
}

/// The switch between panels and controller, as it is on hand.
#[derive(Debug, Clone)]
pub struct Isolator {
    /// What parts the panels from the controller.
    pub kind: Stated<IsolatorKind>,
    /// Current that it may break.
    pub rating: Option<Stated<Current>>,
    /// Direct voltage that it may break.
    pub voltage: Option<Stated<Voltage>>,
    /// Poles that it opens together.
    pub poles: Stated<u32>,
    /// Place of the table.
    pub span: Span,
}

/// What parts the panels from the controller.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum IsolatorKind {
    /// A switch for direct current.
    Switch,
    /// Nothing but the plugs of the panels.
    Plugs,
    /// Nothing.
    Missing,
}

/// Whether the minus is joined to the vehicle's body.
#[derive(Debug, Clone)]
pub struct Earth {
    /// What it is joined to.
    pub bond: Stated<Bond>,
    /// Route of the bond from the battery's minus; always there where it is joined.
    pub length: Option<Stated<Length>>,
    /// Place of the table.
    pub span: Span,
}

/// What the battery's minus is joined to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bond {
    /// The metal of the vehicle.
    Chassis,
    /// Nothing: plus and minus both float.
    Nothing,
}

/// What the controller is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ControllerKind {
    /// Solar input only.
    Solar,
    /// Charger from the vehicle's supply with a solar input.
    DcDc,
}

/// How panels are joined.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PanelConnection {
    /// All side by side.
    Parallel,
    /// All in one string.
    Series,
}

/// One cable run of two conductors.
#[derive(Debug, Clone)]
pub struct Circuit {
    /// Name on the sheets.
    pub name: Stated<String>,
    /// Where the current comes from.
    pub from: Stated<Terminal>,
    /// Where it goes.
    pub to: Stated<Terminal>,
    /// Route length, one way.
    pub length: Stated<Length>,
    /// Current in use; absent where it follows from panels, controller, or what is fed from its
    /// far end.
    pub current: Option<Stated<Current>>,
    /// Conductor that is on hand or in place, to be checked; absent where it is to be chosen.
    pub size: Option<Stated<CableSize>>,
    /// Rating of the fuse at its source that is on hand or in place.
    pub fuse: Option<Stated<Current>>,
    /// What a switch in it opens; absent where none is in it.
    pub switched: Option<Stated<Switched>>,
    /// Current that the switch on hand may carry and break.
    pub switch_rating: Option<Stated<Current>>,
    /// Insulation of the cable.
    pub insulation: Stated<Insulation>,
    /// How it lies, which decides what it may carry.
    pub laid: Stated<Laid>,
    /// Loaded conductors that run in the same bundle.
    pub bundled: Stated<u32>,
    /// Air round the cable.
    pub ambient: Stated<Temperature>,
    /// Greatest voltage drop from the battery or the panels to its far end, a share.
    pub drop_limit: Stated<Ratio>,
    /// Place of the table.
    pub span: Span,
}

/// What a switch in a run opens.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Switched {
    /// Its plus.
    Plus,
    /// Plus and minus together.
    Both,
}

/// Panels one behind the other.
#[derive(Debug, Clone)]
pub struct StringOf {
    /// Their marks, from the plus end.
    pub panels: Vec<Stated<String>>,
    /// Place of the table.
    pub span: Span,
}

/// Ends of a run.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Terminal {
    /// The panels.
    Panels,
    /// The controller.
    Controller,
    /// The battery.
    Battery,
    /// The vehicle's own battery.
    Supply,
    /// Something else, by name.
    Load(String),
}

impl Insulation {
    /// For people and on shopping lists.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Pvc70 => "PVC cable, 70\u{a0}°C",
            Self::Pvc105 => "PVC cable, 105\u{a0}°C",
            Self::Solar => "solar cable, EN\u{a0}50618",
        }
    }

    /// Name of a single core of this insulation by its copper and colour, as goods of a shop.
    pub fn core(self, area: Area, colour: &str) -> String {
        format!("{}, {}, {colour}", self.words(), area_words(area))
    }
}

/// How a cable lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Laid {
    /// Loosely, with air round it.
    Open,
    /// Clipped to a surface.
    Clipped,
    /// In conduit.
    Conduit,
    /// Between a sunlit roof skin and the lining.
    RoofVoid,
}

/// Insulation of a cable by what it stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Insulation {
    /// Plain PVC, 70 °C.
    Pvc70,
    /// Heat-resistant PVC, 105 °C.
    Pvc105,
    /// Cross-linked solar cable, 120 °C conductor (EN 50618).
    Solar,
}

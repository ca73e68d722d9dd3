//! Battery chemistries.

use super::{Row, RowOrigin};
use crate::units::{Charge, Current, Resistance, Temperature, Unit, Voltage};

/// Links and terminals of a battery; from memory.
const LINKS: Resistance = Resistance::milliohm(0.5);

/// A battery chemistry; voltages are of one cell.
#[derive(Clone, Debug, PartialEq)]
pub struct Chemistry {
    /// `lfp`.
    pub name: String,
    /// For people.
    pub words: String,
    /// Cells in series of a "12 V" battery.
    pub cells_for_12_v: u32,
    /// Nominal voltage.
    pub nominal: Voltage,
    /// Charge limit.
    pub full: Voltage,
    /// Charge voltage that packs use.
    pub full_in_use: Voltage,
    /// Discharge cut-off.
    pub cut_off: Voltage,
    /// Lowest voltage before harm.
    pub cut_off_at_least: Voltage,
    /// Temperatures for charging, from and to.
    pub charge: [Temperature; 2],
    /// Temperatures for discharging, from and to.
    pub discharge: [Temperature; 2],
    /// Temperatures for storage, from and to.
    pub storage: [Temperature; 2],
    /// Mass of a cased battery in kg by kWh, least and most.
    pub kg_by_kwh: [f64; 2],
    /// Short-circuit current of one 12 V battery of 100 to 300 Ah, least and most.
    pub short_circuit: [Current; 2],
    /// Resistance of a charged cell of 1 Ah; a larger one has as much less.
    pub cell_resistance: Resistance,
    /// Whether it gives off gas in ordinary use, and needs an opening to the outside.
    pub vents: bool,
    /// Gassing current while charged at full voltage, mA an ampere-hour; none where none is told.
    pub gas: Option<f64>,
    /// What to say about ventilation.
    pub ventilation: String,
    /// What to say about cold.
    pub cold: String,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Chemistry {
    fn from_row(row: &mut Row<'_>) -> Self {
        Self {
            name: row.words("name"),
            words: row.words("words"),
            cells_for_12_v: row.whole("cells-for-12-v"),
            nominal: row.quantity_above_zero("nominal", Unit::V),
            full: row.quantity("full", Unit::V),
            full_in_use: row.quantity("full-in-use", Unit::V),
            cut_off: row.quantity("cut-off", Unit::V),
            cut_off_at_least: row.quantity("cut-off-at-least", Unit::V),
            charge: row.quantities("charge", Unit::CELSIUS),
            discharge: row.quantities("discharge", Unit::CELSIUS),
            storage: row.quantities("storage", Unit::CELSIUS),
            kg_by_kwh: row.numbers("mass-by-kwh"),
            short_circuit: row.quantities("short-circuit", Unit::KA),
            cell_resistance: row.quantity_above_zero("cell-resistance", Unit::MILLIOHM),
            vents: row.flag("vents"),
            gas: row.maybe_number("gas"),
            ventilation: row.words("ventilation"),
            cold: row.words("cold"),
            origin: row.origin(),
        }
    }

    /// Resistance of a charged battery without a data sheet: its cells, links and terminals.
    pub fn inner_resistance(&self, nominal: Voltage, capacity: Charge) -> Resistance {
        let cell = self.cell_resistance * (Charge::ah(1.0) / capacity);
        cell * f64::from(self.cells(nominal)) + LINKS
    }

    /// Cells in series of a battery of this nominal voltage.
    pub fn cells(&self, nominal: Voltage) -> u32 {
        (nominal / self.nominal).round().max(1.0) as u32
    }
}

entry!(Chemistry, "chemistry", from_row);

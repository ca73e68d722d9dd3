//! Air for a battery that gives off hydrogen.

use crate::build::Battery;
use crate::source::{Figure, Ledger, Seen};
use crate::units::Area;

/// Air and openings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Vent {
    /// Air through it while it is charged, m³/h.
    pub flow: f64,
    /// Free area of each of two openings, one low, one high.
    pub area: Area,
}

/// Factor of EN IEC 62485-2 for air that thins hydrogen to a fifth of what burns, m³/Ah.
const THIN: f64 = 0.05;
/// Free area for natural draught, cm² an m³/h.
const DRAUGHT: f64 = 28.0;

/// By EN IEC 62485-2 (once EN 50272-2), 7.2 and 7.3; none for chemistries that give off none.
pub(super) fn vent(battery: &Battery, ledger: &mut Ledger) -> Option<Vent> {
    let gas = battery.chemistry.gas.filter(|gas| *gas > 0.0)?;
    let cells = f64::from(battery.bank_cells());
    let flow = THIN * cells * gas * battery.bank_capacity().to_ah() / 1000.0;
    let area = Area::cm2(DRAUGHT * flow);
    ledger.push(
        Figure::new(
            "battery.vent",
            "free area of each of two openings for the battery",
            area.to_cm2(),
            "cm²",
        )
        .formula("A = 28 Q, Q = 0.05 n I C")
        .input("n", format!("{cells:.0} cells"))
        .input("I", format!("{gas:.0} mA/Ah"))
        .input("C", battery.bank_capacity().to_string())
        .source("EN IEC 62485-2, 7.2 and 7.3", Seen::Memory)
        .assume("charged at its full voltage, where it gives off most")
        .decides(),
    );
    Some(Vent { flow, area })
}

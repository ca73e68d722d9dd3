//! Conductors by size.

use super::{Row, RowOrigin, Table};
use crate::units::{Area, Length, LinearResistance, Temperature, Unit};
use std::borrow::Cow;

/// How conductors are sized.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Gauge {
    /// By mm².
    Metric,
    /// American wire gauge.
    Awg,
    /// Vehicle and small-craft wire by gauge number (SAE J378, J1127, J1128), which may hold less
    /// copper.
    Sae,
}

/// Temperature coefficient of copper from 20 °C, IEC 60287-1-1 (from memory; IEC 60228 rounds to
/// 0.004).
const COPPER_BY_KELVIN: f64 = 0.003_93;

/// What stranding adds to the resistance of a solid wire of the same gauge, ASTM B8 (from memory).
const STRANDING: f64 = 1.02;

/// A conductor size.
#[derive(Clone, Debug, PartialEq)]
pub struct CableSize {
    /// `4mm2`, `awg-12`, `awg-1/0`, `sae-10`.
    pub name: String,
    /// Metric or AWG.
    pub gauge: Gauge,
    /// Copper area.
    pub area: Area,
    /// Least copper of small-craft wire of the same gauge number, which may be smaller.
    pub marine_area: Option<Area>,
    /// Resistance of one conductor at 20 °C, plain copper, stranded.
    pub resistance_20: LinearResistance,
    /// The same, tinned.
    pub resistance_tinned_20: Option<LinearResistance>,
    /// Typical outside diameter of one PVC-insulated core.
    pub outer_pvc: Option<Length>,
    /// Outside diameter of solar cable.
    pub outer_pv: Option<Length>,
    /// Where the row came from.
    pub origin: RowOrigin,
}

/// "4 mm²".
pub fn area_words(area: Area) -> String {
    let mm2 = area.to_mm2();
    if mm2.fract() == 0.0 {
        format!("{mm2:.0}\u{a0}mm²")
    } else {
        format!("{mm2:.2}\u{a0}mm²").replace("0\u{a0}", "\u{a0}")
    }
}

impl CableSize {
    /// Name of the gauge of the same number, by which tables of currents and lugs go.
    pub fn by_number(&self) -> Cow<'_, str> {
        self.name
            .strip_prefix("sae-")
            .map_or(Cow::Borrowed(self.name.as_str()), |number| Cow::Owned(format!("awg-{number}")))
    }

    /// Resistance of one conductor at a copper temperature: `R₂₀ (1 + α (T − 20))`.
    pub fn resistance_at(&self, copper: Temperature) -> LinearResistance {
        self.resistance_20 * (1.0 + COPPER_BY_KELVIN * (copper.to_celsius() - 20.0))
    }

    /// The same for small-craft wire of this gauge number, which may hold less copper.
    pub fn marine_resistance_at(&self, copper: Temperature) -> LinearResistance {
        let least = self.marine_area.unwrap_or(self.area).min(self.area);
        self.resistance_at(copper) * (self.area / least)
    }

    fn from_row(row: &mut Row<'_>) -> Self {
        let name = row.words("name");
        let gauge = match name.get(..4) {
            Some("awg-") => Gauge::Awg,
            Some("sae-") => Gauge::Sae,
            _ => Gauge::Metric,
        };
        let listed: LinearResistance = row.quantity_above_zero("resistance", Unit::MILLIOHM_PER_M);
        // The gauge tables are for solid wire.
        let stranding = if gauge == Gauge::Metric { 1.0 } else { STRANDING };
        Self {
            name,
            gauge,
            area: row.quantity_above_zero("area", Unit::MM2),
            marine_area: row.maybe("marine-area", Unit::MM2),
            resistance_20: listed * stranding,
            resistance_tinned_20: row.maybe("resistance-tinned", Unit::MILLIOHM_PER_M),
            outer_pvc: row.maybe("outer-pvc", Unit::MM),
            outer_pv: row.maybe("outer-pv", Unit::MM),
            origin: row.origin(),
        }
    }
}

impl Table<CableSize> {
    /// Sizes of a gauge, smallest first.
    pub fn sizes(&self, gauge: Gauge) -> Vec<&CableSize> {
        let mut sizes: Vec<&CableSize> = self.iter().filter(|size| size.gauge == gauge).collect();
        sizes.sort_by(|a, b| a.area.total_cmp(&b.area));
        sizes
    }

    /// The smallest size of `gauge` with at least as much copper.
    pub fn not_smaller(&self, than: &CableSize, gauge: Gauge) -> Option<&CableSize> {
        self.sizes(gauge).into_iter().find(|size| size.area >= than.area)
    }

    /// Sizes of the other gauge next below and next above, with less and with as much copper.
    pub fn equivalents(&self, to: &CableSize) -> (Option<&CableSize>, Option<&CableSize>) {
        let other = match to.gauge {
            Gauge::Metric => Gauge::Awg,
            Gauge::Awg | Gauge::Sae => Gauge::Metric,
        };
        let below = self.sizes(other).into_iter().rfind(|size| size.area < to.area);
        (below, self.not_smaller(to, other))
    }
}

entry!(CableSize, "cable-size", from_row);

//! The smallest conductor by ampacity and by voltage drop.

use crate::build::{Circuit, Insulation, Laid};
use crate::source::{Figure, Ledger, Seen};
use crate::tables::{AmbientFactor, Ampacity, CableSize, Gauge, Tables};
use crate::units::{Area, Current, Length, Ratio, Resistance, Temperature, Voltage, display};

/// Air between a sunlit skin and the lining: as in the engine space of ISO 10133; common practice for
/// the void, no source.
const ROOF_VOID: Temperature = Temperature::celsius(60.0);

/// A chosen conductor.
#[derive(Debug, Clone)]
pub struct Conductor {
    /// Name of its row, "6mm2".
    pub name: String,
    /// Copper.
    pub area: Area,
    /// What it may carry here, factors applied.
    pub ampacity: Current,
    /// The table that says so.
    pub table: String,
    /// What that table has for the size, before the factors.
    pub listed: Current,
    /// Factors on it: for the air, for the bundle.
    pub factors: (Ratio, Ratio),
    /// Air round it.
    pub air: Temperature,
    /// How well the table's value is known.
    pub seen: Seen,
    /// Resistance of both conductors at working temperature.
    pub resistance: Resistance,
    /// Voltage lost on both conductors at the working current.
    pub drop: Voltage,
    /// The same as a share.
    pub drop_share: Ratio,
    /// What asked for this size.
    pub decided: DecidedBy,
    /// Outside diameter of one core, typical.
    pub outer: Option<Length>,
}

impl Conductor {
    /// What it fails by, if it is too thin for a design current and a greatest drop.
    pub fn too_thin(&self, design: Current, limit: Ratio) -> Option<DecidedBy> {
        if self.ampacity < design {
            Some(DecidedBy::Ampacity)
        } else if self.drop_share > limit {
            Some(DecidedBy::Drop)
        } else {
            None
        }
    }
}

/// What decides a size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DecidedBy {
    /// The current it may carry.
    Ampacity,
    /// The voltage it loses.
    Drop,
    /// The smallest fuse that stands at its battery.
    Fuse,
    /// Less copper in all: what it loses is missing for the runs that it feeds.
    Further,
    /// The build file: it is there already.
    Stated,
}

impl DecidedBy {
    /// As printed.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Ampacity => "current",
            Self::Drop => "voltage drop",
            Self::Fuse => "fuse",
            Self::Further => "drop further on",
            Self::Stated => "stated",
        }
    }
}

/// The choice in both lists of sizes.
pub(super) struct Choice {
    /// By mm².
    pub metric: Option<Conductor>,
    /// Name of the smallest gauge that does.
    pub gauge: Option<String>,
    /// The same of vehicle and small-craft wire, which holds less copper.
    pub sae: Option<String>,
}

/// What a run asks of its conductor.
#[derive(Clone, Copy)]
pub(super) struct Asked {
    /// Current that cable and fuse are chosen for.
    pub design: Current,
    /// Current in use.
    pub working: Current,
    /// Voltage that the drop is a share of.
    pub voltage: Voltage,
    /// Drop that is left for this run.
    pub drop: Ratio,
    /// Least copper, for the sake of the runs that it feeds.
    pub least: Area,
}

/// Smallest sizes that carry the design current, keep the drop and suit a fuse; `fused` says whether a
/// fuse exists for what a size carries. A size that the build file states is taken as it is.
pub(super) fn choose(
    circuit: &Circuit,
    asked: Asked,
    fused: &dyn Fn(Current) -> bool,
    tables: &Tables,
) -> Choice {
    let Asked { design, working, voltage, drop, least } = asked;
    if let Some(size) = &circuit.size {
        let known = assess(circuit, size, working, voltage, tables);
        return Choice {
            metric: known.map(|own| Conductor { decided: DecidedBy::Stated, ..own }),
            gauge: (size.gauge != Gauge::Metric).then(|| trade_name(&size.name)),
            sae: None,
        };
    }
    let pick = |gauge: Gauge| {
        let mut decided = DecidedBy::Ampacity;
        let sizes = tables.cable_sizes.sizes(gauge);
        sizes.into_iter().filter(|size| made(circuit, size, tables)).find_map(|size| {
            let conductor = assess(circuit, size, working, voltage, tables)?;
            if let Some(why) = conductor.too_thin(design, drop) {
                decided = why;
                return None;
            }
            if !fused(conductor.ampacity) {
                decided = DecidedBy::Fuse;
                return None;
            }
            if size.area < least {
                decided = DecidedBy::Further;
                return None;
            }
            Some(Conductor { decided, ..conductor })
        })
    };
    let named = |gauge: Gauge| pick(gauge).map(|conductor| trade_name(&conductor.name));
    Choice { metric: pick(Gauge::Metric), gauge: named(Gauge::Awg), sae: named(Gauge::Sae) }
}

/// "AWG 8" of a row's name, as the trade writes a gauge.
fn trade_name(row: &str) -> String {
    row.split_once('-').map_or_else(
        || row.to_owned(),
        |(list, number)| format!("{} {number}", list.to_uppercase()),
    )
}

/// Whether a cable of this insulation is sold so thin: solar cable from the smallest size on whose
/// diameter the table lists.
fn made(circuit: &Circuit, size: &CableSize, tables: &Tables) -> bool {
    let solar =
        || tables.cable_sizes.iter().filter(|row| row.outer_pv.is_some()).map(|row| row.area);
    *circuit.insulation != Insulation::Solar
        || solar().reduce(Area::min).is_none_or(|least| size.area >= least)
}

/// Temperature that the insulation may reach by its kind. Solar cable is taken at 90 °C, not at the
/// 120 °C of EN 50618, as connectors and fuse holders do not stand more.
pub(super) fn rating(insulation: Insulation) -> Temperature {
    match insulation {
        Insulation::Pvc70 => Temperature::celsius(70.0),
        Insulation::Pvc105 => Temperature::celsius(105.0),
        Insulation::Solar => Temperature::celsius(90.0),
    }
}

/// Air round the cable of a run.
pub(super) fn air(circuit: &Circuit) -> Temperature {
    match *circuit.laid {
        Laid::RoofVoid => circuit.ambient.max(ROOF_VOID),
        Laid::Open | Laid::Clipped | Laid::Conduit => *circuit.ambient,
    }
}

/// Whether the insulation of a run stands the air round it with any current at all.
pub(super) fn stands_air(circuit: &Circuit, tables: &Tables) -> bool {
    let insulation = rating(*circuit.insulation);
    let (_, factors) = rules_for(circuit, Gauge::Metric);
    tables.ambient_factor(factors).is_ok_and(|row| row.factor(insulation, air(circuit)).is_some())
}

/// The standard whose currents hold for a run, and the factors for air that go with it. Loosely laid
/// single conductors in a vehicle-like craft: ISO 10133 by mm², 33 CFR 183 (as ABYC E-11) by gauge;
/// on a surface or in conduit the tables of buildings.
fn rules_for(circuit: &Circuit, gauge: Gauge) -> (&'static str, &'static str) {
    match (*circuit.laid, gauge) {
        (Laid::Open | Laid::RoofVoid, Gauge::Metric) => ("iso-10133", "nec-30"),
        (Laid::Open | Laid::RoofVoid, Gauge::Awg | Gauge::Sae) => ("33-cfr-183", "nec-30"),
        (Laid::Clipped, Gauge::Metric) => ("iec-60364-c2", "iec-30"),
        (Laid::Conduit, Gauge::Metric) => ("iec-60364-b2", "iec-30"),
        (Laid::Clipped | Laid::Conduit, Gauge::Awg | Gauge::Sae) => ("nec-310-16", "nec-30"),
    }
}

/// Column of ampacities and factors for air.
fn rows<'t>(
    circuit: &Circuit,
    gauge: Gauge,
    tables: &'t Tables,
) -> Option<(&'t Ampacity, &'t AmbientFactor)> {
    let (standard, factors) = rules_for(circuit, gauge);
    let column = tables.ampacities.column_for(standard, rating(*circuit.insulation))?;
    Some((column, tables.ambient_factor(factors).ok()?))
}

/// A size on a run: what it carries there and what it loses. `None` where no table covers its
/// insulation, its size or the air round it.
pub fn assess(
    circuit: &Circuit,
    size: &CableSize,
    working: Current,
    voltage: Voltage,
    tables: &Tables,
) -> Option<Conductor> {
    let insulation = rating(*circuit.insulation);
    let air = air(circuit);
    let (column, factors) = rows(circuit, size.gauge, tables)?;
    let number = size.by_number();
    let listed = column.amps(&number)?;
    let by_air = factors.factor(insulation, air)?;
    let by_bundle = tables.bundle_factor("iec").ok()?.factor((*circuit.bundled).div_ceil(2).max(1));
    let ampacity = listed * by_air * by_bundle;
    // Copper between air and its limit, by the square of the load.
    let load = (working / ampacity).min(1.0);
    let copper = air + (insulation - air) * (load * load);
    let resistance = size.resistance_at(copper) * (*circuit.length * 2.0);
    let drop = working * resistance;
    Some(Conductor {
        name: size.name.clone(),
        area: size.area,
        ampacity,
        table: column.origin.source.clone(),
        listed,
        factors: (by_air, by_bundle),
        air,
        seen: column.seen_of(&number),
        resistance,
        drop,
        drop_share: Ratio::of_one(drop / voltage),
        decided: DecidedBy::Ampacity,
        outer: match *circuit.insulation {
            Insulation::Solar => size.outer_pv.or(size.outer_pvc),
            _ => size.outer_pvc,
        },
    })
}

/// The drop from the battery on, for a run that starts at the end of another.
pub(super) fn record_from_source(
    mark: &str,
    from: &str,
    lost: Ratio,
    conductor: &Conductor,
    ledger: &mut Ledger,
) {
    ledger.push(
        Figure::new(
            format!("electrics.drop-from-source.{mark}"),
            format!("{mark}: voltage drop from the {from} on"),
            (lost + conductor.drop_share).to_percent(),
            "%",
        )
        .formula("Σ ΔU / U")
        .input("on the way to its start", format!("{:.2} %", lost.to_percent()))
        .input("on the run", format!("{:.2} %", conductor.drop_share.to_percent()))
        .source("drops add along a chain", Seen::Computed)
        .decides(),
    );
}

pub(super) fn record(
    mark: &str,
    circuit: &Circuit,
    conductor: &Conductor,
    design: Current,
    working: Current,
    voltage: Voltage,
    ledger: &mut Ledger,
) {
    ledger.push(
        Figure::new(
            format!("electrics.ampacity.{mark}"),
            format!("{mark}: current the conductor may carry"),
            conductor.ampacity.to_a(),
            "A",
        )
        .formula("I = I_table × air × bundle")
        .input("size", super::area_words(conductor.area))
        .input("table", format!("{:.0} A", conductor.listed.to_a()))
        .input(
            format!("air {}", conductor.air),
            display::number_short(conductor.factors.0.to_fraction(), 2),
        )
        .input(
            format!("bundle of {}", *circuit.bundled),
            display::number_short(conductor.factors.1.to_fraction(), 2),
        )
        .input("needed", format!("{:.1} A", design.to_a()))
        .source(conductor.table.clone(), conductor.seen)
        .decides(),
    );
    ledger.push(
        Figure::new(
            format!("electrics.drop.{mark}"),
            format!("{mark}: voltage drop"),
            conductor.drop_share.to_percent(),
            "%",
        )
        .formula("ΔU = R I / U")
        .input("L", format!("{:.2} m", circuit.length.to_m()))
        .input("R", format!("{:.2} mΩ in both", conductor.resistance.to_milliohm()))
        .input("I", format!("{:.1} A", working.to_a()))
        .input("U", format!("{:.1} V", voltage.to_v()))
        .input("limit", format!("{:.1} %", circuit.drop_limit.to_percent()))
        .source(
            if conductor.name.ends_with("mm2") {
                "IEC 60228 class 5 resistance at working temperature"
            } else {
                "ASTM B258 resistance, stranded, at working temperature"
            },
            Seen::Verified,
        )
        .decides(),
    );
}

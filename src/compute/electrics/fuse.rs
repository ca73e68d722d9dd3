//! The fuse between load and conductor.

use super::conductor::Conductor;
use super::rules;
use crate::build::{Battery, Circuit, Laid, Supply};
use crate::source::{Figure, Finding, Ledger, Seen, Span};
use crate::tables::{CableSize, FusePlace, FuseSize, Tables};
use crate::units::{Current, Length, Resistance, Temperature, Voltage};

/// A chosen fuse.
#[derive(Debug, Clone)]
pub struct Fuse {
    /// Mark on the sheets, "F-W2" being taken by feet: the fuse of run W2 is "X2".
    pub mark: String,
    /// Name of its row, "terminal".
    pub name: String,
    /// Type, in words.
    pub kind: String,
    /// What takes it.
    pub holder: String,
    /// Thread of its studs, where it has any.
    pub bolt: Option<String>,
    /// Rating.
    pub rating: Current,
    /// What it can break at this voltage.
    pub breaking: Current,
    /// Most that a short circuit behind it can draw.
    pub feeds: Current,
    /// Whether it is in the build file: it is there already.
    pub on_hand: bool,
    /// Greatest distance along the conductor from what feeds it; absent where another fuse stands
    /// before it.
    pub within: Option<Length>,
    /// What feeds it: a battery's plus, or a bus bar by its name.
    pub at: String,
}

/// Distance from the source within which the fuse stands: 178 mm (7 in), 33 CFR 183.455 (b)(1).
const WITHIN: Length = Length::mm(178.0);
/// The same where the cable is enclosed all the way: 1016 mm (40 in), 33 CFR 183.455 (b)(2).
const WITHIN_ENCLOSED: Length = Length::mm(1016.0);
/// What a vehicle's own battery of unknown make drives into a fault: a main fuse of the class over
/// 1100 cold cranking amperes breaks as much (ABYC E-11, older edition); flooded cells of 12 V.
pub(in crate::compute) const SUPPLY_FEEDS: Current = Current::a(5000.0);
/// A charged lead battery over its nominal voltage.
const LEAD_ON_CHARGE: f64 = 14.4 / 12.0;
/// Copper before a fault warms it, for the most that flows.
const COLD: Temperature = Temperature::celsius(20.0);

/// What a battery can drive into a fault.
#[derive(Clone, Copy)]
pub(super) struct Source {
    /// A battery stands above its nominal voltage while it is charged.
    voltage: Voltage,
    /// Into a short circuit at its terminals.
    feeds: Current,
}

impl Source {
    pub(super) fn of(battery: &Battery) -> Self {
        let voltage = charged(battery);
        let feeds = prospective(battery);
        Self { voltage, feeds }
    }

    /// So many strings of a bank.
    pub(super) fn of_strings(battery: &Battery, strings: f64) -> Self {
        let all = f64::from(battery.strings());
        Self { voltage: charged(battery), feeds: prospective(battery) * (strings / all) }
    }

    /// Into a short circuit at its terminals.
    pub(super) const fn feeds(self) -> Current {
        self.feeds
    }

    pub(super) fn of_supply(supply: &Supply) -> Self {
        Self {
            voltage: *supply.voltage * LEAD_ON_CHARGE,
            feeds: supply.short_circuit.as_ref().map_or(SUPPLY_FEEDS, |stated| **stated),
        }
    }

    /// At the far end of a cold run: U / (U / I + 2 L R).
    pub(super) fn behind(self, size: &CableSize, length: Length) -> Self {
        let volts = self.voltage.to_v();
        let inner = volts / self.feeds.to_a().max(1e-6);
        let run = (Current::a(1.0) * (size.resistance_at(COLD) * (length * 2.0))).to_v();
        Self { feeds: Current::a(volts / (inner + run).max(1e-9)), ..self }
    }

    /// What a type breaks here; none where that is too little.
    fn broken_by(self, row: &FuseSize) -> Option<Current> {
        row.breaking_at(self.voltage).filter(|breaking| *breaking >= self.feeds)
    }
}

/// A charged battery's voltage.
fn charged(battery: &Battery) -> Voltage {
    battery.chemistry.full_in_use * f64::from(battery.bank_cells())
}

/// Resistance of a bank between its terminals: stated of one battery, or of its chemistry and size.
fn inner(battery: &Battery) -> Resistance {
    let one = battery.internal_resistance.as_ref().map_or_else(
        || battery.chemistry.inner_resistance(*battery.voltage, *battery.capacity),
        |stated| **stated,
    );
    one * (f64::from(*battery.in_series) / f64::from(battery.strings()))
}

/// Current of a battery or bank into a short circuit at its terminals: stated of one, or U / R.
pub(in crate::compute) fn prospective(battery: &Battery) -> Current {
    battery.short_circuit.as_ref().map_or_else(
        || Current::a(charged(battery).to_v() / inner(battery).to_ohm()),
        |one| **one * f64::from(battery.strings()),
    )
}

/// Enters what the battery drives into a fault.
pub(super) fn record_source(battery: &Battery, ledger: &mut Ledger) {
    let feeds = prospective(battery);
    let figure = Figure::new(
        "electrics.fault.battery",
        "current of the battery into a short circuit",
        feeds.to_a(),
        "A",
    );
    let figure = if let Some(one) = &battery.short_circuit {
        let figure = if *battery.count > 1 {
            figure
                .formula("I = n I_one")
                .input("I_one", format!("{:.1}\u{a0}kA", one.to_ka()))
                .input("n side by side", battery.strings().to_string())
        } else {
            figure
        };
        figure.source("battery's data sheet", Seen::DataSheet)
    } else {
        let figure = figure
            .formula("I = U / R")
            .input("U", format!("{:.1} V", charged(battery).to_v()))
            .input("R", format!("{:.2} mΩ", inner(battery).to_milliohm()));
        if battery.internal_resistance.is_some() {
            figure.source("internal resistance of the battery's data sheet", Seen::DataSheet)
        } else {
            let cells = battery.bank_cells();
            figure
                .input("cells", cells.to_string())
                .source("resistance of charged cells by their capacity", Seen::Memory)
                .assume("a limit of the battery’s own electronics does not count")
        }
    };
    ledger.push(figure.decides());
}

/// A fuse for a battery that breaks what it feeds: the smallest rating from the design current up to
/// the conductor's ampacity, then the type that breaks no more than it must.
pub(super) fn fit(
    source: Source,
    (mark, circuit, at): (&str, &Circuit, &str),
    design: Current,
    most: Current,
    tables: &Tables,
) -> Option<Fuse> {
    let fitting = |row: &FuseSize| {
        let breaking = source.broken_by(row)?;
        let rating = match &circuit.fuse {
            Some(stated) => row.ratings.iter().copied().find(|rating| *rating == **stated)?,
            None => row.rating_at_or_above(design).filter(|rating| *rating <= most)?,
        };
        Some(Fuse {
            mark: mark.replace('W', "X"),
            name: row.name.clone(),
            kind: row.words.clone(),
            holder: row.holder.clone(),
            bolt: row.bolt.clone(),
            rating,
            breaking,
            feeds: source.feeds,
            on_hand: circuit.fuse.is_some(),
            within: Some(match *circuit.laid {
                Laid::Conduit => WITHIN_ENCLOSED,
                Laid::Open | Laid::Clipped | Laid::RoofVoid => WITHIN,
            }),
            at: at.to_owned(),
        })
    };
    let for_batteries = tables.fuses.iter().filter(|row| row.place == FusePlace::Battery);
    for_batteries.filter_map(fitting).min_by(smallest)
}

/// A fuse that stands at a battery by itself, from a current up to another.
pub(super) fn fit_plain(
    source: Source,
    (mark, at): (&str, &str),
    least: Current,
    most: Current,
    tables: &Tables,
) -> Option<Fuse> {
    let fitting = |row: &FuseSize| {
        Some(Fuse {
            mark: mark.to_owned(),
            name: row.name.clone(),
            kind: row.words.clone(),
            holder: row.holder.clone(),
            bolt: row.bolt.clone(),
            breaking: source.broken_by(row)?,
            rating: row.rating_at_or_above(least).filter(|rating| *rating <= most)?,
            feeds: source.feeds,
            on_hand: false,
            within: Some(WITHIN),
            at: at.to_owned(),
        })
    };
    tables
        .fuses
        .iter()
        .filter(|row| row.place == FusePlace::Battery)
        .filter_map(fitting)
        .min_by(smallest)
}

/// The smallest rating first, then the type that breaks no more than it must.
fn smallest(a: &Fuse, b: &Fuse) -> std::cmp::Ordering {
    let by_rating = a.rating.total_cmp(&b.rating);
    by_rating.then(a.breaking.total_cmp(&b.breaking)).then(a.name.cmp(&b.name))
}

/// A smaller fuse before what a run feeds, where the one at the battery is larger than it needs: the
/// run's own resistance has lowered the fault by then. None where no smaller one is sold.
pub(super) fn at_load(
    source: Source,
    circuit: &Circuit,
    fuse: &Fuse,
    design: Current,
    conductor: &Conductor,
    tables: &Tables,
) -> Option<Fuse> {
    let size = tables.cable_size(&conductor.name).ok()?;
    let behind = source.behind(size, *circuit.length);
    let small = fit(behind, (&fuse.mark, circuit, &fuse.at), design, conductor.ampacity, tables)?;
    (small.rating < fuse.rating).then(|| Fuse {
        mark: fuse.mark.replace('X', "Y"),
        within: None,
        ..small
    })
}

/// Tells of a run that no fuse protects.
pub(super) fn missing(
    (at, source): (Span, Source),
    circuit: &Circuit,
    design: Current,
    conductor: &Conductor,
    tables: &Tables,
) -> Finding {
    let Source { voltage, feeds } = source;
    let for_batteries = || tables.fuses.iter().filter(|row| row.place == FusePlace::Battery);
    if let Some(stated) = &circuit.fuse
        && for_batteries().any(|row| source.broken_by(row).is_some())
    {
        return Finding::new(
            &rules::NO_FUSE,
            format!(
                "no fuse of {:.0} A that breaks {:.1} kA is sold",
                stated.to_a(),
                feeds.to_ka()
            ),
        )
        .at(stated.span, "stated for this run")
        .means("a fuse that can't break the current bursts, and the arc goes on")
        .help("leave `fuse` out: rating and type are then chosen");
    }
    if for_batteries().any(|row| source.broken_by(row).is_some()) {
        return between(circuit, feeds, design, conductor);
    }
    let most = for_batteries()
        .filter_map(|row| row.breaking_at(voltage))
        .fold(Current::ZERO, Current::max);
    Finding::new(
        &rules::NO_FUSE,
        format!(
            "the battery feeds {:.1} kA into a short circuit; the strongest fuse of the tables breaks {:.1} kA at {:.1} V",
            feeds.to_ka(),
            most.to_ka(),
            voltage.to_v()
        ),
    )
    .at(at, "short-circuit current of the battery")
    .also(circuit.span, "this run needs a fuse")
    .means("the fuse bursts and the arc goes on")
    .help("check the value on the battery's data sheet")
    .help("or use several smaller batteries, each with a fuse of its own")
}

/// Enters a fuse in the ledger.
pub(super) fn record(
    mark: &str,
    fuse: &Fuse,
    design: Current,
    conductor: &Conductor,
    ledger: &mut Ledger,
) {
    let place = if fuse.within.is_some() { "fuse" } else { "load-fuse" };
    let words =
        if fuse.within.is_some() { "fuse rating" } else { "rating of the fuse at the load" };
    let figure = Figure::new(
        format!("electrics.{place}.{mark}"),
        format!("{mark}: {words}"),
        fuse.rating.to_a(),
        "A",
    )
    .formula("1.25 I ≤ rating ≤ ampacity; breaking capacity ≥ short-circuit current")
    .input("1.25 I", format!("{:.1} A", design.to_a()))
    .input("ampacity", format!("{:.1} A", conductor.ampacity.to_a()))
    .input("short-circuit current", format!("{:.1}\u{a0}kA", fuse.feeds.to_ka()))
    .input("breaks", format!("{:.1}\u{a0}kA", fuse.breaking.to_ka()))
    .source("33 CFR 183.455; ratings of the fuse tables", Seen::Memory);
    ledger.push(figure.decides());
}

/// No rating that is sold lies between load and cable.
fn between(circuit: &Circuit, feeds: Current, design: Current, conductor: &Conductor) -> Finding {
    Finding::new(
        &rules::NO_FUSE,
        format!(
            "no fuse that breaks {:.1} kA is sold between {:.1} A, 1.25 times the load, and {:.1} A, the most that the {} cable may carry",
            feeds.to_ka(),
            design.to_a(),
            conductor.ampacity.to_a(),
            super::area_words(conductor.area)
        ),
    )
    .at(circuit.span, "this run")
    .means("a fuse above the cable's current lets the cable burn first")
    .help("state a smaller `drop-limit`, so that a larger cable is taken")
    .help("or use cable that stands more heat, such as `insulation = \"pvc-105\"`")
}

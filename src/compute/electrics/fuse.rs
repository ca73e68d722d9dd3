//! The fuse between load and conductor.

use super::conductor::Conductor;
use super::rules;
use crate::build::{Build, Circuit};
use crate::source::{Figure, Finding, Ledger, Seen};
use crate::tables::{FuseSize, Tables};
use crate::units::{Current, Length, Voltage};

/// A chosen fuse.
#[derive(Debug, Clone)]
pub struct Fuse {
    /// Mark on the sheets, "F-W2" being taken by feet: the fuse of run W2 is "X2".
    pub mark: String,
    /// Type, in words.
    pub kind: String,
    /// Rating.
    pub rating: Current,
    /// What it can break at this voltage.
    pub breaking: Current,
    /// Greatest distance from the battery's plus along the conductor.
    pub within: Length,
}

/// Distance from the source within which the fuse stands: 178 mm (7 in), 33 CFR 183.460.
const WITHIN: Length = Length::mm(178.0);

/// A rating from the design current up to the conductor's ampacity, of the first type that breaks
/// what the battery can feed.
#[expect(clippy::too_many_arguments, reason = "one run, and where its figures and findings go")]
pub(super) fn choose(
    build: &Build,
    circuit: &Circuit,
    mark: &str,
    design: Current,
    conductor: &Conductor,
    tables: &Tables,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<Fuse> {
    let battery = build.battery.as_ref()?;
    // A battery stands above its nominal voltage while it is charged.
    let voltage: Voltage =
        battery.chemistry.full_in_use * f64::from(battery.chemistry.cells(*battery.voltage));
    let feeds = battery.short_circuit.as_ref().map_or(battery.chemistry.short_circuit[1], |s| **s);
    let breaks = |row: &FuseSize| row.breaking_at(voltage).filter(|breaking| *breaking >= feeds);
    let fit = tables.fuses.iter().find_map(|row| {
        let breaking = breaks(row)?;
        let rating =
            row.rating_at_or_above(design).filter(|rating| *rating <= conductor.ampacity)?;
        Some(Fuse {
            mark: mark.replace('W', "X"),
            kind: row.words.clone(),
            rating,
            breaking,
            within: WITHIN,
        })
    });
    let Some(fuse) = fit else {
        let strong = tables.fuses.iter().any(|row| breaks(row).is_some());
        findings.push(if strong {
            between(circuit, feeds, design, conductor)
        } else {
            let most = tables.fuses.iter().filter_map(|row| row.breaking_at(voltage));
            let most = most.fold(Current::ZERO, Current::max);
            let at = battery.short_circuit.as_ref().map_or(battery.span, |stated| stated.span);
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
        });
        return None;
    };
    ledger.push(
        Figure::new(
            format!("electrics.fuse.{mark}"),
            format!("{mark}: fuse rating"),
            fuse.rating.to_a(),
            "A",
        )
        .formula("1.25 I ≤ rating ≤ ampacity; breaking capacity ≥ short-circuit current")
        .input("1.25 I", format!("{:.1} A", design.to_a()))
        .input("ampacity", format!("{:.1} A", conductor.ampacity.to_a()))
        .input("short-circuit current", format!("{:.1} kA", feeds.to_ka()))
        .source("33 CFR 183.455 and .460; ratings of the fuse tables", Seen::Memory)
        .decides(),
    );
    Some(fuse)
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

//! The fuse between load and conductor.

use super::conductor::Conductor;
use super::rules;
use crate::build::{Build, Circuit};
use crate::source::{Figure, Finding, Ledger, Seen};
use crate::tables::Tables;
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
    let fit = tables.fuses.iter().find_map(|row| {
        let breaking = row.breaking_at(voltage).filter(|breaking| *breaking >= feeds)?;
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
        findings.push(
            Finding::new(
                &rules::NO_FUSE,
                format!(
                    "no fuse of the tables lies between {:.1} A and {:.1} A and breaks {:.1} kA",
                    design.to_a(),
                    conductor.ampacity.to_a(),
                    feeds.to_ka()
                ),
            )
            .at(circuit.span, "this run")
            .means("a short circuit would burn the cable, or burst the fuse")
            .help("use the next larger conductor, or state the battery's own short-circuit current from its sheet"),
        );
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

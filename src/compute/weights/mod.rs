//! What is added to the roof, what the roof may carry, and the height afterwards.

pub mod rules;

use crate::build::Build;
use crate::derive::Work;
use crate::source::{Figure, Finding, Ledger, Seen, Severity};
use crate::units::{Length, Mass, Ratio, display};

/// Mass of a person on the roof, clothes and tools included; common practice.
const PERSON: Mass = Mass::kg(90.0);

/// Masses and height.
#[derive(Debug, Clone)]
pub struct Weights {
    /// Lines of the table: words, count, mass of all.
    pub lines: Vec<WeightLine>,
    /// Added on the roof.
    pub roof: Mass,
    /// Added in the vehicle: the battery.
    pub inside: Mass,
    /// Limits of the roof, moving and standing, and the use of each.
    pub limits: Option<RoofUse>,
    /// Ground to the highest point before and after.
    pub height: Option<(Length, Length)>,
}

/// One line of the table of masses.
#[derive(Debug, Clone)]
pub struct WeightLine {
    /// Name of the part.
    pub name: String,
    /// How many.
    pub count: usize,
    /// Mass of one.
    pub each: Mass,
}

impl WeightLine {
    /// Mass of all.
    pub fn all(&self) -> Mass {
        self.each * self.count as f64
    }
}

/// Use of the roof's limits.
#[derive(Debug, Clone, Copy)]
pub struct RoofUse {
    /// Limit and use while driving.
    pub moving: (Mass, Ratio),
    /// Limit and use at rest with one person on the roof.
    pub standing: (Mass, Ratio),
}

/// Adds up masses and heights.
pub fn weights(
    build: &Build,
    work: &Work,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Weights {
    let lines: Vec<WeightLine> = work
        .parts
        .iter()
        .filter(|part| part.mass > Mass::ZERO && !part.pieces.is_empty())
        .map(|part| WeightLine {
            name: part.name.clone(),
            count: part.pieces.len(),
            each: part.mass,
        })
        .collect();
    let roof: Mass = lines.iter().map(WeightLine::all).sum();
    let inside = build.battery.as_ref().map_or(Mass::ZERO, |battery| *battery.mass);
    ledger.push(
        Figure::new("weights.roof", "mass added on the roof", roof.to_kg(), "kg")
            .formula("Σ n m")
            .source("sections × densities; masses of bought parts as stated", Seen::Computed)
            .assume("adhesive, screws and cables are not counted; they add less than 2 kg")
            .decides(),
    );
    let limits = build.vehicle.as_ref().and_then(|v| v.limit.as_ref()).map(|limit| {
        let standing = roof + PERSON;
        let uses = RoofUse {
            moving: (*limit.moving, Ratio::of_one(roof / *limit.moving)),
            standing: (*limit.standing, Ratio::of_one(standing / *limit.standing)),
        };
        for (key, words, mass, (most, share), span) in [
            ("moving", "while driving", roof, uses.moving, limit.moving.span),
            ("standing", "at rest with one person on it", standing, uses.standing, limit.standing.span),
        ] {
            ledger.push(
                Figure::new(
                    format!("weights.use.{key}"),
                    format!("use of the roof's limit {words}"),
                    share.to_fraction(),
                    "",
                )
                .formula("u = m / m_max")
                .input("m", format!("{:.1} kg", mass.to_kg()))
                .input("m_max", format!("{:.0} kg", most.to_kg()))
                .source("vehicle maker's limit as stated", Seen::DataSheet)
                .decides(),
            );
            let share = share.to_fraction();
            if share >= 0.8 {
                findings.push(
                    Finding::new(
                        &rules::ROOF_LIMIT,
                        format!(
                            "the roof carries {:.1} kg {words}; its limit is {:.0} kg (use {})",
                            mass.to_kg(),
                            most.to_kg(),
                            display::capacity_used(share)
                        ),
                    )
                    .severity(if share > 1.0 { Severity::Stop } else { Severity::Caution })
                    .at(span, "limit by the vehicle's maker")
                    .means("a roof loaded beyond its limit bends, cracks at its corners or folds in a crash")
                    .help(if key == "standing" {
                        "work from a ladder or scaffold beside the vehicle, and keep everybody off the roof"
                    } else {
                        "use fewer or lighter panels, or a lighter frame"
                    }),
                );
            }
        }
        uses
    });
    let before = build.vehicle.as_ref().and_then(|vehicle| vehicle.height.as_ref());
    let after = work.array.as_ref().and_then(|array| array.height_after);
    let height = before.map(|before| **before).zip(after);
    Weights { lines, roof, inside, limits, height }
}

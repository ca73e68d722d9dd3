//! What pulls, pushes and shakes the array, and what each mount gets of it.
//!
//! Takes the array in place and gives load cases with the force on every mount. Air follows
//! EN 1991-1-4 table 7.6 for a blocked canopy (full blockage: nothing flows freely between array
//! and roof), its resultant at a quarter of the depth behind the edge that meets the wind; zones
//! of local suction give a second case for the fixings. Inertia follows the road-securing factors.
//!
//! Axes: X rearward, Y right, Z up; a positive Z force on a mount pulls it off the roof.

pub mod air;
mod cases;
pub mod rules;
pub mod sharing;

use crate::build::Build;
use crate::compute::steps::facts;
use crate::derive::{MountShape, Work};
use crate::source::{Figure, Finding, Ledger, Seen};
use crate::tables::Tables;
use crate::units::{Density, Force, Length, Mass, Pressure, STANDARD_GRAVITY, Speed};

use air::Terrain;
pub use cases::{Case, CaseKind};
use sharing::{Spring, share};

/// Wind from ahead on top of the design speed; a moderate day (Beaufort 3 ends at 5 m/s), common
/// practice.
const HEAD_WIND: Speed = Speed::m_per_s(3.0);
/// Basic wind speed for the parked storm: a value that wind maps of EN 1991-1-4 national annexes
/// give for open country; common practice.
const STORM_BASIC: Speed = Speed::m_per_s(26.0);
/// Stiffness of a hinge with its bolts in any direction, `N/mm`. It matters only against other mounts;
/// from memory, an order of magnitude.
const HINGE_STIFFNESS: f64 = 4000.0;
/// Modulus of a bond in tension for sharing, `MPa`, where a bond has no row of its own; from memory.
const FOAM_MODULUS: f64 = 1.0;
/// Shear modulus over modulus of a soft, nearly incompressible layer: 1/3.
const SHEAR_SHARE: f64 = 1.0 / 3.0;

/// Load cases and what they do to the mounts.
#[derive(Debug, Clone)]
pub struct Loads {
    /// Density of the air.
    pub air: Density,
    /// Dynamic pressure at the design speed with the head wind.
    pub driving: Pressure,
    /// Peak pressure of the parked storm.
    pub storm: Pressure,
    /// Mass that the mounts carry.
    pub mass: Mass,
    /// Cases in order, each with its load on every mount.
    pub cases: Vec<LoadedCase>,
    /// The worst case of every mount, in the order of the marks.
    pub worst: Vec<WorstLoad>,
}

/// A case with the force on every mount.
#[derive(Debug, Clone)]
pub struct LoadedCase {
    /// The case.
    pub case: Case,
    /// Load on each mount in the order of [`Work::mounts`].
    pub mounts: Vec<MountLoad>,
}

/// Force of the frame on one mount.
#[derive(Debug, Clone, Copy)]
pub struct MountLoad {
    /// Rearward.
    pub along: Force,
    /// To the right.
    pub across: Force,
    /// Off the roof.
    pub up: Force,
}

impl MountLoad {
    /// Force in the plane of the roof.
    pub fn shear(&self) -> Force {
        Force::n(self.along.to_n().hypot(self.across.to_n()))
    }

    /// Pull off the roof; zero where it is pressed on.
    pub fn tension(&self) -> Force {
        self.up.max(Force::ZERO)
    }
}

/// Worst pull on one mount.
#[derive(Debug, Clone)]
pub struct WorstLoad {
    /// Mark of the mount.
    pub mark: String,
    /// Greatest pull, and the index of its case.
    pub tension: (Force, usize),
    /// Greatest shear, and the index of its case.
    pub shear: (Force, usize),
}

/// Works out the load cases and shares them out. `None` where there is no array or no mount.
pub fn loads(
    build: &Build,
    work: &Work,
    tables: &Tables,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<Loads> {
    let array = work.array.as_ref()?;
    let vehicle = build.vehicle.as_ref()?;
    if work.mounts.is_empty() {
        // Where none could be fitted, derive has said why.
        return None;
    }
    let density = density(build, ledger);
    let speed = *vehicle.speed;
    let driving = air::driving_pressure(density, speed, HEAD_WIND);
    ledger.push(
        Figure::new(
            "loads.pressure.driving",
            "dynamic pressure while driving",
            driving.to_pa(),
            "Pa",
        )
        .formula("q = ½ ρ (v + w)²")
        .input("ρ", format!("{:.3} kg/m³", density.to_kg_per_m3()))
        .input("v", speed.to_string())
        .input("w", format!("{:.0} m/s head wind", HEAD_WIND.to_m_per_s()))
        .source("definition; EN 1991-1-4:2005, 4.5", Seen::Verified)
        .assume("head wind of a moderate day, common practice")
        .decides(),
    );
    let height = vehicle.height.as_ref().map_or(Terrain::OPEN.least, |h| **h);
    let storm = storm_pressure(density, height, ledger);

    let mass: Mass = carried_mass(work);
    ledger.push(
        Figure::new("loads.mass", "mass that the mounts carry", mass.to_kg(), "kg")
            .formula("sum of panels, frame and fixings")
            .source("parts of this build", Seen::Computed),
    );

    let all = cases::build(&cases::Basis { array, tables, driving, storm, mass, density }, ledger);
    let springs = springs(work);
    let mut cases = Vec::new();
    for case in all {
        let Ok(on) = share(&springs, case.wrench) else {
            findings.push(loose(build, work));
            return None;
        };
        let mounts = on
            .into_iter()
            .map(|[x, y, z]| MountLoad { along: Force::n(x), across: Force::n(y), up: Force::n(z) })
            .collect();
        cases.push(LoadedCase { case, mounts });
    }
    let worst = worst(work, &cases, ledger);
    Some(Loads { air: density, driving, storm, mass, cases, worst })
}

/// Peak pressure at the vehicle's height in open country.
fn storm_pressure(density: Density, height: Length, ledger: &mut Ledger) -> Pressure {
    let pressure = air::gust(density, STORM_BASIC, Terrain::OPEN, height).peak;
    ledger.push(
        Figure::new(
            "loads.pressure.storm",
            "peak pressure of a parked storm",
            pressure.to_pa(),
            "Pa",
        )
        .formula("q = (1 + 7 I) ½ ρ (c v)², c = 0.19 ln(z/z₀), I = 1 / ln(z/z₀)")
        .input("v", format!("{:.0} m/s", STORM_BASIC.to_m_per_s()))
        .input("z", height.max(Terrain::OPEN.least).to_string())
        .input("z₀", Terrain::OPEN.roughness.to_string())
        .source("EN 1991-1-4:2005, 4.3 to 4.5", Seen::Verified)
        .assume("open country, basic wind 26 m/s, common practice")
        .decides(),
    );
    pressure
}

/// Density of the air: by altitude and the coldest air of the plan where the altitude is stated.
fn density(build: &Build, ledger: &mut Ledger) -> Density {
    let figure = |density: Density| {
        Figure::new("loads.air", "density of the air", density.to_kg_per_m3(), "kg/m³")
    };
    let Some(altitude) = &build.weather.altitude else {
        ledger.push(
            figure(air::STANDARD_DENSITY)
                .source("EN 1991-1-4:2005, 4.5 note 2", Seen::Verified)
                .assume("altitude not given"),
        );
        return air::STANDARD_DENSITY;
    };
    let density = air::density(**altitude, *build.weather.night.temperature);
    ledger.push(
        figure(density)
            .formula("ρ = p(h) / (R T)")
            .input("h", altitude.to_string())
            .input("T", build.weather.night.temperature.to_string())
            .source("ISO 2533:1975, standard atmosphere", Seen::Memory)
            .assume("the coldest, densest air of the plan"),
    );
    density
}

/// Everything on the frame, feet included: a little more than hangs on the feet, which is safe.
fn carried_mass(work: &Work) -> Mass {
    work.parts.iter().map(|part| part.mass * part.pieces.len() as f64).sum()
}

/// Springs at the mounts: a hinge at its pin, a foot at the middle of its bond.
pub(crate) fn springs(work: &Work) -> Vec<Spring> {
    let xyz = |p: &crate::geometry::Point3| [p.x.to_mm(), p.y.to_mm(), p.z.to_mm()];
    work.mounts
        .iter()
        .map(|mount| match &mount.kind {
            MountShape::Hinge { pin, .. } => {
                Spring { at: xyz(pin), stiffness: [HINGE_STIFFNESS; 3] }
            }
            MountShape::BondedFoot { .. } => {
                let bond = work.bonds.iter().find(|b| b.mark == mount.mark);
                let normal = bond.map_or(1000.0, |bond| {
                    let area: f64 =
                        bond.strips.iter().chain(&bond.beads).map(|r| r.area().to_mm2()).sum();
                    FOAM_MODULUS * area / bond.thickness.to_mm().max(0.1)
                });
                let shear = normal * SHEAR_SHARE;
                Spring { at: xyz(&mount.roof), stiffness: [shear, shear, normal] }
            }
        })
        .collect()
}

fn loose(build: &Build, work: &Work) -> Finding {
    let span = work.mounts.first().map(|m| m.span).unwrap_or_default();
    let marks: Vec<&str> = work.mounts.iter().map(|m| m.mark.as_str()).collect();
    let mut finding = Finding::new(
        &rules::NOT_HELD,
        match marks.as_slice() {
            [one] => format!("the mount {one} alone leaves the frame free to turn"),
            _ => format!("the mounts {} leave the frame free to turn", facts::marks(&marks)),
        },
    )
    .at(span, "not enough to hold the frame")
    .means("the frame tips over its mounts as soon as air lifts it")
    .help("add mounts on another edge, so that at least three are not in one line");
    if let Some(frame) = &build.frame {
        finding = finding.also(frame.span, "the frame");
    }
    finding
}

fn worst(work: &Work, cases: &[LoadedCase], ledger: &mut Ledger) -> Vec<WorstLoad> {
    let short = |c: &LoadedCase| matches!(c.case.kind, CaseKind::Short);
    work.mounts
        .iter()
        .enumerate()
        .map(|(index, mount)| {
            let mut tension = (Force::ZERO, 0);
            let mut shear = (Force::ZERO, 0);
            for (number, case) in cases.iter().enumerate().filter(|(_, c)| short(c)) {
                let load = &case.mounts[index];
                if load.tension() > tension.0 {
                    tension = (load.tension(), number);
                }
                if load.shear() > shear.0 {
                    shear = (load.shear(), number);
                }
            }
            let named =
                |number: usize| cases.get(number).map_or("", |c| c.case.name.as_str()).to_owned();
            ledger.push(
                Figure::new(
                    format!("loads.tension.{}", mount.mark),
                    format!("greatest pull on {}", mount.mark),
                    tension.0.to_n(),
                    "N",
                )
                .formula("rigid frame on elastic mounts, six equations of equilibrium")
                .input("case", named(tension.1))
                .source("statics", Seen::Computed)
                .decides(),
            );
            WorstLoad { mark: mount.mark.clone(), tension, shear }
        })
        .collect()
}

/// Weight of a mass.
pub(crate) fn weight(mass: Mass) -> Force {
    mass * STANDARD_GRAVITY
}

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
mod enter;
mod lifted;
mod opinions;
pub mod rules;
pub mod sharing;
mod springs;

use crate::build::Build;
use crate::compute::steps::facts;
use crate::derive::{Array, MountPlace, Part, Work};
use crate::source::{Finding, Ledger};
use crate::tables::{CanopyValues, Tables};
use crate::units::{Angle, Area, Density, Force, Mass, Pressure, STANDARD_GRAVITY, Speed};

use air::Terrain;
pub use cases::{Case, CaseKind, Situation};
pub use lifted::{Lifted, PropLoad};
pub use opinions::Opinion;
use sharing::share;
pub use sharing::{Loose, Spring, Wrench};
pub(crate) use springs::{pin_height, springs};

/// Load cases and what they do to the mounts.
#[derive(Debug, Clone)]
pub struct Loads {
    /// Density of the air.
    pub air: Density,
    /// Dynamic pressure at the design speed with the head wind.
    pub driving: Pressure,
    /// Peak pressure of the parked storm.
    pub storm: Pressure,
    /// Snow on the array, where it counts.
    pub snow: Option<Pressure>,
    /// Mass that all mounts carry.
    pub mass: Mass,
    /// What of it those of each frame carry.
    pub masses: Vec<Mass>,
    /// Coefficients that lift, for the whole array and its zones; negative.
    pub up: CanopyValues,
    /// Coefficients that press; positive.
    pub down: CanopyValues,
    /// Cases in order, each with its load on every mount.
    pub cases: Vec<LoadedCase>,
    /// Crash levels, as information; empty where none were asked for.
    pub crash: Vec<LoadedCase>,
    /// The worst case of every mount, in the order of the marks.
    pub worst: Vec<WorstLoad>,
    /// What published coefficients say of the flat array, the one in use first.
    pub opinions: Vec<Opinion>,
    /// Each frame with hinges, lifted about them in a storm.
    pub lifted: Vec<Lifted>,
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
#[derive(Debug, Clone, Copy, Default)]
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

    /// Push onto the roof; zero where it is pulled off.
    pub fn compression(&self) -> Force {
        (-self.up).max(Force::ZERO)
    }
}

/// Worst pull on one mount.
#[derive(Debug, Clone)]
pub struct WorstLoad {
    /// Mark of the mount.
    pub mark: String,
    /// Greatest pull, and the index of its case.
    pub tension: (Force, usize),
    /// Greatest push, and the index of its case.
    pub compression: (Force, usize),
    /// Greatest shear, and the index of its case.
    pub shear: (Force, usize),
}

/// What may differ from one run to the next.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Circumstances<'a> {
    /// Speed driven; absent: the design speed.
    pub speed: Option<Speed>,
    /// Factor on every air coefficient.
    pub air: f64,
    /// Mounts that have let go, by their places in [`Work::mounts`].
    pub lost: &'a [usize],
}

impl Default for Circumstances<'_> {
    fn default() -> Self {
        Self { speed: None, air: 1.0, lost: &[] }
    }
}

/// Works out the load cases and shares them out. `None` where there is no array or no mount.
pub fn loads(
    build: &Build,
    work: &Work,
    tables: &Tables,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<Loads> {
    match run(build, work, tables, &Circumstances::default())? {
        Ok(loads) => {
            enter::enter(build, work, &loads, ledger);
            Some(loads)
        }
        Err(Loose) => {
            findings.extend(loose(build, work));
            None
        }
    }
}

/// The same in other circumstances, without figures and findings.
pub fn run(
    build: &Build,
    work: &Work,
    tables: &Tables,
    circumstances: &Circumstances<'_>,
) -> Option<Result<Loads, Loose>> {
    let vehicle = build.vehicle.as_ref()?;
    let held = |array: &Array| work.mounts_of(array.frame).next().is_some();
    if work.arrays.is_empty() || !work.arrays.iter().all(held) {
        // Where none could be fitted, derive has said why.
        return None;
    }
    let actions = &build.actions;
    let air = density(build);
    let speed = circumstances.speed.unwrap_or(*vehicle.speed);
    let driving = air::driving_pressure(air, speed, *actions.head_wind);
    let height = vehicle.height.as_ref().map_or(Terrain::OPEN.least, |h| **h);
    let storm = match &actions.storm_pressure {
        Some(stated) => *stated.pressure,
        None => air::gust(air, *actions.storm_wind, Terrain::OPEN, height).peak,
    };
    let masses = carried_masses(work);
    let (up, down) = coefficients(build, tables, Angle::ZERO, circumstances.air)?;
    let on_each = |of: fn(&cases::Basis) -> Vec<Case>| {
        let frames = work.arrays.iter().zip(&masses).map(|(array, mass)| {
            let mass = *mass;
            let density = air;
            of(&cases::Basis { array, actions, speed, driving, storm, mass, density, up, down })
        });
        cases::together(frames.collect())
    };
    let springs = springs(work);
    let frames: Vec<usize> = work.mounts.iter().map(|mount| mount.frame).collect();
    let shared = |cases: Vec<Case>| -> Result<Vec<LoadedCase>, Loose> {
        cases
            .into_iter()
            .map(|case| on_mounts((&springs, &frames), case, circumstances.lost))
            .collect()
    };
    let loaded =
        shared(on_each(cases::build)).and_then(|cases| Ok((cases, shared(on_each(cases::crash))?)));
    Some(loaded.map(|(cases, crash)| Loads {
        air,
        driving,
        storm,
        snow: actions.snow.as_ref().map(|snow| **snow * cases::SNOW_SHAPE),
        mass: masses.iter().copied().sum(),
        up,
        down,
        worst: worst(work, &cases),
        cases,
        crash,
        opinions: opinions::opinions(build, tables),
        lifted: lifted::lifted(build, work, tables, (air, storm, &masses)),
        masses,
    }))
}

/// Coefficients of table 7.6 at a tilt: those that lift with full blockage, those that press. A
/// measured uplift takes the place of the whole array's; zones then keep their ratio to it.
fn coefficients(
    build: &Build,
    tables: &Tables,
    tilt: Angle,
    factor: f64,
) -> Option<(CanopyValues, CanopyValues)> {
    let row = tables.en1991_7_6().ok()?.at(tilt)?;
    let measured = build.actions.uplift.as_ref().filter(|_| tilt == Angle::ZERO);
    let by = measured.map_or(1.0, |uplift| *uplift.coefficient / -row.up_blocked.force) * factor;
    let scaled = |v: CanopyValues, by: f64| CanopyValues {
        force: v.force * by,
        a: v.a * by,
        b: v.b * by,
        c: v.c * by,
    };
    Some((scaled(row.up_blocked, by), scaled(row.down, factor)))
}

/// Shares a case out to the mounts that hold, each frame by itself.
fn on_mounts(
    (springs, frames): (&[Spring], &[usize]),
    case: Case,
    lost: &[usize],
) -> Result<LoadedCase, Loose> {
    let mut mounts = vec![MountLoad::default(); springs.len()];
    for (frame, wrench) in case.frames.iter().enumerate() {
        let held: Vec<usize> = (0..springs.len())
            .filter(|index| frames[*index] == frame && !lost.contains(index))
            .collect();
        let own: Vec<Spring> = held.iter().map(|index| springs[*index]).collect();
        for (index, [x, y, z]) in held.into_iter().zip(share(&own, *wrench)?) {
            mounts[index] = MountLoad { along: Force::n(x), across: Force::n(y), up: Force::n(z) };
        }
    }
    Ok(LoadedCase { case, mounts })
}

/// Density of the air: by altitude and the coldest air of the plan where the altitude is stated.
fn density(build: &Build) -> Density {
    build.weather.altitude.as_ref().map_or(air::STANDARD_DENSITY, |altitude| {
        air::density(**altitude, *build.weather.night.temperature)
    })
}

/// Everything on each frame, feet included: a little more than hangs on the feet, which is safe. What
/// belongs to no frame goes to each by its area.
fn carried_masses(work: &Work) -> Vec<Mass> {
    let of = |frame: Option<usize>| -> Mass {
        let mass = |part: &Part| {
            part.mass * part.pieces.iter().filter(|piece| piece.frame == frame).count() as f64
        };
        work.parts.iter().map(mass).sum()
    };
    let all: Area = work.arrays.iter().map(|array| array.outline.area()).sum();
    let loose = of(None);
    let part = |array: &Array| if all.is_zero() { 0.0 } else { array.outline.area() / all };
    work.arrays.iter().map(|array| of(Some(array.frame)) + loose * part(array)).collect()
}

/// One finding for each frame that its mounts leave free to turn.
fn loose(build: &Build, work: &Work) -> Vec<Finding> {
    let free = |array: &&Array| {
        let alone = Work {
            arrays: work.arrays.clone(),
            mounts: work.mounts_of(array.frame).map(|(_, mount)| mount.clone()).collect(),
            bonds: work.bonds.clone(),
            ..Work::default()
        };
        let wrench = Wrench::at([0.0; 3], [0.0, 0.0, 1.0]);
        share(&springs(&alone), wrench).is_err()
    };
    work.arrays.iter().filter(free).map(|array| loose_frame(build, work, array)).collect()
}

fn loose_frame(build: &Build, work: &Work, array: &Array) -> Finding {
    let mounts: Vec<&MountPlace> = work.mounts_of(array.frame).map(|(_, mount)| mount).collect();
    let span = mounts.first().map(|m| m.span).unwrap_or_default();
    let marks: Vec<&str> = mounts.iter().map(|m| m.mark.as_str()).collect();
    let the = build.the_frame(array.frame);
    let mut finding = Finding::new(
        &rules::NOT_HELD,
        match marks.as_slice() {
            [one] => format!("the mount {one} alone leaves {the} free to turn"),
            _ => format!("the mounts {} leave {the} free to turn", facts::marks(&marks)),
        },
    )
    .at(span, "not enough to hold the frame")
    .means("the frame tips over its mounts as soon as air lifts it")
    .help("add mounts on another edge, so that at least three are not in one line");
    if let Some(frame) = build.frames.get(array.frame) {
        finding = finding.also(frame.span, "the frame");
    }
    finding
}

fn worst(work: &Work, cases: &[LoadedCase]) -> Vec<WorstLoad> {
    let most = |index: usize, of: fn(&MountLoad) -> Force| {
        cases.iter().enumerate().filter(|(_, loaded)| loaded.case.kind == CaseKind::Short).fold(
            (Force::ZERO, 0),
            |most, (number, loaded)| {
                let force = of(&loaded.mounts[index]);
                if force > most.0 { (force, number) } else { most }
            },
        )
    };
    work.mounts
        .iter()
        .enumerate()
        .map(|(index, mount)| WorstLoad {
            mark: mount.mark.clone(),
            tension: most(index, MountLoad::tension),
            compression: most(index, MountLoad::compression),
            shear: most(index, MountLoad::shear),
        })
        .collect()
}

/// Weight of a mass.
pub(crate) fn weight(mass: Mass) -> Force {
    mass * STANDARD_GRAVITY
}

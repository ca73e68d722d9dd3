//! What each bonded joint must carry, and what it may.
//!
//! Takes the loads on the mounts and the layout of strips and beads; gives the use of capacity for
//! each joint and kind of case. The plate bends on an elastic layer ([`spread`]): a pull at the
//! bracket's leg, a push at the bolts with its height over the bond as lever, and the offset of the
//! leg from the middle of the strips peel one edge more than the other. Pull and shear use the
//! capacity together, their shares added.
//!
//! Tape and bead do not add up: the stiffer of the two carries alone (modulus times area over
//! thickness), the other is a second line. Tape over the edges of a plate is weather cover and is
//! counted nowhere.

mod judge;
mod layer;
mod remedy;
pub mod rules;
mod spread;

use crate::build::{BondedFoot, Build, Edge, MountKind};
use crate::compute::loads::{
    Case, CaseKind, LoadedCase, Loads, MountLoad, Situation, pin_height, springs,
};
use crate::derive::{Bond, MountPlace, Work};
use crate::source::{Figure, Finding, Ledger, Seen, Span};
use crate::tables::Tables;
use crate::units::{Area, Force, Length, Pressure, Ratio, display};
pub use layer::SHEET_FACTOR;
use layer::{Layer, area_of};
pub use remedy::{AIM, Layout, Least};
use spread::Spread;

/// Use of capacity of one joint.
#[derive(Debug, Clone)]
pub struct BondUse {
    /// Mark of the mount.
    pub mark: String,
    /// What carries.
    pub carrier: Carrier,
    /// Net area of what carries.
    pub area: Area,
    /// Area of tape and of bead.
    pub areas: (Area, Area),
    /// Greatest use for seconds on the road: air, braking, bumps.
    pub short: CaseUse,
    /// Greatest use for seconds at rest: storms, which are wet.
    pub storm: CaseUse,
    /// Use on a hot roof.
    pub hot: CaseUse,
    /// Use by what pulls all the time.
    pub sustained: CaseUse,
    /// Greatest use in a crash, as information.
    pub crash: Option<CaseUse>,
    /// Area that would bring the greatest use to 1 at the same layout.
    pub needed: Area,
    /// Greatest pull by area over its mean in the case that governs: 1 is spread evenly.
    pub uneven: f64,
    /// Greatest moment across the plate, N·mm as a moment, and its case.
    pub plate_moment: (f64, String),
    /// Use of capacity if the tape holds no more than the only value that was read in a document.
    pub at_read_value: Option<f64>,
    /// The least that would do for its line of feet; absent where nothing of it may carry.
    pub least: Option<Least>,
    /// Sideways movement between frame and roof by heat at this mount, against the thickness.
    pub heat: HeatMove,
}

impl BondUse {
    /// The greatest of all uses.
    pub fn governing(&self) -> &CaseUse {
        [&self.storm, &self.hot, &self.sustained]
            .into_iter()
            .fold(&self.short, |worst, next| if next.share > worst.share { next } else { worst })
    }
}

/// What carries a joint.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Carrier {
    /// The foam tape.
    Tape,
    /// The adhesive bead.
    Bead,
}

impl Carrier {
    /// As printed.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Tape => "tape",
            Self::Bead => "bead",
        }
    }
}

/// Stress and capacity in one case.
#[derive(Debug, Clone)]
pub struct CaseUse {
    /// Name of the case.
    pub case: String,
    /// Pull off the plate.
    pub pull: Force,
    /// Force along the plate.
    pub shear: Force,
    /// Greatest pull by area, at the edge that peels.
    pub peel: Pressure,
    /// Shear by area.
    pub slide: Pressure,
    /// What the carrier may have.
    pub limit: Pressure,
    /// Use of capacity, 1 is all of it.
    pub share: f64,
}

/// Movement by heat between frame and roof.
#[derive(Debug, Clone, Copy)]
pub struct HeatMove {
    /// Movement at this mount, either way.
    pub movement: Length,
    /// Movement over thickness.
    pub strain: Ratio,
    /// What the carrier follows for years, over its thickness.
    pub limit: Ratio,
}

/// Temperature that a dark roof and a frame over it swing either way from the day of bonding.
/// Common practice: 70 °C in sun against 10 °C when bonded.
const HEAT_SWING: f64 = 60.0;
/// Works out every bonded mount.
pub fn bonding(
    build: &Build,
    work: &Work,
    loads: &Loads,
    tables: &Tables,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Vec<BondUse> {
    let joints = Joints::new(build, work, tables);
    let mut uses = joints.uses(loads);
    for (marks, least) in judged((build, work, tables), &joints, &uses, ledger, findings) {
        take_least(&mut uses, &marks, &least);
    }
    uses
}

/// Figures and findings of the uses, and the least that would do for each line of feet, by its marks.
pub fn judged(
    (build, work, tables): (&Build, &Work, &Tables),
    joints: &Joints,
    uses: &[BondUse],
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Vec<(Vec<String>, Least)> {
    for entry in uses {
        record(build, work, entry, ledger);
    }
    let leasts = judge::judge((build, work, tables), joints, uses, findings);
    for (marks, least) in &leasts {
        record_least(marks, least, ledger);
    }
    judge::surface(build, work, findings);
    judge::alone(build, findings);
    leasts
}

/// Tells the joints of a line what the least is that would do.
pub fn take_least(uses: &mut [BondUse], marks: &[String], least: &Least) {
    for entry in uses.iter_mut().filter(|entry| marks.contains(&entry.mark)) {
        entry.least = Some(least.clone());
    }
}

/// All bonded mounts as far as no load has a part in them: how their plates bend takes most of the
/// work, and is the same for every load.
pub struct Joints<'a>(Vec<Joint<'a>>);

impl<'a> Joints<'a> {
    /// The joints of a build.
    pub fn new(build: &'a Build, work: &'a Work, tables: &Tables) -> Self {
        let joint = |(index, mount): (usize, &'a MountPlace)| {
            let bond = work.bonds.iter().find(|b| b.mark == mount.mark)?;
            let foot = written(build, work, &mount.mark).map(|(foot, _)| foot);
            // A plate whose strips and beads found no room has its finding from derive.
            let layer = Layer::stiffest(bond, foot)?;
            let thick = foot.map_or(Length::mm(3.0), |foot| *foot.plate.thickness);
            let spread = Spread::new(bond, &layer, thick)?;
            let heat = heat(build, work, tables, mount, bond, layer.movement);
            Some(Joint { bond, layer, spread, mount, index, height: pin_height(work, mount), heat })
        };
        Self(work.mounts.iter().enumerate().filter_map(joint).collect())
    }

    /// Their uses under some loads, without figures and findings.
    pub fn uses(&self, loads: &Loads) -> Vec<BondUse> {
        self.0.iter().map(|joint| joint.used(loads)).collect()
    }
}

/// The bonded foot that a mark belongs to as it was written, and the place of its line of mounts.
pub(crate) fn written<'a>(
    build: &'a Build,
    work: &Work,
    mark: &str,
) -> Option<(&'a BondedFoot, Span)> {
    let place = work.mounts.iter().find(|mount| mount.mark == mark)?;
    let mount = build.mounts.get(place.mount)?;
    match &mount.kind {
        MountKind::BondedFoot(foot) => Some((foot, mount.span)),
        MountKind::Hinge(_) | MountKind::BoltedFoot(_) | MountKind::RailClamp(_) => None,
    }
}

/// One joint with all that its uses follow from.
struct Joint<'a> {
    bond: &'a Bond,
    layer: Layer<'a>,
    spread: Spread,
    mount: &'a MountPlace,
    index: usize,
    /// Bolts over the bond, mm.
    height: f64,
    heat: HeatMove,
}

impl Joint<'_> {
    fn used(&self, loads: &Loads) -> BondUse {
        let at = |kind, parked: bool| {
            self.worst(&loads.cases, |case| {
                case.kind == kind && (case.when == Situation::Parked) == parked
            })
        };
        let any = |kind| self.worst(&loads.cases, |case| case.kind == kind);
        let short = at(CaseKind::Short, false);
        let storm = at(CaseKind::Short, true);
        let (hot, sustained) = (any(CaseKind::Hot), any(CaseKind::Sustained));
        let crash = (!loads.crash.is_empty()).then(|| self.worst(&loads.crash, |_| true));
        let area = self.layer.area();
        let plate_moment = loads
            .cases
            .iter()
            .map(|loaded| (self.forces(&loaded.mounts[self.index]).stress.plate_moment, loaded))
            .max_by(|a, b| a.0.total_cmp(&b.0))
            .map_or((0.0, String::new()), |(moment, loaded)| (moment, loaded.case.name.clone()));
        let mut entry = BondUse {
            mark: self.mount.mark.clone(),
            carrier: self.layer.carrier,
            area,
            areas: (area_of(&self.bond.strips), area_of(&self.bond.beads)),
            needed: area,
            uneven: 1.0,
            plate_moment,
            at_read_value: None,
            least: None,
            heat: self.heat,
            short,
            storm,
            hot,
            sustained,
            crash,
        };
        let governing = entry.governing().clone();
        entry.needed = area * governing.share;
        let mean = governing.pull / area;
        if mean > Pressure::ZERO {
            entry.uneven = governing.peel / mean;
        }
        entry.at_read_value = self
            .layer
            .read
            .filter(|read| !read.is_zero())
            .map(|read| (entry.short.peel + entry.short.slide) / read);
        entry
    }

    fn worst(&self, cases: &[LoadedCase], counts: impl Fn(&Case) -> bool) -> CaseUse {
        let highest = cases
            .iter()
            .filter(|loaded| counts(&loaded.case))
            .map(|loaded| (self.in_case(loaded), loaded))
            .reduce(|worst, next| if next.0.share > worst.0.share { next } else { worst });
        match highest {
            Some((on, loaded)) => CaseUse { case: loaded.case.name.clone(), ..on },
            None => CaseUse {
                case: "none".into(),
                pull: Force::ZERO,
                shear: Force::ZERO,
                peel: Pressure::ZERO,
                slide: Pressure::ZERO,
                limit: self.layer.limits(CaseKind::Short, Situation::Driving).0,
                share: 0.0,
            },
        }
    }

    /// The use in one case; whoever keeps it gives it the case's name.
    fn in_case(&self, loaded: &LoadedCase) -> CaseUse {
        let (pull_limit, shear_limit) = self.layer.limits(loaded.case.kind, loaded.case.when);
        let on = self.forces(&loaded.mounts[self.index]);
        let (peel, slide) = (Pressure::mpa(on.stress.peel), on.shear / self.layer.area());
        // What may carry nothing is used up by anything.
        let share = |stress: Pressure, limit: Pressure| {
            if limit.is_zero() {
                if stress.is_zero() { 0.0 } else { UNFIT }
            } else {
                stress / limit
            }
        };
        CaseUse {
            case: String::new(),
            pull: on.pull,
            shear: on.shear,
            peel,
            slide,
            limit: pull_limit,
            share: (share(peel, pull_limit) + share(slide, shear_limit)).min(UNFIT),
        }
    }

    /// A mount's load on its plate, which lies on the slope of the skin.
    fn forces(&self, load: &MountLoad) -> OnPlate {
        let slope = |a: crate::units::Angle| a.tan();
        let normal = [-slope(self.mount.slope_along), -slope(self.mount.slope_across), 1.0];
        let size = normal.iter().map(|v| v * v).sum::<f64>().sqrt();
        let normal = normal.map(|v| v / size);
        let force = [load.along.to_n(), load.across.to_n(), load.up.to_n()];
        let pull: f64 = force.iter().zip(normal).map(|(f, n)| f * n).sum();
        let level = [0, 1].map(|i| force[i] - pull * normal[i]);
        let shear = (force.iter().map(|v| v * v).sum::<f64>() - pull * pull).max(0.0).sqrt();
        let (outboard, lengthwise) = match self.mount.edge {
            Edge::Right => (level[1], level[0]),
            Edge::Left => (-level[1], level[0]),
            Edge::Rear => (level[0], level[1]),
            Edge::Front => (-level[0], level[1]),
        };
        // A push outboard at the bolts lifts the inboard edge.
        let stress = self.spread.stress(pull, -outboard * self.height, lengthwise * self.height);
        OnPlate { pull: Force::n(pull), shear: Force::n(shear), stress }
    }
}

/// Use that is told where something carries that may carry nothing.
const UNFIT: f64 = 99.0;

/// A load on the plate, and what it does.
struct OnPlate {
    pull: Force,
    shear: Force,
    stress: spread::Stress,
}

/// Sideways movement over thickness at which a joint is stretched along its diagonal by its movement
/// class c: √((1 + c)² − 1) (geometry; the form of ASTM C1401).
pub fn sideways(class: Ratio) -> Ratio {
    Ratio::of_one(((1.0 + class.to_fraction()).powi(2) - 1.0).max(0.0).sqrt())
}

/// Movement by heat: frame and skin grow unlike from the point that stays where it is, ΔL = Δα ΔT L.
/// That point is the middle of the mounts, each counted by its stiffness: there the forces of the
/// mounts on the frame add up to nothing.
fn heat(
    build: &Build,
    work: &Work,
    tables: &Tables,
    mount: &MountPlace,
    bond: &Bond,
    limit: Ratio,
) -> HeatMove {
    let all = springs(work);
    let springs: Vec<_> = work.mounts_of(mount.frame).map(|(index, _)| all[index]).collect();
    let still = [0, 1].map(|axis| {
        let all: f64 = springs.iter().map(|s| s.stiffness[axis]).sum();
        springs.iter().map(|s| s.stiffness[axis] * s.at[axis]).sum::<f64>() / all
    });
    let reach = (mount.at.x.to_mm() - still[0]).hypot(mount.at.y.to_mm() - still[1]);
    let frame = build
        .frames
        .get(mount.frame)
        .and_then(|f| tables.material(&f.section.material).ok())
        .map_or(0.0, |material| material.expansion.to_per_k());
    let skin = build.vehicle.as_ref().map_or(0.0, |v| v.skin.material.expansion.to_per_k());
    let movement = unlike_growth(frame - skin, HEAT_SWING, Length::mm(reach));
    let strain = Ratio::of_one(movement / bond.thickness.max(Length::mm(0.1)));
    HeatMove { movement, strain, limit }
}

/// How much farther one thing grows than the other: |Δα| ΔT L.
pub fn unlike_growth(per_kelvin: f64, kelvin: f64, reach: Length) -> Length {
    reach * (per_kelvin.abs() * kelvin)
}

/// What the least that would do is worked out from.
fn record_least(marks: &[String], least: &Least, ledger: &mut Ledger) {
    let Some(first) = marks.first() else { return };
    let list: Vec<&str> = marks.iter().map(String::as_str).collect();
    let of = crate::compute::steps::facts::marks(&list);
    let formula = format!("the whole computation again until the use is {AIM:.2} or less");
    if let Some(plate) = &least.plate {
        ledger.push(
            Figure::new(
                format!("bonding.smallest-plate.{first}"),
                format!("use of {of} with the smallest plates that do it"),
                plate.share,
                "",
            )
            .formula(formula.clone())
            .input("plate", format!("{:.0} × {:.0} mm", plate.length.to_mm(), plate.width.to_mm()))
            .input("strips", plate.strips.to_string())
            .source("loads, bonding and metal of the changed build", Seen::Computed)
            .assume("lengths by steps of 10 mm; bracket, tape and bead as they are"),
        );
    }
    if let Some((count, share)) = least.feet {
        ledger.push(
            Figure::new(
                format!("bonding.fewest-feet.{first}"),
                format!("use of the fewest feet that do it in place of {of}"),
                share,
                "",
            )
            .formula(formula)
            .input("feet", count.to_string())
            .source("loads and bonding of the changed build", Seen::Computed)
            .assume("spread evenly from the first to the last of now"),
        );
    }
}

fn record(build: &Build, work: &Work, entry: &BondUse, ledger: &mut Ledger) {
    let worst = entry.governing();
    let Some(bond) = work.bonds.iter().find(|b| b.mark == entry.mark) else { return };
    let foot = written(build, work, &entry.mark).map(|(foot, _)| foot);
    let Some(layer) = Layer::stiffest(bond, foot) else { return };
    let mark = &entry.mark;
    let mut figure = Figure::new(
        format!("bonding.use.{mark}"),
        format!("use of capacity of the bond at {mark}"),
        worst.share,
        "",
    )
    .formula("u = p / σ + (V/A) / τ, p the peak of an elastic layer under a plate that bends")
    .input("N", format!("{:.0} N", worst.pull.to_n()))
    .input("V", format!("{:.0} N", worst.shear.to_n()))
    .input("A", format!("{:.0} mm² of {}", entry.area.to_mm2(), entry.carrier.name()))
    .input("p", format!("{:.1} kPa, {:.2} times N/A", worst.peel.to_kpa(), entry.uneven))
    .input("σ", format!("{:.1} kPa", worst.limit.to_kpa()))
    .input("lever of the leg", format!("{:.0} mm", (bond.leg - bond.width / 2.0).to_mm()))
    .input("case", worst.case.clone())
    .source(layer.source.clone(), layer.seen)
    .assume("the stiffer of tape and bead carries alone; pull and shear use capacity together")
    .decides();
    if let Some(share) = entry.at_read_value {
        let read = layer.read.map_or(0.0, crate::units::Pressure::to_kpa);
        figure = figure.assume(format!(
            "with {read:.1} kPa, the only short-term value read in a document, driving would use {}",
            display::capacity_used(share)
        ));
    }
    ledger.push(figure);
    ledger.push(
        Figure::new(
            format!("bonding.needed.{mark}"),
            format!("area that the bond at {mark} needs"),
            entry.needed.to_mm2(),
            "mm²",
        )
        .formula("A u")
        .input("u", display::capacity_used(worst.share))
        .source("use of capacity of the same layout", Seen::Computed),
    );
    ledger.push(
        Figure::new(
            format!("bonding.heat.{mark}"),
            format!("movement by heat at {mark}"),
            entry.heat.movement.to_mm(),
            "mm",
        )
        .formula("Δ = |α₁ − α₂| ΔT L")
        .input("ΔT", format!("{HEAT_SWING:.0} K"))
        .input("limit", format!("{:.0} % of the thickness", entry.heat.limit.to_percent()))
        .assume("L from the middle of the mounts, each counted by its stiffness")
        .source("thermal expansion of the materials", Seen::Verified),
    );
}

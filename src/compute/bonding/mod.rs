//! What each bonded joint must carry, and what it may.
//!
//! Takes the loads on the mounts and the layout of strips and beads; gives the use of capacity for
//! each joint and kind of case. Stress follows an elastic layer under a rigid plate: the pull over
//! the area, plus the lever (leg beside the middle of the strips) over the strips' second moment,
//! greatest at the edge that peels. Pull and shear use the capacity together, their shares added.
//!
//! Tape and bead do not add up: the stiffer of the two carries alone (modulus times area over
//! thickness), the other is a second line.

mod judge;
pub mod rules;

use crate::build::{BondedFoot, Build, MountKind};
use crate::compute::loads::{CaseKind, Loads, MountLoad, springs};
use crate::derive::{Bond, MountPlace, Work};
use crate::geometry::Rect;
use crate::source::{Figure, Finding, Ledger, Seen, Span};
use crate::tables::{RowOrigin, Tables};
use crate::units::{Area, Force, Length, Pressure, Ratio};

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
    /// Greatest use for seconds: gusts, braking, bumps.
    pub short: CaseUse,
    /// Use on a hot roof.
    pub hot: CaseUse,
    /// Use by what pulls all the time.
    pub sustained: CaseUse,
    /// Area that would bring the greatest use to 1 at the same layout.
    pub needed: Area,
    /// Sideways movement between frame and roof by heat at this mount, against the thickness.
    pub heat: HeatMove,
}

impl BondUse {
    /// The greatest of all uses.
    pub fn governing(&self) -> &CaseUse {
        [&self.hot, &self.sustained]
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
    let mut uses = Vec::new();
    for (index, mount) in work.mounts.iter().enumerate() {
        let Some(bond) = work.bonds.iter().find(|b| b.mark == mount.mark) else { continue };
        // A plate whose strips and beads found no room has its finding from derive.
        let Some(carried) = Layer::stiffest(bond) else { continue };
        let short = worst(&carried, bond, mount, index, loads, CaseKind::Short);
        let hot = worst(&carried, bond, mount, index, loads, CaseKind::Hot);
        let sustained = worst(&carried, bond, mount, index, loads, CaseKind::Sustained);
        let greatest = short.share.max(hot.share).max(sustained.share);
        let entry = BondUse {
            mark: mount.mark.clone(),
            carrier: carried.carrier,
            area: carried.area(),
            areas: (area_of(&bond.strips), area_of(&bond.beads)),
            needed: carried.area() * greatest,
            heat: heat(build, work, tables, mount, bond, carried.movement),
            short,
            hot,
            sustained,
        };
        record(&entry, &carried, ledger);
        uses.push(entry);
    }
    judge::judge(build, work, &uses, findings);
    uses
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
        MountKind::Hinge(_) => None,
    }
}

/// The strips or the beads of a joint as an elastic layer.
struct Layer<'a> {
    carrier: Carrier,
    rects: &'a [Rect],
    /// Capacities for seconds in pull and shear, and the share kept for long and hot loads.
    pull: Pressure,
    shear: Pressure,
    sustained: Pressure,
    hot: f64,
    /// Sideways movement over thickness that it follows for years.
    movement: Ratio,
    origin: &'a RowOrigin,
}

impl<'a> Layer<'a> {
    /// The stiffer of tape and bead.
    fn stiffest(bond: &'a Bond) -> Option<Self> {
        let tape = bond.tape.as_ref().filter(|_| !bond.strips.is_empty()).map(|(tape, _)| {
            let stiffness = tape.modulus.to_mpa() * area_of(&bond.strips).to_mm2();
            let layer = Layer {
                carrier: Carrier::Tape,
                rects: &bond.strips,
                pull: tape.short_term,
                shear: tape.short_term,
                sustained: tape.sustained,
                hot: tape.hot_factor.to_fraction(),
                movement: tape.movement,
                origin: &tape.origin,
            };
            (stiffness, layer)
        });
        let bead = bond.adhesive.as_ref().filter(|_| !bond.beads.is_empty()).map(|adhesive| {
            let stiffness = adhesive.modulus.to_mpa() * area_of(&bond.beads).to_mm2();
            let layer = Layer {
                carrier: Carrier::Bead,
                rects: &bond.beads,
                pull: adhesive.tension_design,
                shear: adhesive.shear_design,
                sustained: adhesive.tension_design.min(adhesive.shear_design)
                    * adhesive.sustained_share.to_fraction(),
                hot: adhesive.hot_factor.to_fraction(),
                movement: sideways(adhesive.movement),
                origin: &adhesive.origin,
            };
            (stiffness, layer)
        });
        match (tape, bead) {
            (Some((a, tape)), Some((b, bead))) => Some(if b > a { bead } else { tape }),
            (Some((_, layer)), None) | (None, Some((_, layer))) => Some(layer),
            (None, None) => None,
        }
    }

    fn area(&self) -> Area {
        area_of(self.rects)
    }

    /// Middle of the layer across the plate, second moment about it, and its farthest edge: mm, mm⁴, mm.
    fn across(&self) -> (f64, f64, f64) {
        let area = self.area().to_mm2();
        let middle =
            self.rects.iter().map(|r| r.area().to_mm2() * r.centre().y.to_mm()).sum::<f64>() / area;
        let second = self
            .rects
            .iter()
            .map(|r| {
                let (l, w) = (r.width().to_mm(), r.height().to_mm());
                l * w.powi(3) / 12.0 + l * w * (r.centre().y.to_mm() - middle).powi(2)
            })
            .sum();
        let edge = self
            .rects
            .iter()
            .flat_map(|r| [r.low().y.to_mm(), r.high().y.to_mm()])
            .fold(0.0_f64, |far, y| far.max((y - middle).abs()));
        (middle, second, edge)
    }
}

fn area_of(rects: &[Rect]) -> Area {
    rects.iter().map(|r| r.area()).sum()
}

/// Pull and shear of a mount's load on its plate, which lies on the slope of the skin.
fn on_plate(load: &MountLoad, mount: &MountPlace) -> (Force, Force) {
    let slope = |a: crate::units::Angle| a.tan();
    let normal = [-slope(mount.slope_along), -slope(mount.slope_across), 1.0];
    let size = normal.iter().map(|v| v * v).sum::<f64>().sqrt();
    let force = [load.along.to_n(), load.across.to_n(), load.up.to_n()];
    let pull: f64 = force.iter().zip(normal).map(|(f, n)| f * n / size).sum();
    let all: f64 = force.iter().map(|v| v * v).sum();
    (Force::n(pull), Force::n((all - pull * pull).max(0.0).sqrt()))
}

fn worst(
    layer: &Layer,
    bond: &Bond,
    mount: &MountPlace,
    index: usize,
    loads: &Loads,
    kind: CaseKind,
) -> CaseUse {
    let (middle, second, edge) = layer.across();
    let area = layer.area();
    let lever = (bond.leg.to_mm() - middle).abs();
    let (pull_limit, shear_limit) = match kind {
        CaseKind::Short => (layer.pull, layer.shear),
        CaseKind::Hot => (layer.pull * layer.hot, layer.shear * layer.hot),
        CaseKind::Sustained => (layer.sustained, layer.sustained),
    };
    let mut greatest: Option<CaseUse> = None;
    for loaded in loads.cases.iter().filter(|c| c.case.kind == kind) {
        let (pull, shear) = on_plate(&loaded.mounts[index], mount);
        let bending = Pressure::mpa(pull.to_n().abs() * lever * edge / second.max(1.0));
        // What presses the plate down needs no bond, but its lever still peels one edge.
        let peel = (pull / area + bending).max(Pressure::ZERO);
        let slide = shear / area;
        let share = peel / pull_limit + slide / shear_limit;
        if greatest.as_ref().is_none_or(|g| share > g.share) {
            greatest = Some(CaseUse {
                case: loaded.case.name.clone(),
                pull,
                shear,
                peel,
                slide,
                limit: pull_limit,
                share,
            });
        }
    }
    greatest.unwrap_or_else(|| CaseUse {
        case: "none".into(),
        pull: Force::ZERO,
        shear: Force::ZERO,
        peel: Pressure::ZERO,
        slide: Pressure::ZERO,
        limit: pull_limit,
        share: 0.0,
    })
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
    let springs = springs(work);
    let still = [0, 1].map(|axis| {
        let all: f64 = springs.iter().map(|s| s.stiffness[axis]).sum();
        springs.iter().map(|s| s.stiffness[axis] * s.at[axis]).sum::<f64>() / all
    });
    let reach = (mount.at.x.to_mm() - still[0]).hypot(mount.at.y.to_mm() - still[1]);
    let frame = build
        .frame
        .as_ref()
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

fn record(entry: &BondUse, layer: &Layer, ledger: &mut Ledger) {
    let worst = entry.governing();
    ledger.push(
        Figure::new(
            format!("bonding.use.{}", entry.mark),
            format!("use of capacity of the bond at {}", entry.mark),
            worst.share,
            "",
        )
        .formula("u = (N/A + M c/I) / σ + (V/A) / τ")
        .input("N", format!("{:.0} N", worst.pull.to_n()))
        .input("V", format!("{:.0} N", worst.shear.to_n()))
        .input("A", format!("{:.0} mm² of {}", entry.area.to_mm2(), entry.carrier.name()))
        .input("σ", format!("{:.1} kPa", worst.limit.to_kpa()))
        .input("case", worst.case.clone())
        .source(layer.origin.source.clone(), layer.origin.seen)
        .assume("rigid plate on an elastic layer; the stiffer of tape and bead carries alone")
        .decides(),
    );
    ledger.push(
        Figure::new(
            format!("bonding.heat.{}", entry.mark),
            format!("movement by heat at {}", entry.mark),
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

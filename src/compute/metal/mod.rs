//! What the metal carries: hinges, brackets, plates, spreaders, clamps, latches, bolts, rivet nuts, tube
//! walls, tubes in bending, panel screws and the roof skin round the plates.
//!
//! Takes the loads on the mounts and the pressures on the panels; gives, for each part that could give
//! way, effect over capacity in its worst case. Resistances follow EN 1993 and EN 1999 ([`joint`]);
//! tubes are beams on the mounts ([`frame`]). What their corners carry is in [`corner`]; push-in
//! connectors have no stated strength and are told as such.

mod bracketed;
mod corner;
mod enter;
mod foot;
mod frame;
mod hinge;
pub mod joint;
mod panel;
mod prop;
mod prop_foot;
pub mod rules;
pub mod strut;

use crate::build::{Build, Edge};
use crate::compute::bonding::BondUse;
use crate::compute::fasteners::Tightening;
use crate::compute::loads::{CaseKind, LoadedCase, Loads, MountLoad};
use crate::derive::Work;
use crate::source::{Finding, Ledger, Seen, Span};
use crate::tables::Tables;
use crate::units::Length;

/// Use of one part in its worst case.
#[derive(Debug, Clone)]
pub struct MetalUse {
    /// Key for figures, "foot.bend.F1".
    pub key: String,
    /// Mark of the mount or name of the part.
    pub at: String,
    /// What could give way, "angle at its bend".
    pub what: &'static str,
    /// Worst case.
    pub case: String,
    /// Load, moment or torque, in `unit`.
    pub effect: f64,
    /// What it may be.
    pub capacity: f64,
    /// Unit of both: N, N·m.
    pub unit: &'static str,
    /// Use of capacity; more than effect over capacity where two effects act together.
    pub share: f64,
    /// How it was worked out.
    pub formula: &'static str,
    /// Symbols and numbers.
    pub inputs: Vec<(String, String)>,
    /// Source of the resistance.
    pub source: &'static str,
    /// How well it is known.
    pub seen: Seen,
    /// What would help.
    pub remedy: &'static str,
    /// Place in the build file.
    pub span: Span,
}

/// Makes the uses of one mount: by key, what could give way, effect, capacity and case. What a check
/// knows better it says beside.
fn entry_of<'a>(
    mark: &'a str,
    prefix: &'a str,
    span: Span,
) -> impl Fn(&str, &'static str, f64, f64, &str) -> MetalUse + 'a {
    move |key, what, effect, capacity, case| MetalUse {
        key: format!("{prefix}.{key}.{mark}"),
        at: mark.to_owned(),
        what,
        case: case.to_owned(),
        effect,
        capacity,
        unit: "N",
        share: effect / capacity.max(1e-9),
        formula: "",
        inputs: Vec::new(),
        source: "",
        seen: Seen::Computed,
        remedy: "",
        span,
    }
}

/// The metal of a build.
#[derive(Debug, Clone, Default)]
pub struct Metal {
    /// Every use.
    pub uses: Vec<MetalUse>,
    /// Tubes: name, span and greatest bow between supports.
    pub tubes: Vec<TubeBow>,
    /// By frame: how many cross tubes would make its tubes hold, where they do not.
    pub cross_tubes: Vec<Option<u32>>,
}

/// How far a tube bows.
#[derive(Debug, Clone)]
pub struct TubeBow {
    /// Which of the frames it belongs to.
    pub frame: usize,
    /// Name of the tube.
    pub name: String,
    /// Longest stretch between supports.
    pub span: Length,
    /// Bow up in the worst suction, down in the worst pressure.
    pub bow: [Length; 2],
}

/// What the parts are worked out from.
struct Basis<'a> {
    build: &'a Build,
    work: &'a Work,
    loads: &'a Loads,
    tables: &'a Tables,
    tightening: &'a [Tightening],
}

/// Works out every part of metal.
#[expect(clippy::too_many_arguments, reason = "a chapter takes what earlier chapters gave")]
pub fn metal(
    build: &Build,
    work: &Work,
    loads: &Loads,
    bonds: &[BondUse],
    tightening: &[Tightening],
    tables: &Tables,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Metal {
    let basis = Basis { build, work, loads, tables, tightening };
    let mut metal = Metal {
        uses: at_mounts(build, work, loads, bonds, tightening, tables),
        ..Metal::default()
    };
    frame::frames(&basis, &mut metal, ledger);
    panel::panels(&basis, &mut metal.uses);
    prop::props(&basis, bonds, &mut metal.uses);
    for entry in &metal.uses {
        ledger.push(enter::figure(entry));
    }
    enter::bows(build, &metal.tubes, ledger);
    enter::judge(build, work, &metal, findings);
    metal
}

/// Hinges and feet alone, without figures and findings.
pub fn at_mounts(
    build: &Build,
    work: &Work,
    loads: &Loads,
    bonds: &[BondUse],
    tightening: &[Tightening],
    tables: &Tables,
) -> Vec<MetalUse> {
    let basis = Basis { build, work, loads, tables, tightening };
    let mut uses = Vec::new();
    for index in 0..work.mounts.len() {
        hinge::hinge(&basis, index, &mut uses);
        foot::foot(&basis, index, bonds, &mut uses);
        bracketed::bolted(&basis, index, &mut uses);
        bracketed::clamp(&basis, index, &mut uses);
    }
    uses
}

/// A load along the ways of an edge.
#[derive(Debug, Clone, Copy)]
struct EdgeLoad {
    /// Along the edge.
    lengthwise: f64,
    /// Away from the frame.
    outboard: f64,
    /// Off the roof.
    up: f64,
}

fn at_edge(edge: Edge, load: &MountLoad) -> EdgeLoad {
    let [x, y] = [load.along.to_n(), load.across.to_n()];
    let (lengthwise, outboard) = match edge {
        Edge::Right => (x, y),
        Edge::Left => (x, -y),
        Edge::Rear => (y, x),
        Edge::Front => (y, -x),
    };
    EdgeLoad { lengthwise, outboard, up: load.up.to_n() }
}

/// The case in which a share is greatest, over all but crash cases.
fn worst<'a, T>(
    basis: &'a Basis,
    index: usize,
    of: impl Fn(EdgeLoad) -> (f64, T),
) -> Option<(f64, T, &'a LoadedCase)> {
    let edge = basis.work.mounts[index].edge;
    basis
        .loads
        .cases
        .iter()
        .filter(|loaded| loaded.case.kind != CaseKind::Hot)
        .map(|loaded| {
            let (share, what) = of(at_edge(edge, &loaded.mounts[index]));
            (share, what, loaded)
        })
        .reduce(|worst, next| if next.0 > worst.0 { next } else { worst })
}

fn newtons(value: f64) -> String {
    format!("{value:.0} N")
}

fn millimetres(value: f64) -> String {
    format!("{value:.1} mm")
}

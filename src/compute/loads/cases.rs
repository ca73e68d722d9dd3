//! The load cases: which actions act together, how large, and where.

use super::sharing::Wrench;
use super::weight;
use crate::derive::Array;
use crate::source::{Figure, Ledger, Seen};
use crate::tables::Tables;
use crate::units::{Angle, Density, Mass, Pressure, Speed};

/// How long a case lasts, which decides what a bond may carry.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CaseKind {
    /// Seconds: gusts, braking, bumps.
    Short,
    /// Always: own weight.
    Sustained,
    /// A dark roof in the sun, wind as on a fair day.
    Hot,
}

/// One case.
#[derive(Debug, Clone)]
pub struct Case {
    /// Short key for figures, "driving-air".
    pub key: &'static str,
    /// Name on the sheet.
    pub name: String,
    /// How long it lasts.
    pub kind: CaseKind,
    /// The actions and their factors, in words.
    pub actions: String,
    /// Resultant about the vehicle's origin.
    pub wrench: Wrench,
}

/// What the cases are made from.
pub(super) struct Basis<'a> {
    pub array: &'a Array,
    pub tables: &'a Tables,
    pub driving: Pressure,
    pub storm: Pressure,
    pub mass: Mass,
    pub density: Density,
}

/// Force on a face across the wind over dynamic pressure and area: a long strip, 1.98
/// (Aeronautical Engineer's Data Book, flat plates, two-dimensional flow).
const DRAG: f64 = 1.98;
/// Accompanying air beside a leading inertia action, psi 0 for wind (EN 1990 table A1.1).
const ACCOMPANYING: f64 = 0.6;
/// Braking, in g (design ruling; EN 12195-1 gives 0.8, insurers 1.0).
const FORWARD: f64 = 1.0;
/// Speeding up, in g (EN 12195-1).
const REARWARD: f64 = 0.5;
/// Cornering of a light van, in g (EN 12195-1 for vans).
const SIDEWAYS: f64 = 0.6;
/// Bumps up and down beside the weight itself, in g; body peaks of rough roads, from memory.
const BUMP: f64 = 2.0;
/// Wind on a hot fair day: top of Beaufort 4 (WMO No. 306, table 1100), 8 m/s.
const FAIR_WIND: Speed = Speed::m_per_s(8.0);

/// Coefficients of a roof over a blocked space.
const CANOPY: &str = "en-1991-1-4-table-7.6";

/// Where the air comes from.
#[derive(Clone, Copy)]
enum From {
    Front,
    Rear,
    Left,
    Right,
}

struct Coefficients {
    lift: f64,
    press: f64,
    zones: [f64; 3],
}

pub(super) fn build(basis: &Basis, ledger: &mut Ledger) -> Vec<Case> {
    use CaseKind::{Hot, Short, Sustained};

    let tilt = Angle::ZERO;
    let Some(row) = basis.tables.canopy(CANOPY).ok().and_then(|table| table.at(tilt)) else {
        return Vec::new();
    };
    let c = Coefficients {
        lift: row.up_blocked.force,
        press: row.down.force,
        zones: [row.up_blocked.a, row.up_blocked.b, row.up_blocked.c],
    };
    let length = basis.array.outline.width().to_mm();
    let width = basis.array.outline.height().to_mm();
    record(basis, &c, length * width, ledger);

    let still = gravity(basis, [0.0, 0.0, -1.0]);
    let inertia = |g: [f64; 3]| gravity(basis, g);
    let mut cases = Vec::new();
    let mut add = |key, name: &str, kind, actions: String, wrench: Wrench| {
        cases.push(Case { key, name: name.to_owned(), kind, actions, wrench });
    };
    let q = basis.driving.to_pa() * 1e-6;
    let storm = basis.storm.to_pa() * 1e-6;
    let fair = Pressure::dynamic(basis.density, FAIR_WIND).to_pa() * 1e-6;
    let overall = |q: f64, from: From| air(basis, q * -c.lift, from).plus(drag(basis, q, from));
    let driving = overall(q, From::Front);

    add(
        "driving-air",
        "driving, air lifts",
        Short,
        "air 1.0 + weight 1.0".into(),
        driving.plus(still),
    );
    add(
        "driving-local",
        "driving, local suction",
        Short,
        "air by zones 1.0 + weight 1.0".into(),
        zones(basis, q, &c, true).plus(drag(basis, q, From::Front)).plus(still),
    );
    add(
        "driving-press",
        "driving, air presses",
        Short,
        "air 1.0 + weight 1.0".into(),
        air(basis, q * -c.press, From::Front).plus(drag(basis, q, From::Front)).plus(still),
    );
    for (key, name, from) in [
        ("storm-front", "parked storm from the front", From::Front),
        ("storm-rear", "parked storm from the rear", From::Rear),
        ("storm-left", "parked storm from the left", From::Left),
        ("storm-right", "parked storm from the right", From::Right),
    ] {
        add(key, name, Short, "gust 1.0 + weight 1.0".into(), overall(storm, from).plus(still));
    }
    add(
        "storm-local",
        "parked storm, local suction",
        Short,
        "gust by zones 1.0 + weight 1.0".into(),
        zones(basis, storm, &c, true).plus(still),
    );
    let lead = |g: &str| format!("{g} + air {ACCOMPANYING} + weight 1.0");
    let beside = driving.times(ACCOMPANYING).plus(still);
    add(
        "braking",
        "braking",
        Short,
        lead("1.0 g forward"),
        inertia([-FORWARD, 0.0, 0.0]).plus(beside),
    );
    add(
        "speeding-up",
        "speeding up",
        Short,
        lead("0.5 g rearward"),
        inertia([REARWARD, 0.0, 0.0]).plus(beside),
    );
    add(
        "left-bend",
        "bend to the left",
        Short,
        lead("0.6 g to the right"),
        inertia([0.0, SIDEWAYS, 0.0]).plus(beside),
    );
    add(
        "right-bend",
        "bend to the right",
        Short,
        lead("0.6 g to the left"),
        inertia([0.0, -SIDEWAYS, 0.0]).plus(beside),
    );
    add(
        "bump-up",
        "rough road, thrown up",
        Short,
        lead("2.0 g up"),
        inertia([0.0, 0.0, BUMP]).plus(beside),
    );
    add(
        "bump-down",
        "rough road, pressed down",
        Short,
        "2.0 g down + weight 1.0".into(),
        inertia([0.0, 0.0, -BUMP]).plus(still),
    );
    add(
        "hot",
        "parked in the sun",
        Hot,
        "wind 8 m/s 1.0 + weight 1.0".into(),
        zones(basis, fair, &c, false).plus(still),
    );
    add("weight", "own weight", Sustained, "weight 1.0".into(), still);
    cases
}

fn record(basis: &Basis, c: &Coefficients, area: f64, ledger: &mut Ledger) {
    let source = "EN 1991-1-4:2005, table 7.6, blockage 1";
    ledger.push(
        Figure::new("loads.coefficient.lift", "uplift coefficient of the whole array", c.lift, "")
            .source(source, Seen::Verified)
            .assume("array lies flat while driving; up is negative as in the table")
            .decides(),
    );
    ledger.push(
        Figure::new("loads.coefficient.local", "mean of the local zones", zone_mean(c), "")
            .formula("0.64 A + 0.16 B + 0.20 C")
            .input("A, B, C", format!("{}, {}, {}", c.zones[0], c.zones[1], c.zones[2]))
            .source(source, Seen::Verified)
            .assume("all zones at once, for the fixings"),
    );
    let lift = basis.driving.to_pa() * -c.lift * area * 1e-6;
    ledger.push(
        Figure::new("loads.lift.driving", "air lifts the array while driving", lift, "N")
            .formula("F = −c q A")
            .input("c", format!("{}", c.lift))
            .input("q", format!("{:.0} Pa", basis.driving.to_pa()))
            .input("A", format!("{:.3} m²", area * 1e-6))
            .source(source, Seen::Verified)
            .decides(),
    );
}

/// Share of each zone: C two strips of a tenth of the depth, B two strips of a tenth of the width
/// between them, A the rest (EN 1991-1-4 table 7.6, key plan).
fn zone_mean(c: &Coefficients) -> f64 {
    0.64 * c.zones[0] + 0.16 * c.zones[1] + 0.20 * c.zones[2]
}

/// Middle of the array, mm.
fn middle(array: &Array) -> [f64; 3] {
    let centre = array.outline.centre();
    [centre.x.to_mm(), centre.y.to_mm(), 0.5 * (array.under + array.top).to_mm()]
}

fn size(array: &Array) -> [f64; 3] {
    [
        array.outline.width().to_mm(),
        array.outline.height().to_mm(),
        (array.top - array.under).to_mm(),
    ]
}

fn gravity(basis: &Basis, g: [f64; 3]) -> Wrench {
    let weight = weight(basis.mass).to_n();
    Wrench::at(middle(basis.array), g.map(|v| v * weight))
}

/// Lift of `pressure` (N/mm², up positive) over the whole array at a quarter of its depth.
fn air(basis: &Basis, pressure: f64, from: From) -> Wrench {
    let [mut x, mut y, z] = middle(basis.array);
    let [length, width, _] = size(basis.array);
    match from {
        From::Front => x -= length / 4.0,
        From::Rear => x += length / 4.0,
        From::Left => y -= width / 4.0,
        From::Right => y += width / 4.0,
    }
    Wrench::at([x, y, z], [0.0, 0.0, pressure * length * width])
}

/// Push of the wind on the edge that meets it.
fn drag(basis: &Basis, q: f64, from: From) -> Wrench {
    let [length, width, height] = size(basis.array);
    let along = DRAG * q * width * height;
    let across = DRAG * q * length * height;
    let force = match from {
        From::Front => [along, 0.0, 0.0],
        From::Rear => [-along, 0.0, 0.0],
        From::Left => [0.0, across, 0.0],
        From::Right => [0.0, -across, 0.0],
    };
    Wrench::at(middle(basis.array), force)
}

/// Suction by zones, all at once; symmetric, so its resultant lies in the middle.
fn zones(basis: &Basis, q: f64, c: &Coefficients, whole: bool) -> Wrench {
    let [length, width, _] = size(basis.array);
    let mean = if whole { zone_mean(c) } else { c.lift };
    Wrench::at(middle(basis.array), [0.0, 0.0, -mean * q * length * width])
}

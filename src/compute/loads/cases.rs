//! The load cases: which actions act together, how large, and where.

use super::sharing::Wrench;
use super::{air, weight};
use crate::build::Actions;
use crate::derive::Array;
use crate::tables::CanopyValues;
use crate::units::{Density, Mass, Pressure, Speed};

/// How long a case lasts, which decides what a bond may carry.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CaseKind {
    /// Seconds: gusts, braking, bumps.
    Short,
    /// Always or for weeks: own weight, snow.
    Sustained,
    /// A dark roof in the sun, wind as on a fair day.
    Hot,
}

/// When a case can happen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Situation {
    /// On the road.
    Driving,
    /// At rest.
    Parked,
    /// Both.
    Always,
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
    /// When it can happen.
    pub when: Situation,
    /// The actions and their factors, in words.
    pub actions: String,
    /// Resultant on all frames about the vehicle's origin.
    pub wrench: Wrench,
    /// What each frame gets of it.
    pub frames: Vec<Wrench>,
}

/// What the cases are made from.
pub(super) struct Basis<'a> {
    pub array: &'a Array,
    pub actions: &'a Actions,
    pub speed: Speed,
    pub driving: Pressure,
    pub storm: Pressure,
    pub mass: Mass,
    pub density: Density,
    pub up: CanopyValues,
    pub down: CanopyValues,
}

/// Force on a face across the wind over dynamic pressure and area: a long strip, 1.98
/// (Aeronautical Engineer's Data Book, flat plates, two-dimensional flow).
const DRAG: f64 = 1.98;
/// Air beside a leading inertia action: psi 0 for wind (EN 1990 table A1.1).
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
/// Snow on a roof over snow on the ground, level to 30° (EN 1991-1-3 table 5.2, from memory).
pub(super) const SNOW_SHAPE: f64 = 0.8;

/// Direction that the air comes from: share from ahead (negative from behind), share from the left
/// (negative from the right); the squares add up to one.
type From = [f64; 2];
const FRONT: From = [1.0, 0.0];
const REAR: From = [-1.0, 0.0];
const LEFT: From = [0.0, 1.0];
const RIGHT: From = [0.0, -1.0];

/// Mean over the whole array of the zones of local suction.
pub(super) fn zone_mean(c: &CanopyValues) -> f64 {
    // Two strips C of a tenth of the depth, two strips B of a tenth of the width between them, A
    // the rest (EN 1991-1-4 table 7.6, key plan).
    0.64 * c.a + 0.16 * c.b + 0.20 * c.c
}

/// All cases in the order of the sheet.
pub(super) fn build(basis: &Basis) -> Vec<Case> {
    let mut list = List { basis, still: gravity(basis, [0.0, 0.0, -1.0]), cases: Vec::new() };
    list.driving();
    list.parked();
    list.road();
    list.lasting();
    list.cases
}

/// Crash levels along and across, as information.
pub(super) fn crash(basis: &Basis) -> Vec<Case> {
    let Some(class) = &basis.actions.crash else { return Vec::new() };
    let [along, across] = class.levels();
    let still = gravity(basis, [0.0, 0.0, -1.0]);
    let mut list = List { basis, still, cases: Vec::new() };
    for (key, name, g) in [
        ("crash-front", "crash from the front", [-along, 0.0, 0.0]),
        ("crash-rear", "crash from behind", [along, 0.0, 0.0]),
        ("crash-left", "crash from the left", [0.0, across, 0.0]),
        ("crash-right", "crash from the right", [0.0, -across, 0.0]),
    ] {
        let level = g.iter().map(|v| v.abs()).fold(0.0, f64::max);
        let wrench = gravity(basis, g).plus(still);
        let actions = format!("{level} g + weight 1.0");
        list.add((key, name), CaseKind::Short, Situation::Driving, actions, wrench);
    }
    list.cases
}

/// The same cases on several frames at once.
pub(super) fn together(frames: Vec<Vec<Case>>) -> Vec<Case> {
    let mut frames = frames.into_iter();
    let Some(mut all) = frames.next() else { return Vec::new() };
    for other in frames {
        for (case, more) in all.iter_mut().zip(other) {
            case.wrench = case.wrench.plus(more.wrench);
            case.frames.extend(more.frames);
        }
    }
    all
}

struct List<'a> {
    basis: &'a Basis<'a>,
    still: Wrench,
    cases: Vec<Case>,
}

impl List<'_> {
    fn add(
        &mut self,
        (key, name): (&'static str, &str),
        kind: CaseKind,
        when: Situation,
        actions: String,
        wrench: Wrench,
    ) {
        self.cases.push(Case {
            key,
            name: name.to_owned(),
            kind,
            when,
            actions,
            wrench,
            frames: vec![wrench],
        });
    }

    fn short(&mut self, key: (&'static str, &str), when: Situation, actions: &str, wrench: Wrench) {
        self.add(key, CaseKind::Short, when, actions.to_owned(), wrench);
    }

    /// Air that lifts the whole array, with its drag.
    fn lift(&self, q: f64, from: From) -> Wrench {
        air_on(self.basis, q * -self.basis.up.force, from).plus(drag(self.basis, q, from))
    }

    fn driving(&mut self) {
        let basis = self.basis;
        let q = basis.driving.to_mpa();
        let still = self.still;
        let lift = self.lift(q, FRONT).plus(still);
        let when = Situation::Driving;
        self.short(("driving-air", "driving, air lifts"), when, "air 1.0 + weight 1.0", lift);
        let wind = *basis.actions.cross_wind;
        if wind > Speed::ZERO {
            let q = air::oblique_pressure(basis.density, basis.speed, wind).to_mpa();
            let all = basis.speed.to_m_per_s().hypot(wind.to_m_per_s()).max(1e-9);
            let [ahead, aside] = [basis.speed.to_m_per_s() / all, wind.to_m_per_s() / all];
            for (key, from, side) in
                [("driving-left", "left", aside), ("driving-right", "right", -aside)]
            {
                let wrench = self.lift(q, [ahead, side]).plus(still);
                let name = format!("driving, {:.0} m/s from the {from}", wind.to_m_per_s());
                self.short((key, &name), when, "air 1.0 + weight 1.0", wrench);
            }
        }
        let local = zones(basis, q).plus(drag(basis, q, FRONT)).plus(still);
        self.short(
            ("driving-local", "driving, local suction"),
            when,
            "air by zones 1.0 + weight 1.0",
            local,
        );
        let press = air_on(basis, q * -basis.down.force, FRONT);
        let press = press.plus(drag(basis, q, FRONT)).plus(still);
        self.short(("driving-press", "driving, air presses"), when, "air 1.0 + weight 1.0", press);
    }

    fn parked(&mut self) {
        let storm = self.basis.storm.to_mpa();
        let when = Situation::Parked;
        for (key, from) in [
            (("storm-front", "parked storm from the front"), FRONT),
            (("storm-rear", "parked storm from the rear"), REAR),
            (("storm-left", "parked storm from the left"), LEFT),
            (("storm-right", "parked storm from the right"), RIGHT),
        ] {
            let wrench = self.lift(storm, from).plus(self.still);
            self.short(key, when, "gust 1.0 + weight 1.0", wrench);
        }
        let local = zones(self.basis, storm).plus(self.still);
        self.short(
            ("storm-local", "parked storm, local suction"),
            when,
            "gust by zones 1.0 + weight 1.0",
            local,
        );
    }

    fn road(&mut self) {
        let basis = self.basis;
        let when = Situation::Driving;
        let lead = |g: &str| format!("{g} + air {ACCOMPANYING} + weight 1.0");
        let beside = self.lift(basis.driving.to_mpa(), FRONT).times(ACCOMPANYING).plus(self.still);
        for (key, g, words) in [
            (("braking", "braking"), [-FORWARD, 0.0, 0.0], "1.0 g"),
            (("speeding-up", "speeding up"), [REARWARD, 0.0, 0.0], "0.5 g"),
            (("left-bend", "bend to the left"), [0.0, SIDEWAYS, 0.0], "0.6 g"),
            (("right-bend", "bend to the right"), [0.0, -SIDEWAYS, 0.0], "0.6 g"),
            (("bump-up", "rough road, thrown up"), [0.0, 0.0, BUMP], "2.0 g"),
        ] {
            self.short(key, when, &lead(words), gravity(basis, g).plus(beside));
        }
        let down = gravity(basis, [0.0, 0.0, -BUMP]).plus(self.still);
        let key = ("bump-down", "rough road, pressed down");
        self.short(key, when, "2.0 g + weight 1.0", down);
    }

    fn lasting(&mut self) {
        let basis = self.basis;
        let fair = Pressure::dynamic(basis.density, FAIR_WIND).to_mpa();
        let [length, width, _] = size(basis.array);
        let whole =
            Wrench::at(middle(basis.array), [0.0, 0.0, -basis.up.force * fair * length * width]);
        self.add(
            ("hot", "parked in the sun"),
            CaseKind::Hot,
            Situation::Parked,
            "wind 8 m/s 1.0 + weight 1.0".into(),
            whole.plus(self.still),
        );
        if let Some(snow) = &basis.actions.snow {
            let force = -SNOW_SHAPE * snow.to_mpa() * length * width;
            let wrench = Wrench::at(middle(basis.array), [0.0, 0.0, force]).plus(self.still);
            self.add(
                ("snow", "snow"),
                CaseKind::Sustained,
                Situation::Parked,
                "snow 1.0 + weight 1.0".into(),
                wrench,
            );
        }
        self.add(
            ("weight", "own weight"),
            CaseKind::Sustained,
            Situation::Always,
            "weight 1.0".into(),
            self.still,
        );
    }
}

/// Middle of the array, mm.
fn middle(array: &Array) -> [f64; 3] {
    let centre = array.outline.centre();
    [centre.x.to_mm(), centre.y.to_mm(), 0.5 * (array.under + array.top).to_mm()]
}

pub(super) fn size(array: &Array) -> [f64; 3] {
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

/// Lift of `pressure` (N/mm², up positive) over the whole array, a quarter of its depth behind the
/// edge that meets the wind; between two edges for wind from a corner.
fn air_on(basis: &Basis, pressure: f64, [ahead, aside]: From) -> Wrench {
    let [x, y, z] = middle(basis.array);
    let [length, width, _] = size(basis.array);
    let at = [x - ahead * length / 4.0, y - aside * width / 4.0, z];
    Wrench::at(at, [0.0, 0.0, pressure * length * width])
}

/// Push of the wind on the edges that meet it.
fn drag(basis: &Basis, q: f64, [ahead, aside]: From) -> Wrench {
    let [length, width, height] = size(basis.array);
    let along = DRAG * q * ahead * width * height;
    let across = DRAG * q * aside * length * height;
    Wrench::at(middle(basis.array), [along, across, 0.0])
}

/// Suction by zones, all at once; symmetric, so its resultant lies in the middle.
fn zones(basis: &Basis, q: f64) -> Wrench {
    let [length, width, _] = size(basis.array);
    let force = -zone_mean(&basis.up) * q * length * width;
    Wrench::at(middle(basis.array), [0.0, 0.0, force])
}

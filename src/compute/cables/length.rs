//! How long a conductor is cut.

use crate::build::{Circuit, Insulation, Terminal};
use crate::tables::{CableLay, Tables};
use crate::units::{Length, Ratio};
use std::f64::consts::PI;

/// A cut length with what it is made of.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Cut {
    /// The way by tape.
    pub route: Length,
    /// What bends and ways round take more than the tape found.
    pub routing: Length,
    /// Service loops and work at both ends, and over the housing at the roof entry.
    pub ends: Length,
    /// Loop where the cable passes from a frame that is lifted.
    pub hinge: Length,
    /// All of it, rounded up to whole centimetres.
    pub all: Length,
}

/// Cut lengths are told in steps of this.
const STEP: Length = Length::mm(10.0);

impl Cut {
    /// Of a run; `lift` is the chord that lifting the frame takes, `outer` the cable's diameter.
    pub fn of(circuit: &Circuit, outer: Option<Length>, lift: Length, tables: &Tables) -> Self {
        let route = *circuit.length;
        let from_panels = *circuit.from == Terminal::Panels;
        let routing = route * share(tables, "routing").to_fraction();
        let mut ends = (allowance(tables, "end-loop") + allowance(tables, "end-work")) * 2.0;
        let mut hinge = Length::ZERO;
        if from_panels {
            ends += allowance(tables, "drip-loop");
            if lift > Length::ZERO {
                hinge = lift + half_turn(*circuit.insulation, outer, tables);
            }
        }
        let sum = route + routing + ends + hinge;
        let all = STEP * (sum / STEP - 1e-9).ceil();
        Self { route, routing, ends, hinge, all }
    }
}

/// The loop lies in a half turn of its least radius while the frame is down.
fn half_turn(insulation: Insulation, outer: Option<Length>, tables: &Tables) -> Length {
    let moved = outer.zip(lay(insulation, tables)).map(|(outer, lay)| lay.moved(outer));
    moved.unwrap_or_default() * PI
}

/// The row of an insulation.
pub(super) fn lay(insulation: Insulation, tables: &Tables) -> Option<&CableLay> {
    tables.cable_lays.get(match insulation {
        Insulation::Pvc70 => "pvc-70",
        Insulation::Pvc105 => "pvc-105",
        Insulation::Solar => "pv",
    })
}

/// A length by its name; tables of a reader add rows, they take none away.
pub(crate) fn allowance(tables: &Tables, name: &str) -> Length {
    tables.allowances.get(name).map_or(Length::ZERO, |row| row.length)
}

/// A share by its name.
pub(crate) fn share(tables: &Tables, name: &str) -> Ratio {
    tables.allowances.get(name).map_or(Ratio::ZERO, |row| row.share)
}

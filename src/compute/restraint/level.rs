//! What holds against each direction at a level.

use super::pull::{self, Bolt};
use super::{DirectionUse, Piece, screw};
use crate::build::{Battery, HoldBy, Restraint};
use crate::tables::{RestraintLevel, Tables};
use crate::units::{Force, Length, Ratio, STANDARD_GRAVITY};

/// Forward and rearward or sideways, over straps that friction holds by (EN 12195-1:2010, 5.3 and 6.2;
/// forward from memory).
const SAFETY: [f64; 2] = [1.25, 1.1];
/// Friction beside direct straps (EN 12195-1:2010, 6.3; from memory).
const BESIDE_STRAPS: f64 = 0.75;
/// Transfer over the top and share of friction that is left when it moves (EN 12195-1:2003).
const OLD: (f64, f64) = (1.5, 0.7);

/// What each piece bears; the same at every level.
pub(super) struct Strengths<'a> {
    battery: &'a Battery,
    held: &'a Restraint,
    weight: Force,
    screw: Option<Force>,
    bolt: Option<Bolt>,
    /// What one end of a strap may be pulled with, in words, and whether wood screws carry it.
    anchor: Option<(Force, String, bool)>,
}

/// Straps over the top by friction alone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LashingsNeeded {
    /// EN 12195-1:2010: k 2, friction as tabled, safety 1.25 forward.
    pub new: f64,
    /// EN 12195-1:2003: k 1.5, dynamic friction 0.7 of static, no safety factor.
    pub old: f64,
}

/// How many straps over the top hold by friction, forward or sideways, at 0.8 and 0.5 g.
pub fn lashings_needed(weight: Force, held: &Restraint, forward: bool) -> LashingsNeeded {
    let (pull, safety) = if forward { (0.8, SAFETY[0]) } else { (0.5, SAFETY[1]) };
    let (mu, sin) = (held.friction.to_fraction(), held.strap_angle.sin());
    let one = (*held.strap_tension * sin).max(Force::n(1e-6));
    let count = |mu: f64, transfer: f64, safety: f64| {
        let left = (pull - mu).max(0.0);
        if left <= 0.0 {
            return 0.0;
        }
        (weight * (left * safety)) / (one * (transfer * mu).max(1e-9))
    };
    LashingsNeeded { new: count(mu, 2.0, safety), old: count(mu * OLD.1, OLD.0, 1.0) }
}

impl<'a> Strengths<'a> {
    pub(super) fn of(battery: &'a Battery, held: &'a Restraint, tables: &Tables) -> Self {
        let screwed = *held.blocks > 0 && held.bolt.is_none();
        let screw = held.screw.as_ref().filter(|_| screwed).map(|own| {
            screw::Joint {
                diameter: *own.diameter,
                length: *own.length,
                floor: *held.floor_thickness,
                floor_density: held.floor.density.min(screw::DENSEST),
            }
            .design_shear()
        });
        Self {
            battery,
            held,
            weight: battery.bank_mass() * STANDARD_GRAVITY,
            screw,
            bolt: held.bolt.as_ref().map(|bolt| pull::bolt(bolt, held, tables)),
            anchor: pull::anchor(held, tables),
        }
    }

    /// What one end of a strap may be pulled with at a level.
    fn leg(&self, level: &RestraintLevel) -> Force {
        match &self.anchor {
            Some((_, _, true)) if !level.withdrawal => Force::ZERO,
            Some((holds, _, _)) => self.held.strap_capacity.min(*holds),
            None => *self.held.strap_capacity,
        }
    }

    fn straps(&self) -> String {
        match *self.held.straps {
            1 => "the strap".to_owned(),
            many => format!("{many} straps"),
        }
    }

    fn bolts(&self) -> f64 {
        self.held.bolt.as_ref().map_or(0.0, |bolt| f64::from(*bolt.count))
    }

    /// What resists a pull along the floor.
    fn level(&self, name: &'static str, level: &RestraintLevel) -> (Force, String) {
        let held = self.held;
        let straps = f64::from(*held.straps);
        let mu = if level.friction { held.friction.to_fraction() } else { 0.0 };
        let mut ways: Vec<(Force, String)> = Vec::new();
        let a_side = f64::from((*held.blocks / 4).max(u32::from(*held.blocks > 0)));
        let each = f64::from(*held.screws_a_block);
        let count = |one: &str, many: &str| match *held.screws_a_block {
            1 => format!("the block with one {one}"),
            number => format!("the block with {number} {many}"),
        };
        if *held.blocks > 0 && *held.kind != HoldBy::Cradle {
            if let Some(bolt) = self.bolt {
                ways.push((bolt.in_block * (a_side * each), count("bolt", "bolts")));
            } else if let Some(screw) = self.screw {
                ways.push((screw * (a_side * each), count("screw", "screws")));
            }
        }
        match (&*held.kind, self.bolt) {
            (HoldBy::Cradle, Some(bolt)) => {
                ways.push((bolt.across * self.bolts(), "the cradle’s bolts".to_owned()));
            }
            (HoldBy::Direct, _) if straps > 0.0 => {
                let turn = match name {
                    "sideways" => held.strap_turn.sin(),
                    _ => held.strap_turn.cos(),
                };
                let (sin, cos) = (held.strap_angle.sin(), held.strap_angle.cos());
                let one = cos * turn + BESIDE_STRAPS * mu * sin;
                // Half of them pull against each way.
                let pull = self.leg(level) * (straps / 2.0 * one);
                ways.push((pull + self.weight * (BESIDE_STRAPS * mu), self.straps()));
            }
            (HoldBy::TopOver, _) if straps > 0.0 && ways.is_empty() && mu > 0.0 => {
                let safety = SAFETY[usize::from(name != "forward")];
                let tension = held.strap_tension.min(self.leg(level));
                let pressed = tension * (straps * 2.0 * mu * held.strap_angle.sin() / safety);
                ways.push((pressed + self.weight * mu, "friction alone".to_owned()));
            }
            _ => {}
        }
        let nothing = || (Force::ZERO, "nothing".to_owned());
        ways.into_iter().max_by(|a, b| a.0.total_cmp(&b.0)).unwrap_or_else(nothing)
    }

    /// What resists a pull upward: both ends of straps over the top.
    fn up(&self, level: &RestraintLevel) -> (Force, String) {
        let straps = f64::from(*self.held.straps);
        let leg = self.leg(level) * self.held.strap_angle.sin();
        match (&*self.held.kind, self.bolt) {
            (HoldBy::Cradle, Some(bolt)) => {
                (bolt.pull * self.bolts(), "the cradle’s bolts".to_owned())
            }
            _ if straps <= 0.0 => (Force::ZERO, "nothing".to_owned()),
            (HoldBy::TopOver, _) => (leg * (2.0 * straps), self.straps()),
            _ => (leg * straps, self.straps()),
        }
    }

    /// Pull at the lever that keeps it from tipping, and what resists there; none where it stands.
    fn tipping(
        &self,
        name: &'static str,
        pull: f64,
        (length, rows): (Length, bool),
        level: &RestraintLevel,
    ) -> Option<DirectionUse> {
        let held = self.held;
        let foot = if *held.kind == HoldBy::Cradle { Length::ZERO } else { *held.block_height };
        let over = (*self.battery.height * 0.5 - foot).max(Length::ZERO) * pull - length * 0.5;
        if over <= Length::ZERO {
            return None;
        }
        let moment = self.weight * over;
        let straps = f64::from(*held.straps);
        let leg = self.leg(level) * held.strap_angle.sin();
        // Straps over the top run across: both ends pull at half the length, or one at the width.
        let (lever, capacity, by) = match (&*held.kind, self.bolt) {
            (HoldBy::Cradle, Some(bolt)) => {
                (length, bolt.pull * (self.bolts() / 2.0), "the cradle’s bolts".to_owned())
            }
            (HoldBy::Direct, _) => (length, leg * (straps / 2.0), self.straps()),
            _ if rows => (length * 0.5, leg * (2.0 * straps), self.straps()),
            _ => (length, leg * straps, self.straps()),
        };
        let force = Force::n(moment.to_nmm() / lever.to_mm().max(1e-6));
        Some(used(name, force, (capacity, by)))
    }

    /// Every direction at a level.
    pub(super) fn directions(&self, level: &RestraintLevel) -> Vec<DirectionUse> {
        let [forward, rearward, sideways, up] = level.pulls;
        let mut list: Vec<DirectionUse> =
            [("forward", forward), ("rearward", rearward), ("sideways", sideways)]
                .into_iter()
                .map(|(name, pull)| used(name, self.weight * pull, self.level(name, level)))
                .collect();
        list.push(used("up", self.weight * up, self.up(level)));
        let (long, wide) = self.battery.row_size();
        list.extend(self.tipping("tipping forward", forward, (long, true), level));
        list.extend(self.tipping("tipping sideways", sideways, (wide, false), level));
        list
    }

    /// What each piece may carry, for the sheet.
    pub(super) fn pieces(&self) -> Vec<Piece> {
        let mut list = Vec::new();
        let mut add = |what: &str, holds: Force, by: &str| {
            list.push(Piece { what: what.to_owned(), holds, by: by.to_owned() });
        };
        if let Some(screw) = self.screw.filter(|_| self.bolt.is_none()) {
            add("one screw of a block, across", screw, "EN 1995-1-1, 8.2.2");
        }
        if let Some(bolt) = self.bolt {
            if *self.held.kind == HoldBy::Cradle {
                add("one bolt of the cradle, across", bolt.across, "EN 1995-1-1, 8.2.3");
                add("one bolt of the cradle, pulled up", bolt.pull, bolt.gives);
            } else {
                add("one bolt of a block, across", bolt.in_block, "EN 1995-1-1, 8.2.2");
            }
        }
        if *self.held.straps > 0 {
            add("one strap, straight pull", *self.held.strap_capacity, "its label, LC");
            if let Some((holds, by, _)) = &self.anchor {
                add("one end of a strap, at the floor", *holds, by);
            }
        }
        list
    }
}

fn used(name: &'static str, force: Force, (capacity, by): (Force, String)) -> DirectionUse {
    let share = Ratio::of_one(force / capacity.max(Force::n(0.001)));
    DirectionUse { name, force, capacity, by, share }
}

//! What carries a joint: the strips or the beads, with what they may have.

use super::Carrier;
use crate::build::{Bead, BondedFoot, TapeStrips};
use crate::compute::loads::{CaseKind, Situation};
use crate::derive::Bond;
use crate::geometry::Rect;
use crate::source::Seen;
use crate::units::{Area, Pressure, Ratio};

/// Factor on the strength of an adhesive by its data sheet: properties 1.5, thickness 1.5, long
/// loads 1.5, environment 2.0 (EUROCOMP-derived table), in product.
pub const SHEET_FACTOR: f64 = 1.5 * 1.5 * 1.5 * 2.0;

/// The strips or the beads of a joint as an elastic layer.
pub(super) struct Layer<'a> {
    pub carrier: Carrier,
    pub rects: &'a [Rect],
    /// Stiffness of a unit of area over its thickness is `modulus / thickness`.
    pub modulus: Pressure,
    pub thickness: f64,
    /// Capacities for seconds in pull and shear.
    pull: Pressure,
    shear: Pressure,
    sustained: Pressure,
    hot: f64,
    wet: f64,
    /// Sideways movement over thickness that it follows for years.
    pub movement: Ratio,
    pub source: String,
    pub seen: Seen,
    /// The only short-term value that was read in a document, where practice says more.
    pub read: Option<Pressure>,
}

impl<'a> Layer<'a> {
    /// The stiffer of tape and bead: unlike adhesives don't add up.
    pub fn stiffest(bond: &'a Bond, foot: Option<&BondedFoot>) -> Option<Self> {
        let tape = Self::tape(bond, foot.and_then(|foot| foot.tape.as_ref()));
        let bead = Self::bead(bond, foot.and_then(|foot| foot.bead.as_ref()));
        match (tape, bead) {
            // A sealant that may not carry is a second line at best.
            (Some(tape), Some(bead)) => {
                Some(if bead.may_carry() && bead.stiffness() > tape.stiffness() {
                    bead
                } else {
                    tape
                })
            }
            (Some(layer), None) | (None, Some(layer)) => Some(layer),
            (None, None) => None,
        }
    }

    fn tape(bond: &'a Bond, written: Option<&TapeStrips>) -> Option<Self> {
        let (tape, _) = bond.tape.as_ref().filter(|_| !bond.strips.is_empty())?;
        let stated = written.and_then(|tape| tape.short_term.as_ref());
        let short = stated.map_or(tape.short_term, |stated| **stated);
        Some(Layer {
            carrier: Carrier::Tape,
            rects: &bond.strips,
            modulus: tape.modulus,
            thickness: bond.thickness.to_mm().max(0.1),
            pull: short,
            shear: short,
            sustained: tape.sustained,
            hot: tape.hot_factor.to_fraction(),
            // No published knock-down; closed cells keep water out.
            wet: 1.0,
            movement: tape.movement,
            source: match stated {
                Some(_) => "tape's own data sheet, stated in the build file".to_owned(),
                None => tape.origin.source.clone(),
            },
            seen: if stated.is_some() { Seen::DataSheet } else { tape.origin.seen },
            read: tape.short_term_read.filter(|_| stated.is_none()),
        })
    }

    fn bead(bond: &'a Bond, written: Option<&Bead>) -> Option<Self> {
        let adhesive = bond.adhesive.as_ref().filter(|_| !bond.beads.is_empty())?;
        // The data sheet's strength through the factors, or structural practice, whichever is less.
        let stated = written.and_then(|bead| bead.strength.as_ref());
        let cap =
            |usual: Pressure| stated.map_or(usual, |strength| usual.min(**strength / SHEET_FACTOR));
        let (pull, shear) = (cap(adhesive.tension_design), cap(adhesive.shear_design));
        Some(Layer {
            carrier: Carrier::Bead,
            rects: &bond.beads,
            modulus: adhesive.modulus,
            thickness: bond.thickness.to_mm().max(0.1),
            pull,
            shear,
            sustained: pull.min(shear) * adhesive.sustained_share.to_fraction(),
            hot: adhesive.hot_factor.to_fraction(),
            wet: adhesive.wet_factor.to_fraction(),
            movement: super::sideways(adhesive.movement),
            source: adhesive.origin.source.clone(),
            seen: adhesive.origin.seen,
            read: None,
        })
    }

    /// Whether it may carry anything.
    pub fn may_carry(&self) -> bool {
        self.pull > Pressure::ZERO && self.shear > Pressure::ZERO
    }

    fn stiffness(&self) -> f64 {
        self.modulus.to_mpa() * self.area().to_mm2()
    }

    /// Net area.
    pub fn area(&self) -> Area {
        area_of(self.rects)
    }

    /// Limits in pull and shear for a kind of case. Storms are wet: aged strength counts.
    pub fn limits(&self, kind: CaseKind, when: Situation) -> (Pressure, Pressure) {
        match (kind, when) {
            (CaseKind::Short, Situation::Parked) => (self.pull * self.wet, self.shear * self.wet),
            (CaseKind::Short, _) => (self.pull, self.shear),
            (CaseKind::Hot, _) => (self.pull * self.hot, self.shear * self.hot),
            (CaseKind::Sustained, _) => (self.sustained, self.sustained),
        }
    }
}

pub(super) fn area_of(rects: &[Rect]) -> Area {
    rects.iter().map(|r| r.area()).sum()
}

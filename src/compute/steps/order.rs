//! The steps played through: what is there when it is needed.
//!
//! Every part, hole, rivet nut, joint and bond of the work is made by one step. Playing the steps in
//! their order tells where one takes what no earlier step has made, and what no step makes at all.

use super::assign::{self, Stage};
use super::{CureState, Step};
use crate::derive::{Drilling, Hole, HoleAt, HoleKind, PartKind, Screw, Work};
use std::collections::BTreeSet;

/// A thing that steps make and take.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Thing {
    /// A single piece, cut or bought.
    Piece(String),
    /// A hole of a single piece.
    Hole(HoleAt),
    /// A rivet nut in a hole.
    RivetNut(HoleAt),
    /// A fastener at one of its places: index of the fastening and of the place.
    Joint(usize, usize),
    /// The outline of a mount or entry on the roof.
    Outline(String),
    /// Clean faces for a bond.
    CleanFaces(String),
    /// A bond.
    Bond(String),
}

/// What would not be there when it is needed, in words; empty for sound steps.
pub fn faults(steps: &[Step], work: &Work) -> Vec<String> {
    let mut play = Play { work, there: bought(work), done: BTreeSet::new(), faults: Vec::new() };
    for (index, step) in steps.iter().enumerate() {
        for need in &step.after {
            if !steps[..index].iter().any(|earlier| earlier.key == need.key) {
                play.faults.push(format!("{} comes before {}, which it needs", step.key, need.key));
            }
        }
        play.step(step);
    }
    play.whole(steps);
    play.faults
}

/// Pieces that are there from the start.
fn bought(work: &Work) -> BTreeSet<Thing> {
    work.parts
        .iter()
        .enumerate()
        .filter(|(index, _)| !assign::is_cut(work, *index))
        .flat_map(|(_, part)| &part.pieces)
        .map(|piece| Thing::Piece(piece.mark.clone()))
        .collect()
}

struct Play<'a> {
    work: &'a Work,
    there: BTreeSet<Thing>,
    /// What was done before: some of it shuts something off.
    done: BTreeSet<Stage>,
    faults: Vec<String>,
}

impl Play<'_> {
    fn takes(&mut self, step: &Step, thing: &Thing) {
        if !self.there.contains(thing) {
            self.faults.push(format!("step {} needs {thing:?}, which is not there", step.key));
        }
    }

    fn makes(&mut self, step: &Step, thing: Thing) {
        if self.there.contains(&thing) {
            self.faults.push(format!("step {} makes {thing:?} a second time", step.key));
        }
        self.there.insert(thing);
    }

    fn step(&mut self, step: &Step) {
        match step.key.as_str() {
            "dry-fit" => {
                for mark in self.outlines() {
                    self.makes(step, Thing::Outline(mark));
                }
            }
            "prepare" => {
                for bond in self.bonds() {
                    self.takes(step, &Thing::Outline(bond.clone()));
                    self.makes(step, Thing::CleanFaces(bond));
                }
            }
            _ => {}
        }
        let Some(stage) = Stage::of_key(&step.key) else { return };
        match stage {
            Stage::Cut => {
                for (index, part) in self.work.parts.iter().enumerate() {
                    if assign::is_cut(self.work, index) {
                        for piece in &part.pieces {
                            self.makes(step, Thing::Piece(piece.mark.clone()));
                        }
                    }
                }
            }
            Stage::Bond => {
                for bond in self.bonds() {
                    self.takes(step, &Thing::CleanFaces(bond.clone()));
                    self.makes(step, Thing::Bond(bond));
                }
            }
            Stage::RoofHoles => {
                let bolted = self.work.mounts.iter().filter(|mount| {
                    matches!(mount.kind, crate::derive::MountShape::BoltedFoot { .. })
                });
                for mark in bolted.map(|mount| mount.mark.clone()).collect::<Vec<_>>() {
                    self.takes(step, &Thing::Outline(mark));
                }
            }
            Stage::Entry => {
                if let Some(entry) = &self.work.entry {
                    self.takes(step, &Thing::Outline(entry.mark.clone()));
                }
            }
            _ => {}
        }
        self.reach(step, stage);
        self.holes(step, stage);
        self.joints(step, stage);
        self.done.insert(stage);
    }

    /// Whether tools still come to what the step works on.
    fn reach(&mut self, step: &Step, stage: Stage) {
        for hole in &self.work.holes {
            let drilled = assign::of_hole(self.work, hole) == Some(stage);
            let nut = stage == Stage::RivetNuts && hole.kind == HoleKind::RivetNut;
            if !(drilled || nut) {
                continue;
            }
            let part = &self.work.parts[hole.part];
            let face = part.faces.get(hole.face).map_or("", |face| face.name.as_str());
            let shut = match part.kind {
                // The plate lies on the skin.
                PartKind::FootPlate => Some((Stage::Bond, "is bonded down")),
                PartKind::Spreader => Some((Stage::RoofBolts, "is bolted behind the skin")),
                PartKind::SideTube | PartKind::EndTube | PartKind::CrossTube if face == "top" => {
                    Some((Stage::Panels, "lies under the panels"))
                }
                PartKind::Skin => Some((Stage::Bolt, "lies under or beside the frame")),
                _ => None,
            };
            if let Some((_, words)) = shut.filter(|(stage, _)| self.done.contains(stage)) {
                let told = format!("step {} drills {}: {} {words}", step.key, hole.id, part.name);
                self.faults.push(told);
            }
        }
        for fastening in &self.work.fastenings {
            let pieces = fastening.places.iter().flatten();
            let kinds =
                pieces.filter_map(|at| self.work.piece(&at.piece)).map(|(part, _)| part.kind);
            let plated = kinds.into_iter().any(|kind| kind == PartKind::FootPlate);
            // The countersunk screws of a foot are driven from the face that the bond covers.
            let covered = plated && self.done.contains(&Stage::Bond);
            if covered && assign::of_fastening(self.work, fastening) == stage {
                self.faults
                    .push(format!("step {} screws {} from under a bond", step.key, fastening.name));
            }
        }
    }

    fn holes(&mut self, step: &Step, stage: Stage) {
        // Holes from their own marks first: they guide the drill through what lies behind, wall by wall.
        let mut holes: Vec<&Hole> = self.work.holes.iter().collect();
        holes.sort_by_key(|hole| self.behind(hole));
        for hole in holes {
            let drilled_here = assign::of_hole(self.work, hole) == Some(stage);
            let nut_here = stage == Stage::RivetNuts && hole.kind == HoleKind::RivetNut;
            if !(drilled_here || nut_here) {
                continue;
            }
            if drilled_here && let Drilling::Through(guide) = &hole.drilling {
                self.guide(step, guide);
            }
            for piece in &self.work.parts[hole.part].pieces {
                let at = HoleAt { piece: piece.mark.clone(), hole: hole.id.clone() };
                if drilled_here {
                    self.takes(step, &Thing::Piece(piece.mark.clone()));
                    self.makes(step, Thing::Hole(at.clone()));
                }
                if nut_here {
                    self.takes(step, &Thing::Hole(at.clone()));
                    self.makes(step, Thing::RivetNut(at));
                }
            }
        }
    }

    /// How many holes guide each other before this one.
    fn behind(&self, hole: &Hole) -> usize {
        let mut count = 0;
        let mut at = Some(hole);
        while let Some(Hole { drilling: Drilling::Through(guide), .. }) = at {
            count += 1;
            // A ring of guides would have no first.
            if count > self.work.holes.len() {
                break;
            }
            at = self.work.hole(guide);
        }
        count
    }

    /// The hole that guides the drill, in every piece of its part.
    fn guide(&mut self, step: &Step, guide: &str) {
        let Some(hole) = self.work.hole(guide) else { return };
        if hole.drilling == Drilling::Ready {
            return;
        }
        for piece in &self.work.parts[hole.part].pieces {
            let at = HoleAt { piece: piece.mark.clone(), hole: hole.id.clone() };
            self.takes(step, &Thing::Hole(at));
        }
    }

    fn joints(&mut self, step: &Step, stage: Stage) {
        for (index, fastening) in self.work.fastenings.iter().enumerate() {
            if assign::of_fastening(self.work, fastening) != stage {
                continue;
            }
            for (place, holes) in fastening.places.iter().enumerate() {
                for at in holes {
                    self.takes(step, &Thing::Piece(at.piece.clone()));
                    let hole = self.work.hole(&at.hole);
                    if hole.is_some_and(|hole| hole.drilling == Drilling::Ready) {
                        continue;
                    }
                    self.takes(step, &Thing::Hole(at.clone()));
                    let nut = hole.is_some_and(|hole| hole.kind == HoleKind::RivetNut);
                    if nut && matches!(fastening.screw, Screw::BoltInRivetNut { .. }) {
                        self.takes(step, &Thing::RivetNut(at.clone()));
                    }
                }
                if matches!(stage, Stage::Bolt | Stage::Latch) {
                    for bond in self.bonds() {
                        self.takes(step, &Thing::Bond(bond));
                    }
                }
                self.makes(step, Thing::Joint(index, place));
            }
        }
    }

    fn outlines(&self) -> Vec<String> {
        let mounts = self.work.mounts.iter().map(|mount| mount.mark.clone());
        mounts.chain(self.work.entry.iter().map(|entry| entry.mark.clone())).collect()
    }

    fn bonds(&self) -> Vec<String> {
        let mounts = &self.work.mounts;
        let of_mount = |mark: &str| mounts.iter().any(|mount| mount.mark == mark);
        let bonds = self.work.bonds.iter().filter(|bond| of_mount(&bond.mark));
        bonds.map(|bond| bond.mark.clone()).collect()
    }

    /// Everything that the work has is made by some step, and what carries load waits for its bond.
    fn whole(&mut self, steps: &[Step]) {
        let mut wanted: Vec<Thing> = Vec::new();
        for hole in &self.work.holes {
            if hole.drilling == Drilling::Ready {
                continue;
            }
            for piece in &self.work.parts[hole.part].pieces {
                let at = HoleAt { piece: piece.mark.clone(), hole: hole.id.clone() };
                wanted.push(Thing::Hole(at));
            }
        }
        for (index, fastening) in self.work.fastenings.iter().enumerate() {
            wanted.extend((0..fastening.places.len()).map(|place| Thing::Joint(index, place)));
        }
        wanted.extend(self.bonds().into_iter().map(Thing::Bond));
        for thing in wanted {
            if !self.there.contains(&thing) {
                self.faults.push(format!("no step makes {thing:?}"));
            }
        }
        for (key, state) in [("bolt", CureState::Load), ("check", CureState::Drive)] {
            let Some(step) = steps.iter().find(|step| step.key == key) else { continue };
            for bond in self.bonds() {
                let waits = step.after.iter().flat_map(|need| &need.cures);
                if !waits.into_iter().any(|cure| cure.mark == bond && cure.state == state) {
                    self.faults.push(format!("step {key} does not wait for {bond} to cure"));
                }
            }
        }
    }
}

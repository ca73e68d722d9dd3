//! Mitred pieces, nested along their slanting cuts.
//!
//! A piece is as long as its outermost points are apart; a mitre's point at the other side of the bar
//! lies `slant` = side of the section x tan(angle) further in. Along the middle of the bar a piece with
//! both ends at one angle takes its length less one slant, and pieces of one angle follow each other
//! with one saw cut between: kerf / cos(angle) along the bar. Where a bar may be turned over about its
//! own axis any two of them do so; an angle or channel may not, and only those of one lean do.
//!
//! A bar with such a nest loses one slant more, half at each end. Where all pieces are of one nest the
//! plan is exact. Where they are not, room for the slants is kept free on every bar, the plan without
//! nests is weighed against it, and the bound is that of a job whose bars lose nothing: if it is met the
//! plan is proven, if not the gap is told. Bars with unlike mitres are then settled ([`super::settle`]).
use std::collections::BTreeMap;

use super::error::CuttingError;
use super::job::{Piece, Section};
use super::plan::{Proof, SectionPlan};
use super::section::{Nests, check, plan};
use super::settle::settle;

/// One end of a piece.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct End {
    /// How much further in its short point lies, in hundredths of a millimetre; above zero with its
    /// long point on the far side of the bar, below zero on the near side, zero for a square end.
    pub slant: i64,
    /// What its saw cut takes along the bar: kerf / cos(angle), at least the kerf.
    pub saw: i64,
}

/// Both ends of a piece.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Mitre {
    /// Zero end.
    pub zero: End,
    /// Far end.
    pub far: End,
}

impl Mitre {
    fn is_square(&self) -> bool {
        self.zero.slant == 0 && self.far.slant == 0
    }

    /// Both ends at one angle.
    fn is_even(&self) -> bool {
        self.zero.slant.abs() == self.far.slant.abs() && !self.is_square()
    }

    /// What the short points take off the middle of the piece, half of each slant, rounded down.
    fn middle(&self) -> i64 {
        i64::midpoint(self.zero.slant.abs(), self.far.slant.abs())
    }
}

/// Plans a section with mitred pieces: `ends` by the id of the piece (ids must differ), square where
/// there are none; `turns` tells whether a bar may be turned over about its axis. `extra` of the pieces
/// is worked out here.
///
/// # Errors
/// As [`super::cut`]; and a piece whose mitres leave nothing of its short side is
/// [`CuttingError::NotPositive`], a saw cut narrower than the kerf [`CuttingError::Negative`].
pub fn cut_mitred(
    section: &Section,
    ends: &BTreeMap<String, Mitre>,
    turns: bool,
    work_limit: u64,
) -> Result<SectionPlan, CuttingError> {
    check(section)?;
    let of = |p: &Piece| {
        let square = End { slant: 0, saw: section.kerf };
        ends.get(&p.id).copied().unwrap_or(Mitre { zero: square, far: square })
    };
    let by_id = |id: &str| {
        let square = End { slant: 0, saw: section.kerf };
        ends.get(id).copied().unwrap_or(Mitre { zero: square, far: square })
    };
    for p in &section.pieces {
        check_piece(section, p, &of(p))?;
    }
    let extra = |p: &Piece| of(p).zero.saw.max(of(p).far.saw) - section.kerf;
    let with = |extra: &dyn Fn(&Piece) -> i64| Section {
        pieces: section.pieces.iter().map(|p| Piece { extra: extra(p), ..p.clone() }).collect(),
        ..section.clone()
    };
    let classes = classes(section, &of, turns);
    let flat = with(&extra);
    if classes.is_empty() {
        check(&flat)?;
        let mut plan = plan(&flat, &Nests::none(&flat), work_limit)?;
        if section.pieces.iter().any(|p| !of(p).is_square()) {
            // Unlike ends may reach beside each other.
            lower(&mut plan, section, &of, turns, work_limit);
            settle(&mut plan, section, &by_id, turns);
        }
        return Ok(plan);
    }
    let class_of = |p: &Piece| {
        let own = of(p);
        classes.iter().position(|c| c.holds(&own, turns)).map_or(0, |at| at + 1)
    };
    let nested = with(&|p| match class_of(p) {
        0 => extra(p),
        class => classes[class - 1].saw - section.kerf - classes[class - 1].slant,
    });
    let slants: i64 = classes.iter().map(|c| c.slant).sum();
    let least_saw = classes.iter().map(|c| c.saw).min().unwrap_or(section.kerf);
    let nests = Nests {
        class: section.pieces.iter().map(class_of).collect(),
        saw: std::iter::once(section.kerf).chain(classes.iter().map(|c| c.saw)).collect(),
        lead: slants - (least_saw - section.kerf),
    };
    let mut best = plan(&nested, &nests, work_limit);
    if !nests.is_whole() {
        if check(&flat).is_ok()
            && let Ok(other) = plan(&flat, &Nests::none(&flat), work_limit)
        {
            let better = best.as_ref().map_or(true, |best| {
                (other.cost.value, -other.leftover.value) < (best.cost.value, -best.leftover.value)
            });
            if better {
                best = Ok(other);
            }
        }
        if let Ok(best) = &mut best {
            lower(best, section, &of, turns, work_limit);
        }
    }
    let mut best = best?;
    turn(&mut best, ends);
    if !nests.is_whole() {
        settle(&mut best, section, &by_id, turns);
    }
    Ok(best)
}

/// Pieces that nest with each other.
struct Class {
    slant: i64,
    saw: i64,
    /// Where bars may not be turned over: the sign of the zero end of the parallelograms.
    sign: i64,
}

impl Class {
    fn holds(&self, mitre: &Mitre, turns: bool) -> bool {
        mitre.is_even()
            && mitre.zero.slant.abs() == self.slant
            && mitre.far.saw == self.saw
            && (turns
                || mitre.zero.slant == -mitre.far.slant && mitre.zero.slant.signum() == self.sign)
    }
}

/// Classes in rising order of slant, saw and sign.
fn classes(section: &Section, of: &dyn Fn(&Piece) -> Mitre, turns: bool) -> Vec<Class> {
    let mut keys: Vec<(i64, i64, i64)> = section
        .pieces
        .iter()
        .map(of)
        .filter(|m| m.is_even() && (turns || m.zero.slant == -m.far.slant))
        .map(|m| (m.zero.slant.abs(), m.far.saw, if turns { 0 } else { m.zero.slant.signum() }))
        .collect();
    keys.sort_unstable();
    keys.dedup();
    keys.into_iter().map(|(slant, saw, sign)| Class { slant, saw, sign }).collect()
}

fn check_piece(section: &Section, p: &Piece, mitre: &Mitre) -> Result<(), CuttingError> {
    let (zero, far) = (mitre.zero.slant, mitre.far.slant);
    // Long points on one side: the other side is short of both slants.
    let side = |long_there: bool| {
        let off = |slant: i64| if (slant > 0) == long_there { 0 } else { slant.abs() };
        p.length - off(zero) - off(far)
    };
    if side(true).min(side(false)) <= 0 {
        return Err(CuttingError::NotPositive {
            section: section.name.clone(),
            item: p.id.clone(),
        });
    }
    if mitre.zero.saw.min(mitre.far.saw) < section.kerf {
        return Err(CuttingError::Negative { section: section.name.clone(), item: p.id.clone() });
    }
    Ok(())
}

/// Puts the bound of the cost down to that of pieces measured along their middle, on bars that lose
/// nothing at their ends: no way to nest and turn does better. Leftover and set-ups are then open.
fn lower(
    best: &mut SectionPlan,
    section: &Section,
    of: &dyn Fn(&Piece) -> Mitre,
    turns: bool,
    work_limit: u64,
) {
    // Not turned over and all long points on one side: nothing nests at all, and along that side
    // each piece takes its whole length.
    let lean = |m: &Mitre| (m.zero.slant.signum(), m.far.slant.signum());
    let mut leans: Vec<(i64, i64)> =
        section.pieces.iter().map(|p| lean(&of(p))).filter(|l| *l != (0, 0)).collect();
    leans.dedup();
    if !turns && leans.len() == 1 && leans[0].0 == leans[0].1 {
        return;
    }
    let kerf = section.kerf;
    let mut spare = 0;
    let relaxed = Section {
        pieces: section
            .pieces
            .iter()
            .map(|p| {
                let m = of(p);
                let saw = m.zero.saw.min(m.far.saw);
                // The last cut may fall off the end even if it takes more than half a slant.
                spare = spare.max(saw - kerf - m.middle() / 2);
                Piece { extra: saw - kerf - m.middle(), ..p.clone() }
            })
            .collect(),
        ..section.clone()
    };
    let nests = Nests { class: vec![0; relaxed.pieces.len()], saw: vec![kerf], lead: -spare };
    let bound = plan(&relaxed, &nests, work_limit).map_or(0, |plan| plan.cost.bound);
    best.cost.bound = bound.min(best.cost.value);
    let whole = section.stock.iter().map(|s| s.length).max().unwrap_or(0);
    best.leftover = Proof { bound: whole.max(best.leftover.value), ..best.leftover };
    best.set_ups = Proof { bound: best.set_ups.value.min(1), ..best.set_ups };
}

/// Turns each nested piece so that its zero end leans as the cut before it.
fn turn(plan: &mut SectionPlan, ends: &BTreeMap<String, Mitre>) {
    for bar in &mut plan.bars {
        // Sign of the far slant of the piece before, as it lies.
        let mut before = 0;
        for cut in &mut bar.cuts {
            let own = ends.get(&cut.piece).copied().unwrap_or_default();
            cut.turned = cut.shared && own.zero.slant.signum() == before;
            let sign = own.far.slant.signum();
            before = if cut.turned { -sign } else { sign };
        }
    }
}
